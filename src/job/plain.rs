//! Text that says what it seems to say: no control characters in a job, and none of the signs that
//! turn the order of letters round when it is shown.

use std::borrow::Cow;
use std::fmt::Write as _;

/// The first character that no text of a job may hold: a control character other than a line break
/// and a tab, or one that Unicode keeps from being text (XML 1.0, production 2, refuses the same).
///
/// ```
/// use tautmark::job::unfit;
/// assert_eq!(unfit("nail,\nleft end"), None);
/// assert_eq!(unfit("nail\u{1b}[31m"), Some('\u{1b}'));
/// ```
#[must_use]
pub fn unfit(text: &str) -> Option<char> {
    text.chars().find(|&c| is_unfit(c))
}

fn is_unfit(c: char) -> bool {
    let control = c.is_control() && !matches!(c, '\n' | '\r' | '\t');
    control || matches!(c, '\u{fffe}' | '\u{ffff}')
}

/// Signs without a shape of their own that change the direction in which the others are read
/// (Unicode Bidirectional Algorithm, UAX 9, section 2).
fn turns_round(c: char) -> bool {
    matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{200e}' | '\u{200f}' | '\u{61c}')
}

/// The text as it is shown: what would turn letters round or could not be seen stands there by its
/// number.
///
/// ```
/// use tautmark::job::visible;
/// assert_eq!(visible("Shed front"), "Shed front");
/// assert_eq!(visible("gate \u{202e}mm 0401"), "gate [U+202E]mm 0401");
/// ```
#[must_use]
pub fn visible(text: &str) -> Cow<'_, str> {
    let hidden = |c: char| is_unfit(c) || turns_round(c);
    if !text.contains(hidden) {
        return Cow::Borrowed(text);
    }
    let mut shown = String::with_capacity(text.len() + 8);
    for c in text.chars() {
        if hidden(c) {
            // Writing to a text does not fail.
            let _ = write!(shown, "[U+{:04X}]", u32::from(c));
        } else {
            shown.push(c);
        }
    }
    Cow::Owned(shown)
}
