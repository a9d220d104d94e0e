#!/usr/bin/env bash
# Collects the licence of every module that the program is built of, on any
# system, and those of the fonts, into assets/licences.txt, which is built into
# the program for `wakeline --licences`. Run it when a module is added, taken
# out or has another version; a test of cmd/wakeline says when.
#
# The texts are found and told apart by a tool of Elastic's, which reads what
# `go list` says and asks no server.
set -eu
cd "$(dirname "$0")/../.."
. cmd/setup.sh
find_go
detector=go.elastic.co/go-licence-detector@v0.7.0

# our own replacements have no licence of their own
modules=$(for os in linux windows darwin; do
  GOOS=$os CGO_ENABLED=1 go list -deps -f '{{with .Module}}{{if not (or .Main .Replace)}}{{.Path}}{{end}}{{end}}' ./cmd/wakeline
done | LC_ALL=C sort -u)
text=$(mktemp)
trap 'rm -f "$text"' EXIT
# shellcheck disable=SC2086 # a list of words
go list -m -json $modules |
  go run "$detector" -includeIndirect -depsTemplate=cmd/package/licences.tpl -depsOut="$text"

toolkit=$(go list -m -f '{{.Dir}}' fyne.io/fyne/v2)
windows=$(go list -m -f '{{.Dir}}' github.com/go-gl/glfw/v3.3/glfw)
also() { # NAME FILE
  printf '\n%s\n%s\n%s\n\n' "$line" "$1" "$line"
  cat "$2"
}
line=$(printf '=%.0s' {1..80})
{
  cat "$text"
  also "The Go standard library (BSD-3-Clause)" "$(go env GOROOT)/LICENSE"
  also "GLFW, in github.com/go-gl/glfw (Zlib)" "$windows/glfw/LICENSE.md"
  also "SQLite, in github.com/mattn/go-sqlite3 (public domain)" - <<<"The authors of SQLite have dedicated it to the public domain."
  also "The font Noto Sans (OFL-1.1)" assets/fonts/LICENSE-NotoSans.txt
  also "The font Inter, its symbols, in fyne.io/fyne/v2 (OFL-1.1)" "$toolkit/theme/font/LICENSE_Inter.txt"
  also "The font DejaVu Sans Mono, in fyne.io/fyne/v2 (Bitstream-Vera)" "$toolkit/theme/font/LICENSE_DejaVu-Powerline.txt"
} | tr -d '\r' | sed -e 's/[ \t]*$//' -e '/^Contents of probable licence file/,+1d' >assets/licences.txt
say "assets/licences.txt: $(grep -c '^=\{80\}$' assets/licences.txt | awk '{ print $1 / 2 }') licences"
