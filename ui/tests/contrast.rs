//! Words can be read in sun and at dusk: contrast worked out from the theme's own colours
//! (relative luminance and contrast ratio as in the Web Content Accessibility Guidelines 2).

mod orchard;

use orchard::Site;
use slint::{Color, Global};
use tautmark_ui::{Theme, ThemeMode};

fn luminance(colour: Color) -> f64 {
    let linear = |channel: u8| {
        let c = f64::from(channel) / 255.0;
        if c <= 0.04045 {
            c / 12.92
        } else {
            ((c + 0.055) / 1.055).powf(2.4)
        }
    };
    0.2126 * linear(colour.red()) + 0.7152 * linear(colour.green()) + 0.0722 * linear(colour.blue())
}

fn contrast(one: Color, other: Color) -> f64 {
    let (a, b) = (luminance(one), luminance(other));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

fn check(mode: ThemeMode) {
    let site = Site::open(412.0, 915.0);
    let theme = Theme::get(&site.app);
    theme.set_mode(mode);
    assert_eq!(theme.get_night(), mode == ThemeMode::Night);
    let grounds = [
        ("ground", theme.get_ground()),
        ("paper", theme.get_paper()),
        ("key", theme.get_key()),
        ("pressed", theme.get_pressed()),
    ];
    let words = [
        ("ink", theme.get_ink(), 7.0),
        ("good", theme.get_good(), 7.0),
        ("attention", theme.get_attention(), 7.0),
        ("bad", theme.get_bad(), 7.0),
        ("second", theme.get_second(), 4.5),
    ];
    for (ground_name, ground) in grounds {
        for (name, ink, least) in words {
            // A row is pressed only for a moment; there the secondary rule is enough.
            let least = if ground_name == "pressed" { 4.5 } else { least };
            let ratio = contrast(ink, ground);
            assert!(
                ratio >= least,
                "{name} on {ground_name}, {mode:?}: {ratio:.2}, wanted {least}"
            );
        }
    }
    for (name, ink) in [("string", theme.get_string()), ("level", theme.get_level())] {
        let ratio = contrast(ink, theme.get_paper());
        assert!(
            ratio >= 4.5,
            "{name} lines and labels on paper, {mode:?}: {ratio:.2}"
        );
    }
    assert!(
        contrast(theme.get_on_ink(), theme.get_ink()) >= 7.0,
        "words on a solid button, {mode:?}"
    );
}

#[test]
fn day() {
    check(ThemeMode::Day);
}

#[test]
fn night() {
    check(ThemeMode::Night);
}
