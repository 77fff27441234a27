//! Equal bays, marked from one end.

use super::Tail::Unit;
use super::Value::{Count, Fine, Length, Words};
use super::{Answer, Given, Input, Pen, QuickSum, Stage, Stop, Vec2, Verdict, Worked};
use crate::app::desk::{Desk, Menu, Then};
use crate::app::names::run_name;
use crate::app::quick::keep::{self, KeptIn, NewMarks, Put};
use crate::cautions::STRINGS;
use crate::drawing::Tag;
use crate::job::Job;
use crate::job::edit::{Change, Edit};
use crate::job::model::{BayFit, Bays as BaysOfRun, End, Line, Run};
use crate::job::reading::Reading;
use crate::length::rounded;
use crate::quick::bays::{EqualBays, PostsAt, bays_of, equal_bays};
use tautmark_ui::Place;

const LENGTH: Input = Input::length("bays length", "Length to fill")
    .called("length")
    .how("first post to last, centre to centre");
const LONGEST: Input = Input::length("bays longest", "Longest bay")
    .called("longest bay")
    .how_natively(
        "centre to centre; up to 3 m, closer on an exposed site",
        "centre to centre; up to 8 ft, closer on an exposed site",
    );
const COUNT: Input = Input::count("bays count", "Or so many bays")
    .called("bays")
    .may();
const ENDS: Input = Input::choice(
    "bays ends",
    "Posts stand",
    &["Both ends", "Start only", "Between walls"],
);

pub static BAYS: QuickSum = QuickSum {
    id: "bays",
    title: "Equal spaces",
    stage: Stage::Posts,
    answers: "How many equal bays, how long each, and where is every post?",
    how: "**Type the length and the longest bay you want;** every mark comes from one end.",
    why: "The fewest bays that are none of them too long, all equal. Mark every post from one end: \
          setting out bay by bay adds up what each was rounded.",
    inputs: &[LENGTH, LONGEST, COUNT, ENDS],
    work: bays,
    picture: bays_picture,
    pictured: "A row of posts at equal bays",
    cautions: &[STRINGS],
    keep: Some(keep_bays),
};

fn row_of(given: &Given<'_>) -> Result<EqualBays, Stop> {
    let length = given.get(&LENGTH)?;
    Ok(match given.maybe_count(&COUNT)? {
        Some(count) => bays_of(length, count)?,
        None => equal_bays(length, given.get(&LONGEST)?)?,
    })
}

fn posts_at(given: &Given<'_>) -> PostsAt {
    match given.picked(&ENDS) {
        1 => PostsAt::StartOnly,
        2 => PostsAt::NeitherEnd,
        _ => PostsAt::BothEnds,
    }
}

/// At most so many marks are listed one by one.
pub const MOST: usize = 60;

fn bays(given: &Given<'_>) -> Worked {
    let bays = row_of(given)?;
    let posts = bays.posts(posts_at(given));
    let what = format!("{} bays, each centre to centre", bays.count());
    let answer = Answer::new(what, Fine(bays.size), Unit)
        .row("Posts", Count(posts.len()), "")
        .marks(posts, MOST, Length, |n| format!("Post {n}, from the start"));
    let answer = match stepped(given, &bays) {
        Some(text) => answer.says(Verdict::Note, text),
        None => answer,
    };
    Ok(if posts.len() > MOST {
        answer.row(
            "The posts after that",
            Words("see a run"),
            "keep it in a job",
        )
    } else {
        answer
    })
}

/// What stepping the bay as it is shown, bay by bay, would come to; none where it ends in its place.
fn stepped(given: &Given<'_>, bays: &EqualBays) -> Option<String> {
    let shown = rounded(bays.size, given.unit, 0);
    let over = bays.stepping_runs_over(shown);
    (given.say(Length(over.abs())) != given.say(Length(0.0))).then(|| {
        format!(
            "Stepping **{}** bay by bay would end {} {}: mark every post from one end.",
            given.say(Length(shown)),
            given.say(Length(over.abs())),
            if over > 0.0 { "too far" } else { "short" },
        )
    })
}

fn bays_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let known = row_of(given).is_ok();
    let row = row_of(given).or_else(|_| Ok::<_, Stop>(bays_of(9000.0, 5)?));
    let Ok(row) = row else {
        return;
    };
    let length = row.size * row.count() as f64;
    let ends = [Vec2::zeros(), Vec2::new(length, 0.0)];
    pen.string(ends[0], ends[1]);
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
            (true, 0) => pen.wall(low, high),
            (true, _) => pen.wall(high, low),
            (false, _) => {}
        }
    }
    for x in row.posts(at).iter().take(400) {
        pen.post(Vec2::new(*x, 0.0), [size, size], 0.0);
    }
    let up = Vec2::new(0.0, 1.0);
    pen.dimension(&LENGTH, ends, up, length * 0.09);
    let first = [ends[0], Vec2::new(row.size, 0.0)];
    let said = if known {
        given.say(Fine(row.size))
    } else {
        "?".to_owned()
    };
    pen.dimension(said, first, -up, size);
    if row.count() > 1 {
        let middle = Vec2::new(row.size * 1.5, 0.0);
        let tag = if given.maybe(&COUNT).is_some() {
            let tag = given.tag(&COUNT);
            let text = format!("{} bays", tag.text);
            Tag { text, ..tag }
        } else {
            let tag = given.tag(&LONGEST);
            let text = match given.maybe(&LONGEST) {
                Some(_) => format!("up to {}", tag.text),
                None => tag.text,
            };
            Tag { text, ..tag }
        };
        pen.figure(tag, middle, up);
    }
}

/// The longest bay that gives a run as many bays as here.
fn longest(given: &Given<'_>) -> Option<f64> {
    let row = row_of(given).ok()?;
    let typed = given.maybe(&LONGEST);
    let typed = typed.filter(|_| given.maybe(&COUNT).is_none());
    // A hair over, so that rounding does not ask for one bay more.
    Some(typed.unwrap_or((row.size * 10.0).ceil() / 10.0))
}

fn keep_bays(desk: &mut Desk, inputs: &'static [Input]) -> Then {
    let kept = KeptIn {
        title: "Equal spaces",
        said: "The run's bays.",
        place: Place::Posts,
    };
    let runs = desk.open().map(|open| open.job().runs.clone());
    let runs = runs.unwrap_or_default();
    if runs.is_empty() {
        return keep::into_new(desk, inputs, &kept, &(Box::new(new_run) as Put));
    }
    let runs = runs.iter().enumerate();
    let menu = runs.fold(Menu::new("For which run?"), |menu, (at, run)| {
        menu.row(run_name(run), "takes its bays from here", move |desk| {
            desk.chosen.run = at;
            let put: Put = Box::new(move |given, job| run_bays(given, job, at));
            keep::into_open(desk, inputs, &kept, &put)
        })
    });
    let menu = menu.row("A new job", "a run between two marks", move |desk| {
        keep::into_new(desk, inputs, &kept, &(Box::new(new_run) as Put))
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
    let length = given.maybe(&LENGTH)?;
    let max = longest(given)?;
    let mut marks = NewMarks::beside(job);
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
