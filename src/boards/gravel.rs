use super::GravelBoard;
use super::bays::{Bay, Board};
use super::laid::LaidRun;
use super::pieces::{Sits, length};
use crate::job::model::{BoardFit, Boards, Gravel, Joint};

/// Steps that differ by less than this share of one are the same step.
const SAME_STEP: f64 = 1e-9;

/// Gives every bay the top and bottom of its gravel board, where its ground is known or the top is
/// given: level, all at the height that the highest ground of all bays asks for; stepped, each at
/// its own, lowered from the highest only by whole steps where a step is given (without one, or
/// with a step of 0, each bay takes its own height freely).
pub(super) fn fit(boards: &Boards, laid: &mut [LaidRun]) {
    let Some(gravel) = &boards.gravel else {
        return;
    };
    let wanted = |run: &LaidRun, bay: &Bay| {
        let highest = run.ground.highest(bay.start, bay.end)?;
        Some(highest + gravel.clearance - gravel.dig)
    };
    let highest = laid
        .iter()
        .flat_map(|run| run.bays.iter().filter_map(|bay| wanted(run, bay)))
        .reduce(f64::max);
    for run in laid {
        let bottoms: Vec<Option<f64>> = run
            .bays
            .iter()
            .map(|bay| match gravel.top {
                Some(top) => Some(top - gravel.height),
                None => Some(bottom(gravel, wanted(run, bay)?, highest?)),
            })
            .collect();
        for (bay, bottom) in run.bays.iter_mut().zip(bottoms) {
            bay.board = bottom.map(|bottom| Board {
                top: bottom + gravel.height,
                bottom,
            });
        }
    }
}

fn bottom(gravel: &Gravel, wanted: f64, highest: f64) -> f64 {
    match (gravel.fit, gravel.step) {
        (BoardFit::Level, _) => highest,
        (BoardFit::Stepped, Some(step)) if step > 0.0 => {
            highest - step * ((highest - wanted) / step + SAME_STEP).floor()
        }
        (BoardFit::Stepped, _) => wanted,
    }
}

/// The gravel boards of a run, with what to dig and what gap is left.
pub(super) fn boards(gravel: Option<&Gravel>, run: &LaidRun, laid: &[LaidRun]) -> Vec<GravelBoard> {
    let Some(gravel) = gravel else {
        return Vec::new();
    };
    let sits = sits(gravel, run);
    let board = |bay: &Bay| {
        let length = length(run, laid, bay, sits);
        let bottom = bay.board.map(|board| board.bottom);
        let lowest = run.ground.lowest(bay.start, bay.end);
        let highest = run.ground.highest(bay.start, bay.end);
        GravelBoard {
            from: bay.from,
            to: bay.to,
            top: bay.board.map(|board| board.top),
            bottom,
            down: bay.board.and_then(|board| run.down_to(board.top)),
            max_gap: bottom.zip(lowest).map(|(bottom, lowest)| bottom - lowest),
            dig: bottom
                .zip(highest)
                .map(|(bottom, highest)| (highest + gravel.clearance - bottom).max(0.0)),
            length: length.long,
            short: length.short,
            ends: length.ends,
        }
    };
    run.bays.iter().map(board).collect()
}

/// Let in between the posts, in the middle of them unless it is said; across the posts' faces,
/// just in front of them.
fn sits(gravel: &Gravel, run: &LaidRun) -> Sits {
    let set = gravel.set.unwrap_or(match gravel.joint {
        Joint::Side => (run.run.depth - gravel.thick) / 2.0,
        Joint::Face => -gravel.thick,
    });
    let front = run.run.gap + set;
    Sits {
        front,
        back: front + gravel.thick,
        joint: gravel.joint,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_whole_and_clearance_holds() {
        let gravel = Gravel {
            fit: BoardFit::Stepped,
            step: Some(30.0),
            ..Gravel::default()
        };
        assert_eq!(bottom(&gravel, -100.0, 0.0), -90.0);
        assert_eq!(bottom(&gravel, -90.0, 0.0), -90.0);
        assert_eq!(bottom(&gravel, -89.9, 0.0), -60.0);
        assert_eq!(bottom(&gravel, 0.0, 0.0), 0.0);
    }

    #[test]
    fn without_a_step_each_bay_has_its_own_height() {
        for step in [None, Some(0.0)] {
            let gravel = Gravel {
                fit: BoardFit::Stepped,
                step,
                ..Gravel::default()
            };
            assert_eq!(bottom(&gravel, -89.9, 0.0), -89.9);
        }
        assert_eq!(bottom(&Gravel::default(), -89.9, 0.0), 0.0);
    }
}
