# Sourced by build, from the repository's root: `kit` finds Android's own SDK and NDK and tells the builds
# where they are.

# The highest version in a folder of the SDK.
latest() {
  ls "$1" 2>/dev/null | sort -V | tail -n 1
}

kit() {
  local sdk=$1 ndk tools
  ndk=${ANDROID_NDK_HOME:-${ANDROID_NDK_ROOT:-$sdk/ndk/$(latest "$sdk/ndk")}}
  [ -f "$ndk/source.properties" ] || stop "ANDROID_NDK_HOME names no Android NDK."
  tools=$sdk/build-tools/$(latest "$sdk/build-tools")
  [ -x "$tools/aapt2" ] || stop "The SDK has no build-tools."
  FRAMEWORK=$sdk/platforms/$(latest "$sdk/platforms")/android.jar
  [ -f "$FRAMEWORK" ] || stop "The SDK has no platform."
  command -v javac >/dev/null || stop "There is no Java compiler."
  clang=$(echo "$ndk"/toolchains/llvm/prebuilt/*/bin)
  PATH=$tools:$PATH
  export ANDROID_HOME=$sdk ANDROID_JAR=$FRAMEWORK
}

# What a target is linked with and against: `kit_link TRIPLE`.
kit_link() {
  local triple=$1
  case $triple in armv7-*) triple=armv7a-${triple#armv7-} ;; esac
  linker=$clang/$triple$API-clang
  flags=
}
