#!/usr/bin/env bash
# All of Wakeline's checks, on a machine with nothing set up: installs what is
# missing, then form, meaning, tests, and a real window. With --packages it also
# makes the packages and tries them, which takes some ten minutes more.
set -eu
case "$*" in '' | --packages) packages=${1:-} ;; *) echo "expected --packages or nothing, got $*" >&2; exit 2 ;; esac
cd "$(dirname "$0")/.."
. cmd/setup.sh

need "${build_packages[@]}" "${window_packages[@]}" git \
  dbus-daemon z3 glpk-utils minizinc sqlite3 pngcheck librsvg2-bin libxml2-utils xvfb xdotool openbox x11-utils imagemagick poppler-utils ffmpeg
find_go

# The test in a browser: Chromium, and modules of Node in the versions that its
# lock file names. A Node that is there already is taken.
need chromium
command -v npm >/dev/null || need nodejs npm
export WAKELINE_BROWSER="${WAKELINE_BROWSER:-${TMPDIR:-/tmp}/wakeline-browser}"
mkdir -p "$WAKELINE_BROWSER"
cp cmd/wakeline/testdata/browser/package.json cmd/wakeline/testdata/browser/package-lock.json "$WAKELINE_BROWSER"
npm ci --prefix "$WAKELINE_BROWSER" --ignore-scripts --no-audit --no-fund >&2 || say "the modules of the test in a browser could not be fetched: that test will fail"

step() { say "== $*"; }

step "gofmt"
unformatted=$(gofmt -l assets cmd samples storage timeline ui)
[ -z "$unformatted" ] || { say "not formatted: $unformatted"; exit 1; }

step "go vet"
go vet ./...
go vet -tags trace ./ui ./cmd/wakeline # as the test of the real window builds the program

step "staticcheck"
go run honnef.co/go/tools/cmd/staticcheck@v0.8.2 ./...

# The race detector makes tests many times slower, and what it looks for needs no
# thousands of random projects. So where -short shortens something, tests run
# twice: whole without the detector, and in short with it. They make much garbage
# and keep little: the collector runs less often for them, until there is much.
step "tests, whole: the core, the project file, the window"
GOGC=800 GOMEMLIMIT=1GiB go test -timeout 40m ./storage/... ./timeline/... ./ui
step "tests, with the race detector, in short: the pure packages"
go test -race -short -timeout 30m ./assets/... ./samples/... ./storage/... ./timeline/... ./ui/sheet/... ./ui/output/...

export WAKELINE_SHOTS="${WAKELINE_SHOTS:-${TMPDIR:-/tmp}/wakeline-shots}"
mkdir -p "$WAKELINE_SHOTS"
step "tests, with the race detector, in short: the window"
go test -race -short -timeout 40m $(go list ./ui/... | grep -vE '/ui/(sheet|output)')
step "tests, with the race detector: the program, in a real window too; its pictures go to $WAKELINE_SHOTS"
go test -race -timeout 40m ./cmd/...

step "fuzzing, a while each"
out=$(mktemp)
for target in timeline:FuzzReadText timeline:FuzzReadSearch timeline/merge:FuzzMerge timeline:FuzzJudgeAgainstFrames timeline:FuzzValueAgainstFrames storage:FuzzOpen storage/book:FuzzBook storage/table:FuzzRead storage/table:FuzzForeign storage/table:FuzzReadRoutes ui/sheet:FuzzDraw ui/grid:FuzzParseBlock timeline/handout:FuzzCaptions; do
  # what a slow target finds is made smaller five times, not for a minute
  go test -run '^$' -fuzz "^${target#*:}\$" -fuzztime "${FUZZTIME:-10s}" -fuzzminimizetime 5x "./${target%:*}" >"$out" 2>&1 || {
    # go test itself may end so when its time is up, without a failing input
    if grep -q 'context deadline exceeded' "$out" && ! grep -q 'Failing input' "$out"; then
      say "$target: no failing input; the time was up in the midst of one"
    else
      cat "$out"
      exit 1
    fi
  }
  tail -n 1 "$out"
done
rm -f "$out"

step "benchmarks run (their figures stand in DEVELOPERS.md)"
go test -run '^$' -bench . -benchtime 5x -benchmem ./timeline ./timeline/find ./timeline/odds ./timeline/value ./ui ./ui/grid ./ui/page/... ./ui/sheet ./ui/output/webpage
[ -z "$packages" ] || bash cmd/testpackages.sh
step "all checks passed"
