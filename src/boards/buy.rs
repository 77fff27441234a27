use super::RunBoards;
use super::cuts::{Cut, Spot, posts_and_litres};
use super::laid::LaidRun;
use super::sundries::{Sundries, sundries};
use crate::job::Problems;
use crate::job::model::CutPiece;
use crate::job::sound::Sound;
use serde::Serialize;

/// What to buy for the whole job.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Buy {
    /// What the gravel boards are cut from.
    pub gravel: Bought,
    /// What the rails are cut from.
    pub rails: Bought,
    /// What the pales are cut from.
    pub pales: Bought,
    /// What the posts whose length is known are cut from.
    pub posts: Bought,
    /// Number of posts, those whose length is not known yet included.
    #[serde(rename = "post count")]
    pub post_count: usize,
    /// Concrete with over-digging, litres.
    pub litres: f64,
    /// Whole bags for all of it.
    pub bags: usize,
    /// Screws, bolts and the rest, and what is dug out.
    #[serde(flatten)]
    pub sundries: Sundries,
}

/// Pieces of one kind, and the stock lengths they come out of. Mm.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Bought {
    /// How many are to be cut.
    pub pieces: usize,
    /// All pieces together.
    pub length: f64,
    /// Stock lengths to buy, longest first, with how many; empty where the job gives no stock.
    pub stock: Vec<(f64, usize)>,
    /// What comes out of each.
    pub bars: Vec<Bar>,
    /// Pieces that no stock length holds.
    #[serde(rename = "too long")]
    pub too_long: Vec<f64>,
}

/// One stock length and the pieces that come out of it, mm.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Bar {
    /// The length that is bought.
    pub stock: f64,
    /// Lengths of what is cut out of it.
    pub pieces: Vec<f64>,
    /// Which post each of them is; empty for other pieces.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub posts: Vec<Spot>,
    /// What is left over, after the saw cuts.
    pub left: f64,
}

pub(super) fn buy(
    sound: &Sound,
    cuts: &[Cut],
    laid: &[LaidRun],
    built: &[RunBoards],
    problems: &mut Problems,
) -> Buy {
    let stock = &sound.stock;
    let mut packed = |item, name: &str, what: &str, lengths: &[f64], remedy: &str| {
        let bought = bought(cuts, item, lengths, stock.kerf);
        if let Some(longest) = bought.too_long.first() {
            let most = lengths.iter().copied().fold(0.0, f64::max);
            problems.warning(
                format!("stock.{name}"),
                format!(
                    "No stock length holds the longest {what}: {}, of {}. So long: {}.",
                    sound.say(*longest),
                    sound.say(most),
                    bought.too_long.len()
                ),
                remedy,
            );
        }
        bought
    };
    let (post_count, litres) = posts_and_litres(laid, built);
    let bays = "Add a longer stock length, or make that bay shorter.";
    let posts = "Add a longer stock length, or take shorter pales or shallower holes.";
    Buy {
        gravel: packed(
            CutPiece::Gravel,
            "gravel",
            "gravel board",
            &stock.gravel,
            bays,
        ),
        rails: packed(CutPiece::Rail, "rails", "rail", &stock.rails, bays),
        pales: packed(CutPiece::Pale, "pales", "pale", &[], bays),
        posts: with_posts(
            packed(CutPiece::Post, "posts", "post", &stock.posts, posts),
            cuts,
        ),
        post_count,
        litres,
        // Within a billionth of a bag is that bag.
        bags: (litres / sound.hole.bag - 1e-9).ceil().max(0.0) as usize,
        sundries: sundries(sound, cuts, laid, built),
    }
}

/// Says which post comes out of which length.
fn with_posts(mut bought: Bought, cuts: &[Cut]) -> Bought {
    let posts = cuts.iter().filter(|cut| cut.item == CutPiece::Post);
    let mut waiting: Vec<(f64, &Spot)> = posts
        .flat_map(|cut| cut.spots.iter().map(|spot| (cut.length, spot)))
        .collect();
    for bar in &mut bought.bars {
        for piece in &bar.pieces {
            let next = waiting.iter().position(|(length, _)| length == piece);
            bar.posts
                .extend(next.map(|at| waiting.remove(at).1.clone()));
        }
    }
    bought
}

fn bought(cuts: &[Cut], item: CutPiece, stock: &[f64], kerf: f64) -> Bought {
    let of_item = || cuts.iter().filter(|cut| cut.item == item);
    let all = Bought {
        pieces: of_item().map(|cut| cut.count).sum(),
        length: of_item().map(|cut| cut.length * cut.count as f64).sum(),
        ..Bought::default()
    };
    if stock.is_empty() {
        return all;
    }
    let longest = stock.iter().copied().fold(0.0, f64::max);
    let (fitting, too_long): (Vec<f64>, Vec<f64>) = of_item()
        .flat_map(|cut| std::iter::repeat_n(cut.length, cut.count))
        .partition(|&piece| piece <= longest);
    let bars = cheapest(&fitting, stock, kerf);
    let mut counts: Vec<(f64, usize)> = Vec::new();
    for bar in &bars {
        match counts.iter_mut().find(|(length, _)| *length == bar.stock) {
            Some((_, count)) => *count += 1,
            None => counts.push((bar.stock, 1)),
        }
    }
    counts.sort_by(|a, b| b.0.total_cmp(&a.0));
    Bought {
        stock: counts,
        bars,
        too_long,
        ..all
    }
}

/// Packs once for each stock length that holds the longest piece and keeps the packing that takes
/// the least timber, of those the one with the fewest lengths to carry.
fn cheapest(pieces: &[f64], stock: &[f64], kerf: f64) -> Vec<Bar> {
    let longest = pieces.first().copied().unwrap_or(0.0);
    let total = |bars: &[Bar]| bars.iter().map(|bar| bar.stock).sum::<f64>();
    stock
        .iter()
        .filter(|&&length| length >= longest)
        .map(|&length| pack(pieces, length, stock, kerf))
        .min_by(|a, b| (total(a).total_cmp(&total(b))).then(a.len().cmp(&b.len())))
        .unwrap_or_default()
}

/// First fit, longest piece first (Johnson 1973), into bars of `length`; each bar is then changed
/// for the shortest stock length that still holds it. `pieces` come longest first.
fn pack(pieces: &[f64], length: f64, stock: &[f64], kerf: f64) -> Vec<Bar> {
    let mut bars: Vec<Bar> = Vec::new();
    // A piece no shorter than the one before fits no bar that was passed over for that one.
    let mut from = 0;
    let mut before = f64::NAN;
    for &piece in pieces {
        if piece != before {
            from = 0;
            before = piece;
        }
        let fits = |bar: &Bar| bar.left >= piece + kerf;
        match bars.iter().skip(from).position(fits) {
            Some(at) => {
                from += at;
                if let Some(bar) = bars.get_mut(from) {
                    bar.left -= piece + kerf;
                    bar.pieces.push(piece);
                }
            }
            None => {
                from = bars.len();
                bars.push(Bar {
                    stock: length,
                    pieces: vec![piece],
                    posts: Vec::new(),
                    left: length - piece,
                });
            }
        }
    }
    for bar in &mut bars {
        let used = bar.stock - bar.left;
        let shortest = stock.iter().copied().filter(|&length| length >= used);
        let shortest = shortest.fold(bar.stock, f64::min);
        (bar.stock, bar.left) = (shortest, shortest - used);
    }
    bars
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_to_a_length_with_a_saw_cut_between() {
        let bars = pack(&[1500.0, 1500.0, 1498.0, 1498.0], 3000.0, &[3000.0], 3.0);
        let lefts: Vec<f64> = bars.iter().map(|bar| bar.left).collect();
        // 1500 + 3 + 1498 is 1 too long; so is 1500 + 3 + 1500.
        assert_eq!(lefts, [1500.0, 1500.0, 1.0]);
    }

    #[test]
    fn the_least_timber_wins() {
        // Three 1200s: from 3600 they leave nothing but for the saw; from 2400 each pair loses.
        let bars = cheapest(&[1190.0; 3], &[2400.0, 3600.0], 3.0);
        assert_eq!(bars.len(), 1);
        assert_eq!((bars[0].stock, bars[0].left), (3600.0, 24.0));
        let bars = cheapest(&[1190.0; 2], &[2400.0, 3600.0], 3.0);
        assert_eq!((bars[0].stock, bars[0].left), (2400.0, 17.0));
    }

    #[test]
    fn no_stock_no_bars() {
        assert!(cheapest(&[1190.0; 3], &[], 3.0).is_empty());
        assert!(cheapest(&[], &[2400.0], 3.0).is_empty());
    }
}
