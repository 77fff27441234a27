//! Equal bays and equal gaps, marked from one end.

use super::given::Given;
use super::keep::{self, Kept, Marks, Put};
use super::sum::{Answer, Input, Refused, Stage, Sum, Worked};
use crate::app::desk::{Desk, Menu, Then};
use crate::app::names::things::run_name;
use crate::drawing::{Block, Drawing, Sketch, Vec2};
use crate::job::Job;
use crate::job::edit::{Change, Edit};
use crate::job::model::{BayFit, Bays as BaysOfRun, End, Line, Run};
use crate::job::reading::Reading;
use crate::quick::bays::{Bays, PostsAt, bays_of, equal_bays};
use crate::quick::gaps::{Ends, Gaps, equal_gaps, fewest_items};
use tautmark_ui::{Place, Verdict};

const LENGTH: &str = "bays length";
const LONGEST: &str = "bays longest";
const COUNT: &str = "bays count";
const ENDS: &str = "bays ends";

pub(super) static BAYS: Sum = Sum {
    id: "bays",
    title: "Equal spaces",
    stage: Stage::Posts,
    answers: "How many equal bays, how long each, and where is every post?",
    how: "**Type the length and the longest bay you want;** every mark comes from one end.",
    why: "The fewest bays that are none of them too long, all equal. Mark every post from one end: \
          setting out bay by bay adds up what each was rounded.",
    inputs: &[
        Input::length(LENGTH, "Length to fill")
            .called("length")
            .how("first post to last, centre to centre"),
        Input::length(LONGEST, "Longest bay")
            .called("longest bay")
            .how("centre to centre; up to 3 m, closer on an exposed site"),
        Input::count(COUNT, "Or so many bays").called("bays").may(),
        Input::choice(
            ENDS,
            "Posts stand",
            &["Both ends", "Start only", "Between walls"],
        ),
    ],
    work: bays,
    picture: bays_picture,
    caution: None,
    keep: Some(keep_bays),
};

fn row_of(given: &Given<'_>) -> Option<Result<Bays, Refused>> {
    let length = given.get(LENGTH)?;
    let worked = match given.count(COUNT).filter(|count| *count > 0) {
        Some(count) => bays_of(length, count),
        None => equal_bays(length, given.get(LONGEST)?),
    };
    Some(worked.map_err(Refused::from))
}

fn posts_at(given: &Given<'_>) -> PostsAt {
    match given.picked(ENDS) {
        1 => PostsAt::StartOnly,
        2 => PostsAt::NeitherEnd,
        _ => PostsAt::BothEnds,
    }
}

/// At most so many marks are listed one by one.
const MOST: usize = 60;

fn bays(given: &Given<'_>) -> Worked {
    let bays = row_of(given)?;
    Some(bays.map(|bays| {
        let posts = bays.posts(posts_at(given));
        let unit = given.unit_name();
        let mut answer = Answer::new(
            format!("{} bays, each centre to centre", bays.count()),
            given.fine(bays.size),
            unit,
        )
        .row("Posts", posts.len().to_string(), "");
        let whole = bays.size.round();
        let over = bays.stepping_runs_over(whole);
        if over.abs() >= 0.5 {
            let text = format!(
                "Stepping **{}** bay by bay would end {} {}: mark every post from one end.",
                given.length(whole),
                given.length(over.abs()),
                if over > 0.0 { "too far" } else { "short" },
            );
            answer = answer.says(Verdict::Note, text);
        }
        answer = posts
            .iter()
            .take(MOST)
            .enumerate()
            .fold(answer, |answer, (n, at)| {
                answer.row(
                    format!("Post {}, from the start", n + 1),
                    given.length(*at),
                    unit,
                )
            });
        if posts.len() > MOST {
            answer = answer.row("The posts after that", "see a run", "keep it in a job");
        }
        answer
    }))
}

fn bays_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let row = row_of(given).and_then(Result::ok);
    let known = row.is_some();
    let row = row.or_else(|| bays_of(9000.0, 5).ok());
    let Some(row) = row else {
        return sketch.done("Equal bays");
    };
    let length = row.size * row.count() as f64;
    let ends = [Vec2::zeros(), Vec2::new(length, 0.0)];
    sketch.string(ends[0], ends[1]);
    let size = (length / 60.0).min(row.size / 3.0);
    let at = posts_at(given);
    let tall = length * 0.05;
    for (n, wall) in ends.into_iter().enumerate() {
        let walled = match at {
            PostsAt::NeitherEnd => true,
            PostsAt::StartOnly => n == 1,
            PostsAt::BothEnds | PostsAt::Loop => false,
        };
        let (low, high) = (wall - Vec2::new(0.0, tall), wall + Vec2::new(0.0, tall));
        match (walled, n) {
            (true, 0) => sketch.wall(low, high),
            (true, _) => sketch.wall(high, low),
            (false, _) => {}
        }
    }
    for x in row.posts(at).iter().take(400) {
        sketch.post(Vec2::new(*x, 0.0), [size, size], 0.0);
    }
    let up = Vec2::new(0.0, 1.0);
    sketch.dimension(&given.tag(LENGTH), ends, up, length * 0.09);
    let first = [ends[0], Vec2::new(row.size, 0.0)];
    let said = if known {
        given.fine(row.size)
    } else {
        "?".to_owned()
    };
    sketch.dimension(&given.said(said), first, -up, size);
    if row.count() > 1 {
        let middle = Vec2::new(row.size * 1.5, 0.0);
        let tag = given.tag(if given.count(COUNT).is_some() {
            COUNT
        } else {
            LONGEST
        });
        let text = match tag.key {
            COUNT => format!("{} bays", tag.text),
            _ if given.get(LONGEST).is_some() => format!("up to {}", tag.text),
            _ => tag.text.clone(),
        };
        sketch.figure(&crate::drawing::Tag { text, ..tag }, middle, up);
    }
    sketch.done("A row of posts at equal bays")
}

/// The longest bay that gives a run as many bays as here.
fn longest(given: &Given<'_>) -> Option<f64> {
    let row = row_of(given)?.ok()?;
    let typed = given.get(LONGEST).filter(|_| given.count(COUNT).is_none());
    // A hair over, so that rounding does not ask for one bay more.
    Some(typed.unwrap_or((row.size * 10.0).ceil() / 10.0))
}

fn keep_bays(desk: &mut Desk, sum: &'static Sum) -> Then {
    let kept = Kept {
        title: "Equal spaces",
        said: "The run's bays.",
        place: Place::Posts,
    };
    let runs = desk.open().map(|open| open.job().runs.clone());
    let runs = runs.unwrap_or_default();
    if runs.is_empty() {
        return keep::into_new(desk, sum, &kept, &(Box::new(new_run) as Put));
    }
    let runs = runs.iter().enumerate();
    let menu = runs.fold(Menu::new("For which run?"), |menu, (at, run)| {
        menu.row(run_name(run), "takes its bays from here", move |desk| {
            desk.chosen.run = at;
            let put: Put = Box::new(move |given, job| run_bays(given, job, at));
            keep::into_open(desk, sum, &kept, &put)
        })
    });
    let menu = menu.row("A new job", "a run between two marks", move |desk| {
        keep::into_new(desk, sum, &kept, &(Box::new(new_run) as Put))
    });
    desk.offer(menu)
}

fn run_bays(given: &Given<'_>, job: &Job, at: usize) -> Option<Edit> {
    let mut value = job.runs.get(at)?.clone();
    value.bays = Some(BaysOfRun {
        max: longest(given)?,
        fit: BayFit::Equal,
        ..value.bays.unwrap_or_default()
    });
    Some(Edit::Run(Change::Replace { at, value }))
}

/// Two marks as far apart as the length, a string through them and a run along it.
fn new_run(given: &Given<'_>, job: &Job) -> Option<Edit> {
    let length = given.get(LENGTH)?;
    let max = longest(given)?;
    let mut marks = Marks::beside(job);
    let ends = [marks.at(0.0, 0.0), marks.at(length, 0.0)];
    let mut edits = marks.edits();
    let [from, to] = ends.clone();
    edits.extend(keep::readings(
        job,
        vec![Reading::tape(from.clone(), to.clone(), length)],
    ));
    let line = Line {
        id: "string".into(),
        name: "The string".to_owned(),
        marks: Some(ends),
        ..Line::default()
    };
    edits.push(Edit::Line(Change::Insert {
        at: job.lines.len(),
        value: line,
    }));
    let end = |mark| {
        Some(End {
            mark: Some(mark),
            ..End::default()
        })
    };
    let run = Run {
        id: "R1".into(),
        line: "string".into(),
        start: end(from),
        end: end(to),
        bays: Some(BaysOfRun {
            max,
            ..BaysOfRun::default()
        }),
        ..Run::default()
    };
    edits.push(Edit::Run(Change::Insert {
        at: job.runs.len(),
        value: run,
    }));
    Some(Edit::Many(edits))
}

const SPAN: &str = "gaps length";
const WIDTH: &str = "gaps width";
const WIDEST: &str = "gaps widest";
const ITEMS: &str = "gaps count";
const AT_ENDS: &str = "gaps ends";

pub(super) static GAPS: Sum = Sum {
    id: "gaps",
    title: "Equal gaps",
    stage: Stage::Boards,
    answers: "What gap leaves pickets or balusters evenly spaced?",
    how: "**Type the length and the width of one piece,** then how many there are or the widest \
          gap.",
    why: "What the pieces leave of the length, shared over the gaps. Mark every piece from one \
          end: a rounded gap adds up.",
    inputs: &[
        Input::length(SPAN, "Length to fill").called("length"),
        Input::length(WIDTH, "Width of one piece").called("width"),
        Input::length(WIDEST, "Widest gap").called("widest gap"),
        Input::count(ITEMS, "Or so many pieces")
            .called("pieces")
            .may(),
        Input::choice(AT_ENDS, "At the ends stands", &["A piece", "A gap"]),
    ],
    work: gaps,
    picture: gaps_picture,
    caution: None,
    keep: None,
};

fn gaps_of(given: &Given<'_>) -> Option<Result<Gaps, Refused>> {
    let (length, width) = (given.get(SPAN)?, given.get(WIDTH)?);
    let ends = if given.picked(AT_ENDS) == 1 {
        Ends::Gap
    } else {
        Ends::Flush
    };
    let worked = match given.count(ITEMS).filter(|count| *count > 0) {
        Some(count) => equal_gaps(length, width, count, ends),
        None => fewest_items(length, width, given.get(WIDEST)?, ends),
    };
    Some(worked.map_err(Refused::from))
}

fn gaps(given: &Given<'_>) -> Worked {
    let row = gaps_of(given)?;
    Some(row.map(|row| {
        let unit = given.unit_name();
        let answer = Answer::new(
            format!("{} pieces, the gap between them", row.near.len()),
            given.fine(row.gap),
            unit,
        )
        .row(
            "From edge to edge of the next",
            given.fine(row.spacing),
            unit,
        );
        row.near
            .iter()
            .take(MOST)
            .enumerate()
            .fold(answer, |answer, (n, at)| {
                answer.row(format!("Piece {}, near edge", n + 1), given.fine(*at), unit)
            })
    }))
}

fn gaps_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let row = gaps_of(given).and_then(Result::ok);
    let known = row.is_some();
    let likely = || Some((equal_gaps(1000.0, 90.0, 6, Ends::Flush).ok()?, 1000.0, 90.0));
    let shown = row.and_then(|row| Some((row, given.get(SPAN)?, given.get(WIDTH)?)));
    let Some((row, length, width)) = shown.or_else(likely) else {
        return sketch.done("Equal gaps");
    };
    let tall = length * 0.3;
    pieces(&mut sketch, &row, [length, width, tall]);
    let up = Vec2::new(0.0, 1.0);
    let top = Vec2::new(0.0, tall);
    let right = Vec2::new(length, tall);
    sketch.dimension(&given.tag(SPAN), [top, right], up, length * 0.06);
    if let Some(&near) = row.near.first() {
        let piece = [Vec2::new(near, 0.0), Vec2::new(near + width, 0.0)];
        sketch.dimension(&given.tag(WIDTH), piece, -up, 0.0);
    }
    if let [first, second, ..] = row.near[..] {
        let gap = [
            Vec2::new(first + width, tall * 0.5),
            Vec2::new(second, tall * 0.5),
        ];
        let tag = match given.asked {
            Some(WIDEST) => given.tag(WIDEST),
            Some(ITEMS) => given.tag(ITEMS),
            _ if known => given.said(given.fine(row.gap)),
            _ => given.tag(WIDEST),
        };
        sketch.dimension(&tag, gap, -up, tall * 0.5);
    }
    sketch.done("A row of pieces with equal gaps")
}

fn pieces(sketch: &mut Sketch<'_>, row: &Gaps, [length, width, tall]: [f64; 3]) {
    for near in row.near.iter().take(400) {
        sketch.upright(Block::Timber, [*near, 0.0, near + width, tall]);
    }
    for x in [0.0, length] {
        sketch.ghost(Vec2::new(x, -tall * 0.1), Vec2::new(x, tall * 1.1));
    }
}
