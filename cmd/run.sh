#!/usr/bin/env bash
# Builds Wakeline and opens its window; arguments go to the program. Installs
# what is missing first. Without a display it judges the sample and draws the
# strip of its first setup instead, and says so.
set -eu
here=$(pwd)
cd "$(dirname "$0")/.."
. cmd/setup.sh

need "${build_packages[@]}" "${window_packages[@]}"
find_go
program=$(mktemp -d)/wakeline
trap 'rm -rf "$(dirname "$program")"' EXIT
say "building (the first time takes some minutes)"
go build -buildvcs=false -o "$program" ./cmd/wakeline

if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
  cd "$here"
  "$program" "$@"
  exit
fi

say "no display here, so no window: judging the sample and drawing its first strip instead"
"$program" judge samples/sample.json || [ $? = 1 ] # 1: done, and some setups are unsafe, as the sample means them to be
first=$("$program" judge samples/sample.json --json | sed -n 's/^ *"setup": "\(.*\)",$/\1/p' | head -n 1) || true
"$program" draw samples/sample.json --setup "$first" --out "$here/wakeline-strip.png"
say "the strip: $here/wakeline-strip.png"
