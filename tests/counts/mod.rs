//! How many invented sites a test tries.

/// As many as stated, or `TAUTMARK_SITES` times as many: what DEVELOPERS.md counts was counted so.
pub fn sites(stated: u64) -> u64 {
    let times = std::env::var("TAUTMARK_SITES").ok();
    stated * times.map_or(1, |times| times.parse().expect("a whole number"))
}
