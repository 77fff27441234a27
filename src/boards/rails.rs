use super::RailBay;
use super::bays::{Bay, Board};
use super::laid::LaidRun;
use super::pieces::{Sits, length};
use crate::job::model::{Boards, Joint, Rails};

/// The rails of a run, bay by bay: lengths always, heights where the gravel board's are known.
pub(super) fn rails(boards: &Boards, run: &LaidRun, laid: &[LaidRun]) -> Vec<RailBay> {
    let Some(rails) = &boards.rails else {
        return Vec::new();
    };
    let sits = sits(rails, run);
    let seats = match rails.joint {
        Joint::Side => 2.0 * rails.seat,
        Joint::Face => 0.0,
    };
    let bay = |bay: &Bay| {
        let heights = heights(rails, bay.board);
        let length = length(run, laid, bay, sits);
        RailBay {
            from: bay.from,
            to: bay.to,
            down: heights.iter().filter_map(|&h| run.down_to(h)).collect(),
            heights,
            length: length.long + seats,
            short: length.short + seats,
            ends: length.ends,
            shorter: shorter(boards, rails, run, bay),
        }
    };
    run.bays.iter().map(bay).collect()
}

/// What each rail loses at housings that are shallower than its seat, mm; empty where none loses.
fn shorter(boards: &Boards, rails: &Rails, run: &LaidRun, bay: &Bay) -> Vec<f64> {
    let feet = [bay.from, bay.to].map(|n| run.post(n).map(|post| post.foot).unwrap_or_default());
    let loses = |rail: usize| -> f64 {
        let short = |foot| (rails.seat - boards.notch(rail, foot)).max(0.0);
        feet.into_iter().map(short).sum()
    };
    let each: Vec<f64> = (1..=rails.count as usize).map(loses).collect();
    let any = rails.joint == Joint::Side && each.iter().any(|mm| *mm > 0.0);
    if any { each } else { Vec::new() }
}

/// Between the posts, in the middle of them unless it is said; across their fronts, as deep in
/// them as the notch.
pub(super) fn sits(rails: &Rails, run: &LaidRun) -> Sits {
    let thick = rails.thickness();
    let set = rails.set.unwrap_or(match rails.joint {
        Joint::Side => (run.run.depth - thick) / 2.0,
        Joint::Face => rails.notch_depth() - thick,
    });
    let front = run.run.gap + set;
    Sits {
        front,
        back: front + thick,
        joint: rails.joint,
    }
}

/// Heights of the rails' centres, mm, evenly from low to high above the gravel board's top; one
/// rail alone goes at the low height.
pub(super) fn heights(rails: &Rails, board: Option<Board>) -> Vec<f64> {
    let Some(board) = board else {
        return Vec::new();
    };
    let gaps = f64::from(rails.count.saturating_sub(1).max(1));
    (0..rails.count)
        .map(|n| board.top + rails.low + (rails.high - rails.low) * f64::from(n) / gaps)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn evenly_from_low_to_high() {
        let board = Some(Board {
            top: 100.0,
            bottom: -50.0,
        });
        assert_eq!(heights(&Rails::default(), board), [160.0, 850.0, 1540.0]);
        let one = Rails {
            count: 1,
            ..Rails::default()
        };
        assert_eq!(heights(&one, board), [160.0]);
        assert!(heights(&one, None).is_empty());
    }
}
