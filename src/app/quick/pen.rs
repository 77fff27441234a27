//! The picture of a sum in the making: a sketch in which a figure stands by its input.

use super::given::Given;
use super::input::Input;
use crate::drawing::{Drawing, Sketch, Tag, Vec2};
use std::ops::{Deref, DerefMut};

/// Draws the picture of a sum; all places are mm, y up, to any scale.
pub struct Pen<'a> {
    pub given: &'a Given<'a>,
    sketch: Sketch<'static>,
}

/// What can stand in a picture: a figure that is asked for, or words that are not.
pub trait Tagged {
    fn tag(self, given: &Given<'_>) -> Tag<'static>;
}

impl Tagged for &Input {
    fn tag(self, given: &Given<'_>) -> Tag<'static> {
        given.tag(self)
    }
}

impl Tagged for Tag<'static> {
    fn tag(self, _given: &Given<'_>) -> Tag<'static> {
        self
    }
}

impl Tagged for String {
    fn tag(self, given: &Given<'_>) -> Tag<'static> {
        given.said(self)
    }
}

impl<'a> Pen<'a> {
    /// On an empty sheet; what the keypad asks for will stand out.
    #[must_use]
    pub fn new(given: &'a Given<'a>) -> Self {
        let sketch = Sketch::new(given.asked().map(|input| input.key));
        Self { given, sketch }
    }

    /// A tape pulled from one point to another, its figure on it.
    pub fn tape(&mut self, what: impl Tagged, from: impl Into<Vec2>, to: impl Into<Vec2>) {
        let tag = what.tag(self.given);
        self.sketch.tape(&tag, from.into(), to.into());
    }

    /// A length between two points, drawn beside them on the `out` side, `clear` mm away.
    pub fn dimension(
        &mut self,
        what: impl Tagged,
        ends: [impl Into<Vec2>; 2],
        out: impl Into<Vec2>,
        clear: f64,
    ) {
        let (tag, ends) = (what.tag(self.given), ends.map(Into::into));
        self.sketch.dimension(&tag, ends, out.into(), clear);
    }

    /// An angle about a point, from a bearing through a sweep, degrees.
    pub fn angle(&mut self, what: impl Tagged, at: Vec2, radius: f64, turn: [f64; 2]) {
        let tag = what.tag(self.given);
        self.sketch.angle(&tag, at, radius, turn);
    }

    /// A figure beside a point.
    pub fn figure(&mut self, what: impl Tagged, at: impl Into<Vec2>, out: impl Into<Vec2>) {
        let tag = what.tag(self.given);
        self.sketch.figure(&tag, at.into(), out.into());
    }

    /// A sight from a laser line to a point.
    pub fn sight(
        &mut self,
        what: impl Tagged,
        from: impl Into<Vec2>,
        to: impl Into<Vec2>,
        out: impl Into<Vec2>,
    ) {
        let tag = what.tag(self.given);
        self.sketch.sight(&tag, from.into(), to.into(), out.into());
    }

    /// The picture, and what it shows in words.
    #[must_use]
    pub fn done(self, description: &str) -> Drawing {
        self.sketch.done(description)
    }
}

impl Deref for Pen<'_> {
    type Target = Sketch<'static>;

    fn deref(&self) -> &Self::Target {
        &self.sketch
    }
}

impl DerefMut for Pen<'_> {
    fn deref_mut(&mut self) -> &mut Self::Target {
        &mut self.sketch
    }
}
