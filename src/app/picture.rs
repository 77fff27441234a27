//! The drawing on the screen: what of it is seen, and how it becomes strokes and labels.

/// What of the drawing is seen: how much larger than the whole, and where its middle is.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct View {
    /// Room on the screen, logical px.
    pub width: f64,
    pub height: f64,
}
