package compare

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"testing"
)

// randomSets draws sets over the elements, each held with that chance in 100.
func randomSets(seed uint64, elements, sets, chance int) [][]int {
	rng := rand.New(rand.NewPCG(seed, 5))
	out := make([][]int, sets)
	for i := range out {
		for e := range elements {
			if rng.IntN(100) < chance {
				out[i] = append(out[i], e)
			}
		}
	}
	return out
}

// holes are the elements that none of the sets holds.
func holes(elements int, sets [][]int, chosen []int) (out []int) {
	held := map[int]bool{}
	for _, i := range chosen {
		for _, e := range sets[i] {
			held[e] = true
		}
	}
	for e := range elements {
		if !held[e] {
			out = append(out, e)
		}
	}
	return out
}

// upTo is 0 to n-1.
func upTo(n int) (out []int) {
	for i := range n {
		out = append(out, i)
	}
	return out
}

// triedAll tries every choice of sets: by size, then by the earlier sets.
func triedAll(elements int, sets [][]int) []int {
	missing := holes(elements, sets, upTo(len(sets)))
	var try func(chosen []int, from, k int) []int
	try = func(chosen []int, from, k int) []int {
		if k == 0 {
			if slices.Equal(holes(elements, sets, chosen), missing) {
				return slices.Clone(chosen)
			}
			return nil
		}
		for i := from; i < len(sets); i++ {
			if got := try(append(chosen, i), i+1, k-1); got != nil {
				return got
			}
		}
		return nil
	}
	if len(missing) == elements {
		return nil
	}
	for k := 1; ; k++ {
		if got := try(nil, 0, k); got != nil {
			return got
		}
	}
}

func TestFewestSetsAgainstEveryChoice(t *testing.T) {
	sizes, ragged := map[int]int{}, 0
	for seed := range uint64(1500) {
		elements, n := 1+int(seed%9), int(seed%11)
		sets := randomSets(seed, elements, n, 12+int(seed%40))
		got := FewestSets(elements, sets, CoverLimit)
		want := triedAll(elements, sets)
		if !slices.Equal(got.Sets, want) || !got.Proved {
			t.Fatalf("seed %d: FewestSets(%v) = %v proved %v, want %v", seed, sets, got.Sets, got.Proved, want)
		}
		if missing := holes(elements, sets, upTo(n)); !slices.Equal(got.Missing, missing) {
			t.Fatalf("seed %d: missing %v, want %v", seed, got.Missing, missing)
		}
		sizes[len(want)]++
		ragged += min(1, len(got.Missing))
	}
	for k := range 5 {
		if sizes[k] < 20 {
			t.Errorf("sizes = %v, want 20 or more of each up to 4", sizes)
		}
	}
	if ragged < 100 {
		t.Errorf("with elements missing: %d, want 100", ragged)
	}
}

// glpkText is the same problem as glpsol reads it.
func glpkText(elements int, sets [][]int) []byte {
	var b bytes.Buffer
	b.WriteString("Minimize\n n:")
	for i := range sets {
		fmt.Fprintf(&b, " + s%d", i)
	}
	b.WriteString("\nSubject To\n")
	for e := range elements {
		row := ""
		for i, set := range sets {
			if slices.Contains(set, e) {
				row += fmt.Sprintf(" + s%d", i)
			}
		}
		if row != "" {
			fmt.Fprintf(&b, " e%d:%s >= 1\n", e, row)
		}
	}
	b.WriteString("Binary\n")
	for i := range sets {
		fmt.Fprintf(&b, " s%d\n", i)
	}
	b.WriteString("End\n")
	return b.Bytes()
}

var glpkAnswer = regexp.MustCompile(`(?s)Status:\s+INTEGER OPTIMAL.*Objective:\s+n = (\d+)`)

func TestFewestSetsAgainstGlpsol(t *testing.T) {
	glpsol, err := exec.LookPath("glpsol")
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("glpsol is not installed: no oracle for the fewest sets")
		}
		t.Skip("glpsol is not installed: the fewest sets are not held against a solver")
	}
	dir := t.TempDir()
	text, answer := filepath.Join(dir, "cover.lp"), filepath.Join(dir, "answer")
	sizes := map[int]bool{}
	for seed := range uint64(50) {
		elements, n := 15+int(seed%16), 20+int(seed%31)
		sets := randomSets(seed, elements, n, 8+int(seed%5)*6)
		if err := os.WriteFile(text, glpkText(elements, sets), 0o600); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command(glpsol, "--lp", text, "-o", answer).CombinedOutput(); err != nil {
			t.Fatalf("seed %d: glpsol: %v\n%s", seed, err, out)
		}
		said, err := os.ReadFile(answer)
		if err != nil {
			t.Fatal(err)
		}
		m := glpkAnswer.FindSubmatch(said)
		if m == nil {
			t.Fatalf("seed %d: glpsol found no optimum:\n%s", seed, said)
		}
		want, _ := strconv.Atoi(string(m[1]))
		got := FewestSets(elements, sets, CoverLimit)
		if len(got.Sets) != want || !got.Proved {
			t.Errorf("seed %d: %d sets, proved %v; glpsol finds %d", seed, len(got.Sets), got.Proved, want)
		}
		if left := holes(elements, sets, got.Sets); !slices.Equal(left, got.Missing) {
			t.Errorf("seed %d: chosen sets leave %v, want %v", seed, left, got.Missing)
		}
		sizes[want] = true
	}
	if len(sizes) < 5 {
		t.Errorf("sizes = %v, want 5 different ones", sizes)
	}
}

func TestFewestSetsWhereTheWorkRunsOut(t *testing.T) {
	sets := randomSets(3, 60, 120, 10)
	whole := FewestSets(60, sets, CoverLimit*10)
	for _, limit := range []int{0, 1, 20, 400} {
		got := FewestSets(60, sets, limit)
		if got.Proved || len(got.Sets) < len(whole.Sets) {
			t.Errorf("%d steps: %d sets, proved %v; want none fewer than %d, and no proof", limit, len(got.Sets), got.Proved, len(whole.Sets))
		}
		if left := holes(60, sets, got.Sets); !slices.Equal(left, got.Missing) {
			t.Errorf("%d steps: chosen sets leave %v, want %v", limit, left, got.Missing)
		}
	}
}

// BenchmarkFewestSets chooses among 500 setups that each cover a part of 60
// replies.
func BenchmarkFewestSets(b *testing.B) {
	for _, chance := range []int{15, 30, 50, 80} {
		b.Run(fmt.Sprintf("each holds %d in 100", chance), func(b *testing.B) {
			sets := randomSets(1, 60, 500, chance)
			proved := 0
			var c Cover
			for b.Loop() {
				if c = FewestSets(60, sets, CoverLimit); c.Proved {
					proved++
				}
			}
			b.ReportMetric(float64(proved)/float64(b.N), "proved")
			b.ReportMetric(float64(len(c.Sets)), "sets")
		})
	}
}
