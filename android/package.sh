# Sourced by build and check, from the repository's root: `package RESOURCES APK` puts manifest and
# resources together against the framework's; `finish APK KEYSTORE` aligns and signs it.
# Needs aapt2, zipalign, apksigner, and FRAMEWORK: android.jar or a framework-res.apk.

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
  local work=$1 apk=$2
  mkdir -p "$work"
  aapt2 compile --dir android/res -o "$work/resources.zip"
  aapt2 link -I "$FRAMEWORK" --manifest android/AndroidManifest.xml \
    --version-code "$(version_code)" --version-name "$(manifest_version)" \
    -o "$apk" "$work/resources.zip"
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
