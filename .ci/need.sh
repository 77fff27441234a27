# Sourced: `need COMMAND PACKAGE…` installs Debian's packages where the command (or file) is missing.

need() {
  local command=$1
  shift
  if command -v "$command" >/dev/null || [ -e "$command" ]; then
    return
  fi
  if ! command -v apt-get >/dev/null; then
    echo "$command is missing: install it (on Debian: $*) and run this again." >&2
    exit 2
  fi
  local as_root=()
  [ "$(id -u)" -eq 0 ] || as_root=(sudo)
  "${as_root[@]}" apt-get update
  "${as_root[@]}" apt-get install --yes --no-install-recommends "$@"
}
