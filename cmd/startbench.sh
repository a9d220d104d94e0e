#!/usr/bin/env bash
# Times the start: how long a window needs to be on screen, painted, after exec:
# Wakeline's with the sample, and beside it an empty one of the toolkit, in
# turns; and how long `judge` of the sample takes. On a virtual screen, painted
# by software.
#
#   bash cmd/startbench.sh [TIMES]
set -eu
cd "$(dirname "$0")/.."
. cmd/setup.sh
need "${build_packages[@]}" "${window_packages[@]}" xvfb
find_go
times=${1:-10}

work=$(mktemp -d)
server=
trap '[ -z "$server" ] || kill "$server"; rm -rf "$work"' EXIT
say "building"
gcc -O2 -o "$work/firstpaint" cmd/startbench/firstpaint.c -lX11
flags=(-buildvcs=false -trimpath -tags no_emoji,migrated_fynedo -ldflags '-s -w') # as packages have them
go build "${flags[@]}" -o "$work/wakeline" ./cmd/wakeline
cat >"$work/empty.go" <<'EOF'
package main

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/widget"
)

func main() {
	w := app.NewWithID("org.wakeline.empty").NewWindow("Empty")
	w.SetContent(widget.NewLabel("Empty"))
	w.Resize(fyne.NewSize(1280, 800))
	w.CenterOnScreen()
	w.ShowAndRun()
}
EOF
go build "${flags[@]}" -o "$work/empty" "$work/empty.go"

mkfifo "$work/display"
Xvfb -displayfd 3 -screen 0 1280x800x24 -noreset -nolisten tcp 3>"$work/display" 2>/dev/null &
server=$!
read -r display <"$work/display"
export DISPLAY=:$display HOME=$work XDG_CONFIG_HOME=$work/config XDG_STATE_HOME=$work/state

# middle WHICH prints the least and the middle of that column.
middle() { awk "{ print \$$1 }" | sort -n | awk '{ v[NR] = $1 } END { printf "%d to %d ms", v[1], v[int((NR + 1) / 2)] }'; }
for _ in $(seq "$times"); do
  "$work/firstpaint" 2 "$work/empty" >>"$work/empty.ms"
  "$work/firstpaint" 32 "$work/wakeline" samples/sample.json >>"$work/wakeline.ms"
  from=$(date +%s%N)
  "$work/wakeline" judge samples/sample.json >/dev/null || [ $? = 1 ]
  echo $((($(date +%s%N) - from) / 1000000)) >>"$work/judge.ms"
done
echo "Of $times runs, from the least to the middle:"
echo "an empty window of the toolkit: $(middle 1 <"$work/empty.ms"), of the processor $(middle 2 <"$work/empty.ms")"
echo "Wakeline with the sample: $(middle 1 <"$work/wakeline.ms"), of the processor $(middle 2 <"$work/wakeline.ms")"
echo "judge of the sample: $(middle 1 <"$work/judge.ms")"
