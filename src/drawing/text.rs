//! How wide words are.

use std::sync::OnceLock;
use ttf_parser::Face;

/// The bundled typeface, regular.
pub const REGULAR: &[u8] = include_bytes!("../../ui/fonts/B612-Regular.otf");
/// The bundled typeface, bold.
pub const BOLD: &[u8] = include_bytes!("../../ui/fonts/B612-Bold.otf");

/// How heavy words are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// As most words are.
    Regular,
    /// What stands out.
    Bold,
}

/// Tells how wide words are.
pub trait TextMeasure {
    /// Width of one line of words of that size, in the size's own unit.
    fn width(&self, text: &str, size: f64, weight: Weight) -> f64;
}

/// Widths of the bundled typeface.
#[derive(Clone, Copy, Debug, Default)]
pub struct Bundled;

/// Characters up to here have their widths looked up once.
const USUAL: usize = 0x250;
/// Width of what the typeface does not have, in ems.
const MISSING: f32 = 0.7;

struct Widths {
    usual: Vec<f32>,
    face: Option<Face<'static>>,
}

impl Widths {
    fn of(data: &'static [u8]) -> Self {
        let face = Face::parse(data, 0).ok();
        let look_up = |code| char::from_u32(code).map_or(MISSING, |c| advance(face.as_ref(), c));
        Self {
            usual: (0..USUAL as u32).map(look_up).collect(),
            face,
        }
    }

    fn advance(&self, c: char) -> f32 {
        match self.usual.get(c as usize) {
            Some(width) => *width,
            None => advance(self.face.as_ref(), c),
        }
    }
}

/// In ems.
fn advance(face: Option<&Face>, c: char) -> f32 {
    let found = face.and_then(|face| {
        let glyph = face.glyph_index(c)?;
        let width = face.glyph_hor_advance(glyph)?;
        Some(f32::from(width) / f32::from(face.units_per_em().max(1)))
    });
    found.unwrap_or(MISSING)
}

fn widths(weight: Weight) -> &'static Widths {
    static FOUND: OnceLock<[Widths; 2]> = OnceLock::new();
    let [regular, bold] = FOUND.get_or_init(|| [Widths::of(REGULAR), Widths::of(BOLD)]);
    match weight {
        Weight::Regular => regular,
        Weight::Bold => bold,
    }
}

impl TextMeasure for Bundled {
    fn width(&self, text: &str, size: f64, weight: Weight) -> f64 {
        let widths = widths(weight);
        let ems: f32 = text.chars().map(|c| widths.advance(c)).sum();
        f64::from(ems) * size
    }
}

/// True where the bundled typeface has the character in both weights.
#[must_use]
pub fn has(c: char) -> bool {
    [Weight::Regular, Weight::Bold].into_iter().all(|weight| {
        let face = widths(weight).face.as_ref();
        face.is_some_and(|face| face.glyph_index(c).is_some())
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_all_as_wide_as_each_other() {
        for weight in [Weight::Regular, Weight::Bold] {
            let of = |text: &str| Bundled.width(text, 10.0, weight);
            assert!((1..10).all(|n| of(&n.to_string()) == of("0")));
            assert!((of("3590") - 4.0 * of("0")).abs() < 1e-6);
        }
    }

    #[test]
    fn every_sign_that_drawings_use_is_there() {
        let missing: String = "±°½′″→×·–—−→…\u{a0}øéß/"
            .chars()
            .filter(|&c| !has(c))
            .collect();
        assert_eq!(missing, "");
    }
}
