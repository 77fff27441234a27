use super::RailBay;
use super::bays::{Bay, Board};
use super::laid::Laid;
use crate::job::model::Rails;

/// The rails of a run, bay by bay: lengths always, heights where the gravel board's are known.
pub(super) fn rails(rails: Option<&Rails>, run: &Laid) -> Vec<RailBay> {
    let Some(rails) = rails else {
        return Vec::new();
    };
    let bay = |bay: &Bay| {
        let heights = heights(rails, bay.board);
        RailBay {
            from: bay.from,
            to: bay.to,
            down: heights.iter().filter_map(|&h| run.down_to(h)).collect(),
            heights,
            length: bay.clear() + 2.0 * rails.seat,
        }
    };
    run.bays.iter().map(bay).collect()
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
