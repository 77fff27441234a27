//! The one condition six tapes must meet, and the six lengths brought to meet it.

use super::{Agreement, FourSidesError, SixTapesClosure};
use crate::quick::figure::{Figure, Taped};
use crate::quick::triangle::{Triangle, across};

/// One value for each of AB, BC, CD, DA, AC, BD, in that order.
pub(super) type Six = [f64; 6];

/// Two-sided 95 % and 0.1 % of the normal distribution.
const DOUBTFUL: f64 = 1.96;
const CONTRADICT: f64 = 3.29;
/// Shift found with 80 % power by a test at 0.1 % (Baarda's δ₀).
const FINDABLE: f64 = 4.13;

/// Six lengths that close, and what is needed to carry their ± on.
#[derive(Clone, Copy, Debug)]
pub(super) struct Adjusted {
    /// Adjusted lengths, mm.
    pub(super) lengths: Six,
    variances: Six,
    condition: Six,
}

impl Adjusted {
    /// Standard deviation of a quantity that changes by `partials` per mm of each length:
    /// Q − Q gᵀ (g Q gᵀ)⁻¹ g Q, the cofactors left after one condition.
    pub(super) fn sd(&self, partials: &Six) -> f64 {
        let free = weigh(&self.variances, partials, partials);
        let tied = weigh(&self.variances, partials, &self.condition);
        let whole = weigh(&self.variances, &self.condition, &self.condition);
        (free - tied * tied / whole).max(0.0).sqrt()
    }
}

/// Σ sd² p q.
fn weigh(variances: &Six, p: &Six, q: &Six) -> f64 {
    variances
        .iter()
        .zip(p)
        .zip(q)
        .map(|((v, p), q)| v * p * q)
        .sum()
}

/// How far the diagonal BD is from closing, and how that changes with each length.
struct Misclosure {
    expected: f64,
    off: f64,
    partials: Six,
    /// What BD would be with B and D on the same side of AC.
    folded: f64,
}

/// A triangle of the figure, or which one cannot close.
pub(super) fn triangle(
    first: f64,
    second: f64,
    across: f64,
    triangle: &'static str,
) -> Result<Triangle, FourSidesError> {
    Triangle::new(first, second, across).map_err(|_| FourSidesError::CannotClose { triangle })
}

fn misclosure(&[ab, bc, cd, da, ac, bd]: &Six) -> Result<Misclosure, FourSidesError> {
    let near = triangle(ab, ac, bc, "A, B and C")?;
    let far = triangle(da, ac, cd, "A, C and D")?;
    let at_a = near.angle + far.angle;
    let expected = across(ab, da, at_a);
    let [near_ab, near_ac, near_bc] = near.partials();
    let [far_da, far_ac, far_cd] = far.partials();
    let (sin, cos) = at_a.sin_cos();
    let by_angle = ab * da * sin / expected;
    let by_ab = (ab - da * cos) / expected + by_angle * near_ab;
    let by_da = (da - ab * cos) / expected + by_angle * far_da;
    Ok(Misclosure {
        expected,
        off: bd - expected,
        partials: [
            -by_ab,
            -by_angle * near_bc,
            -by_angle * far_cd,
            -by_da,
            -by_angle * (near_ac + far_ac),
            1.0,
        ],
        folded: across(ab, da, (near.angle - far.angle).abs()),
    })
}

/// Compares BD with what the other five make of it, and adjusts all six by least squares.
pub(super) fn close(tapes: &[Taped; 6]) -> Result<(SixTapesClosure, Adjusted), FourSidesError> {
    let lengths = tapes.map(|tape| tape.length);
    let variances = tapes.map(|tape| tape.sd * tape.sd);
    let [ab, bc, cd, da, _, bd] = lengths;
    triangle(ab, da, bd, "A, B and D")?;
    triangle(bc, cd, bd, "B, C and D")?;
    let start = misclosure(&lengths)?;
    let sd = weigh(&variances, &start.partials, &start.partials).sqrt();
    let agreement = match start.off.abs() / sd {
        w if w <= DOUBTFUL => Agreement::Agree,
        w if w <= CONTRADICT => Agreement::Doubtful,
        _ => Agreement::Contradict,
    };
    if agreement == Agreement::Contradict && (bd - start.folded).abs() <= CONTRADICT * sd {
        return Err(FourSidesError::NotConvex);
    }
    let least = start
        .partials
        .iter()
        .map(|g| g.abs())
        .fold(f64::INFINITY, f64::min);
    let [.., bd_variance] = variances;
    let closure = SixTapesClosure {
        expected: Figure::new(start.expected, (sd * sd - bd_variance).max(0.0).sqrt()),
        off: Figure::new(start.off, sd),
        agreement,
        hidden: FINDABLE * sd / least,
    };
    let adjusted = match agreement {
        Agreement::Contradict => Adjusted {
            lengths,
            variances,
            condition: start.partials,
        },
        Agreement::Agree | Agreement::Doubtful => adjust(lengths, variances, start)?,
    };
    Ok((closure, adjusted))
}

/// Condition adjustment v = −Q gᵀ (g Q gᵀ)⁻¹ w, taken again at the adjusted lengths until they
/// close.
fn adjust(observed: Six, variances: Six, start: Misclosure) -> Result<Adjusted, FourSidesError> {
    let mut lengths = observed;
    let mut now = start;
    for _ in 0..20 {
        if now.off.abs() < 1e-9 {
            break;
        }
        let g = now.partials;
        let moved: f64 = g
            .iter()
            .zip(observed)
            .zip(lengths)
            .map(|((g, from), to)| g * (from - to))
            .sum();
        let pull = (now.off + moved) / weigh(&variances, &g, &g);
        for (((length, observed), variance), g) in
            lengths.iter_mut().zip(observed).zip(variances).zip(g)
        {
            *length = observed - variance * g * pull;
        }
        now = misclosure(&lengths)?;
    }
    Ok(Adjusted {
        lengths,
        variances,
        condition: now.partials,
    })
}
