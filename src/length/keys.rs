//! A figure as it is keyed: what each key adds to the text, and what ⌫ takes back.
//!
//! ```text
//!   1 0 [ft] 2 1 [/2]   ──▶   10' 2 1/2   ──▶   ⌫   ──▶   10' 21
//! ```
//!
//! The text is what [`parse`](super::parse) reads; nothing else is kept.
//!
//! ```
//! use tautmark::length::{Unit, keys, parse};
//! let mut text = String::new();
//! for key in ["1", "0", "ft", "2", "1", "/2"] {
//!     keys::press(&mut text, key);
//! }
//! assert_eq!(parse(&text, Unit::FEET), Ok(122.5 * 25.4));
//! keys::take_back(&mut text);
//! assert_eq!(text, "10' 21");
//! ```

use super::fraction::splits;

/// Longer than any figure that is keyed, in characters.
const LONGEST: usize = 60;

/// Between inches and a fraction that a fraction key has parted: it goes again with the fraction.
const PARTED: char = '\u{a0}';

/// Adds what a key stands for: a digit or `.`, `+` or `-` for a sum, `ft`, `in`, a fraction key such as
/// `/16`, and of a keyboard besides ` `, `/` and the `hyphen` that joins feet, inches and fractions.
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
        part if part.starts_with('/') => fraction(text, part),
        figure => {
            if text.ends_with('"') {
                text.push(' ');
            }
            text.push_str(figure);
        }
    }
    if let Some((most, _)) = text.char_indices().nth(LONGEST) {
        text.truncate(most);
    }
}

/// Takes back the latest key: an operator with its spaces, a fraction key, a mark or one digit.
pub fn take_back(text: &mut String) {
    for ending in [" + ", " − ", "' "] {
        if let Some(rest) = text.strip_suffix(ending) {
            text.truncate(rest.len());
            return;
        }
    }
    let before = without_digits(text);
    if before < text.len() && text.get(..before).is_some_and(|rest| rest.ends_with('/')) {
        text.truncate(before - 1);
        let parted = without_digits(text);
        if text
            .get(..parted)
            .is_some_and(|rest| rest.ends_with(PARTED))
        {
            text.remove(parted - PARTED.len_utf8());
        }
        return;
    }
    text.pop();
    if text.ends_with("\" ") {
        text.pop();
    }
}

/// Where the digits that end a text begin.
fn without_digits(text: &str) -> usize {
    text.trim_end_matches(|c: char| c.is_ascii_digit()).len()
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

/// Digits that are too many for a numerator are the inches and it; where that can be read two ways they
/// stay as they are, and what reads them says so.
fn fraction(text: &mut String, part: &str) {
    let start = without_digits(text);
    let digits = text.get(start..).unwrap_or_default();
    let below: u32 = part.trim_start_matches('/').parse().unwrap_or(0);
    let proper = digits.parse().is_ok_and(|above: u32| above < below);
    if !proper && let [(whole, _)] = splits(digits, below)[..] {
        let at = start + whole.len();
        text.insert(at, PARTED);
    }
    text.push_str(part);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn keyed(keys: &str) -> String {
        let mut text = String::new();
        for key in keys.split_whitespace() {
            press(&mut text, key);
        }
        text.replace(PARTED, " ")
    }

    #[test]
    fn inches_and_their_fraction_part_by_themselves() {
        assert_eq!(keyed("1 0 ft 2 1 /2"), "10' 2 1/2");
        assert_eq!(keyed("1 2 3 /4"), "12 3/4");
        assert_eq!(keyed("1 5 /16"), "15/16");
        assert_eq!(keyed("1 1 5 /16"), "115/16", "11 5/16 or 1 15/16");
        assert_eq!(keyed("1 1 in 5 /16"), "11\" 5/16");
    }

    #[test]
    fn each_key_is_taken_back_as_one() {
        let all = "1 0 ft 2 1 /2 + 9 in 3 /4 - 1 5 /16";
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
        assert_eq!(keyed("3 4 1 2 + - 7 6"), "3412 − 76");
        assert_eq!(keyed("- 5"), "−5");
        assert_eq!(keyed("- + 5"), "+5");
    }
}
