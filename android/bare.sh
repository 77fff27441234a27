# Sourced by build, from the repository's root, where there is neither an SDK nor an NDK: Debian's tools
# take their place. `fetch` gets them, or fails where the mirrors have them no more; `bare` tells the
# builds where they are.

kit=$PWD/target/android/kit

# The mirrors of Debian's that this machine gets its packages from.
mirrors() {
  apt-get indextargets --format '$(REPO_URI)' | sort -u
}

# Packages of other releases than bookworm: file among the mirrors, SHA-256.
DX="pool/main/a/android-platform-dalvik/dalvik-exchange_10.0.0+r36-1_all.deb
8fc128db7c27253d963eb9b33de79b197162a4749d2ba69019b2fd0664cbd7fe"
API_23="pool/main/a/android-framework-23/libandroid-23-java_6.0.1+r72-6_all.deb
8af1b6df556971dda0a6da3536ea526a838e0c363afcdd454213d8bce94793e3"
FRAMEWORK_14="pool/main/a/android-platform-frameworks-base/android-framework-res_14~beta1-3_all.deb
2813eeaa722b1fc67d66701ddb6111d4b74f84df20974c220da04b0ef5f4c1c8"

# Unpacks a package of Debian's into $kit, once, from the first mirror that has it.
unpack() {
  local file sum mirror deb
  { read -r file; read -r sum; } <<<"$1"
  deb=$kit/${file##*/}
  [ ! -f "$deb.unpacked" ] || return 0
  for mirror in $(mirrors); do
    curl -sfL --connect-timeout 20 --max-time 300 --retry 2 -o "$deb" "${mirror%/}/$file" || continue
    if sha256sum --quiet -c <<<"$sum  $deb" && dpkg-deb -x "$deb" "$kit"; then
      rm "$deb"
      touch "$deb.unpacked"
      return 0
    fi
  done
  echo "No mirror of Debian's has ${file##*/} any more: look for its release there, and mend android/bare.sh." >&2
  return 1
}

fetch() {
  source .ci/need.sh
  mkdir -p "$kit"
  need aapt2 aapt && need zipalign zipalign && need javac default-jdk-headless && need apksigner apksigner &&
    need curl curl ca-certificates && need /usr/share/java/asm.jar libasm-java &&
    unpack "$DX" && unpack "$API_23" && unpack "$FRAMEWORK_14"
}

# An android.jar that has what the app uses, and what poses as the SDK's d8.
java_kit() {
  local asm=/usr/share/java/asm.jar dx=$kit/usr/share/java/com.android.dx.jar
  local old=$kit/usr/share/java/com.android.android-23.jar
  if [ -f "$kit/made" ] && [ -z "$(find android/dex android/bare.sh -newer "$kit/made")" ]; then
    return
  fi
  rm -rf "$kit/tools" "$kit/later"
  find android/dex/com android/dex/Later.java -name '*.java' -exec javac -Xlint:all -Werror \
    -cp "$asm:$dx" -d "$kit/tools" {} +
  printf 'Class-Path: file://%s file://%s\n' "$asm" "$dx" >"$kit/manifest"
  jar --create --file "$ANDROID_D8_JAR" --manifest "$kit/manifest" -C "$kit/tools" .
  find android/dex/later -name '*.java' -exec javac -source 8 -target 8 -Xlint:-options \
    -cp "$old" -d "$kit/later" {} +
  java -cp "$ANDROID_D8_JAR" Later "$old" android/dex/later.txt "$kit/later" "$ANDROID_JAR"
  touch "$kit/made"
}

bare() {
  FRAMEWORK=$kit/usr/share/android-framework-res/framework-res.apk
  unread=--warn-manifest-validation
  export ANDROID_JAR=$kit/android.jar ANDROID_D8_JAR=$kit/d8.jar
  java_kit
  JAVA_HOME=${JAVA_HOME:-$(dirname "$(dirname "$(readlink -f "$(command -v javac)")")")}
  export JAVA_HOME
  # The rest of what a standard library built here would bring along is a decoder of its own traces.
  export CARGO_UNSTABLE_BUILD_STD_FEATURES=
  PATH=$(rustc --print sysroot)/lib/rustlib/$(rustc -vV | sed -n 's/^host: //p')/bin:$PATH
  d8() {
    java -cp "$ANDROID_D8_JAR" com.android.tools.r8.D8 "$@"
  }
}

# What a target is linked with and against: `bare_link TRIPLE`.
bare_link() {
  local emulation
  case $1 in
    aarch64-*) emulation=aarch64linux ;;
    x86_64-*) emulation=elf_x86_64 ;;
    *) stop "$1 is only built with Android's own NDK." ;;
  esac
  android/link/stubs "$kit/link/$1" "$emulation"
  linker=$PWD/android/link/clang
  flags="-Lnative=$kit/link/$1 -Clink-arg=-Wl,-z,defs --cfg no_unwinder"
}
