//! The figures of a run's boards, and in one sentence where each comes from.

use crate::app::desk::{Desk, Then, run_in_sight};
use crate::app::kit::{counted, fact};
use crate::boards::RunBoards;
use crate::length::{self, Unit};
use crate::volume;
use tautmark_ui::{Fact, Verdict};

/// The boards of the run in sight.
pub fn boards_in_sight(desk: &Desk) -> Option<&RunBoards> {
    let (_, run) = run_in_sight(desk)?;
    desk.solution.boards.get(&run.id)
}

/// A figure of a run's boards, and where it comes from.
struct Shown {
    id: &'static str,
    /// What it is called while nothing is known of it.
    label: &'static str,
    fact: fn(&Desk, &RunBoards) -> Fact,
    /// Stands over where it comes from.
    title: &'static str,
    from: fn(&Desk) -> String,
}

/// All of them, in the order of the page.
const SHOWN: [Shown; 6] = [
    Shown {
        id: "gravel",
        label: "Gravel boards",
        fact: gravel,
        title: "Gravel boards",
        from: gravel_from,
    },
    Shown {
        id: "pales",
        label: "Pales",
        fact: pales,
        title: "Pales",
        from: |_| {
            "As many as cover each stretch between gates with at least the lap given, and then the \
             lap that makes them finish whole."
                .to_owned()
        },
    },
    Shown {
        id: "rails",
        label: "Rails",
        fact: rails,
        title: "Rails",
        from: |_| {
            "So many to a bay, each as long as the bay is clear between its posts and a seat at \
             either end."
                .to_owned()
        },
    },
    Shown {
        id: "notch",
        label: "Notch",
        fact: notch,
        title: "What a notch leaves",
        from: notch_from,
    },
    Shown {
        id: "posts",
        label: "Posts",
        fact: posts,
        title: "Length of the posts",
        from: |_| {
            "From the top of the tallest post down to the ground there, and on to the bottom of \
             its hole."
                .to_owned()
        },
    },
    Shown {
        id: "concrete",
        label: "Concrete",
        fact: |desk, _| concrete(desk),
        title: "Concrete",
        from: concrete_from,
    },
];

/// The figures of a run, in the order of the page; dashes where nothing is known.
pub fn facts(desk: &Desk, boards: Option<&RunBoards>) -> [Fact; 6] {
    SHOWN.map(|shown| match boards {
        Some(boards) => (shown.fact)(desk, boards),
        None => fact(shown.id, shown.label, "—", ""),
    })
}

/// Says in one sentence where a figure comes from.
pub fn explain(desk: &mut Desk, id: &str) -> Then {
    let shown = SHOWN.iter().find(|shown| shown.id == id);
    shown.map_or(Then::Stay, |shown| {
        let words = (shown.from)(desk);
        desk.explain(shown.title, &words)
    })
}

fn gravel(desk: &Desk, boards: &RunBoards) -> Fact {
    if desk.job().boards.gravel.is_none() {
        return fact("gravel", "Gravel boards", "0", "none chosen");
    }
    let count = boards.gravel.len().to_string();
    let known = boards.gravel.iter().all(|board| board.top.is_some());
    let tail = if known {
        steps(boards, desk.job().show.lengths)
    } else {
        "heights not known".to_owned()
    };
    fact("gravel", "Gravel boards", &count, &tail)
}

/// “two steps of 30”, “three steps, up to 45”, “at one level”.
fn steps(boards: &RunBoards, unit: Unit) -> String {
    let level = length::show(0.0, unit);
    // From board to board along the run, over its gates too.
    let tops: Vec<f64> = boards.gravel.iter().filter_map(|board| board.top).collect();
    let steps = tops.windows(2).map(|pair| pair[1] - pair[0]);
    let shown: Vec<(f64, String)> = steps
        .map(|step| (step.abs(), length::show(step.abs(), unit)))
        .filter(|(_, shown)| *shown != level)
        .collect();
    let Some((_, most)) = shown.iter().max_by(|a, b| a.0.total_cmp(&b.0)) else {
        return "at one level".to_owned();
    };
    let count = counted(shown.len(), "step", "steps");
    if shown.iter().all(|(_, one)| one == most) {
        format!("{count} of {most}")
    } else {
        format!("{count}, up to {most}")
    }
}

fn pales(desk: &Desk, boards: &RunBoards) -> Fact {
    if desk.job().boards.pales.is_none() {
        return fact("pales", "Pales", "0", "none chosen");
    }
    let unit = desk.job().show.lengths;
    let count: usize = boards.pales.iter().map(|stretch| stretch.count).sum();
    let laps = boards.pales.iter().filter(|stretch| stretch.count > 1);
    let laps: Vec<f64> = laps.map(|stretch| stretch.lap).collect();
    let least = laps.iter().copied().reduce(f64::min);
    let most = laps.iter().copied().reduce(f64::max);
    let lap = least.zip(most).map(|(least, most)| {
        let (least, most) = (length::show(least, unit), length::show(most, unit));
        if least == most {
            format!("lap {least}")
        } else {
            format!("lap {least} to {most}")
        }
    });
    let trimmed = boards.pales.iter().any(|stretch| stretch.trim.is_some());
    let whole = if trimmed {
        "one is trimmed"
    } else {
        "all whole"
    };
    let tail = lap.map_or_else(|| whole.to_owned(), |lap| format!("{lap}, {whole}"));
    fact("pales", "Pales", &count.to_string(), &tail)
}

fn rails(desk: &Desk, boards: &RunBoards) -> Fact {
    let Some(sizes) = &desk.job().boards.rails else {
        return fact("rails", "Rails", "0", "none chosen");
    };
    let unit = desk.job().show.lengths;
    let a_bay = usize::try_from(sizes.count).unwrap_or(0);
    let count = (a_bay * boards.rails.len()).to_string();
    let mut lengths: Vec<String> = Vec::new();
    for bay in &boards.rails {
        let length = length::show(bay.length, unit);
        if !lengths.contains(&length) {
            lengths.push(length);
        }
    }
    let tail = if lengths.len() > 3 {
        format!("{} lengths", lengths.len())
    } else {
        lengths.join(" · ")
    };
    fact("rails", "Rails", &count, &tail)
}

fn notch(desk: &Desk, boards: &RunBoards) -> Fact {
    let unit = desk.job().show.lengths;
    let Some(notch) = &boards.notch else {
        return fact("notch", "Notch", "0", "posts stay whole");
    };
    let cut = length::show(notch.notch, unit);
    let depth = length::show(notch.depth, unit);
    let label = format!("Notch {cut} of {depth} leaves");
    let share = format!("{:.0} %", notch.bending * 100.0);
    Fact {
        verdict: match notch.caution {
            Some(_) => Verdict::Attention,
            None => Verdict::None,
        },
        ..fact("notch", &label, &share, "in bending")
    }
}

fn posts(desk: &Desk, boards: &RunBoards) -> Fact {
    let unit = desk.job().show.lengths;
    let longest = boards.posts.iter().filter_map(|post| post.length);
    let figure = longest.reduce(f64::max);
    let figure = figure.map_or_else(|| "—".to_owned(), |mm| length::show(mm, unit));
    let count = format!("{} of them", boards.posts.len());
    fact("posts", "Posts at least", &figure, &count)
}

fn concrete(desk: &Desk) -> Fact {
    let buy = &desk.solution.buy;
    let all = volume::said(buy.litres, desk.job().show.lengths);
    let bags = counted(buy.bags, "bag", "bags");
    fact("concrete", "Concrete, all holes", &all, &bags)
}

fn gravel_from(desk: &Desk) -> String {
    let unit = desk.job().show.lengths;
    let Some(gravel) = &desk.job().boards.gravel else {
        return "No gravel boards are chosen; give their size under Sizes.".to_owned();
    };
    let said = |mm: f64| length::show_with_unit(mm, unit);
    format!(
        "One to a bay: each as low as the highest ground of its bay allows with {} clear under it \
         and at most {} dug out, and where the boards are stepped, by whole steps.",
        said(gravel.clearance),
        said(gravel.dig)
    )
}

fn notch_from(desk: &Desk) -> String {
    let Some(notch) = boards_in_sight(desk).and_then(|boards| boards.notch.as_ref()) else {
        return "No notch is cut: the rails are fixed to the face, or no rails are chosen."
            .to_owned();
    };
    let mut text = format!(
        "What is left of the post's depth, squared: a rectangular post that is cut so deep keeps \
         {:.0} % of its strength in bending, and one mortised in its middle {:.0} %.",
        notch.bending * 100.0,
        notch.mortised * 100.0
    );
    if let Some(caution) = &notch.caution {
        text.push(' ');
        text.push_str(caution);
    }
    text
}

fn concrete_from(desk: &Desk) -> String {
    let hole = &desk.job().hole;
    let unit = desk.job().show.lengths;
    format!(
        "Each hole, {} wide and {} deep, less the post that stands in it, and {:.0} % more, since \
         a dug hole is never as drawn; one bag: {}.",
        length::show_with_unit(hole.diameter, unit),
        length::show_with_unit(hole.depth, unit),
        hole.over * 100.0,
        volume::bag(hole.bag, unit)
    )
}
