//! Drawings on a sheet, and how much room each is worth.

use crate::drawing::Drawing;

/// A drawing with what it shows under it.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// What it shows, in a few words.
    pub caption: String,
    /// How much of the page it may take.
    pub room: Room,
    /// Itself, mm.
    pub drawing: Drawing,
}

impl Picture {
    /// The least height that shows enough of it at this width on paper, pt.
    #[must_use]
    pub fn least_height(&self, width: f64) -> f64 {
        const SHARE: f64 = 0.36;
        self.height(width).min(width * SHARE)
    }

    /// The height that suits it at this width on paper, pt.
    #[must_use]
    pub fn height(&self, width: f64) -> f64 {
        // Words beside what is drawn and over and under it, pt, and the greatest share of the width.
        let (beside, over, most) = match self.room {
            Room::Plan => (130.0, 130.0, 0.5),
            Room::Strip => (90.0, 30.0, 0.9),
            Room::Small => (50.0, 50.0, 0.44),
            Room::Side => (50.0, 50.0, 0.48),
        };
        let size = self.drawing.bounds.size();
        let own = (width - beside).max(1.0) * size.y / size.x.max(1.0) + over;
        own.clamp(90.0, (width * most).max(90.0))
    }
}

/// How much of a page a drawing is worth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Room {
    /// A plan: half a page, with room around it for figures.
    Plan,
    /// As wide as the page and as high as it comes out, its words within its bounds.
    Strip,
    /// In one of two columns.
    Small,
    /// In one of two columns, with room for a figure on everything.
    Side,
}

impl Room {
    /// Whether it stands in one of two columns.
    #[must_use]
    pub fn is_narrow(self) -> bool {
        matches!(self, Self::Small | Self::Side)
    }
}
