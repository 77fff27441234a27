//! What is said of a post whose heights are marked: its step, its digging, its gap, how sure.

use super::sight::{in_sight, is_marked, setup_in_sight};
use crate::app::desk::{Desk, Then};
use crate::app::kit::{fact, status};
use crate::app::levels::standing::problems;
use crate::app::names::{end_name, marked};
use crate::boards::{BayAt, LaserMark, PostHeights, UpOrDown};
use crate::job::model::{Gravel, Run};
use crate::length::{self, Unit};
use crate::say::{self, FromLaser};
use tautmark_ui::{Fact, Status, Verdict};

/// What lies to either side of a post, in words.
struct Sides {
    before: String,
    after: String,
}

impl Sides {
    fn of(desk: &Desk, run: &Run, post: &PostHeights) -> Self {
        let job = desk.job();
        let side = |end, usual: &str| {
            let name = end_name(job, end).unwrap_or_else(|| usual.to_owned());
            format!("towards {name}")
        };
        let mut sides = Self {
            before: side(run.start.as_ref(), "the start"),
            after: side(run.end.as_ref(), "the end"),
        };
        if post.shared.is_some() {
            let round = "round the corner".to_owned();
            if post.n == 1 {
                sides.before = round;
            } else {
                sides.after = round;
            }
        }
        sides
    }
}

/// How to mark the post in sight, or why nothing is known of it.
pub fn standing(desk: &Desk) -> Status {
    let found = in_sight(desk).zip(setup_in_sight(desk));
    let Some(((run, post), (setup, fix))) = found else {
        return missing(desk);
    };
    let unit = desk.job().show.lengths;
    let step = step_here(post, &Sides::of(desk, run, post), unit);
    let usual = fix.mark_pm((&desk.job().level).into(), crate::job::check::USUAL_SIGHT);
    let pm = post.pm_from.get(setup).copied().unwrap_or(usual);
    let mut text = format!(
        "{step}Measure from the line of set-up **{setup}**, in {}, up or down as the triangles point. Sure to {}.",
        unit_words(unit),
        length::show_pm_with_unit(pm, unit)
    );
    let is_cut = marked(desk.job(), run, post.n).is_some_and(|one| one.cut);
    let own = desk.solution.boards.get(&run.id);
    let from_own = own.is_some_and(|boards| boards.setup.as_ref() == Some(setup));
    if let Some(mark) = post.laser.filter(|_| is_cut && from_own) {
        text.push_str(&to_set(&mark, unit));
    }
    if is_marked(desk, run, post.n) {
        return status(Verdict::Good, &format!("**Marked.** {text}"));
    }
    status(Verdict::Note, &text)
}

/// Which mark of a post that is cut already comes how far from the laser line.
fn to_set(mark: &LaserMark, unit: Unit) -> String {
    let by = length::show_with_unit(mark.by, unit);
    let way = match mark.way {
        UpOrDown::Up => "above",
        UpOrDown::Down => "below",
    };
    format!(
        " **Cut already:** bring {} {by} {way} the line.",
        mark.called()
    )
}

/// Everything that is marked on the post in sight, as it is read aloud.
pub fn aloud(desk: &Desk) -> Option<String> {
    let ((run, post), (_, fix)) = in_sight(desk).zip(setup_in_sight(desk))?;
    let job = desk.job();
    let sides = Sides::of(desk, run, post);
    let edge = job.show.rail;
    let rails = job.boards.rails.as_ref();
    let from = FromLaser {
        line: fix.line,
        edge,
        above_centre: rails.map_or(0.0, |rails| rails.edge(edge)),
        sides: [&sides.before, &sides.after],
    };
    Some(say::heights(post, &from, job.show.lengths))
}

fn step_here(post: &PostHeights, sides: &Sides, unit: Unit) -> String {
    let Some(step) = post.step else {
        return String::new();
    };
    let by = length::show(step.abs(), unit);
    if by == length::show(0.0, unit) {
        return "**No step here.** ".to_owned();
    }
    let way = if step < 0.0 { "down" } else { "up" };
    format!("**Step here: {by} {way}** {}. ", sides.after)
}

fn unit_words(unit: Unit) -> &'static str {
    match unit {
        Unit::Mm => "mm",
        Unit::M => "metres",
        Unit::FtIn(_) => "feet and inches",
    }
}

fn missing(desk: &Desk) -> Status {
    let why = problems(desk).next();
    let why = why.map_or_else(
        || "Sight the datum and the ground along this run.".to_owned(),
        |problem| format!("{} {}", problem.text, problem.remedy),
    );
    let text = format!("**No heights for this post yet.** {why}");
    status(Verdict::Attention, &text)
}

/// The side on which a figure is largest, with that figure.
fn largest(
    post: &PostHeights,
    sides: &Sides,
    of: fn(&BayAt) -> Option<f64>,
) -> Option<(f64, String)> {
    let before = post.before.as_ref().and_then(of);
    let after = post.after.as_ref().and_then(of);
    match (before, after) {
        (Some(a), Some(b)) if a == b => Some((a, String::new())),
        (Some(a), Some(b)) if a > b => Some((a, format!(" {}", sides.before))),
        (Some(_), Some(b)) => Some((b, format!(" {}", sides.after))),
        (one, other) => one.or(other).map(|value| (value, String::new())),
    }
}

/// What to dig out and what gap stays, at the side where it is more.
pub fn facts(desk: &Desk) -> (Fact, Fact) {
    let Some((run, post)) = in_sight(desk) else {
        return (fact("", "", "", ""), fact("", "", "", ""));
    };
    let unit = desk.job().show.lengths;
    let sides = Sides::of(desk, run, post);
    let dig = largest(post, &sides, |bay| bay.dig);
    let gap = largest(post, &sides, |bay| bay.gap);
    let above = post.above.map(|above| {
        let above = length::show(above, unit);
        fact("above", "Post above the ground", &above, "")
    });
    let dig = dig.map(|(dig, side)| {
        let figure = length::show(dig, unit);
        fact("dig", &format!("Dig out{side}"), &figure, "")
    });
    let gap = gap.map(|(gap, side)| gap_fact(desk, gap, &side));
    let none = || fact("", "", "", "");
    match dig {
        Some(dig) => (dig, gap.unwrap_or_else(none)),
        None => (above.unwrap_or_else(none), none()),
    }
}

fn gap_fact(desk: &Desk, gap: f64, side: &str) -> Fact {
    let unit = desk.job().show.lengths;
    let accepted = desk.job().boards.gravel.as_ref().map(|gravel| gravel.gap);
    let over = accepted.filter(|accepted| gap > *accepted);
    let tail = match over {
        Some(accepted) => format!("more than {}", length::show(accepted, unit)),
        None if gap < 0.0 => "cut into the ground".to_owned(),
        None => String::new(),
    };
    let figure = length::show(gap.abs(), unit);
    let label = if gap < 0.0 {
        "Below the ground"
    } else {
        "Gap under"
    };
    Fact {
        verdict: over.map_or(Verdict::None, |_| Verdict::Attention),
        ..fact("gap", &format!("{label}{side}"), &figure, &tail)
    }
}

/// Where a figure of the page comes from.
struct FigureOrigin {
    of: &'static str,
    title: &'static str,
    /// In words, with the ground at the post.
    words: fn(&Desk, &str) -> String,
}

const ORIGINS: [FigureOrigin; 3] = [
    FigureOrigin {
        of: "dig",
        title: "Dig out",
        words: |desk, ground| {
            format!(
                "The ground at this post, straight between the ground points sighted on the run, \
                 is at {ground}; the gravel board and its clearance of {} must fit in below it.",
                said(desk, gravel(desk).clearance)
            )
        },
    },
    FigureOrigin {
        of: "gap",
        title: "Gap under the gravel board",
        words: |desk, ground| {
            format!(
                "The bottom of the gravel board less the ground at this post, which is at {ground} \
                 straight between the ground points sighted on the run; you accept {}.",
                said(desk, gravel(desk).gap)
            )
        },
    },
    FigureOrigin {
        of: "above",
        title: "Post above the ground",
        words: |_, ground| {
            format!(
                "From the ground at this post, at {ground} straight between the ground points \
                 sighted on the run, to the top of the post."
            )
        },
    },
];

fn said(desk: &Desk, mm: f64) -> String {
    length::show_with_unit(mm, desk.job().show.lengths)
}

fn gravel(desk: &Desk) -> Gravel {
    desk.job().boards.gravel.clone().unwrap_or_default()
}

/// Says in one sentence where a figure comes from.
pub fn explain(desk: &mut Desk, id: &str) -> Then {
    let origin = ORIGINS.iter().find(|origin| origin.of == id);
    let Some((FigureOrigin { title, words, .. }, (_, post))) = origin.zip(in_sight(desk)) else {
        return Then::Stay;
    };
    let ground = post.ground.map(|mm| said(desk, mm));
    let text = words(desk, ground.as_deref().unwrap_or("—"));
    desk.explain(title, &text)
}
