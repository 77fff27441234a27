//! Which usual misreading of a tape would explain a slip?

use serde::Serialize;

/// How a reading is likely to have gone wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize)]
pub enum Why {
    /// Two neighbouring digits swapped.
    #[serde(rename = "digits")]
    Digits,
    /// 10 mm too much or too little.
    #[serde(rename = "10")]
    Ten,
    /// 100 mm too much or too little.
    #[serde(rename = "100")]
    Hundred,
    /// 1000 mm too much or too little.
    #[serde(rename = "1000")]
    Thousand,
}

/// A usual misreading that explains a slip.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Hint {
    /// What is likely to have happened.
    pub why: Why,
    /// What the tape is likely to have shown, mm.
    pub likely: f64,
}

/// The usual misreading that turns `observed` into a length within `allowance` of `predicted`
/// (all mm); the nearest to `predicted` if several do.
///
/// ```
/// use tautmark::adjust::misread::{hint, Why};
///
/// let hint = hint(6926.0, 6294.2, 13.0).expect("6926 for 6296");
/// assert_eq!((hint.why, hint.likely), (Why::Digits, 6296.0));
/// ```
#[must_use]
pub fn hint(observed: f64, predicted: f64, allowance: f64) -> Option<Hint> {
    let off = |length: f64| (length - predicted).abs();
    swapped(observed)
        .map(|likely| (Why::Digits, likely))
        .chain(slipped(observed))
        .filter(|&(_, likely)| likely > 0.0 && off(likely) <= allowance)
        .min_by(|a, b| off(a.1).total_cmp(&off(b.1)))
        .map(|(why, likely)| Hint { why, likely })
}

fn slipped(observed: f64) -> impl Iterator<Item = (Why, f64)> {
    [
        (Why::Ten, 10.0),
        (Why::Hundred, 100.0),
        (Why::Thousand, 1000.0),
    ]
    .into_iter()
    .flat_map(move |(why, slip)| [(why, observed - slip), (why, observed + slip)])
}

/// Every length got by swapping two different neighbouring digits of the whole millimetres.
fn swapped(observed: f64) -> impl Iterator<Item = f64> {
    // Beyond this a whole number of millimetres is no longer held exactly, nor is it a tape's.
    const LONGEST: f64 = 1e9;
    let whole = observed.trunc();
    let digits = if (0.0..LONGEST).contains(&whole) {
        whole.to_string().into_bytes()
    } else {
        Vec::new()
    };
    (1..digits.len()).filter_map(move |place| {
        let high = f64::from(digits[place - 1]);
        let low = f64::from(digits[place]);
        let power = i32::try_from(digits.len() - 1 - place).ok()?;
        // Swapping tens and units of 10 a + b changes it by 9 (b − a).
        (high != low).then(|| observed + 9.0 * (low - high) * 10f64.powi(power))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn swapped_digits() {
        assert_eq!(
            swapped(6926.0).collect::<Vec<_>>(),
            [9626.0, 6296.0, 6962.0]
        );
        assert_eq!(swapped(1100.5).collect::<Vec<_>>(), [1010.5]);
        assert_eq!(swapped(7.0).count(), 0);
    }

    #[test]
    fn slips_of_ten_hundred_and_thousand_either_way() {
        for (observed, why) in [
            (4010.0, Why::Ten),
            (3990.0, Why::Ten),
            (4100.0, Why::Hundred),
            (3900.0, Why::Hundred),
            (5000.0, Why::Thousand),
            (3000.0, Why::Thousand),
        ] {
            let found = hint(observed, 4000.0, 3.0);
            assert_eq!(
                found,
                Some(Hint {
                    why,
                    likely: 4000.0
                }),
                "{observed}"
            );
        }
    }

    #[test]
    fn the_nearest_wins() {
        // 3498 is 3489 with its last digits swapped (9 off), or 10 too much (3488).
        let found = hint(3498.0, 3488.9, 5.0);
        assert_eq!(
            found,
            Some(Hint {
                why: Why::Digits,
                likely: 3489.0
            })
        );
        let found = hint(3498.0, 3488.1, 5.0);
        assert_eq!(
            found,
            Some(Hint {
                why: Why::Ten,
                likely: 3488.0
            })
        );
    }

    #[test]
    fn nothing_usual() {
        assert_eq!(hint(4037.0, 4000.0, 5.0), None);
        assert_eq!(hint(4003.0, 4000.0, 5.0), None);
        assert_eq!(hint(f64::INFINITY, 4000.0, 5.0), None);
        assert_eq!(hint(-5.0, 4000.0, 5.0), None);
    }
}
