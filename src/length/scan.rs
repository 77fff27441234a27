//! Text to figures, fractions, units and signs, each with its place.

use super::error::ParseErrorKind;
use super::measure::LengthMeasure;

/// A decimal figure as written; nothing is rounded yet.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct ScannedFigure {
    /// The digits before the decimal mark, without group spaces; may be empty.
    pub whole: String,
    /// The mark and the digits after it.
    pub decimals: Option<(char, String)>,
    /// Thousands are grouped with spaces, so a comma can only be the decimal mark.
    pub spaced: bool,
}

impl ScannedFigure {
    pub(super) fn value(&self) -> f64 {
        // Only ASCII digits get here, so this cannot fail; too many of them give infinity, which is
        // refused later.
        self.with_point().parse().unwrap_or(f64::INFINITY)
    }

    /// The same figure with a point for its decimal mark.
    pub(super) fn with_point(&self) -> String {
        let whole = if self.whole.is_empty() {
            "0"
        } else {
            &self.whole
        };
        match &self.decimals {
            Some((_, digits)) if !digits.is_empty() => format!("{whole}.{digits}"),
            _ => whole.to_owned(),
        }
    }

    pub(super) const fn is_whole(&self) -> bool {
        self.decimals.is_none()
    }
}

#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) enum Token {
    Figure(ScannedFigure),
    /// A fraction in one character, as numerator and denominator.
    Fraction(u32, u32),
    Stroke,
    Measure(LengthMeasure),
    Plus,
    /// A sign that only ever takes away: U+2212 or a dash.
    Minus,
    /// The keyboard's hyphen: takes away, or joins feet to inches.
    Hyphen,
}

/// A token and the bytes it covers.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct Placed {
    pub token: Token,
    pub at: usize,
    pub end: usize,
}

/// What could not be scanned, and the bytes it covers.
pub(super) type Refused = (ParseErrorKind, usize, usize);

/// All tokens of `text`; every place is a character boundary.
pub(super) fn scan(text: &str) -> Result<Vec<Placed>, Refused> {
    let mut scanner = Scanner { text, at: 0 };
    let mut tokens = Vec::new();
    loop {
        scanner.take_while(char::is_whitespace);
        let at = scanner.at;
        let Some(first) = scanner.peek() else {
            return Ok(tokens);
        };
        let token = scanner.token(first)?;
        tokens.push(Placed {
            token,
            at,
            end: scanner.at,
        });
    }
}

struct Scanner<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Scanner<'a> {
    fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or_default()
    }

    fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    fn take_while(&mut self, keep: impl Fn(char) -> bool) -> &'a str {
        let rest = self.rest();
        let len = rest.find(|c| !keep(c)).unwrap_or(rest.len());
        self.at += len;
        rest.get(..len).unwrap_or_default()
    }

    fn token(&mut self, first: char) -> Result<Token, Refused> {
        if first.is_ascii_digit() || is_decimal_mark(first) {
            return self.figure();
        }
        if first.is_alphabetic() {
            return self.word();
        }
        let at = self.at;
        self.at += first.len_utf8();
        Ok(match first {
            '+' => Token::Plus,
            '-' | '‐' | '‑' => Token::Hyphen,
            '−' | '–' | '—' => Token::Minus,
            '/' | '⁄' | '∕' => Token::Stroke,
            '"' | '”' | '“' | '″' => Token::Measure(LengthMeasure::Inch),
            '\'' | '’' | '‘' | '′' if self.peek() == Some(first) => {
                self.at += first.len_utf8();
                Token::Measure(LengthMeasure::Inch)
            }
            '\'' | '’' | '‘' | '′' => Token::Measure(LengthMeasure::Foot),
            _ => match one_character_fraction(first) {
                Some((numerator, denominator)) => Token::Fraction(numerator, denominator),
                None => return Err((ParseErrorKind::Unknown, at, self.at)),
            },
        })
    }

    fn word(&mut self) -> Result<Token, Refused> {
        let at = self.at;
        let word = self.take_while(char::is_alphabetic).to_lowercase();
        if let Some(measure) = LengthMeasure::named(&word) {
            // As in "9 in."
            if self.peek() == Some('.') {
                self.at += 1;
            }
            return Ok(Token::Measure(measure));
        }
        let begun = self.rest().is_empty() && LengthMeasure::begins_a_name(&word);
        let kind = if begun {
            ParseErrorKind::Unfinished
        } else {
            ParseErrorKind::Unknown
        };
        Err((kind, at, self.at))
    }

    fn figure(&mut self) -> Result<Token, Refused> {
        let at = self.at;
        let mut whole = self.take_while(|c| c.is_ascii_digit()).to_owned();
        let mut spaced = false;
        if (1..=3).contains(&whole.len()) {
            while let Some(group) = self.spaced_group() {
                whole.push_str(group);
                spaced = true;
            }
        }
        let decimals = self.peek().filter(|c| is_decimal_mark(*c)).map(|mark| {
            self.at += mark.len_utf8();
            (mark, self.take_while(|c| c.is_ascii_digit()).to_owned())
        });
        if self.peek().is_some_and(is_decimal_mark) {
            self.take_while(|c| c.is_ascii_digit() || is_decimal_mark(c));
            return Err((ParseErrorKind::DecimalMarks, at, self.at));
        }
        if whole.is_empty()
            && decimals
                .as_ref()
                .is_none_or(|(_, digits)| digits.is_empty())
        {
            let kind = if self.rest().is_empty() {
                ParseErrorKind::Unfinished
            } else {
                ParseErrorKind::Unknown
            };
            return Err((kind, at, self.at));
        }
        Ok(Token::Figure(ScannedFigure {
            whole,
            decimals,
            spaced,
        }))
    }

    /// One space and exactly three digits, as in the rest of `3 412`.
    fn spaced_group(&mut self) -> Option<&'a str> {
        let space = self.peek().filter(|c| c.is_whitespace())?;
        let after = self.rest().get(space.len_utf8()..)?;
        let digits = after
            .find(|c: char| !c.is_ascii_digit())
            .unwrap_or(after.len());
        let group = after.get(..digits).filter(|group| group.len() == 3)?;
        self.at += space.len_utf8() + group.len();
        Some(group)
    }
}

const fn is_decimal_mark(c: char) -> bool {
    matches!(c, '.' | ',')
}

const fn one_character_fraction(c: char) -> Option<(u32, u32)> {
    Some(match c {
        '½' => (1, 2),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅙' => (1, 6),
        '⅚' => (5, 6),
        '⅐' => (1, 7),
        '⅑' => (1, 9),
        '⅒' => (1, 10),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn whole_of(text: &str) -> String {
        match scan(text).expect("scans").remove(0).token {
            Token::Figure(figure) => figure.with_point(),
            other => panic!("{other:?} is not a figure"),
        }
    }

    #[test]
    fn joins_groups_of_three_only() {
        for text in ["3 412", "3\u{a0}412", "3\u{2009}412", "3\u{202f}412"] {
            assert_eq!(whole_of(text), "3412");
        }
        assert_eq!(whole_of("12 345 678,5"), "12345678.5");
        assert_eq!(whole_of("3412 500"), "3412");
        assert_eq!(whole_of("3 41"), "3");
        assert_eq!(whole_of("3 4125"), "3");
    }

    #[test]
    fn places_are_bytes_of_whole_characters() {
        let tokens = scan("11′ ½″").expect("scans");
        let places: Vec<_> = tokens
            .iter()
            .map(|placed| (placed.at, placed.end))
            .collect();
        assert_eq!(places, [(0, 2), (2, 5), (6, 8), (8, 11)]);
    }

    #[test]
    fn a_begun_word_at_the_end_is_unfinished() {
        assert_eq!(scan("3 f"), Err((ParseErrorKind::Unfinished, 2, 3)));
        assert_eq!(scan("3 f + 1"), Err((ParseErrorKind::Unknown, 2, 3)));
        assert_eq!(scan("3 yards"), Err((ParseErrorKind::Unknown, 2, 7)));
    }
}
