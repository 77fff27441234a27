//! Figures in groups of three.

/// Between groups of three figures and after ±: U+00A0.
///
/// The thin space U+2009 looks finer but lets a figure break over two lines, and its no-break
/// fellow U+202F is missing from many typefaces; U+00A0 is in every one and never breaks.
pub(super) const NO_BREAK_SPACE: char = '\u{a0}';

/// Groups the whole part of a plain decimal figure in threes.
pub(super) fn grouped(figure: &str) -> String {
    let (whole, rest) = figure.split_at(figure.find('.').unwrap_or(figure.len()));
    let mut text = String::with_capacity(figure.len() + 4);
    for (index, digit) in whole.chars().enumerate() {
        if index > 0 && (whole.len() - index).is_multiple_of(3) {
            text.push(NO_BREAK_SPACE);
        }
        text.push(digit);
    }
    text + rest
}
