//! Sentences about lengths, in the unit that they are read in.

use super::{Unit, show_with_unit};
use std::borrow::Cow;

/// A sentence in which lengths stand in millimetres (`1 234 mm`, `12.5 mm`, `−3 mm`), with each of
/// them in `unit`. Rates such as `0.3 mm per m` and `2 mm in each metre` stay as they are, as does
/// the whole sentence where millimetres are shown.
///
/// ```
/// use tautmark::length::{Unit, reword};
/// let text = "Board 2 is 1\u{a0}040 mm long, 5 mm too long.";
/// assert_eq!(reword(text, Unit::Mm), text);
/// assert_eq!(reword(text, Unit::M), "Board 2 is 1.040\u{a0}m long, 0.005\u{a0}m too long.");
/// ```
#[must_use]
pub fn reword(text: &str, unit: Unit) -> Cow<'_, str> {
    if unit == Unit::Mm || !text.contains("mm") {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find("mm") {
        let (before, after) = (&rest[..at], &rest[at + 2..]);
        match length_at_end(before).filter(|_| ends_a_length(after)) {
            Some((start, mm)) => {
                out.push_str(&before[..start]);
                out.push_str(&show_with_unit(mm, unit));
            }
            None => {
                out.push_str(before);
                out.push_str("mm");
            }
        }
        rest = after;
    }
    out.push_str(rest);
    Cow::Owned(out)
}

/// Where the figure at the end of `text` starts, and what it is; there is one space or none after it.
fn length_at_end(text: &str) -> Option<(usize, f64)> {
    let figure = text.strip_suffix([' ', '\u{a0}']).unwrap_or(text);
    let of_figure = |c: char| c.is_ascii_digit() || matches!(c, '.' | '\u{a0}');
    let start = figure
        .char_indices()
        .rev()
        .take_while(|(_, c)| of_figure(*c))
        .last()
        .map(|(at, _)| at)?;
    // A group space before the first digit belongs to the words.
    let start = start + figure[start..].find(|c: char| c.is_ascii_digit())?;
    let digits: String = figure[start..].chars().filter(|c| *c != '\u{a0}').collect();
    let size: f64 = digits.parse().ok()?;
    let signed = figure[..start].strip_suffix(['−', '-']);
    match signed.filter(|words| words.is_empty() || words.ends_with([' ', '\u{a0}', '('])) {
        Some(words) => Some((words.len(), -size)),
        None => Some((start, size)),
    }
}

/// False where the millimetres are part of a rate or of a word.
fn ends_a_length(after: &str) -> bool {
    let rate = [" per ", "/m", " in each ", " in every ", " a metre"];
    !rate.iter().any(|rate| after.starts_with(rate))
        && !after.starts_with(|c: char| c.is_alphanumeric())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_length_of_a_sentence_is_reworded() {
        let text = "The bay of 1\u{a0}828.8 mm is 304.8 mm over (−25.4 mm before).";
        assert_eq!(
            reword(text, Unit::FtIn),
            "The bay of 6′\u{a0}0″ is 1′\u{a0}0″ over (−1″ before)."
        );
    }

    #[test]
    fn rates_and_words_stay() {
        for text in [
            "Out by 0.6 mm per m.",
            "2 mm in each metre.",
            "Check that it is in mm.",
            "The hammer of the comma.",
        ] {
            assert_eq!(reword(text, Unit::M), text);
        }
    }
}
