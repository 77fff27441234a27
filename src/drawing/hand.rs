//! The hand that a drawing is drawn in: how large and how thick things are that have no size in mm.

use super::model::{LineStyle, Size};

/// Sizes in view units: px on a screen, pt on paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hand {
    /// Font size of words that step back.
    pub small_text: f64,
    /// Font size of most words.
    pub text: f64,
    /// Font size of what the drawing is about.
    pub large_text: f64,
    /// Width of a leader or a hatch line.
    pub hair: f64,
    /// Width of an edge within a thing.
    pub fine: f64,
    /// Width of the outline of a thing.
    pub line: f64,
    /// Width of what stands out.
    pub thick: f64,
    /// Half an arm of a mark's cross.
    pub cross: f64,
    /// Radius of the ring around what matters now.
    pub ring: f64,
    /// Radius of a dot.
    pub dot: f64,
    /// The least side of a post seen from above.
    pub post: f64,
    /// Depth of a wall's hatched strip.
    pub strip: f64,
    /// From one hatch line to the next.
    pub hatch: f64,
    /// Between words and what they stand beside.
    pub gap: f64,
    /// By tone, or hatched as well.
    pub areas: Areas,
}

/// How areas are told apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Areas {
    /// By their tone.
    Toned,
    /// By hatching as well, for printing in black and white.
    Hatched,
}

impl Hand {
    /// For a screen, in logical px; `factor` is the person's own text size over the ordinary one.
    #[must_use]
    pub fn screen(factor: f64) -> Self {
        Self {
            small_text: 12.0 * factor,
            text: 14.0 * factor,
            large_text: 20.0 * factor,
            hair: 1.0,
            fine: 1.25,
            line: 2.0,
            thick: 3.5,
            cross: 6.0,
            ring: 9.0,
            dot: 4.5,
            post: 8.0,
            strip: 8.0,
            hatch: 6.0,
            gap: 4.0,
            areas: Areas::Toned,
        }
    }

    /// For paper, in pt.
    #[must_use]
    pub fn paper() -> Self {
        Self {
            small_text: 8.0,
            text: 9.5,
            large_text: 13.0,
            hair: 0.35,
            fine: 0.5,
            line: 0.9,
            thick: 1.8,
            cross: 4.0,
            ring: 6.0,
            dot: 2.2,
            post: 4.5,
            strip: 6.0,
            hatch: 3.6,
            gap: 2.5,
            areas: Areas::Hatched,
        }
    }

    /// The size of words.
    #[must_use]
    pub fn size(&self, size: Size) -> f64 {
        match size {
            Size::Small => self.small_text,
            Size::Plain => self.text,
            Size::Large => self.large_text,
        }
    }

    /// Width and dashes (drawn, left out) of a stroke; none where nothing is stroked.
    #[must_use]
    pub fn pen(&self, line: LineStyle) -> Option<(f64, Option<[f64; 2]>)> {
        let dashes = |drawn: f64, left_out: f64| Some([drawn * self.line, left_out * self.line]);
        Some(match line {
            LineStyle::None => return None,
            LineStyle::Hair => (self.hair, None),
            LineStyle::Fine => (self.fine, None),
            LineStyle::Plain => (self.line, None),
            LineStyle::Thick => (self.thick, None),
            LineStyle::Dotted => (self.hair, dashes(1.6, 1.8)),
            LineStyle::Dashed => (self.line, dashes(5.0, 3.0)),
            LineStyle::HeavyDashed => (self.thick, dashes(7.0, 3.5)),
        })
    }
}
