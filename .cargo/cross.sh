# Sourced with TARGET set: `cross SUBCOMMAND …` is cargo for that target, `$folder` where it builds.
# The usual way is a target that rustup has or can add. A machine that cannot have it builds the
# standard library itself, with a compiler and its source of one version: Debian's rustc-web and
# rust-web-src.

folder=${CROSS_TARGET_DIR:-target/cross}

# For a phone and a browser the text layout's data comes without dictionaries of languages that the
# app does not speak: 3 MB less to fetch. The desktop keeps them.
export ICU4X_DATA_DIR=$PWD/ui/icu

has_target() {
  [ -d "$(rustc --print sysroot)/lib/rustlib/$TARGET/lib" ]
}

if has_target || { command -v rustup >/dev/null && rustup target add "$TARGET" >/dev/null 2>&1 && has_target; }; then
  cross() {
    local subcommand=$1
    shift
    cargo "$subcommand" --target "$TARGET" --target-dir "$folder" "$@"
  }
elif [ -x /usr/bin/rustc ] && [ -d /usr/lib/rustlib/src/rust/library ]; then
  cross() {
    local subcommand=$1
    shift
    local host linker
    host=$(rustc -vV | sed -n 's/^host: //p')
    linker=$(rustc --print sysroot)/lib/rustlib/$host/bin
    PATH=$linker:$PATH RUSTC=/usr/bin/rustc RUSTC_BOOTSTRAP=1 \
      cargo "$subcommand" -Zbuild-std=std,panic_abort --target "$TARGET" --target-dir "$folder" "$@"
  }
else
  echo "Rust for $TARGET is missing: run “rustup target add $TARGET”, or install rustc-web and rust-web-src." >&2
  exit 2
fi
