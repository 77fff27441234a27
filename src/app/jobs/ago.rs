//! How long ago something was: needs no calendar and no time zone.

use crate::clock;
use std::time::{Duration, SystemTime};

/// “just now”, “20 minutes ago”, “3 days ago”.
#[must_use]
pub fn ago(then: SystemTime) -> String {
    let age = clock::now().duration_since(then);
    said(age.unwrap_or(Duration::ZERO).as_secs())
}

fn said(seconds: u64) -> String {
    let so_many = |n: u64, one: &str| match n {
        1 => format!("1 {one} ago"),
        n => format!("{n} {one}s ago"),
    };
    match seconds {
        0..=89 => "just now".to_owned(),
        90..=5_399 => so_many(seconds.div_ceil(60), "minute"),
        5_400..=86_399 => so_many(seconds / 3_600, "hour"),
        _ => so_many(seconds / 86_400, "day"),
    }
}

#[cfg(test)]
mod tests {
    use super::said;

    #[test]
    fn the_unit_fits_the_age() {
        assert_eq!(said(0), "just now");
        assert_eq!(said(90), "2 minutes ago");
        assert_eq!(said(3 * 3_600 + 59), "3 hours ago");
        assert_eq!(said(86_400), "1 day ago");
        assert_eq!(said(40 * 86_400), "40 days ago");
    }
}
