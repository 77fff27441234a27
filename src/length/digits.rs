//! Decimal figures as text.

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

/// The size of `value` to `decimals` places, halves away from zero as people round.
pub(super) fn decimal(value: f64, decimals: usize) -> String {
    // `decimals` is nine at most: both factors are exact.
    let scale = 10_f64.powi(decimals as i32);
    let scaled = (value.abs() * scale).round();
    // A whole number of the last place is written digit by digit: quicker, and the same.
    if scaled < 1e15 {
        let (scaled, scale) = (scaled as u64, scale as u64);
        let (whole, rest) = (scaled / scale, scaled % scale);
        return match decimals {
            0 => whole.to_string(),
            _ => format!("{whole}.{rest:0decimals$}"),
        };
    }
    let rounded = if scaled.is_finite() {
        scaled / scale
    } else {
        value.abs()
    };
    format!("{rounded:.decimals$}")
}

/// Without the zeros, and the point, that end a decimal figure.
pub(super) fn trimmed(figure: &str) -> String {
    if figure.contains('.') {
        figure
            .trim_end_matches('0')
            .trim_end_matches('.')
            .to_owned()
    } else {
        figure.to_owned()
    }
}
