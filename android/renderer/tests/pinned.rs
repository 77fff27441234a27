//! The renderer stands in for a package of Slint's, and is good for one version of it.

use std::fs;

/// The lines of a package in `Cargo.lock`, each package once.
fn locked<'a>(lock: &'a str, name: &str) -> Vec<&'a str> {
    let wanted = format!("name = \"{name}\"");
    lock.split("[[package]]")
        .filter(|package| package.lines().any(|line| line == wanted))
        .collect()
}

fn value<'a>(package: &'a str, key: &str) -> Option<&'a str> {
    let start = format!("{key} = \"");
    let line = package.lines().find_map(|line| line.strip_prefix(&*start));
    line.and_then(|rest| rest.strip_suffix('"'))
}

const WHAT_TO_DO: &str = "Slint has moved, and android/renderer is made for another version. Set the versions in \
    android/renderer/Cargo.toml to Slint's, build with `android/check`, and give renderer.rs what the compiler \
    misses; what the backend for Android asks for is in its androidwindowadapter.rs, what a renderer must \
    answer in i-slint-core's renderer.rs. Look too whether the backend can do without Skia by now: then \
    android/renderer can go; and whether it knows a mouse's wheel: then src/android/wheel.rs can.";

#[test]
fn the_renderer_is_made_for_the_version_of_slint_that_is_used() {
    let lock = concat!(env!("CARGO_MANIFEST_DIR"), "/../../Cargo.lock");
    let lock = fs::read_to_string(lock).expect("the workspace has a Cargo.lock");
    let own = env!("CARGO_PKG_VERSION");
    for part in ["slint", "i-slint-core", "i-slint-backend-android-activity"] {
        let versions: Vec<_> = locked(&lock, part)
            .iter()
            .map(|package| value(package, "version"))
            .collect();
        assert_eq!(versions, [Some(own)], "{part}: {WHAT_TO_DO}");
    }
    let renderers = locked(&lock, "i-slint-renderer-skia");
    let fetched = renderers.iter().find(|one| value(one, "source").is_some());
    assert_eq!(fetched, None, "Skia itself would be fetched. {WHAT_TO_DO}");
    assert_eq!(renderers.len(), 1, "{WHAT_TO_DO}");
}
