//! A length in the words that a builder calls it by.

use super::Unit;
use super::digits::{decimal, trimmed};
use super::fraction::FeetInches;

/// A length in words, as one builder calls it to another: the size that [`show`](super::show) writes,
/// millimetres digit by digit, metres after their point, feet, inches and fractions by name.
///
/// The sign of `mm` is dropped: whether it is back, up or down is for the sentence round it to say. A
/// whole number of metres or inches names its unit, so that it is not taken for a count. What is not
/// finite is “no figure”.
///
/// ```
/// use tautmark::length::{Unit, spoken};
/// assert_eq!(spoken(1940.2, Unit::Mm), "one nine four zero");
/// assert_eq!(spoken(1940.2, Unit::M), "one point nine four");
/// assert_eq!(spoken(3111.5, Unit::FEET), "ten foot two and a half");
/// assert_eq!(spoken(-8.0, Unit::FEET), "five sixteenths");
/// ```
#[must_use]
pub fn spoken(mm: f64, unit: Unit) -> String {
    if !mm.is_finite() {
        return "no figure".to_owned();
    }
    match unit {
        Unit::Mm => digits(&decimal(mm, 0)),
        Unit::M => metres(&trimmed(&decimal(mm / 1000.0, 3))),
        Unit::FtIn(part) => FeetInches::nearest(mm, part.into()).speak(),
    }
}

/// A whole number in words, as posts and rails are counted.
///
/// ```
/// use tautmark::length::number_spoken;
/// assert_eq!(number_spoken(3), "three");
/// assert_eq!(number_spoken(112), "one hundred and twelve");
/// ```
#[must_use]
pub fn number_spoken(n: u64) -> String {
    match n {
        0..20 => SMALL[n as usize].to_owned(),
        20..100 => match (TENS[(n / 10) as usize], n % 10) {
            (tens, 0) => tens.to_owned(),
            (tens, ones) => format!("{tens} {}", SMALL[ones as usize]),
        },
        100..1000 => counted(n, 100, "hundred"),
        1000..1_000_000 => counted(n, 1000, "thousand"),
        // No post and no foot of a job is counted as far.
        _ => digits(&n.to_string()),
    }
}

/// So many hundreds or thousands and what is left over: an “and” stands before what is under a hundred.
fn counted(n: u64, each: u64, name: &str) -> String {
    let whole = number_spoken(n / each);
    match n % each {
        0 => format!("{whole} {name}"),
        rest @ 1..100 => format!("{whole} {name} and {}", number_spoken(rest)),
        rest => format!("{whole} {name} {}", number_spoken(rest)),
    }
}

fn digits(figure: &str) -> String {
    let digits = figure.chars().filter_map(|digit| digit.to_digit(10));
    let words: Vec<&str> = digits.map(|digit| SMALL[digit as usize]).collect();
    words.join(" ")
}

fn metres(figure: &str) -> String {
    let (whole, rest) = figure.split_once('.').unwrap_or((figure, ""));
    let whole = whole.parse().map_or_else(|_| digits(whole), number_spoken);
    match (whole.as_str(), rest) {
        ("zero", "") => whole,
        ("one", "") => "one metre".to_owned(),
        (_, "") => format!("{whole} metres"),
        _ => format!("{whole} point {}", digits(rest)),
    }
}

impl FeetInches {
    fn speak(self) -> String {
        let inches = number_spoken(self.inches);
        let foot = number_spoken(self.feet);
        let part = part(self.numerator, self.denominator);
        match (self.feet, self.inches, part) {
            (0, 0, Some(part)) => part,
            (0, 0, None) => inches,
            (0, 1, None) => "one inch".to_owned(),
            (0, _, None) => format!("{inches} inches"),
            (0, _, Some(part)) => format!("{inches} and {part}"),
            (_, 0, None) => format!("{foot} foot"),
            (_, _, None) => format!("{foot} foot {inches}"),
            // Without its zero, “ten foot and a half” would be six inches more.
            (_, _, Some(part)) => format!("{foot} foot {inches} and {part}"),
        }
    }
}

/// “a half”, “three quarters”, “five sixteenths”; none where the inch is whole.
fn part(numerator: u64, denominator: u64) -> Option<String> {
    let name = match denominator {
        2 => "half",
        4 => "quarter",
        8 => "eighth",
        16 => "sixteenth",
        32 => "thirty-second",
        64 => "sixty-fourth",
        _ => return None,
    };
    Some(match (numerator, denominator) {
        (1, 8) => "an eighth".to_owned(),
        (1, _) => format!("a {name}"),
        _ => format!("{} {name}s", number_spoken(numerator)),
    })
}

const SMALL: [&str; 20] = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
];

const TENS: [&str; 10] = [
    "", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety",
];

#[cfg(test)]
mod tests {
    use super::super::{InchPart, show};
    use super::*;

    #[test]
    fn figures_are_called_as_builders_call_them() {
        let inch = 25.4;
        let table = [
            (1940.0, Unit::Mm, "one nine four zero"),
            (673.4, Unit::Mm, "six seven three"),
            (12_040.0, Unit::Mm, "one two zero four zero"),
            (0.4, Unit::Mm, "zero"),
            (-12.0, Unit::Mm, "one two"),
            (1940.0, Unit::M, "one point nine four"),
            (673.0, Unit::M, "zero point six seven three"),
            (12_040.0, Unit::M, "twelve point zero four"),
            (1000.0, Unit::M, "one metre"),
            (2000.2, Unit::M, "two metres"),
            (0.0, Unit::M, "zero"),
            (122.5 * inch, Unit::FEET, "ten foot two and a half"),
            (
                141.3125 * inch,
                Unit::FEET,
                "eleven foot nine and five sixteenths",
            ),
            (120.0 * inch, Unit::FEET, "ten foot"),
            (120.5 * inch, Unit::FEET, "ten foot zero and a half"),
            (122.0 * inch, Unit::FEET, "ten foot two"),
            (9.75 * inch, Unit::FEET, "nine and three quarters"),
            (9.0 * inch, Unit::FEET, "nine inches"),
            (inch, Unit::FEET, "one inch"),
            (0.125 * inch, Unit::FEET, "an eighth"),
            (-0.3125 * inch, Unit::FEET, "five sixteenths"),
            (0.0, Unit::FEET, "zero"),
            (0.3125 * inch, Unit::FtIn(InchPart::Eighth), "three eighths"),
            (
                0.03125 * inch,
                Unit::FtIn(InchPart::ThirtySecond),
                "a thirty-second",
            ),
            (1440.0 * inch, Unit::FEET, "one hundred and twenty foot"),
            (f64::NAN, Unit::Mm, "no figure"),
        ];
        for (mm, unit, words) in table {
            assert_eq!(spoken(mm, unit), words, "{}", show(mm, unit));
        }
    }

    #[test]
    fn numbers_are_counted_in_words() {
        let table = [
            (0, "zero"),
            (19, "nineteen"),
            (20, "twenty"),
            (42, "forty two"),
            (100, "one hundred"),
            (305, "three hundred and five"),
            (1020, "one thousand and twenty"),
            (1320, "one thousand three hundred and twenty"),
        ];
        for (n, words) in table {
            assert_eq!(number_spoken(n), words);
        }
    }

    #[test]
    fn no_figure_breaks_it() {
        for mm in [f64::MAX, f64::MIN, f64::INFINITY, f64::MIN_POSITIVE] {
            for unit in Unit::ALL {
                assert!(!spoken(mm, unit).is_empty());
            }
        }
    }
}
