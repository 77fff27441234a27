//! Sentences, rows and facts as the screens take them.

use slint::{SharedString, StyledText};
use tautmark_ui::{Fact, RowItem, Status, Verdict};

/// Something said with `**bold**` words, and the same without the stars for those who listen.
///
/// Names come from people: whatever else would be markup in them is shown as it is.
#[must_use]
pub fn said(text: &str) -> (StyledText, SharedString) {
    let plain = text.replace("**", "");
    let styled = StyledText::from_markdown(&escaped(text));
    (
        styled.unwrap_or_else(|_| StyledText::from_plain_text(&plain)),
        plain.into(),
    )
}

fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 8);
    let mut rest = text.chars().peekable();
    while let Some(letter) = rest.next() {
        match letter {
            '*' if rest.peek() == Some(&'*') => {
                rest.next();
                out.push_str("**");
            }
            '*' | '_' | '`' | '[' | ']' | '<' | '>' | '#' | '\\' | '~' | '&' => {
                out.push('\\');
                out.push(letter);
            }
            _ => out.push(letter),
        }
    }
    out
}

/// A sentence with its verdict.
#[must_use]
pub fn status(verdict: Verdict, text: &str) -> Status {
    let (text, plain) = said(text);
    Status {
        verdict,
        text,
        plain,
    }
}

/// Nothing to say.
#[must_use]
pub fn silence() -> Status {
    status(Verdict::None, "")
}

/// How a checked figure lies to the others; `say` puts a size into words.
#[must_use]
pub fn checked(residual: f64, say: impl Fn(f64) -> String) -> String {
    let by = say(residual.abs());
    if by == say(0.0) {
        return "agrees with the others".to_owned();
    }
    let way = if residual < 0.0 { "more" } else { "less" };
    format!("{by} {way} than the others give")
}

/// Readings of a kind of which something does not fit, as it is said beside a single one.
pub struct Misfits<'a> {
    /// “readings”.
    pub of: &'a str,
    /// The place that lists them.
    pub place: &'a str,
    /// The one that alone can be the wrong one.
    pub only: Option<String>,
    /// What is said of them where several can be, or more than one is.
    pub several: String,
}

impl Misfits<'_> {
    /// What is said of a checked reading; with what the others make it, where it can be the wrong one.
    /// It is called wrong only where it alone can be, and never right beside a wrong one.
    #[must_use]
    pub fn doubt(self, predicted: Option<String>) -> Status {
        let Self { of, place, .. } = self;
        match (self.only, predicted) {
            (Some(_), Some(predicted)) => status(
                Verdict::Bad,
                &format!("The other {of} make this **{predicted}**: it does not fit."),
            ),
            (None, Some(_)) => status(Verdict::Bad, &self.several),
            (Some(wrong), None) => status(
                Verdict::Attention,
                &format!("It cannot be judged yet: {wrong} does not fit."),
            ),
            (None, None) => status(
                Verdict::Attention,
                &format!("It cannot be judged yet: other {of} do not fit. {place} says which."),
            ),
        }
    }
}

/// ± of an angle, degrees; never less than the last digit shows.
#[must_use]
pub fn angle_pm(pm: f64) -> String {
    format!("±\u{a0}{:.1}°", pm.max(0.05))
}

/// One figure with its label and what follows it (its ± or unit).
#[must_use]
pub fn fact(id: &str, label: &str, figure: &str, tail: &str) -> Fact {
    Fact {
        id: id.into(),
        label: label.into(),
        figure: figure.into(),
        tail: tail.into(),
        verdict: Verdict::None,
    }
}

/// A row of a list.
#[must_use]
pub fn row(id: &str, title: &str, note: &str, figure: &str, tail: &str) -> RowItem {
    RowItem {
        id: id.into(),
        title: title.into(),
        note: note.into(),
        figure: figure.into(),
        tail: tail.into(),
        ..RowItem::default()
    }
}

/// “one reading”, “two readings”, “13 readings”; a capital is up to the caller.
#[must_use]
pub fn counted(count: usize, one: &str, many: &str) -> String {
    const WORDS: [&str; 13] = [
        "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
        "eleven", "twelve",
    ];
    let number = WORDS
        .get(count)
        .map_or_else(|| count.to_string(), |word| (*word).to_owned());
    format!("{number} {}", if count == 1 { one } else { many })
}

/// With a capital first letter.
#[must_use]
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_with_stars_and_brackets_is_shown_as_it_is() {
        let (_, plain) = said("Wall **B*_[x]** & <y>");
        assert_eq!(plain, "Wall B*_[x] & <y>");
        assert_eq!(escaped("a_b **c** <d>"), "a\\_b **c** \\<d\\>");
    }

    #[test]
    fn small_numbers_are_words() {
        assert_eq!(counted(1, "mark", "marks"), "one mark");
        assert_eq!(counted(6, "mark", "marks"), "six marks");
        assert_eq!(counted(13, "reading", "readings"), "13 readings");
    }
}
