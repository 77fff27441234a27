//! How the program is linked for release on Linux: small. Flags of one's own take the place of this.

use std::env;
use std::process::Command;

fn main() {
    println!("cargo::rerun-if-changed=ui/link.ld");
    let is = |name: &str, value: &str| env::var(name).is_ok_and(|found| found == value);
    let plain = is("CARGO_ENCODED_RUSTFLAGS", "") && env::var("HOST") == env::var("TARGET");
    let linux = is("CARGO_CFG_TARGET_OS", "linux") && is("CARGO_CFG_TARGET_ENV", "gnu");
    if !(plain && linux && is("PROFILE", "release")) {
        return;
    }
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/ui/link.ld");
    println!("cargo::rustc-link-arg-bins=-T");
    println!("cargo::rustc-link-arg-bins={script}");
    if loads_packed_relocations() {
        println!("cargo::rustc-link-arg-bins=-Wl,-z,pack-relative-relocs");
    }
}

/// Whether this machine's C library reads addresses in the short form: since 2.36.
fn loads_packed_relocations() -> bool {
    let said = Command::new("getconf").arg("GNU_LIBC_VERSION").output();
    let said = said.map(|output| output.stdout).unwrap_or_default();
    let minor = String::from_utf8_lossy(&said)
        .trim()
        .strip_prefix("glibc 2.")
        .and_then(|minor| minor.parse::<u32>().ok());
    minor.is_some_and(|minor| minor >= 36)
}
