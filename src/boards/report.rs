//! What is missing or worth a look in the boards, in a person's words.

use super::laid::{LaidRun, Partner, Tip};
use super::{GravelBoard, RunBoards};
use super::{housings, tops};
use crate::job::model::{BoardFit, Gravel};
use crate::job::sound::{Sound, Stands};
use crate::job::{Problems, Where};
use crate::levels::LevelsFix;

pub(super) fn report(
    sound: &Sound,
    laid: &[LaidRun],
    built: &[RunBoards],
    levels: Option<&LevelsFix>,
    problems: &mut Problems,
) {
    if let Some(gravel) = &sound.boards.gravel {
        if levels.is_none() && !laid.is_empty() {
            problems.warning(
                "levels",
                "Board heights are not known: nothing has been levelled yet.",
                "Set a datum, and sight it and the ground along each run.",
            );
        }
        for (run, boards) in laid.iter().zip(built) {
            if levels.is_some() {
                no_ground(run, problems);
            }
            gaps(sound, gravel, run, boards, problems);
            digging(sound, gravel, run, boards, problems);
        }
    }
    if !laid.is_empty() {
        tops::name_missing(sound, problems);
        tops::name_too_high(sound, problems);
    }
    nearest_the_ground(laid, built, problems);
    housings::name_met(sound, laid, built, problems);
    for (run, boards) in laid.iter().zip(built) {
        beyond(sound, run, problems);
        corner_ground(sound, run, laid, problems);
        leaves(sound, run, boards, problems);
    }
}

fn no_ground(run: &LaidRun, problems: &mut Problems) {
    if run.ground.points().is_empty() {
        let called = run.run.called();
        problems.warning(
            format!("runs[{}]", run.run.index),
            format!("No ground on run “{called}” has a height, so its boards have none either."),
            format!(
                "Sight the ground on run “{called}” at both ends and wherever it changes, each with its running reading."
            ),
        );
    }
}

/// Ground points more than a post's width off the end of their run.
fn beyond(sound: &Sound, run: &LaidRun, problems: &mut Problems) {
    let (from, to) = (-run.run.width, run.fix.length + run.run.width);
    for (i, point) in sound.levels.points.iter().enumerate() {
        let Stands::Ground { run: on, at } = point.stands else {
            continue;
        };
        let is_here = sound
            .runs
            .get(on.0)
            .is_some_and(|r| r.index == run.run.index);
        if is_here && !(from..=to).contains(&at) {
            problems.warning(
                format!("levels.points[{i}].at"),
                format!(
                    "Ground point “{}” at {} is off the end of run “{}”, which is {} long.",
                    point.id,
                    sound.say(at),
                    run.run.called(),
                    sound.say(run.fix.length)
                ),
                "Check its running reading; it is measured from the run's zero.",
            );
        }
    }
}

fn bay(board: &GravelBoard) -> String {
    format!("bay {} to {}", board.from, board.to)
}

/// The bays other than the one already named, as the end of a sentence.
fn and_others(others: usize) -> String {
    match others {
        0 => String::new(),
        1 => " One other bay is over it too.".to_owned(),
        n => format!(" {n} other bays are over it too."),
    }
}

fn gaps(
    sound: &Sound,
    gravel: &Gravel,
    run: &LaidRun,
    boards: &RunBoards,
    problems: &mut Problems,
) {
    let over: Vec<(&GravelBoard, f64)> = boards
        .gravel
        .iter()
        .filter_map(|board| Some((board, board.max_gap?)))
        .filter(|(_, gap)| *gap > gravel.gap)
        .collect();
    let Some(&(board, gap)) = over.iter().max_by(|a, b| a.1.total_cmp(&b.1)) else {
        return;
    };
    problems.warning(
        Where::from("boards.gravel.gap").of_run(&run.run.id),
        format!(
            "Run “{}”: {} leaves a gap of {} under the gravel board at its low end; you accept {}.{}",
            run.run.called(),
            bay(board),
            sound.say(gap),
            sound.say(gravel.gap),
            and_others(over.len() - 1),
        ),
        close_the_gap(sound, gravel, run, (board, gap)),
    );
}

fn close_the_gap(
    sound: &Sound,
    gravel: &Gravel,
    run: &LaidRun,
    (board, gap): (&GravelBoard, f64),
) -> String {
    let more = gap - gravel.gap;
    let dig = board.dig.unwrap_or(0.0);
    let high = high_post(run, board);
    let lower = format!(
        "set it {} lower, digging {} by post {high}",
        sound.say(more),
        sound.say(dig + more)
    );
    if gravel.top.is_some() {
        return format!("Give a lower top, or {lower}.");
    }
    match (gravel.fit, gravel.step) {
        (BoardFit::Level, _) => format!("Step the boards, or {lower}."),
        (BoardFit::Stepped, Some(step)) if step > 0.0 => {
            let step = step * (more / step).ceil();
            format!(
                "Step it {} further down, digging {} by post {high}, or {lower}.",
                sound.say(step),
                sound.say(dig + step)
            )
        }
        (BoardFit::Stepped, _) => format!("Put a post between, or {lower}."),
    }
}

/// The post of a bay that stands on the higher ground.
fn high_post(run: &LaidRun, board: &GravelBoard) -> usize {
    let ground = |n: usize| {
        let post = run.fix.posts.iter().find(|post| post.n == n)?;
        run.ground.at(post.centre)
    };
    if ground(board.to) > ground(board.from) {
        board.to
    } else {
        board.from
    }
}

/// Only a given top can ask for more digging than the job allows.
fn digging(
    sound: &Sound,
    gravel: &Gravel,
    run: &LaidRun,
    boards: &RunBoards,
    problems: &mut Problems,
) {
    let allowed = gravel.dig.max(0.0) + 0.05;
    let over: Vec<(&GravelBoard, f64)> = boards
        .gravel
        .iter()
        .filter_map(|board| Some((board, board.dig?)))
        .filter(|(_, dig)| *dig > allowed)
        .collect();
    let Some(&(board, dig)) = over.iter().max_by(|a, b| a.1.total_cmp(&b.1)) else {
        return;
    };
    let top = gravel.top.unwrap_or_default() + dig - gravel.dig;
    problems.warning(
        Where::from("boards.gravel.top").of_run(&run.run.id),
        format!(
            "Run “{}”: {} must be dug out {} by post {}; you allow {}.{}",
            run.run.called(),
            bay(board),
            sound.say(dig),
            high_post(run, board),
            sound.say(gravel.dig),
            and_others(over.len() - 1),
        ),
        format!(
            "Give a top of {} or more, or leave it out and let the ground decide.",
            sound.say(top)
        ),
    );
}

/// One caution for the job: the notch nearest the ground.
fn nearest_the_ground(laid: &[LaidRun], built: &[RunBoards], problems: &mut Problems) {
    let cautions = laid.iter().zip(built).filter_map(|(run, boards)| {
        let notch = boards.notch.as_ref()?;
        let above = notch.worst?.above_ground;
        Some((above, run.run, notch.caution.as_ref()?))
    });
    if let Some((_, run, caution)) = cautions.min_by(|a, b| a.0.total_cmp(&b.0)) {
        problems.note(
            Where::from("boards.rails.notch").of_run(&run.id),
            format!("Run “{}”: {caution}", run.called()),
            "Raise the lowest rail, cut less, or fix the rail to the face. What a post must carry \
             is a structural question.",
        );
    }
}

/// Ground that two runs put this far apart at the post they share is worth another sight, mm.
const APART: f64 = 20.0;

fn corner_ground(sound: &Sound, run: &LaidRun, laid: &[LaidRun], problems: &mut Problems) {
    for (tip, key) in [(Tip::Start, "start"), (Tip::End, "end")] {
        let Some(partner) = run.partner(tip, laid) else {
            continue;
        };
        let earlier = partner.run.run.index < run.run.index;
        let Some(apart) = ground_apart(run, tip, &partner).filter(|apart| *apart > APART) else {
            continue;
        };
        if earlier {
            problems.note(
                format!("runs[{}].{key}.corner", run.run.index),
                format!(
                    "Runs “{}” and “{}” put the ground at their corner post {} apart.",
                    partner.run.run.id,
                    run.run.id,
                    sound.say(apart)
                ),
                "Give both a ground point at the corner; beyond its last point the ground of a \
                 run counts as level.",
            );
        }
    }
}

/// How far apart two runs put the ground at the post they share, mm.
fn ground_apart(run: &LaidRun, tip: Tip, partner: &Partner) -> Option<f64> {
    let here = run.ground.at(run.post_at(tip)?.centre)?;
    let there = partner.run.ground.at(partner.post()?.centre)?;
    Some((here - there).abs())
}

fn leaves(sound: &Sound, run: &LaidRun, boards: &RunBoards, problems: &mut Problems) {
    /// Ground that differs less than this across an opening is level for a gate, mm.
    const LEVEL: f64 = 20.0;
    for leaf in &boards.gates {
        let place = format!("runs[{}].gates[{}].leaf", run.run.index, leaf.index);
        if let Some(fall) = leaf.fall.filter(|fall| *fall > LEVEL) {
            problems.note(
                format!("{place}.hung"),
                format!(
                    "The gate hangs on post {}, where the ground is {} higher than at its latch.",
                    leaf.hung,
                    sound.say(fall)
                ),
                "Hang it on the low side if you can, and check the ground through the whole swing.",
            );
        }
        if leaf.bottom.is_some() {
            problems.note(
                place,
                "The gate's bottom is set over the highest ground on the line of the opening; \
                 beside the line nothing was sighted.",
                "Check that no ground under its swing is higher than that.",
            );
        }
    }
}
