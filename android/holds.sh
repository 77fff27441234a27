# Sourced by check and prove, from the repository's root: what a package must hold. `shell APK` is about all
# but the library in it, `library_of APK ABI` about that.

made=target/android
LARGEST=12000000
# What a phone's linker is given by the app: its start, and the links of src/android.
EXPORTS="ANativeActivity_onCreate android_main __wrap_AMotionEvent_getAction _Unwind_[A-Za-z]* rust_eh_personality"

wrong() {
  echo "$1" >&2
  exit 1
}

# Every name that is taken from the system is on the list, from a library that is there.
names() {
  local library=$1 unknown
  unknown=$(readelf --wide --dyn-syms "$library" | awk '$7 == "UND" && $8 { sub(/@.*/, "", $8); print $8 }' |
    sort -u | comm -23 - <(awk '!/^#/ { print $2 }' android/link/names.txt | sort -u))
  [ -z "$unknown" ] || wrong "android/link/names.txt has not got: $(echo $unknown)"
  unknown=$(awk '!/^#/ && ($3 !~ /^[0-9]+$/ || $3 > 29) { print $2 }' android/link/names.txt)
  [ -z "$unknown" ] || wrong "Android 10 has not got: $(echo $unknown)"
  unknown=$(readelf --wide -d "$library" | sed -n 's/.*(NEEDED).*\[lib\(.*\)\.so\]/\1/p' |
    sort -u | comm -23 - <(awk '!/^#/ { print $1 }' android/link/names.txt | sort -u))
  [ -z "$unknown" ] || wrong "the package brings along no library $(echo $unknown)"
}

# Laid out for memory pages of 16 KiB, changed nowhere but in its data, and started by its right name.
layout() {
  local library=$1 shown
  shown=$(readelf --wide -l "$library" | awk '$1 == "LOAD" && $NF != "0x4000"')
  [ -z "$shown" ] || wrong "a part of $library is not laid out for pages of 16 KiB: $shown"
  shown=$(readelf --wide -d "$library")
  ! grep -q TEXTREL <<<"$shown" || wrong "$library changes its own code when it is loaded"
  shown=$(readelf --wide --dyn-syms "$library" | awk '$5 != "LOCAL" && $7 ~ /^[0-9]+$/ { print $8 }' | sort -u)
  grep -qx ANativeActivity_onCreate <<<"$shown" || wrong "$library has no start"
  shown=$(grep -vxE "$(tr ' ' '|' <<<"$EXPORTS")" <<<"$shown" || true)
  [ -z "$shown" ] || wrong "$library gives out more than its start: $(echo $shown)"
}

# What the manifest names is in the package.
manifest() {
  local folder=$1 tree classes class
  classes=$(dexdump "$folder/classes.dex")
  tree=$(aapt2 dump xmltree --file AndroidManifest.xml "$folder.apk")
  for class in $(sed -n 's/.*:name(0x[0-9a-f]*)="\(app\.tautmark\.[A-Z][A-Za-z]*\)".*/\1/p' <<<"$tree"); do
    grep -q "Class descriptor  : 'L${class//.//};'" <<<"$classes" ||
      wrong "the manifest names $class, which is not in the package"
  done
  class=$(sed -n 's/.*:authorities(0x[0-9a-f]*)="\([^"]*\)".*/\1/p' <<<"$tree")
  grep -q "AUTHORITY = \"$class\"" android/java/app/tautmark/Lent.java ||
    wrong "the manifest opens $class, which is not where files are lent"
  class=$(grep -A1 'android.app.lib_name' <<<"$tree" | sed -n 's/.*:value(0x[0-9a-f]*)="\([^"]*\)".*/\1/p')
  grep -q 'queries' <<<"$tree" && grep -q 'android.intent.action.TTS_SERVICE' <<<"$tree" ||
    wrong "the manifest does not ask to see what reads aloud"
  [ "$class" = tautmark ] || wrong "the manifest names lib$class.so, and the app is libtautmark.so"
}

shell() {
  local folder=${1%.apk} shown
  rm -rf "$folder" && mkdir -p "$folder"
  unzip -q "$folder.apk" -d "$folder"
  apksigner verify --min-sdk-version 29 "$folder.apk" || wrong "the package is not signed"
  zipalign -c 4 "$folder.apk" || wrong "the package is not aligned"
  shown=$(aapt2 dump badging "$folder.apk")
  grep -E "^(package|launchable-activity|sdkVersion|targetSdkVersion|native-code)" <<<"$shown"
  grep -qx "targetSdkVersion:'36'" <<<"$shown" || wrong "stores ask for API level 36"
  ! grep -q "^uses-permission" <<<"$shown" || wrong "the app asks for a permission"
  dexdump -f "$folder/classes.dex" >/dev/null || wrong "classes.dex is spoilt"
  manifest "$folder"
}

library_of() {
  local folder=${1%.apk} abi=$2 size
  [ -f "$folder/lib/$abi/libtautmark.so" ] || wrong "the package has no library for $abi"
  names "$folder/lib/$abi/libtautmark.so"
  layout "$folder/lib/$abi/libtautmark.so"
  size=$(wc -c <"$folder.apk")
  [ "$size" -le "$LARGEST" ] || wrong "the package has grown to $size bytes: at most $LARGEST"
}
