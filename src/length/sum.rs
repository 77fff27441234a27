//! A sum of lengths, kept in its parts so that a screen can show how the total came about.

use super::Unit;
use super::show::{entered, entered_signed};

/// One length of a sum.
#[derive(Clone, PartialEq, Debug)]
pub struct Term {
    /// With its sign, in millimetres.
    pub mm: f64,
    /// As typed, without its sign.
    pub text: String,
}

/// One length, or several added and taken away; it has at least one term.
#[derive(Clone, PartialEq, Debug)]
pub struct Sum {
    first: Term,
    rest: Vec<Term>,
}

impl Sum {
    pub(super) const fn new(first: Term, rest: Vec<Term>) -> Self {
        Self { first, rest }
    }

    /// The terms in the order typed.
    pub fn terms(&self) -> impl Iterator<Item = &Term> {
        std::iter::once(&self.first).chain(&self.rest)
    }

    /// Whether there is anything to add up.
    #[must_use]
    pub const fn is_single(&self) -> bool {
        self.rest.is_empty()
    }

    /// The total in millimetres.
    ///
    /// ```
    /// use tautmark::length::{Unit, parse_sum};
    /// assert_eq!(parse_sum("3412 + 76", Unit::Mm).unwrap().total(), 3488.0);
    /// ```
    #[must_use]
    pub fn total(&self) -> f64 {
        // Starting from +0 turns a typed −0 into 0.
        self.terms().fold(0.0, |total, term| total + term.mm)
    }

    /// The whole working, `10 808 + 76 = 10 884`; one term alone is just its figure. To 0.01 mm or 1/64 in.
    ///
    /// ```
    /// use tautmark::length::{Unit, parse_sum};
    /// let sum = parse_sum("10808 + 76", Unit::Mm).unwrap();
    /// assert_eq!(sum.show(Unit::Mm), "10\u{a0}808 + 76 = 10\u{a0}884");
    /// ```
    #[must_use]
    pub fn show(&self, unit: Unit) -> String {
        let head = self.show_first(unit);
        if self.is_single() {
            head
        } else {
            format!("{head} {}", self.show_rest(unit))
        }
    }

    /// The first term alone, for a screen that shows the tape's own reading large.
    #[must_use]
    pub fn show_first(&self, unit: Unit) -> String {
        entered_signed(self.first.mm, unit)
    }

    /// What follows the first term, `+ 76 = 10 884`; empty for a single term.
    ///
    /// ```
    /// use tautmark::length::{Unit, parse_sum};
    /// let sum = parse_sum("10808 + 76", Unit::Mm).unwrap();
    /// assert_eq!(sum.show_rest(Unit::Mm), "+ 76 = 10\u{a0}884");
    /// ```
    #[must_use]
    pub fn show_rest(&self, unit: Unit) -> String {
        if self.is_single() {
            return String::new();
        }
        let mut text = String::new();
        for term in &self.rest {
            let sign = if term.mm.is_sign_negative() {
                '−'
            } else {
                '+'
            };
            text.push_str(&format!("{sign} {} ", entered(term.mm, unit)));
        }
        text + "= " + &entered_signed(self.total(), unit)
    }
}

#[cfg(test)]
mod tests {
    use super::super::parse_sum;
    use super::*;

    fn worked(text: &str, unit: Unit) -> String {
        let sum = parse_sum(text, unit).expect("a sum");
        sum.show(unit).replace('\u{a0}', " ")
    }

    #[test]
    fn shows_the_working_with_nothing_lost() {
        assert_eq!(worked("3412", Unit::Mm), "3 412");
        assert_eq!(
            worked("3412,5 - 12.25", Unit::Mm),
            "3 412.5 − 12.25 = 3 400.25"
        );
        assert_eq!(worked("-3.4 m + 76", Unit::Mm), "−3 400 + 76 = −3 324");
        assert_eq!(worked("3.4 + 0.0765", Unit::M), "3.400 + 0.0765 = 3.4765");
        assert_eq!(
            worked("140 1/2 + 3\"", Unit::FEET),
            "11′ 8 1/2″ + 3″ = 11′ 11 1/2″"
        );
        assert_eq!(worked("76 - 76", Unit::Mm), "76 − 76 = 0");
    }

    #[test]
    fn keeps_terms_as_typed() {
        let sum = parse_sum("3.4 m − 76", Unit::Mm).expect("a sum");
        let texts: Vec<_> = sum.terms().map(|term| term.text.as_str()).collect();
        assert_eq!(texts, ["3.4 m", "76"]);
        assert!(!sum.is_single());
    }
}
