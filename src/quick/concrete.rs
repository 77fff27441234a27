//! How much concrete goes round the posts, and how many bags?
//!
//! ```text
//!      |post|        hole cylinder − the post in it
//!   ___|    |___
//!      |####|        a dug hole runs over the one drawn: allow a share more
//!     #|####|#
//!     #|____|#
//! ```

use super::figure::{self, FigureError};
use super::refusal::{Refusal, said_in_mm};
use crate::length::{Unit, show_with_unit};

/// A hole and the post that stands in it to the bottom.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ConcreteHole {
    /// Across the hole, mm.
    pub diameter: f64,
    /// Depth, mm.
    pub depth: f64,
    /// The post's width and depth, mm.
    pub post: [f64; 2],
}

/// Concrete for a number of like holes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Concrete {
    /// For one hole as drawn, litres.
    pub net_each: f64,
    /// For all, with the share for over-digging, litres.
    pub litres: f64,
    /// Whole bags for all.
    pub bags: u32,
}

/// Why the concrete cannot be reckoned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ConcreteError {
    /// A figure that cannot be.
    Figure(FigureError),
    /// The post is too big for the hole.
    PostTooBig {
        /// The post, corner to corner, mm.
        post: f64,
        /// The hole, mm.
        hole: f64,
    },
}

impl Refusal for ConcreteError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::Figure(figure) => figure.figure(),
            Self::PostTooBig { .. } => Some("hole diameter"),
        }
    }

    fn said(&self, unit: Unit) -> String {
        match *self {
            Self::Figure(figure) => figure.said(unit),
            Self::PostTooBig { post, hole } => format!(
                "The post measures {} across its corners and does not go into a hole of {}. \
                 Make the hole wider.",
                show_with_unit(post, unit),
                show_with_unit(hole, unit),
            ),
        }
    }
}

said_in_mm!(ConcreteError);

/// Concrete round one post, litres: the hole's cylinder less the post.
///
/// ```
/// use tautmark::quick::concrete::{ConcreteHole, litres};
/// let net = litres(ConcreteHole { diameter: 300.0, depth: 600.0, post: [100.0, 100.0] })?;
/// assert!((net - 36.4).abs() < 0.05);
/// # Ok::<(), tautmark::quick::concrete::ConcreteError>(())
/// ```
///
/// # Errors
/// [`ConcreteError`] for figures that cannot be or a post too big for the hole.
pub fn litres(hole: ConcreteHole) -> Result<f64, ConcreteError> {
    let diameter = figure::length("hole diameter", hole.diameter)?;
    let depth = figure::length("hole depth", hole.depth)?;
    let [width, thickness] = hole.post;
    let width = figure::length("post width", width)?;
    let thickness = figure::length("post depth", thickness)?;
    let post = width.hypot(thickness);
    if post > diameter {
        return Err(ConcreteError::PostTooBig {
            post,
            hole: diameter,
        });
    }
    let round = std::f64::consts::FRAC_PI_4 * diameter * diameter;
    Ok((round - width * thickness) * depth / 1e6)
}

/// Concrete for `holes` like holes, each dug over by a share of `over_dig` (0.25 is a quarter, a
/// usual figure), in bags of `bag` litres of concrete.
///
/// ```
/// use tautmark::quick::concrete::{ConcreteHole, concrete};
/// let hole = ConcreteHole { diameter: 300.0, depth: 600.0, post: [100.0, 100.0] };
/// let all = concrete(hole, 10, 0.25, 12.0)?;
/// // 10 × (42.41 × 1.25 − 6.00) = 470 litres.
/// assert_eq!(all.bags, 40);
/// # Ok::<(), tautmark::quick::concrete::ConcreteError>(())
/// ```
///
/// # Errors
/// As [`litres`].
pub fn concrete(
    hole: ConcreteHole,
    holes: u32,
    over_dig: f64,
    bag: f64,
) -> Result<Concrete, ConcreteError> {
    let net_each = litres(hole)?;
    let over_dig = figure::length_or_nothing("share for over-digging", over_dig)?;
    let bag = figure::length("litres from one bag", bag)?;
    // A wider hole takes more concrete; the post in it stays the same.
    let round = std::f64::consts::FRAC_PI_4 * hole.diameter * hole.diameter;
    let each = net_each + round * hole.depth * over_dig / 1e6;
    let litres = each * f64::from(holes);
    Ok(Concrete {
        net_each,
        litres,
        bags: (litres / bag - 1e-9).ceil().max(0.0) as u32,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const HOLE: ConcreteHole = ConcreteHole {
        diameter: 300.0,
        depth: 750.0,
        post: [100.0, 100.0],
    };

    #[test]
    fn a_deeper_hole() -> Result<(), ConcreteError> {
        assert!((litres(HOLE)? - 45.5).abs() < 0.05);
        assert_eq!(concrete(HOLE, 0, 0.25, 12.0)?.bags, 0);
        Ok(())
    }

    #[test]
    fn whole_bags_are_not_rounded_past_themselves() -> Result<(), ConcreteError> {
        let one = litres(HOLE)?;
        assert_eq!(concrete(HOLE, 3, 0.0, one)?.bags, 3);
        assert_eq!(concrete(HOLE, 3, 0.01, one)?.bags, 4);
        Ok(())
    }

    #[test]
    fn what_cannot_be_dug_is_refused() {
        let tight = ConcreteHole {
            diameter: 140.0,
            ..HOLE
        };
        assert!(matches!(
            litres(tight),
            Err(ConcreteError::PostTooBig { .. })
        ));
        assert!(litres(ConcreteHole { depth: 0.0, ..HOLE }).is_err());
        assert!(
            litres(ConcreteHole {
                diameter: f64::NAN,
                ..HOLE
            })
            .is_err()
        );
        assert!(concrete(HOLE, 3, -0.1, 12.0).is_err());
        assert!(concrete(HOLE, 3, 0.1, 0.0).is_err());
    }
}
