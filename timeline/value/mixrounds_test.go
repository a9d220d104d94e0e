package value

import (
	"context"
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/odds"
)

// ends is a cell that ends in one of those ways.
func ends(of ...option) cell { return cell{{big.NewRat(1, 1), of}} }

func settled(t testing.TB, carry *big.Rat, mixes ...*Mix) (p *process, bound float64) {
	t.Helper()
	p = &process{carry: carry, mixes: mixes}
	b, err := p.settle(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	bound, _ = b.Float64()
	return p, bound
}

// TestTwoRoundsByHand: in A both sides guess; a hit is 2 and leads to B, which
// is always 3 and leads to A. With half carried A = (2 + B/2)/2 and
// B = 3 + A/2: 2 and 4.
func TestTwoRoundsByHand(t *testing.T) {
	hit, miss := ends(option{2, "B"}), ends(option{0, ""})
	p, bound := settled(t, big.NewRat(1, 2),
		&Mix{Ender: "A", cells: [][]cell{{hit, miss}, {miss, hit}}},
		&Mix{Ender: "B", cells: [][]cell{{ends(option{3, "A"})}}})
	for i, want := range []float64{2, 4} {
		if got, _ := p.values[i].Float64(); math.Abs(got-want) > bound || bound > 1e-8 {
			t.Errorf("value %d is %v, want %v within %v", i, got, want, bound)
		}
	}
	// A route of less points that leads on is taken where that is worth more.
	p, _ = settled(t, big.NewRat(1, 2), &Mix{Ender: "A", cells: [][]cell{{ends(option{10, ""}, option{6, "A"})}}})
	if got, _ := p.values[0].Float64(); math.Abs(got-12) > 1e-7 {
		t.Errorf("a choice that leads on: %v, want 12", got)
	}
}

// TestRandomRounds holds the values against plain iteration, which comes as near
// as carry to the power of its steps.
func TestRandomRounds(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for n := range 30 {
		var mixes []*Mix
		for s := range 1 + r.IntN(4) {
			m := &Mix{Ender: fmt.Sprint(s)}
			columns := 1 + r.IntN(4)
			for range 1 + r.IntN(4) {
				var row []cell
				for range columns {
					row = append(row, ends(option{r.IntN(100) - 50, fmt.Sprint(r.IntN(5))}, option{r.IntN(60) - 50, fmt.Sprint(r.IntN(5))}))
				}
				m.cells = append(m.cells, row)
			}
			mixes = append(mixes, m)
		}
		carry := []*big.Rat{big.NewRat(1, 2), big.NewRat(3, 4), big.NewRat(1, 10)}[n%3]
		p, bound := settled(t, carry, mixes...)
		plain := &process{carry: carry, mixes: mixes, bits: 80}
		for range mixes {
			plain.values = append(plain.values, new(big.Rat))
		}
		for range 80 {
			if _, _, err := plain.solve(context.Background()); err != nil {
				t.Fatal(err)
			}
			plain.values = plain.rounded(plain.next)
		}
		for i := range mixes {
			d, _ := new(big.Rat).Sub(p.values[i], plain.values[i]).Float64()
			if math.Abs(d) > bound+1e-6 || bound > 1e-6 {
				t.Errorf("process %d, mix %d: %v off, bound %v", n, i, d, bound)
			}
		}
	}
}

// TestCarry: without one nothing is carried; with one, what leads to an ender
// with setups is worth more, and a carry of 1 is an error.
func TestCarry(t *testing.T) {
	p := ringOf(t)
	weigh := func(carry timeline.Ratio) (*Mix, error) {
		return NewBook(p).Mix(context.Background(), timeline.NewIndex(p), p.Setups, MixOptions{Carry: carry, Pair: p.Setups})
	}
	none, err := weigh(timeline.Ratio{Num: 0, Den: 1})
	if err != nil || !none.Exact || none.Rounds != nil || none.Bound != nil {
		t.Fatalf("no carry: %+v, %v", none, err)
	}
	// A punish that leads to the ender again is there: drop by itself.
	half, err := weigh(timeline.Ratio{Num: 1, Den: 2})
	if err != nil || half.Exact || len(half.Rounds) != 1 || half.Rounds[0].Ender != "drop" || half.Value.Cmp(none.Value) < 0 {
		t.Fatalf("half: %+v, %v", half, err)
	}
	gap, _ := new(big.Rat).Sub(half.Value, half.Rounds[0].Value).Float64()
	if math.Abs(gap) > 1e-6 {
		t.Errorf("the mix of all setups of the ender is %v off the round's", gap)
	}
	for _, bad := range []timeline.Ratio{{Num: 1, Den: 1}, {Num: 3, Den: 2}, {Num: -1, Den: 2}} {
		if m, err := weigh(bad); err == nil {
			t.Errorf("a carry of %v: %+v", bad, m)
		}
	}
}

// TestHandAndCarryTogether solves a mix of one setup by hand. The kick meets the
// wake-up at a delay of 6, and with its second active frame at 5; a hand with a
// spread of one frame comes no earlier with a chance of Phi(3/2). Then it hits
// for 100, 15 and 8, and leads to its own ender: V = Phi(3/2) (123 + V/2). A
// guard is worth more.
func TestHandAndCarryTogether(t *testing.T) {
	p := ringOf(t)
	s := &p.Setups[2]
	s.OnHit, s.Pressure = "down", 400
	o := MixOptions{Hand: &odds.Hand{Spread: 1, Bias: 2}, Carry: timeline.Ratio{Num: 1, Den: 2}, Pair: p.Setups[2:]}
	m, err := NewBook(p).Mix(context.Background(), timeline.NewIndex(p), p.Setups[2:], o)
	if err != nil {
		t.Fatal(err)
	}
	phi := 0.5 * math.Erfc(-1.5/math.Sqrt2)
	want := phi * 123 / (1 - phi/2)
	got, _ := m.Value.Float64()
	if math.Abs(got-want) > 1e-6 || m.Exact || m.Columns[2].Share.Cmp(big.NewRat(1, 1)) != 0 {
		t.Errorf("value %v, want %v; exact %v, columns %+v", got, want, m.Exact, m.Columns)
	}
	if len(m.Rounds) != 1 || m.Rounds[0].Ender != "drop" {
		t.Fatalf("rounds: %+v", m.Rounds)
	}
	if round, _ := m.Rounds[0].Value.Float64(); math.Abs(round-want) > 1e-6 || m.Bound.Cmp(big.NewRat(1, 1_000_000)) > 0 {
		t.Errorf("the round is worth %v within %v, want %v", round, m.Bound, want)
	}
	// Guarded on 10 or later it is at -3 and the rise punishes for 150; on its
	// second frame at -2 nothing does; too early nothing happens.
	late := 0.5 * math.Erfc(-0.5/math.Sqrt2)
	if guard, _ := m.Payoff[0][0].Float64(); math.Abs(guard-late*250-(phi-late)*400) > 1e-6 {
		t.Errorf("guarded: %v, want %v", guard, late*250+(phi-late)*400)
	}
}

// TestThePlayedSharesPayTheValue plays a game 100,000 times by its shares.
func TestThePlayedSharesPayTheValue(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	payoff := payoffs(t, "8 3 4 1; 4 7 1 6; 0 3 8 5")
	g := solved(t, payoff)
	pick := func(shares []*big.Rat) int {
		at := r.Float64()
		for i := range shares {
			s, _ := shares[i].Float64()
			if at -= s; at < 0 {
				return i
			}
		}
		return len(shares) - 1
	}
	const rounds = 100_000
	sum, squares := 0.0, 0.0
	for range rounds {
		v, _ := payoff[pick(g.Rows)][pick(g.Columns)].Float64()
		sum, squares = sum+v, squares+v*v
	}
	mean, want := sum/rounds, 49.0/12
	if e := math.Sqrt((squares/rounds - mean*mean) / rounds); math.Abs(mean-want) > 4*e {
		t.Errorf("a round pays %v, want %v within four times %v", mean, want, e)
	}
}

// BenchmarkRounds: 20 enders of 6 setups and 30 columns that lead to each other.
func BenchmarkRounds(b *testing.B) {
	r := rand.New(rand.NewPCG(15, 16))
	var mixes []*Mix
	for s := range 20 {
		m := &Mix{Ender: fmt.Sprint(s)}
		for range 6 {
			var row []cell
			for range 30 {
				row = append(row, ends(option{r.IntN(900) - 400, fmt.Sprint(r.IntN(40))}))
			}
			m.cells = append(m.cells, row)
		}
		mixes = append(mixes, m)
	}
	for b.Loop() {
		settled(b, big.NewRat(9, 10), mixes...)
	}
}
