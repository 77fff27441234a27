//! Marks among the parameters, and where they are.

/// One parameter of a [`super::System`], by its place: a coordinate, a laser line or a height, mm.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Param(pub usize);

/// A mark in the plane: the two parameters that place it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct At {
    /// Along the frame's first axis.
    pub x: Param,
    /// Along the frame's second axis, to the left of the first.
    pub y: Param,
}

impl At {
    /// The mark whose coordinates are the `n`th pair of parameters: 2n and 2n + 1.
    #[must_use]
    pub const fn nth(n: usize) -> Self {
        Self {
            x: Param(2 * n),
            y: Param(2 * n + 1),
        }
    }
}

/// Value of a parameter, mm; 0 if there is none.
pub(super) fn coordinate(x: &[f64], param: Param) -> f64 {
    x.get(param.0).copied().unwrap_or(0.0)
}

/// Where a mark is, mm.
pub(super) fn place(x: &[f64], at: At) -> [f64; 2] {
    [coordinate(x, at.x), coordinate(x, at.y)]
}

/// Puts a mark where told.
pub(super) fn put(x: &mut [f64], at: At, [px, py]: [f64; 2]) {
    for (param, value) in [(at.x, px), (at.y, py)] {
        if let Some(place) = x.get_mut(param.0) {
            *place = value;
        }
    }
}
