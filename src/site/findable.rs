//! What slip in a reading would show.

/// Smallest shift that a check of 0.1 % finds four times in five, in standard deviations of a reading
/// that is wholly checked (Baarda 1968, δ₀).
const FINDABLE: f64 = 4.13;

/// Below this share nothing checks a reading.
const CHECKED: f64 = 1e-6;

/// True where other readings bear enough of a reading to check it; its redundancy r, 0 to 1.
#[must_use]
pub fn is_checked(redundancy: f64) -> bool {
    redundancy > CHECKED
}

/// The smallest slip that would show in a reading, in its own unit: 4.13 sd/√r, of its standard deviation
/// and its redundancy r (0 to 1); `None` where nothing checks it.
///
/// ```
/// use tautmark::site::least_slip;
///
/// assert_eq!(least_slip(2.0, 0.25), Some(16.52));
/// assert_eq!(least_slip(2.0, 0.0), None);
/// ```
#[must_use]
pub fn least_slip(sd: f64, redundancy: f64) -> Option<f64> {
    is_checked(redundancy).then(|| FINDABLE * sd / redundancy.sqrt())
}
