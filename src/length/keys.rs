//! A figure as it is keyed: what each key adds to the text, and what ⌫ takes back.
//!
//! ```text
//!   1 0 [ft] 2 [1/2] [+1/16]   ──▶   10' 2 9/16   ──▶   ⌫   ──▶   10' 2
//! ```
//!
//! The text is what [`parse`](super::parse) reads; nothing else is kept.
//!
//! ```
//! use tautmark::length::{Unit, keys, parse};
//! let mut text = String::new();
//! for key in ["1", "0", "ft", "2", "1/2", "+1/16"] {
//!     keys::press(&mut text, key);
//! }
//! let inches = |text: &str| parse(text, Unit::FEET).map(|mm| (mm / 25.4 * 16.0).round() / 16.0);
//! assert_eq!(inches(&text), Ok(122.5625));
//! keys::take_back(&mut text);
//! assert_eq!(inches(&text), Ok(122.0));
//! ```

/// Longer than any figure that is keyed, in characters.
const LONGEST: usize = 60;

/// Before a fraction that has a key of its own: it goes again with the fraction.
const PARTED: char = '\u{a0}';

/// Adds what a key stands for: a digit or `.`, `+` or `-` for a sum, `ft`, `in`, a fraction such as `3/8`, a
/// fraction more or less such as `+1/16` or `-1/16`; and of a keyboard besides ` `, `/` and the `hyphen` that
/// joins feet, inches and fractions.
pub fn press(text: &mut String, key: &str) {
    match key {
        "+" => operator(text, '+'),
        "-" => operator(text, '−'),
        "hyphen" if text.is_empty() => operator(text, '−'),
        "hyphen" => {
            // The space after feet would part it from them.
            let joined = text.trim_end_matches("' ").len();
            if joined < text.len() {
                text.truncate(joined + 1);
            }
            text.push('-');
        }
        "ft" => mark(text, "' "),
        "in" => mark(text, "\""),
        " " if text.is_empty() || text.ends_with(char::is_whitespace) => {}
        "/" | " " => text.push_str(key),
        key => match (key.get(..1), Fraction::of(key)) {
            (Some("+"), Some(by)) => step(text, by, true),
            (Some("-"), Some(by)) => step(text, by, false),
            (_, Some(part)) => {
                let keyed = keyed_fraction(text).map_or(text.len(), |(at, _)| at);
                text.truncate(keyed);
                part.push_to(text);
            }
            (_, None) => figure(text, key),
        },
    }
    if let Some((most, _)) = text.char_indices().nth(LONGEST) {
        text.truncate(most);
    }
}

/// Takes back the latest key: an operator with its spaces, a fraction, a mark or one digit.
pub fn take_back(text: &mut String) {
    for ending in [" + ", " − ", "' "] {
        if let Some(rest) = text.strip_suffix(ending) {
            text.truncate(rest.len());
            return;
        }
    }
    if let Some((at, _)) = keyed_fraction(text) {
        text.truncate(at);
        return;
    }
    text.pop();
    if text.ends_with("\" ") {
        text.pop();
    }
}

/// A digit goes to the inches, also where their fraction is there already.
fn figure(text: &mut String, digit: &str) {
    if let Some((at, _)) = keyed_fraction(text) {
        text.insert_str(at, digit);
        return;
    }
    if text.ends_with('"') {
        text.push(' ');
    }
    text.push_str(digit);
}

/// A part of an inch.
#[derive(Clone, Copy)]
struct Fraction {
    above: u64,
    below: u64,
}

impl Fraction {
    /// Of a key or the end of a text, such as `3/8` or `+1/16`; none where that is no part of an inch.
    fn of(text: &str) -> Option<Self> {
        let (above, below) = text
            .trim_start_matches(['+', '-', PARTED])
            .split_once('/')?;
        let digits = |text: &str| text.bytes().all(|b| b.is_ascii_digit());
        if !digits(above) || !digits(below) {
            return None;
        }
        let (above, below) = (above.parse().ok()?, below.parse().ok()?);
        (below > 0).then_some(Self { above, below })
    }

    fn push_to(self, text: &mut String) {
        if self.above > 0 {
            text.push_str(&format!("{PARTED}{}/{}", self.above, self.below));
        }
    }
}

/// The fraction that ends a text and came from a key, and where it begins.
fn keyed_fraction(text: &str) -> Option<(usize, Fraction)> {
    let at = text.rfind(PARTED)?;
    Some((at, Fraction::of(text.get(at..)?)?))
}

/// The inches at the end of a text, as many parts of an inch more or less; never under none.
fn step(text: &mut String, by: Fraction, more: bool) {
    if let Some(whole) = text.strip_suffix('"') {
        text.truncate(whole.len());
    }
    let (end, there) =
        keyed_fraction(text).unwrap_or((text.len(), Fraction { above: 0, below: 1 }));
    let head = text.get(..end).unwrap_or_default();
    let start = head.trim_end_matches(|c: char| c.is_ascii_digit()).len();
    if head.ends_with(['.', '/'])
        || head
            .get(..start)
            .is_some_and(|rest| rest.ends_with(['.', '/']))
    {
        return;
    }
    let Ok(inches) = head
        .get(start..)
        .unwrap_or_default()
        .parse()
        .or_else(|why| {
            if start == head.len() {
                Ok(0_u64)
            } else {
                Err(why)
            }
        })
    else {
        return;
    };
    // Parts of an inch are powers of two: the finer of the two counts both.
    let below = there.below.max(by.below);
    let parts = inches
        .checked_mul(below)
        .and_then(|whole| whole.checked_add(there.above * (below / there.below)));
    let step = by.above * (below / by.below);
    let Some(parts) = parts.and_then(|parts| match more {
        true => parts.checked_add(step),
        false => parts.checked_sub(step),
    }) else {
        return;
    };
    text.truncate(start);
    if parts >= below {
        text.push_str(&(parts / below).to_string());
    }
    let (mut above, mut below) = (parts % below, below);
    while above > 0 && above % 2 == 0 {
        (above, below) = (above / 2, below / 2);
    }
    Fraction { above, below }.push_to(text);
}

fn operator(text: &mut String, sign: char) {
    text.truncate(text.trim_end().len());
    if text.ends_with(['+', '−']) {
        text.pop();
        text.truncate(text.trim_end().len());
    }
    if text.is_empty() {
        text.push(sign);
    } else {
        text.push_str(&format!(" {sign} "));
    }
}

fn mark(text: &mut String, mark: &str) {
    text.truncate(text.trim_end().len());
    text.push_str(mark);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn keyed(keys: &str) -> String {
        let mut text = String::new();
        for key in keys.split_whitespace() {
            press(&mut text, key);
        }
        text.replace(' ', "").replace(PARTED, " ")
    }

    #[test]
    fn a_fraction_stands_behind_its_inches() {
        assert_eq!(keyed("1 0 ft 2 1/2"), "10'2 1/2");
        assert_eq!(keyed("1 2 3/4"), "12 3/4");
        assert_eq!(keyed("3/4"), " 3/4");
        assert_eq!(keyed("1 1 in 5/8"), "11\" 5/8");
        assert_eq!(
            keyed("2 1/2 3/4"),
            "2 3/4",
            "another fraction takes its place"
        );
        assert_eq!(keyed("1/2 2"), "2 1/2", "a digit goes to the inches");
    }

    #[test]
    fn parts_are_stepped_over_inches_and_never_under_none() {
        assert_eq!(keyed("2 1/4 +1/16"), "2 5/16");
        assert_eq!(keyed("2 1/4 -1/16"), "2 3/16");
        assert_eq!(keyed("2 +1/16"), "2 1/16");
        assert_eq!(keyed("2 -1/16"), "1 15/16");
        assert_eq!(keyed("2 7/8 +1/8"), "3");
        assert_eq!(keyed("7/8 +1/8"), "1");
        assert_eq!(keyed("1 -1/8"), " 7/8");
        assert_eq!(keyed("-1/16"), "");
        assert_eq!(keyed("+1/32 +1/32"), " 1/16");
        assert_eq!(keyed("1 0 ft +1/16"), "10' 1/16");
        assert_eq!(keyed("9 in 1/2 +1/16"), "9\" 9/16");
        assert_eq!(keyed("9 in +1/16"), "9 1/16");
        assert_eq!(keyed("1 . 5 +1/16"), "1.5", "decimals have no sixteenths");
    }

    #[test]
    fn each_key_is_taken_back_as_one() {
        let all = "1 0 ft 2 1/2 + 9 in 3/4 - 1 5/8";
        let keys: Vec<&str> = all.split_whitespace().collect();
        let mut stages = vec![String::new()];
        let mut text = String::new();
        for key in &keys {
            press(&mut text, key);
            stages.push(text.clone());
        }
        for stage in stages.iter().rev() {
            assert_eq!(&text, stage);
            take_back(&mut text);
        }
        assert!(text.is_empty());
    }

    #[test]
    fn one_sign_stands_between_two_figures_and_a_leading_minus_stays() {
        assert_eq!(keyed("3 4 1 2 + - 7 6"), "3412−76");
        assert_eq!(keyed("- 5"), "−5");
        assert_eq!(keyed("- + 5"), "+5");
    }
}
