# Sourced by build and check, from the repository's root: `classes` begins a package in $made/stage with the
# window's Java, `assemble APK` puts manifest, resources and what is in the stage together, aligns and signs it.
# Needs aapt2, zipalign, apksigner, d8, ANDROID_JAR, and FRAMEWORK: android.jar or a framework-res.apk.

API=29
# Phones with memory pages of 16 KiB load nothing that is laid out for smaller ones.
PAGES=-Clink-arg=-Wl,-z,max-page-size=16384,-z,common-page-size=16384

# The window's classes, as one file of Android's own kind.
classes() {
  rm -rf "$made/stage" "$made/classes"
  mkdir -p "$made/stage" "$made/classes"
  find android/java -name '*.java' -exec javac -source 8 -target 8 -encoding UTF-8 \
    -Xlint:all,-options,-serial,-classfile,-deprecation -Werror -classpath "$ANDROID_JAR" -d "$made/classes" {} +
  local files=()
  mapfile -t files < <(find "$made/classes" -name '*.class')
  d8 --release --min-api "$API" --lib "$ANDROID_JAR" --output "$made/stage" "${files[@]}"
}

manifest_version() {
  sed -n '/^\[package\]/,/^\[/s/^version = "\(.*\)"$/\1/p' Cargo.toml
}

# 1.2.3 is 10203: every release is above the one before it.
version_code() {
  local major minor patch
  IFS=. read -r major minor patch < <(manifest_version)
  echo $((major * 10000 + minor * 100 + patch))
}

package() {
  local work=$1 apk=$2 said
  mkdir -p "$work"
  aapt2 compile --dir android/res -o "$work/resources.zip"
  # Debian's is older than <queries> and puts it in unread (`bare` sets $unread); nothing else may be new to it.
  said=$(aapt2 link ${unread:-} -I "$FRAMEWORK" --manifest android/AndroidManifest.xml \
    --version-code "$(version_code)" --version-name "$(manifest_version)" \
    -o "$apk" "$work/resources.zip" 2>&1) || { echo "$said" >&2; return 1; }
  said=$(grep ' warn: ' <<<"$said" | grep -v 'unexpected element <queries> found in <manifest>' || true)
  [ -z "$said" ] || { echo "$said" >&2; return 1; }
}

# A key of this machine's own, for trying things out: it proves nothing about who built the package.
debug_key() {
  [ -f "$1" ] || keytool -genkeypair -keystore "$1" -alias debug -storepass android -keypass android \
    -keyalg RSA -keysize 2048 -validity 10000 -dname "CN=Tautmark debug" >/dev/null 2>&1
}

finish() {
  local apk=$1 keystore=$2
  zipalign -f 4 "$apk" "$apk.aligned"
  mv "$apk.aligned" "$apk"
  debug_key "$keystore"
  apksigner sign --ks "$keystore" --ks-pass pass:android --ks-key-alias debug "$apk"
  apksigner verify --min-sdk-version 29 "$apk"
}

assemble() {
  local apk=$1
  package "$made" "$apk"
  jar --update --no-manifest --file "$apk" -C "$made/stage" .
  finish "$apk" "$made/debug.keystore"
}
