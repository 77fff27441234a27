//! Words as release 12 has them.

use std::fmt::Write as _;

/// Release 12 knows ASCII and codes for the rest: %%d is a degree sign, \U+2033 any other. What only
/// looks like such a code is written so that it is read as it stands.
pub(super) fn plain(text: &str) -> String {
    let mut plain = String::new();
    for c in text.chars() {
        match c {
            '°' => plain.push_str("%%d"),
            '±' => plain.push_str("%%p"),
            '%' => plain.push_str("%%%"),
            '\\' => plain.push_str("\\U+005C"),
            '\u{a0}' => plain.push(' '),
            '′' => plain.push('\''),
            '″' => plain.push('"'),
            '−' => plain.push('-'),
            '·' => plain.push('/'),
            c if c.is_ascii() && !c.is_control() => plain.push(c),
            c if c.is_control() => plain.push(' '),
            c => {
                let _ = write!(plain, "\\U+{:04X}", u32::from(c));
            }
        }
    }
    plain
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[test]
    fn words_are_written_in_ascii() {
        assert_eq!(plain("104.3° 5\u{a0}402"), "104.3%%d 5 402");
        assert_eq!(plain("11′ 9″ ±"), "11' 9\" %%p");
        assert_eq!(plain("Zäune\n"), "Z\\U+00E4une ");
        assert_eq!(plain("peg %%c"), "peg %%%%%%c");
        assert_eq!(plain("peg \\U+0041"), "peg \\U+005CU+0041");
    }
}
