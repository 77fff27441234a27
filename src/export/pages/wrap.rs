//! Text broken into lines that fit.

use crate::drawing::{Bundled, TextMeasure, Weight};
use crate::job::visible;
use textwrap::core::Fragment;
use textwrap::wrap_algorithms::wrap_first_fit;

/// One word and the space after it, pt.
#[derive(Debug)]
struct Word<'a> {
    text: &'a str,
    width: f64,
    space: f64,
}

impl Fragment for Word<'_> {
    fn width(&self) -> f64 {
        self.width
    }

    fn whitespace_width(&self) -> f64 {
        self.space
    }

    fn penalty_width(&self) -> f64 {
        0.0
    }
}

/// Text broken at its spaces into lines no wider than `width` pt; a word that is wider than a line
/// is broken inside.
pub(super) fn wrapped(text: &str, size: f64, weight: Weight, width: f64) -> Vec<String> {
    let text = visible(text);
    let wide = |text: &str| Bundled.width(text, size, weight);
    let space = wide(" ");
    let mut words: Vec<Word> = Vec::new();
    for word in text.split([' ', '\n', '\r', '\t']) {
        let mut rest = word;
        while !rest.is_empty() {
            let (head, tail) = rest.split_at(fitting(rest, width, &wide));
            words.push(Word {
                text: head,
                width: wide(head),
                space: if tail.is_empty() { space } else { 0.0 },
            });
            rest = tail;
        }
    }
    wrap_first_fit(&words, &[width])
        .into_iter()
        .map(joined)
        .collect()
}

/// How many bytes of a word fit: one character at least. Looks no further than one line.
fn fitting(word: &str, width: f64, wide: &dyn Fn(&str) -> f64) -> usize {
    let mut fits = 0;
    let mut so_far = 0.0;
    for (at, c) in word.char_indices() {
        let end = at + c.len_utf8();
        so_far += wide(&word[at..end]);
        // Sums of rounded widths differ in their last digits from the width of the whole.
        if fits > 0 && so_far > width - 0.01 && wide(&word[..end]) > width {
            break;
        }
        fits = end;
    }
    fits
}

/// The text, or as much of its beginning as fits with … after it.
pub(super) fn shortened(text: &str, size: f64, room: f64) -> String {
    let text = visible(text);
    let wide = |text: &str| Bundled.width(text, size, Weight::Regular);
    let all = fitting(&text, room, &wide);
    if all == text.len() && wide(&text) <= room {
        return text.into_owned();
    }
    let left = room - wide("…");
    match fitting(&text, left, &wide) {
        begun if wide(&text[..begun]) <= left => format!("{}…", &text[..begun]),
        _ => String::new(),
    }
}

fn joined(line: &[Word]) -> String {
    let mut text = String::new();
    for (at, word) in line.iter().enumerate() {
        text.push_str(word.text);
        if word.space > 0.0 && at + 1 < line.len() {
            text.push(' ');
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_fits_and_no_word_is_lost() {
        let text =
            "Take it that cables are there, Donaudampfschifffahrtsgesellschaftskapitän and all.";
        for width in [30.0, 60.0, 200.0] {
            let lines = wrapped(text, 9.0, Weight::Regular, width);
            assert!(
                lines
                    .iter()
                    .all(|line| Bundled.width(line, 9.0, Weight::Regular) <= width)
            );
            let letters = |text: &str| text.replace(' ', "");
            assert_eq!(letters(&lines.join(" ")), letters(text));
        }
    }

    #[test]
    fn a_word_of_any_length_is_broken_line_by_line() {
        let word = "m".repeat(1_000_000);
        let lines = wrapped(&word, 9.0, Weight::Regular, 500.0);
        assert_eq!(lines.concat().len(), word.len());
        assert!(shortened(&word, 9.0, 500.0).ends_with("m…"));
    }
}
