package find

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"wakeline/timeline"
)

// tool skips the test where a tool is missing, and fails it in CI.
func tool(t testing.TB, name string) {
	t.Helper()
	if _, err := exec.LookPath(name); err == nil {
		return
	}
	if os.Getenv("CI") != "" {
		t.Fatalf("%s is not installed: nothing to hold the search against", name)
	}
	t.Skipf("%s is not installed: the search is not held against it", name)
}

// puzzle is a query as a solver sees it: whole numbers that must add up.
type puzzle struct {
	q        *Query
	fillers  []filler
	pairs    [][2]string
	costs    []int // of the attacks
	starts   []timeline.Set
	verdicts []map[int]int // by pair and start: the least spare
}

func newPuzzle(t testing.TB, p *timeline.Project, q *Query) *puzzle {
	t.Helper()
	att := &p.Fighters[0]
	z := &puzzle{q: q, fillers: q.fillers(att, p.Ruleset, false), pairs: q.pairs(att)}
	for _, pair := range z.pairs {
		good := timeline.Set{}
		spares := map[int]int{}
		for i, target := range q.targets() {
			plan, err := timeline.Compile(p, q.against(target, pair[0], pair[1]))
			if err != nil {
				t.Fatal(err)
			}
			one := plan.WindowSet()
			for _, f := range frameList(one) {
				v := plan.Verdict(f)
				if v.Word == timeline.Unsafe || v.Word == timeline.Limited && !q.Limited {
					one = timeline.Set{}
					break
				}
				if _, ok := spares[f]; !ok {
					spares[f] = noSpare
				}
				for _, rise := range v.Rises {
					for _, x := range rise.Replies {
						if x.Demand != timeline.DemandNone && x.Outcome.Survived() {
							spares[f] = min(spares[f], x.Spare.Or(noSpare))
						}
					}
				}
			}
			if i == 0 {
				good = one
			} else {
				good = good.And(one)
			}
		}
		z.costs = append(z.costs, att.Move(pair[1]).GaugeCost)
		z.starts = append(z.starts, good)
		z.verdicts = append(z.verdicts, spares)
	}
	return z
}

// minizinc writes the puzzle as a model that prints a solution a line: the
// pair, the wait, then the fillers by place from 1 (0: none), or, where order
// doesn't matter, how many there are of each.
func (z *puzzle) minizinc() string {
	var b strings.Builder
	put := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	n, most := len(z.fillers), z.q.Most
	var frames, gauge, sets []string
	for _, f := range z.fillers {
		frames, gauge = append(frames, fmt.Sprint(f.frames)), append(gauge, fmt.Sprint(f.gauge))
	}
	last := 0
	for _, s := range z.starts {
		last = max(last, s.Last())
		sets = append(sets, "{"+strings.Join(numbers(frameList(s)), ",")+"}")
	}
	put("array[0..%d] of int: len = array1d(0..%d, [%s]);", n, n, strings.Join(append([]string{"0"}, frames...), ","))
	put("array[0..%d] of int: cost = array1d(0..%d, [%s]);", n, n, strings.Join(append([]string{"0"}, gauge...), ","))
	put("array[1..%d] of set of int: good = [%s];", len(sets), strings.Join(sets, ","))
	put("array[1..%d] of int: price = [%s];", len(sets), strings.Join(numbers(z.costs), ","))
	put("var 1..%d: way; var 0..%d: wait;", len(sets), min(z.q.Wait.Or(last), last))
	if z.q.Ordered {
		put("array[1..%d] of var 0..%d: x;", most, n)
		put("constraint forall(i in 1..%d-1)(x[i] == 0 -> x[i+1] == 0);", most)
		put("var int: total = sum(i in 1..%d)(len[x[i]]); var int: paid = sum(i in 1..%d)(cost[x[i]]);", most, most)
	} else {
		put("array[1..%d] of var 0..%d: x;", n, most)
		put("constraint sum(x) <= %d;", most)
		put("var int: total = sum(i in 1..%d)(len[i] * x[i]); var int: paid = sum(i in 1..%d)(cost[i] * x[i]);", n, n)
	}
	put("constraint paid + price[way] <= %d;", z.q.Gauge)
	put("constraint forall(k in 1..%d)(way == k -> total + wait in good[k]);", len(sets))
	put("solve satisfy;")
	put(`output ["= ", show(way), " ", show(wait), " "] ++ [show(x[i]) ++ " " | i in index_set(x)] ++ ["\n"];`)
	return b.String()
}

// read takes a line that the model printed.
func (z *puzzle) read(line string) (f found) {
	var ns []int
	for _, word := range strings.Fields(line)[1:] {
		n, err := strconv.Atoi(word)
		if err != nil {
			panic(err)
		}
		ns = append(ns, n)
	}
	way, wait := ns[0]-1, ns[1]
	var names []string
	sum := 0
	f.cost = z.costs[way]
	add := func(i int) {
		names = append(names, z.fillers[i].name)
		sum += z.fillers[i].frames
		f.cost += z.fillers[i].gauge
	}
	for i, n := range ns[2:] {
		if z.q.Ordered {
			if n > 0 {
				add(n - 1)
			}
			continue
		}
		for range n {
			add(i)
		}
	}
	a := Answer{Setups: []timeline.Setup{{Fillers: names, Delay: wait, Jump: z.pairs[way][0], Attack: z.pairs[way][1]}}}
	f.key, f.fillers, f.wait, f.spare = a.key(), len(names), min(wait, 1), z.verdicts[way][sum+wait]
	f.chance = math.Pow(z.q.Hand.Link(), float64(len(names))) * z.q.Hand.Wait(z.starts[way], sum, sum+wait)
	return f
}

// MiniZinc's Gecode lists every solution of the same whole numbers: as many as
// the search counts, and, sorted by the page's rank, the same at the top.
func TestAgainstGecode(t *testing.T) {
	tool(t, "minizinc")
	const shards = 2
	trials := 104
	if testing.Short() {
		trials = 24
	}
	for shard := range shards {
		t.Run(fmt.Sprint(shard), func(t *testing.T) {
			t.Parallel()
			some, largest := 0, 0
			for done, seed := 0, uint64(1000*(shard+1)); done < trials/shards; seed++ {
				p, q := trial(seed, 16)
				q.Fillers = slices.DeleteFunc(q.Fillers, func(name string) bool { return slices.Contains(q.Not, name) })
				z := newPuzzle(t, p, &q)
				if q.Most == 0 || len(z.fillers) == 0 || seed%5 > 0 && !slices.ContainsFunc(z.starts, func(s timeline.Set) bool { return !s.Empty() }) {
					continue // little for a solver to do
				}
				done++
				n := againstGecode(t, seed, p, z)
				largest = max(largest, n)
				if n > 0 {
					some++
				}
			}
			if some < trials/shards/3 || largest < 1000 {
				t.Errorf("%d trials have answers, the most has %d: too few to prove much", some, largest)
			}
		})
	}
}

func againstGecode(t *testing.T, seed uint64, p *timeline.Project, z *puzzle) int {
	t.Helper()
	all := []found{}
	for _, line := range solutions(t, z.minizinc()) {
		all = append(all, z.read(line))
	}
	r := look(t, p, *z.q)
	if r.Count.Int64() != int64(len(all)) {
		t.Fatalf("seed %d: %v answers, Gecode has %d", seed, r.Count, len(all))
	}
	slices.SortFunc(all, compare)
	by := map[string]found{}
	for _, f := range all {
		by[f.key] = f
	}
	for i := range r.Answers {
		f, ok := by[r.Answers[i].key()]
		if !ok {
			t.Fatalf("seed %d: Gecode doesn't have answer %d, %s", seed, i+1, r.Answers[i].key())
		}
		if !inOrder(f, all[i]) || !inOrder(all[i], f) {
			t.Fatalf("seed %d: answer %d is %+v, Gecode's is %+v", seed, i+1, f, all[i])
		}
	}
	return len(all)
}

// solutions runs a model and returns the lines of its solutions.
func solutions(t testing.TB, model string, more ...string) (out []string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "setups.mzn")
	if err := os.WriteFile(path, []byte(model), 0o600); err != nil {
		t.Fatal(err)
	}
	var stderr bytes.Buffer
	cmd := exec.Command("minizinc", append([]string{"--solver", "gecode", "--all-solutions", path}, more...)...)
	cmd.Stderr = &stderr
	text, err := cmd.Output()
	if err != nil {
		t.Fatalf("minizinc: %v: %s\n%s", err, stderr.String(), model)
	}
	for line := range strings.Lines(string(text)) {
		if strings.HasPrefix(line, "= ") {
			out = append(out, line)
		}
	}
	return out
}

// glpk writes the puzzle, without a counted wait, as an integer programme in
// CPLEX's LP format: the fewest fillers that end on a good start.
func (z *puzzle) glpk() string {
	var few, ends, paid, one, whole []string
	for i, f := range z.fillers {
		few = append(few, fmt.Sprintf("x%d", i))
		ends = append(ends, fmt.Sprintf("%d x%d", f.frames, i))
		paid = append(paid, fmt.Sprintf("%d x%d", f.gauge, i))
	}
	whole = slices.Clone(few)
	for k, s := range z.starts {
		for _, f := range frameList(s) {
			name := fmt.Sprintf("b%d_%d", k, f)
			one, whole = append(one, name), append(whole, name)
			ends = append(ends, fmt.Sprintf("-%d %s", f, name))
			paid = append(paid, fmt.Sprintf("%d %s", z.costs[k], name))
		}
	}
	return fmt.Sprintf("Minimize\n few: %s\nSubject To\n most: %s <= %d\n ends: %s = 0\n paid: %s <= %d\n one: %s = 1\nBounds\n%sGenerals\n %s\nEnd\n",
		strings.Join(few, " + "), strings.Join(few, " + "), z.q.Most, strings.ReplaceAll(strings.Join(ends, " + "), "+ -", "- "), strings.Join(paid, " + "), z.q.Gauge,
		strings.Join(one, " + "), " "+strings.Join(one, " <= 1\n ")+" <= 1\n", strings.Join(whole, " "))
}

// The GNU Linear Programming Kit finds the fewest fillers without a counted
// wait: as many as the shortest answer has, or that there is none.
func TestShortestAgainstGLPK(t *testing.T) {
	tool(t, "glpsol")
	some, none, longest := 0, 0, 0
	for seed := uint64(5000); some+none < 100; seed++ {
		p, q := trial(seed, 12)
		q.Wait, q.List, q.Ordered = timeline.Some(0), 1, false
		z := newPuzzle(t, p, &q)
		if q.Most == 0 || len(z.fillers) == 0 || !slices.ContainsFunc(z.starts, func(s timeline.Set) bool { return !s.Empty() }) {
			continue
		}
		s, err := newSearch(timeline.NewIndex(p), p, q)
		if err != nil {
			t.Fatal(err)
		}
		r, err := s.run(context.Background(), shortest)
		if err != nil {
			t.Fatal(err)
		}
		want, ok := fewest(t, z.glpk())
		if ok != (len(r.Answers) > 0) {
			t.Fatalf("seed %d: glpsol finds one: %v; the search has %v", seed, ok, r.Count)
		}
		if !ok {
			none++
			continue
		}
		some++
		longest = max(longest, want)
		if got := len(r.Answers[0].Setups[0].Fillers); got != want {
			t.Errorf("seed %d: the shortest has %d fillers, glpsol's %d", seed, got, want)
		}
	}
	if some < 40 || none < 10 || longest < 3 {
		t.Errorf("%d found, %d not, the longest of %d fillers: too few to prove much", some, none, longest)
	}
}

// fewest runs glpsol; ok is false where there is no solution.
func fewest(t *testing.T, model string) (n int, ok bool) {
	t.Helper()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.lp"), filepath.Join(dir, "out")
	if err := os.WriteFile(in, []byte(model), 0o600); err != nil {
		t.Fatal(err)
	}
	if text, err := exec.Command("glpsol", "--lp", in, "-w", out).CombinedOutput(); err != nil {
		t.Fatalf("glpsol: %v: %s\n%s", err, text, model)
	}
	text, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(text)) {
		// "s mip ROWS COLUMNS STATUS OBJECTIVE"; o is optimal, n has none.
		if words := strings.Fields(line); len(words) == 6 && words[0] == "s" {
			n, err := strconv.Atoi(words[5])
			return n, words[4] == "o" && err == nil
		}
	}
	t.Fatalf("glpsol: no solution line in %s\n%s", text, model)
	return 0, false
}
