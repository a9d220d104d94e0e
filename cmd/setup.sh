# Read by run.sh and test.sh: finds or installs what a fresh Debian lacks.
# need PACKAGE... installs the Debian packages that are missing, with apt.

# The oldest Go that go.mod takes, and the one that is fetched where Go is older.
go_needed=1.26
go_fetched=1.26.8

say() { printf '%s\n' "$*" >&2; }

as_root() {
  if [ "$(id -u)" = 0 ]; then "$@"; elif command -v sudo >/dev/null; then sudo "$@"; else
    say "not root, and no sudo to run: $*"
    return 1
  fi
}

need() {
  command -v dpkg-query >/dev/null || {
    say "no apt on this machine: please install what these Debian packages hold: $*"
    return 0
  }
  local missing=()
  for package in "$@"; do
    dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || missing+=("$package")
  done
  [ ${#missing[@]} = 0 ] && return 0
  say "installing: ${missing[*]}"
  as_root apt-get update -qq >&2 &&
    as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null || {
    say "could not install: ${missing[*]}"
    return 1
  }
}

# What a build of the window needs.
build_packages=(gcc libc6-dev pkg-config libgl1-mesa-dev xorg-dev libxkbcommon-dev ca-certificates)

# What the window needs to show itself.
window_packages=(libgl1 libgl1-mesa-dri)

# find_go puts a Go that is new enough on the PATH: the one there, the usual
# place, or the toolchain that an older Go fetches as a module.
find_go() {
  PATH="$PATH:/usr/local/go/bin:$HOME/go/bin"
  command -v go >/dev/null || need golang-go || return 1
  command -v go >/dev/null || {
    say "Go is missing: please install Go $go_needed or newer"
    return 1
  }
  local have
  have=$(cd / && go env GOVERSION 2>/dev/null | sed 's/^go//')
  at_least "$go_needed" "$have" && return 0
  at_least 1.21 "$have" && return 0 # from 1.21 on, Go fetches what go.mod asks for
  fetch_go
}

at_least() { [ "$(printf '%s\n%s\n' "$1" "$2" | sort -V | head -n 1)" = "$1" ]; }

# fetch_go lets an old Go download the newer toolchain as the module that it
# is, checked against the checksum database, and puts that on the PATH.
fetch_go() {
  local version="v0.0.1-go$go_fetched.$(go env GOOS)-$(go env GOARCH)" root
  say "fetching Go $go_fetched"
  (cd / && GOFLAGS=-mod=mod go mod download "golang.org/toolchain@$version") >&2 || return 1
  root="$(cd / && go env GOMODCACHE)/golang.org/toolchain@$version"
  [ -x "$root/bin/go" ] || {
    chmod u+w "$root/bin" "$root/bin"/* && chmod +x "$root/bin"/* &&
      find "$root/pkg/tool" -type f -exec chmod u+w,+x {} + || return 1
  }
  export PATH="$root/bin:$PATH" GOTOOLCHAIN=local
}
