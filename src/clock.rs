//! The time of day, which a browser gives in its own way.

use std::time::SystemTime;

/// Now, as far as this device knows.
#[cfg(not(target_arch = "wasm32"))]
#[must_use]
pub fn now() -> SystemTime {
    SystemTime::now()
}

/// Now, as far as this browser knows.
#[cfg(target_arch = "wasm32")]
#[must_use]
pub fn now() -> SystemTime {
    use web_time::web::SystemTimeExt;
    web_time::SystemTime::now().to_std()
}
