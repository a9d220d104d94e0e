package value

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// tolerance is how far glpsol, which reckons with floats and prints six digits,
// may be from the exact value, in parts of it or of 1.
const tolerance = 1e-5

// TestGamesAgainstASolver holds the value of 300 random games against glpsol's,
// which solves them as a linear program of the rows' side.
func TestGamesAgainstASolver(t *testing.T) {
	if _, err := exec.LookPath("glpsol"); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("glpsol is not installed: nothing to hold the games against")
		}
		t.Skip("glpsol is not installed: the games are not held against it")
	}
	dir := t.TempDir()
	r := rand.New(rand.NewPCG(9, 10))
	for n := range 300 {
		most := []int{3, 20, 1000}[n%3]
		payoff := random(r, 1+r.IntN(12), 1+r.IntN(20), most, most/2)
		want, err := glpsol(dir, payoff)
		if err != nil {
			t.Fatal(err)
		}
		got, _ := solved(t, payoff).Value.Float64()
		if math.Abs(got-want) > tolerance*math.Max(1, math.Abs(want)) {
			t.Errorf("game %d, %v: %v, glpsol says %v", n, payoff, got, want)
		}
	}
}

// glpsol is the value of a game by glpsol.
func glpsol(dir string, payoff [][]*big.Rat) (float64, error) {
	var b strings.Builder
	b.WriteString("Maximize\n value: v\nSubject To\n")
	for j := range payoff[0] {
		fmt.Fprintf(&b, " c%d: - v", j)
		for i := range payoff {
			fmt.Fprintf(&b, " %+d x%d", payoff[i][j].Num().Int64(), i)
		}
		b.WriteString(" >= 0\n")
	}
	b.WriteString(" all:")
	for i := range payoff {
		fmt.Fprintf(&b, " + x%d", i)
	}
	b.WriteString(" = 1\nBounds\n v free\nEnd\n")
	in, out := filepath.Join(dir, "game.lp"), filepath.Join(dir, "game.txt")
	if err := os.WriteFile(in, []byte(b.String()), 0o600); err != nil {
		return 0, err
	}
	if said, err := exec.Command("glpsol", "--lp", in, "-o", out).CombinedOutput(); err != nil {
		return 0, fmt.Errorf("%w: %s", err, said)
	}
	text, err := os.ReadFile(out)
	if err != nil {
		return 0, err
	}
	_, rest, ok := strings.Cut(string(text), "value = ")
	if !ok {
		return 0, fmt.Errorf("no value in %s", text)
	}
	return strconv.ParseFloat(strings.Fields(rest)[0], 64)
}
