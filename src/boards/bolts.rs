//! Bolts down a post that is fixed to a wall: so far from its ends, evenly between, clear of its
//! notches.

use crate::job::model::WallBolts;
use crate::quick::bolts::bolts as evenly;
use serde::Serialize;

/// The bolts of one post, mm.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BoltRow {
    /// From the post's top, the highest first.
    pub at: Vec<f64>,
    /// Through the post and into the wall; none where how deep it sits there is not given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub shaft: Option<f64>,
}

/// The bolt (from 1 at the top) for which there is no room between the ends and the notches.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct NoRoom(pub usize);

/// Spaces bolts down a post `length` long and `width` thick where they pass through it. Each that
/// would meet a notch (`cuts`, upper and lower edge from the top) moves to the nearer side of it
/// that is as far from the post's ends as bolts must be.
pub(super) fn bolts(
    length: f64,
    cuts: &[[f64; 2]],
    wall: &WallBolts,
    width: f64,
) -> Result<BoltRow, NoRoom> {
    let evenly = evenly(length, wall.ends, wall.most).map_err(|_| NoRoom(1))?;
    let barred = barred(cuts, wall.clear);
    let mut at: Vec<f64> = Vec::new();
    for (k, planned) in evenly.into_iter().enumerate() {
        let zone = barred
            .iter()
            .find(|[from, to]| planned > *from && planned < *to);
        let place = match zone {
            None => Some(planned),
            Some(sides) => sides
                .iter()
                .copied()
                .filter(|side| *side >= wall.ends - 1e-9 && *side <= length - wall.ends + 1e-9)
                .min_by(|a, b| (a - planned).abs().total_cmp(&(b - planned).abs())),
        };
        let place = place.ok_or(NoRoom(k + 1))?;
        if at
            .last()
            .is_some_and(|before| place - before < wall.clear.max(1.0))
        {
            return Err(NoRoom(k + 1));
        }
        at.push(place);
    }
    let shaft = wall
        .embed
        .map(|embed| width - wall.counterbore.unwrap_or(0.0) + embed);
    Ok(BoltRow { at, shaft })
}

/// Where no bolt may be: each notch and what must stay clear of it, those that meet as one.
fn barred(cuts: &[[f64; 2]], clear: f64) -> Vec<[f64; 2]> {
    let mut zones: Vec<[f64; 2]> = cuts
        .iter()
        .map(|[from, to]| [from - clear, to + clear])
        .collect();
    zones.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let mut joined: Vec<[f64; 2]> = Vec::new();
    for zone in zones {
        match joined.last_mut() {
            Some(last) if zone[0] < last[1] => last[1] = last[1].max(zone[1]),
            _ => joined.push(zone),
        }
    }
    joined
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn from_the_ends_and_evenly_between() {
        let row = bolts(1740.0, &[], &WallBolts::default(), 100.0).expect("room");
        // 1440 between the outer two: three bays of 480.
        assert_eq!(row.at, [150.0, 630.0, 1110.0, 1590.0]);
        assert_eq!(row.shaft, None);
    }

    #[test]
    fn a_bolt_moves_to_the_nearer_side_of_a_notch_but_not_to_the_end() {
        let cuts = [[122.5, 197.5], [600.0, 675.0]];
        let row = bolts(1740.0, &cuts, &WallBolts::default(), 100.0).expect("room");
        // 92.5 would be nearer, and too near the end.
        assert_eq!(row.at, [227.5, 570.0, 1110.0, 1590.0]);
    }

    #[test]
    fn the_shaft_goes_through_what_is_left_of_the_post_and_into_the_wall() {
        let wall = WallBolts {
            counterbore: Some(20.0),
            embed: Some(90.0),
            ..WallBolts::default()
        };
        let row = bolts(1000.0, &[], &wall, 100.0).expect("room");
        assert_eq!(row.shaft, Some(170.0));
    }

    #[test]
    fn no_room() {
        let wall = WallBolts::default();
        assert_eq!(bolts(250.0, &[], &wall, 100.0), Err(NoRoom(1)));
        assert_eq!(
            bolts(1740.0, &[[100.0, 1700.0]], &wall, 100.0),
            Err(NoRoom(1))
        );
        assert_eq!(
            bolts(800.0, &[[180.0, 790.0]], &wall, 100.0),
            Err(NoRoom(2))
        );
    }
}
