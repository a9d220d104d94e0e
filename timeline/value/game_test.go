package value

import (
	"context"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"
)

// payoffs reads a table of them: rows apart by ";".
func payoffs(t testing.TB, text string) (out [][]*big.Rat) {
	t.Helper()
	for row := range strings.SplitSeq(text, ";") {
		out = append(out, fractions(t, row))
	}
	return out
}

func fractions(t testing.TB, text string) (out []*big.Rat) {
	t.Helper()
	for _, word := range strings.Fields(text) {
		r, ok := new(big.Rat).SetString(word)
		if !ok {
			t.Fatalf("%q is no number", word)
		}
		out = append(out, r)
	}
	return out
}

func shares(of []*big.Rat) string {
	var out []string
	for _, r := range of {
		out = append(out, r.RatString())
	}
	return strings.Join(out, " ")
}

// solved solves a game and holds it to its proof.
func solved(t testing.TB, payoff [][]*big.Rat) *Game {
	t.Helper()
	g, err := Solve(context.Background(), payoff)
	if err != nil {
		t.Fatal(err)
	}
	if err := g.Check(payoff); err != nil {
		t.Fatalf("%v: %v", payoff, err)
	}
	return g
}

// TestPublishedGames: games of textbooks, of courses and of readers' questions.
// "From memory": the matrix stands in that text, which was not read again for
// this test. The values and shares were worked out for this list and agree with
// the proof that Check asks for.
func TestPublishedGames(t *testing.T) {
	for _, c := range []struct{ source, payoff, value, rows, columns string }{
		{"matching pennies, common knowledge, from memory", "1 -1; -1 1", "0", "1/2 1/2", "1/2 1/2"},
		{"odd or even, Ferguson, Game Theory, part II.1, from memory", "-2 3; 3 -4", "1/12", "7/12 5/12", "7/12 5/12"},
		{"nickel and quarter, a course page of Stanford, 1998-99, the matrix read", "5 -15; -15 25", "-5/3", "2/3 1/3", "2/3 1/3"},
		{"a saddle, lecture notes, chapter 12, example 12.1, the matrix read", "-2 -3; -1 3", "-1", "0 1", "1 0"},
		{"two by three, a page of questions and answers, matrix and answer read", "1 2 3; 2 0 3", "4/3", "2/3 1/3", "2/3 1/3 0"},
		{"two by four, Ferguson, Game Theory, part II.2, from memory", "2 3 1 5; 4 1 6 0", "17/7", "5/7 2/7", "0 5/7 2/7 0"},
		{"rock, paper, scissors, common knowledge, from memory", "0 -1 1; 1 0 -1; -1 1 0", "0", "1/3 1/3 1/3", "1/3 1/3 1/3"},
		{"a skew game of Mendelsohn's kind, Ferguson, from memory", "0 -1 2; 1 0 -1; -2 1 0", "0", "1/4 1/2 1/4", "1/4 1/2 1/4"},
		{"a game whose matrix has an inverse, Ferguson, part II.3, from memory", "1 2 -1; 2 -1 4; -1 4 -3", "1", "1/4 1/2 1/4", "1/4 1/2 1/4"},
		{"a diagonal, 1 by the sum of the inverses, from memory", "1 0 0; 0 2 0; 0 0 3", "6/11", "6/11 3/11 2/11", "6/11 3/11 2/11"},
		{"the envelope game, Cambridge, part IB, 2010, paper 3, the rules read", "2 3 4; 3 4 -5; 4 -5 -6", "57/25", "41/50 2/25 1/10", "41/50 2/25 1/10"},
		{"three by three with a dominated row, a page of exercises, the matrix read", "-9 0 1; -10 0 0; 0 -1 -2", "-3/2", "1/6 0 5/6", "1/4 0 3/4"},
		{"three by four, a handout on Karlin and Peres, exercise 2.3, the matrix read", "8 3 4 1; 4 7 1 6; 0 3 8 5", "49/12", "31/96 3/8 29/96", "1/3 0 1/4 5/12"},
		{"the poker endgame, Ferguson, part II.5 (ante 1, bet 2, a winning card in one of four), from memory", "-3/2 1; 0 -1/2; -2 1; -1/2 -1/2", "-1/4", "1/6 5/6 0 0", "1/2 1/2"},
	} {
		payoff := payoffs(t, c.payoff)
		g := solved(t, payoff)
		if got := g.Value.RatString(); got != c.value || shares(g.Rows) != c.rows || shares(g.Columns) != c.columns || !g.Unique {
			t.Errorf("%s: %s, %s against %s, unique %v; want %s, %s against %s", c.source, got, shares(g.Rows), shares(g.Columns), g.Unique, c.value, c.rows, c.columns)
		}
	}
}

// TestPublishedGamesWithSeveralAnswers: the value, the proof, that the shares
// are not the only ones, and that the published ones prove the value too.
func TestPublishedGamesWithSeveralAnswers(t *testing.T) {
	for _, c := range []struct {
		source        string
		payoff        [][]*big.Rat
		value         string
		rows, columns []string // published
	}{
		{"Blotto, four against three companies and two posts, Dresher and Karlin, from memory", blotto(4, 3), "14/9",
			[]string{"4/9 0 1/9 0 4/9"}, []string{"1/18 4/9 4/9 1/18", "1/30 8/15 16/45 7/90"}},
		{"Morra with three fingers, Williams, from memory", morra(), "0",
			[]string{"0 0 5/12 0 4/12 0 3/12 0 0", "0 0 20/47 0 15/47 0 12/47 0 0", "0 0 16/37 0 12/37 0 9/37 0 0"}, nil},
		{"Kuhn's poker: the rules from a wiki of UBC, the loss of 1/18 from an article, both read", kuhn(), "-1/18", nil, nil},
	} {
		g := solved(t, c.payoff)
		if g.Value.RatString() != c.value || g.Unique {
			t.Errorf("%s: %s, unique %v, want %s and several", c.source, g.Value.RatString(), g.Unique, c.value)
		}
		for _, text := range c.rows {
			other := *g
			if other.Rows = fractions(t, text); other.Check(c.payoff) != nil {
				t.Errorf("%s: rows %s: %v", c.source, text, other.Check(c.payoff))
			}
		}
		for _, text := range c.columns {
			other := *g
			if other.Columns = fractions(t, text); other.Check(c.payoff) != nil {
				t.Errorf("%s: columns %s: %v", c.source, text, other.Check(c.payoff))
			}
		}
	}
	if got, want := blotto(4, 3), payoffs(t, "4 2 1 0; 1 3 0 -1; -2 2 2 -2; -1 0 3 1; 0 1 2 4"); shares(flat(got)) != shares(flat(want)) {
		t.Errorf("Blotto by its rules is %v, want %v", got, want)
	}
}

func flat(of [][]*big.Rat) (out []*big.Rat) {
	for _, row := range of {
		out = append(out, row...)
	}
	return out
}

// blotto is the game of two posts: each side parts its companies. On a post the
// larger part wins it and what it takes: 1 for the post and 1 for each company
// beaten there.
func blotto(mine, theirs int) (out [][]*big.Rat) {
	post := func(a, b int) int64 {
		switch {
		case a > b:
			return int64(b + 1)
		case a < b:
			return -int64(a + 1)
		}
		return 0
	}
	for a := mine; a >= 0; a-- {
		var row []*big.Rat
		for b := theirs; b >= 0; b-- {
			row = append(row, big.NewRat(post(a, b)+post(mine-a, theirs-b), 1))
		}
		out = append(out, row)
	}
	return out
}

// morra is the game of three fingers: show 1 to 3, guess the other's 1 to 3. If
// one alone guesses right, it wins the sum shown.
func morra() (out [][]*big.Rat) {
	for mine := range 9 {
		var row []*big.Rat
		for theirs := range 9 {
			show, guess, other, guessed := mine/3+1, mine%3+1, theirs/3+1, theirs%3+1
			pays := 0
			if guess == other && guessed != show {
				pays = show + other
			} else if guess != other && guessed == show {
				pays = -show - other
			}
			row = append(row, big.NewRat(int64(pays), 1))
		}
		out = append(out, row)
	}
	return out
}

// kuhn is Kuhn's poker: three cards, an ante and a bet of 1. With each card the
// first player passes and folds to a bet, passes and calls, or bets; the second
// answers a pass by a pass or a bet, and a bet by a fold or a call.
func kuhn() (out [][]*big.Rat) {
	digit := func(n, card, base int) int {
		for range card {
			n /= base
		}
		return n % base
	}
	for first := range 27 {
		var row []*big.Rat
		for second := range 64 {
			sum := int64(0)
			for a := range 3 {
				for b := range 3 {
					if a == b {
						continue
					}
					wins := int64(1)
					if a < b {
						wins = -1
					}
					plan, answer := digit(first, a, 3), digit(second, b, 4)
					bets, calls := answer&1 == 1, answer&2 == 2
					switch {
					case plan == 2 && calls:
						sum += 2 * wins
					case plan == 2:
						sum++
					case !bets:
						sum += wins
					case plan == 1:
						sum += 2 * wins
					default:
						sum--
					}
				}
			}
			row = append(row, big.NewRat(sum, 6))
		}
		out = append(out, row)
	}
	return out
}

// random is a game of payoffs from 0 to most-1, less low.
func random(r *rand.Rand, rows, columns, most, low int) (out [][]*big.Rat) {
	for range rows {
		var row []*big.Rat
		for range columns {
			row = append(row, big.NewRat(int64(r.IntN(most)-low), 1))
		}
		out = append(out, row)
	}
	return out
}

// TestSmallAndLargeGames: one row, one column, one payoff, ties, dominated rows
// and columns, 60 by 120.
func TestSmallAndLargeGames(t *testing.T) {
	for _, c := range []struct {
		payoff, value, rows, columns string
		unique                       bool
	}{
		{"7", "7", "1", "1", true},
		{"-7/3", "-7/3", "1", "1", true},
		{"3 1 2", "1", "1", "0 1 0", true},
		{"3 1 1", "1", "1", "", false},
		{"3; 1; 2", "3", "1 0 0", "1", true},
		{"3; 3; 2", "3", "", "1", false},
		{"5 5; 5 5", "5", "", "", false},
		{"0 0; 0 1", "0", "", "", false},
		{"1 -1; -1 1; -2 -2; 0 -3", "0", "1/2 1/2 0 0", "1/2 1/2", true},
		{"1 -1 2; -1 1 2", "0", "1/2 1/2", "1/2 1/2 0", true},
		{"1 -1; -1 1; 0 0", "0", "", "1/2 1/2", false},
	} {
		g := solved(t, payoffs(t, c.payoff))
		if g.Value.RatString() != c.value || g.Unique != c.unique || c.rows != "" && shares(g.Rows) != c.rows || c.columns != "" && shares(g.Columns) != c.columns {
			t.Errorf("%q: %s, %s against %s, unique %v; want %+v", c.payoff, g.Value.RatString(), shares(g.Rows), shares(g.Columns), g.Unique, c)
		}
	}
	r := rand.New(rand.NewPCG(1, 2))
	solved(t, random(r, 60, 120, 1000, 500))
	solved(t, random(r, 60, 120, 3, 1))
	for _, bad := range [][][]*big.Rat{nil, {{}}, {{big.NewRat(1, 1)}, {}}} {
		if g, err := Solve(context.Background(), bad); err == nil {
			t.Errorf("%v: %+v, want an error", bad, g)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Solve(ctx, random(r, 5, 5, 9, 0)); err == nil {
		t.Error("a game that was cancelled is solved")
	}
}

// TestUniqueIsProved tries every corner of small games: each side's best shares
// are the only ones where no two corners of them differ. Payoffs of few values
// make ties.
func TestUniqueIsProved(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	seen := map[bool]int{}
	for range 400 {
		payoff := random(r, 1+r.IntN(3), 1+r.IntN(3), 4, 1)
		g := solved(t, payoff)
		want := corners(payoff, g.Value) == 1 && corners(turned(payoff), new(big.Rat).Neg(g.Value)) == 1
		if g.Unique != want {
			t.Errorf("%v: unique %v, want %v", payoff, g.Unique, want)
		}
		seen[want]++
	}
	if seen[true] < 50 || seen[false] < 50 {
		t.Errorf("%v: too few of one kind", seen)
	}
}

// turned is the game as the columns' side sees it.
func turned(payoff [][]*big.Rat) [][]*big.Rat {
	out := make([][]*big.Rat, len(payoff[0]))
	for j := range out {
		for i := range payoff {
			out[j] = append(out[j], new(big.Rat).Neg(payoff[i][j]))
		}
	}
	return out
}

// corners counts the corners of the rows' best shares, of up to three rows: the
// points where enough of the bounds (a share of 0, a column that pays just the
// value) hold with equality to leave one.
func corners(payoff [][]*big.Rat, value *big.Rat) int {
	m := len(payoff)
	var bounds [][]*big.Rat // coefficients, then what they come to at least
	for i := range m {
		row := make([]*big.Rat, m+1)
		for k := range row {
			row[k] = new(big.Rat)
		}
		row[i].SetInt64(1)
		bounds = append(bounds, row)
	}
	for j := range payoff[0] {
		var row []*big.Rat
		for i := range m {
			row = append(row, payoff[i][j])
		}
		bounds = append(bounds, append(row, value))
	}
	sum := make([]*big.Rat, m+1)
	for i := range sum {
		sum[i] = big.NewRat(1, 1)
	}
	found := map[string]bool{}
	var pick func(from int, rows [][]*big.Rat)
	pick = func(from int, rows [][]*big.Rat) {
		if len(rows) == m {
			if x := only(rows); x != nil && holds(bounds, x) {
				found[shares(x)] = true
			}
			return
		}
		for k := from; k < len(bounds); k++ {
			pick(k+1, append(rows[:len(rows):len(rows)], bounds[k]))
		}
	}
	pick(0, [][]*big.Rat{sum})
	return len(found)
}

func holds(bounds [][]*big.Rat, x []*big.Rat) bool {
	for _, b := range bounds {
		left := new(big.Rat)
		for i := range x {
			left.Add(left, new(big.Rat).Mul(b[i], x[i]))
		}
		if left.Cmp(b[len(x)]) < 0 {
			return false
		}
	}
	return true
}

// only is the one solution of as many equations as unknowns, nil where there is
// not just one.
func only(rows [][]*big.Rat) []*big.Rat {
	n := len(rows)
	a := make([][]*big.Rat, n)
	for i := range rows {
		for _, v := range rows[i] {
			a[i] = append(a[i], new(big.Rat).Set(v))
		}
	}
	for c := range n {
		p := c
		for p < n && a[p][c].Sign() == 0 {
			p++
		}
		if p == n {
			return nil
		}
		a[c], a[p] = a[p], a[c]
		for i := range n {
			if i == c || a[i][c].Sign() == 0 {
				continue
			}
			f := new(big.Rat).Quo(a[i][c], a[c][c])
			for j := c; j <= n; j++ {
				a[i][j].Sub(a[i][j], new(big.Rat).Mul(f, a[c][j]))
			}
		}
	}
	var x []*big.Rat
	for i := range n {
		x = append(x, new(big.Rat).Quo(a[i][n], a[i][i]))
	}
	return x
}

// TestAGameFromWhereAnotherEnded comes to the same value.
func TestAGameFromWhereAnotherEnded(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 50 {
		payoff := random(r, 2+r.IntN(6), 2+r.IntN(9), 50, 20)
		first := solved(t, payoff)
		payoff[r.IntN(len(payoff))][r.IntN(len(payoff[0]))].SetInt64(r.Int64N(50) - 20)
		again, err := solveFrom(context.Background(), payoff, first.basis)
		if err != nil {
			t.Fatal(err)
		}
		if err := again.Check(payoff); err != nil || again.Value.Cmp(solved(t, payoff).Value) != 0 {
			t.Errorf("%v: %s, %v", payoff, again.Value.RatString(), err)
		}
	}
}

func BenchmarkSolve(b *testing.B) {
	r := rand.New(rand.NewPCG(7, 8))
	for _, size := range [][2]int{{12, 60}, {30, 150}, {60, 120}} {
		for _, most := range []int{1000, 3} {
			payoff := random(r, size[0], size[1], most, most/2)
			b.Run(shares([]*big.Rat{big.NewRat(int64(size[0]), 1), big.NewRat(int64(size[1]), 1), big.NewRat(int64(most), 1)}), func(b *testing.B) {
				for b.Loop() {
					if _, err := Solve(context.Background(), payoff); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
