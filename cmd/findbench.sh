#!/usr/bin/env bash
# Times a search beside MiniZinc's Gecode, which lists all solutions of the
# same whole numbers, and prints how many times as long that takes. It begins
# with what the search is measured by, 40 fillers and at most five of them, and
# takes fewer fillers until Gecode ends within SECONDS, 60 if not given.
#
#   bash cmd/findbench.sh [SECONDS]
set -eu
cd "$(dirname "$0")/.."
. cmd/setup.sh
need minizinc
find_go
seconds=${1:-60}

program=$(mktemp -d)
trap 'rm -rf "$program"' EXIT
go test -c -o "$program/find.test" ./timeline/find

for fillers in 40 30 20 10; do
  say "$fillers fillers, at most 5 in a sequence"
  if out=$(WAKELINE_GECODE="$fillers 5" timeout "$seconds" "$program/find.test" \
      -test.run '^$' -test.bench 'BenchmarkBesideGecode' -test.benchtime 1x) && line=$(grep ms-gecode <<<"$out"); then
    awk '{ for (i = 4; i <= NF; i += 2) v[$i] = $(i - 1)
      printf "%d answers: search %.1f ms, Gecode %.0f ms, %.0f times as long\n", v["answers"], v["ms-search"], v["ms-gecode"], v["times"] }' <<<"$line"
    exit 0
  fi
  say "not within $seconds seconds"
done
exit 1
