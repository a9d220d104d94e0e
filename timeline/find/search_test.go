package find

import (
	"context"
	"errors"
	"math/big"
	"reflect"
	"slices"
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// Too much advantage is burned by a whiffed filler of known length; such a
// chain is exact, a counted wait is not. By hand: from 55 the hop of 43 must
// start on 13 to 18 to meet with one of six active frames, and against a
// reversal of four frames, active on 58, it must have landed by 58: a start on
// 13 to 15.
func TestFactFillersBurnAdvantage(t *testing.T) {
	p := yard(55, []int{13, 7, 5}, []int{0}, reversal(4))
	r := look(t, p, query(p))
	want := []struct {
		fillers string
		start   int
		orders  int64
		spare   int
	}{
		{"step 0", 13, 1, 2},                 // 58 - 56
		{"step 1, step 1", 14, 1, 1},         // 58 - 57
		{"step 2, step 2, step 2", 15, 1, 0}, // 58 - 58
	}
	if r.Count.Int64() != int64(len(want)) || r.Exact.Cmp(r.Count) != 0 || r.Orders.Int64() != 3 || len(r.Answers) != len(want) {
		t.Fatalf("%v answers, %v exact, %v orders, %d listed, want 3 of each", r.Count, r.Exact, r.Orders, len(r.Answers))
	}
	for i, w := range want {
		a := r.Answers[i]
		if got := strings.Join(a.Setups[0].Fillers, ", "); got != w.fillers || a.JumpOn != w.start || a.Orders.Int64() != w.orders || a.Spare != timeline.Some(w.spare) || a.Chance != 1 || a.Wait() != 0 {
			t.Errorf("answer %d = %s on %d, %v orders, %v spare, chance %v, want %+v", i, got, a.JumpOn, a.Orders, a.Spare, a.Chance, w)
		}
	}
	q := query(p)
	q.Wait, q.Most = timeline.Maybe{}, 0
	r = look(t, p, q)
	if r.Count.Int64() != 3 || r.Exact.Sign() != 0 {
		t.Fatalf("without fillers: %v answers, %v exact, want 3 waits", r.Count, r.Exact)
	}
	if a := r.Answers[0]; a.JumpOn != 14 || a.Chance >= 1 || a.Chance <= r.Answers[1].Chance {
		t.Errorf("the best wait jumps on %d at %v, want the middle of 13 to 15", a.JumpOn, a.Chance)
	}
}

// Several rivals at once: the intersection of their windows, a setup for each.
func TestSeveralRivals(t *testing.T) {
	p := yard(60, []int{18, 20, 21}, []int{0}, reversal(4))
	other := timeline.Fighter{Name: "Cairn", Moves: []timeline.Move{reversal(5)}, Rises: []timeline.Rise{{Name: "late", Extra: 2}}}
	p.Fighters = append(p.Fighters, other)
	q := query(p)
	q.Also = []Target{{Rival: "Cairn", Replies: []timeline.Reply{{Move: "reversal 5", Demand: timeline.Survive}}}}
	r := look(t, p, q)
	// Tarn: 18 to 20, as above. Cairn, up two later: 20 to 23.
	if len(r.Answers) != 1 || r.Answers[0].JumpOn != 20 || len(r.Answers[0].Setups) != 2 {
		t.Fatalf("answers: %+v", r.Answers)
	}
	a := r.Answers[0]
	if a.Setups[0].Rival != "Tarn" || a.Setups[1].Rival != "Cairn" || a.Setups[0].Name == a.Setups[1].Name {
		t.Errorf("setups: %+v", a.Setups)
	}
	if a.Spare != timeline.Some(0) {
		t.Errorf("spare = %v, want the lesser, 0", a.Spare)
	}
	judgeAll(t, p, r)

	q.Also[0].Replies, q.Setup.Replies = nil, nil
	p.Fighters[2].Rises[0].Extra = 9
	r = look(t, p, q)
	want := "hop dive: Each rival alone is met, Tarn by a start on 18 to 23 and Cairn by a start on 27 to 32, but no start meets all of them."
	if len(r.Because) != 1 || r.Because[0] != want {
		t.Errorf("because %q, want %q", r.Because, want)
	}
	// What doesn't fit the width is told in words, not by the part's place in a text.
	p.Fighters[1].Rises[0].Extra = 500
	want = "hop dive: Tarn wakes up on frame 560, past the last frame that can be judged, 511."
	if r := look(t, p, q); len(r.Because) != 1 || r.Because[0] != want {
		t.Errorf("because %q, want %q", r.Because, want)
	}
	p.Fighters[1].Rises[0].Extra, p.Fighters[1].Moves[0].Recovery = 0, 500
	q.Setup.Replies = []timeline.Reply{{Move: "reversal 4", Demand: timeline.Survive}}
	want = "hop dive: Tarn's reversal 4 ends on frame 566, past the last frame that can be judged, 512."
	if r := look(t, p, q); len(r.Because) != 1 || r.Because[0] != want {
		t.Errorf("because %q, want %q", r.Because, want)
	}
	p.Fighters[0].Jumps[0].Airborne = 510
	want = "hop dive: Hesk's jump and landing end on frame 517, past the last frame that can be judged, 512."
	if r := look(t, p, q); len(r.Because) != 1 || r.Because[0] != want {
		t.Errorf("because %q, want %q", r.Because, want)
	}
}

func TestOrders(t *testing.T) {
	p := yard(60, []int{4, 5}, []int{0}, reversal(2))
	q := query(p)
	q.Most = 4
	r := look(t, p, q) // 18: 4, 4, 5, 5, in any of six orders
	if r.Count.Int64() != 1 || r.Orders.Int64() != 6 || r.Answers[0].Orders.Int64() != 6 {
		t.Fatalf("%v answers, %v orders: %+v", r.Count, r.Orders, r.Answers)
	}
	q.Ordered = true
	r = look(t, p, q)
	if r.Count.Int64() != 6 || r.Orders.Int64() != 6 || len(r.Answers) != 6 {
		t.Fatalf("ordered: %v answers, %d listed", r.Count, len(r.Answers))
	}
	seen := map[string]bool{}
	for _, a := range r.Answers {
		seen[strings.Join(a.Setups[0].Fillers, " ")] = true
		if a.Orders.Int64() != 1 {
			t.Errorf("orders of an ordered answer = %v", a.Orders)
		}
	}
	if len(seen) != 6 {
		t.Errorf("%d different orders, want 6", len(seen))
	}
}

// Counts past every machine word are exact: 32 of 150 fillers of ten frames
// each make 320, in C(181, 32) ways, and in 150 to the 32nd orders.
func TestCountsAreExact(t *testing.T) {
	p := yard(362, slices.Repeat([]int{10}, 150), []int{0}, reversal(2))
	q := query(p)
	q.Most, q.List = MaxFillers, 3
	r := look(t, p, q)
	ways := new(big.Int).Binomial(181, 32)
	orders := new(big.Int).Exp(big.NewInt(150), big.NewInt(32), nil)
	if r.Count.Cmp(ways) != 0 || r.Exact.Cmp(ways) != 0 || r.Orders.Cmp(orders) != 0 || ways.IsInt64() {
		t.Errorf("%v answers, %v exact, %v orders, want %v and %v", r.Count, r.Exact, r.Orders, ways, orders)
	}
	if len(r.Answers) != 3 || len(r.Answers[2].Setups[0].Fillers) != 32 {
		t.Fatalf("%d listed", len(r.Answers))
	}
	// step 0 thirty-one times and another once: 32 orders.
	if got := r.Answers[1].Orders; got.Cmp(big.NewInt(32)) != 0 {
		t.Errorf("orders of the second = %v, want 32", got)
	}
	judgeAll(t, p, r)
}

// Each answer says why it stands where it does.
func TestWhy(t *testing.T) {
	p := yard(55, []int{13, 7, 6}, []int{0}, reversal(4))
	p.Fighters[0].Moves[4].GaugeCost = 1 // step 2
	q := query(p)
	q.Wait, q.Gauge, q.Most = timeline.Some(1), 1, 2
	r := look(t, p, q)
	var got []string
	for _, a := range r.Answers {
		got = append(got, a.Why)
	}
	want := []string{
		"No counted wait: the chain is exact; 2 frames to spare; 1 filler; no gauge.",
		"No counted wait: the chain is exact; 2 frames to spare; 2 fillers; 1 segment of gauge. It comes after fewer fillers.",
		"No counted wait: the chain is exact; 1 frame to spare; 2 fillers; no gauge. It comes after more to spare, 2 frames.",
	}
	if len(got) < 5 || !slices.Equal(got[:3], want) {
		t.Errorf("why:\n%s\nwant:\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if len(got) > 3 && (!strings.HasPrefix(got[3], "A counted wait of 1 frame, which lands ") || !strings.HasSuffix(got[3], "It comes after those without a counted wait.")) {
		t.Errorf("why of the first wait: %q", got[3])
	}
}

func TestWrongQueries(t *testing.T) {
	p := yard(60, []int{18}, []int{0}, reversal(3))
	for _, c := range []struct {
		change func(q *Query)
		want   string
	}{
		{func(q *Query) { q.Most = -1 }, "most: expected a whole number from 0 to 32, got -1"},
		{func(q *Query) { q.Most = MaxFillers + 1 }, "most: expected a whole number from 0 to 32, got 33"},
		{func(q *Query) { q.Wait = timeline.Some(-1) }, "wait: expected a whole number from 0 to 512, got -1"},
		{func(q *Query) { q.Gauge = -1 }, "gauge: expected a whole number from 0 to 1000000000, got -1"},
		{func(q *Query) { q.List = MaxList + 1 }, "list: expected a whole number from 0 to 1000, got 1001"},
		{func(q *Query) { q.Jumps = []string{"step 0"} }, `jumps: expected a jump of Hesk, got "step 0"`},
		{func(q *Query) { q.Attacks = []string{"step 0"} }, `attacks: expected an air move that hits of Hesk, got "step 0"`},
		{func(q *Query) { q.Fillers = []string{"dive"} }, `fillers: expected a move done on the ground or a jump of Hesk, got "dive"`},
		{func(q *Query) { q.Not = []string{"none"} }, `not: expected a move done on the ground or a jump of Hesk, got "none"`},
		{func(q *Query) { q.Setup.Attacker = "none" }, `$.setup.attacker: expected the name of a fighter, got "none"`},
		{func(q *Query) { q.Also = []Target{{Rival: "none"}} }, `$.setup.rival: expected the name of a fighter, got "none"`},
		{func(q *Query) { q.Setup.Advantage = timeline.Maybe{} }, `$.setup.ender: expected an ender or an advantage`},
	} {
		q := query(p)
		c.change(&q)
		if _, err := Search(context.Background(), p, q); err == nil || err.Error() != c.want {
			t.Errorf("error %v, want %s", err, c.want)
		}
	}
	for i := range 200 {
		p.Fighters[0].Moves = append(p.Fighters[0].Moves, timeline.Move{Name: strings.Repeat("x", i+1), Kind: timeline.Dash, Length: 1, GaugeCost: 1 << (i % 24)})
	}
	q := query(p)
	q.Fillers, q.Most, q.Gauge = nil, 9, 1<<24
	want := "gauge: expected a lower limit, as the fillers' costs add up to more than 128 different sums within it, got 16777216"
	if _, err := Search(context.Background(), p, q); err == nil || err.Error() != want {
		t.Errorf("too many sums of gauge: %v, want %s", err, want)
	}
	// A sequence may be as long as the table of sums stays small enough.
	for i := range p.Fighters[0].Moves {
		if m := &p.Fighters[0].Moves[i]; m.Kind == timeline.Dash {
			m.GaugeCost = i % 2
		}
	}
	p.Fighters[0].Moves = append(p.Fighters[0].Moves, slices.Repeat(p.Fighters[0].Moves[3:4], 1000)...)
	q.Gauge, q.Most = 40, MaxFillers
	want = "most: expected at most 26, as there are 1202 fillers to choose from that cost 33 different sums of gauge, got 32"
	if _, err := Search(context.Background(), p, q); err == nil || err.Error() != want {
		t.Errorf("too long a sequence: %v, want %s", err, want)
	}
}

func TestCancelled(t *testing.T) {
	p := yard(60, []int{18}, []int{0}, reversal(3))
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Search(ctx, p, query(p)); !errors.Is(err, context.Canceled) {
		t.Errorf("Search = %v", err)
	}
	if rows, err := Enders(ctx, p, query(p), []timeline.Position{timeline.Wall}, nil); err != nil || rows != nil {
		t.Errorf("Enders without an ender = %v, %v", rows, err)
	}
}

// The other way round: the table of enders, with the shortest sequence.
func TestEnders(t *testing.T) {
	// From 55, 15 leaves no spare and 7 and 6 leave two, but 15 is shorter.
	p := yard(0, []int{15, 7, 6}, []int{0}, reversal(4))
	moves := &p.Fighters[0].Moves
	*moves = append(*moves,
		timeline.Move{Name: "sweep", Kind: timeline.Strike, Level: timeline.Low, Startup: 8, Active: []int{3}, Recovery: 20,
			Knockdown: timeline.Places{Midscreen: timeline.Some(55), Wall: timeline.Some(42)}},
		timeline.Move{Name: "heave", Kind: timeline.Throw, Level: timeline.LevelThrow, Startup: 5, Active: []int{2}, Recovery: 20,
			Knockdown: timeline.Places{Midscreen: timeline.Some(30)}})
	q := query(p)
	q.List = 0
	var told [][2]int
	rows, err := Enders(context.Background(), p, q, []timeline.Position{timeline.Midscreen, timeline.Wall}, func(done, of int) { told = append(told, [2]int{done, of}) })
	if err != nil || len(rows) != 3 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	if !reflect.DeepEqual(told, [][2]int{{1, 3}, {2, 3}, {3, 3}}) {
		t.Errorf("progress %v", told)
	}
	for i, want := range []struct {
		ender    string
		position timeline.Position
		k        int
		shortest string
	}{{"sweep", timeline.Midscreen, 55, "sweep, step 0, hop dive"}, {"sweep", timeline.Wall, 42, "sweep, hop dive"}, {"heave", timeline.Midscreen, 30, ""}} {
		row := rows[i]
		if row.Ender != want.ender || row.Position != want.position || row.Advantage != want.k || len(row.Cells) != 1 {
			t.Fatalf("row %d: %+v", i, row)
		}
		c := row.Cells[0]
		if c.Shortest == nil {
			if want.shortest != "" || c.Because == "" {
				t.Errorf("row %d: none, because %q", i, c.Because)
			}
			continue
		}
		if c.Shortest.Setups[0].Name != want.shortest || c.Because != "" {
			t.Errorf("row %d: %q, because %q, want %q", i, c.Shortest.Setups[0].Name, c.Because, want.shortest)
		}
	}
	// Told to stop after the first row, it hands that one back.
	ctx, cancel := context.WithCancel(context.Background())
	rows, err = Enders(ctx, p, q, []timeline.Position{timeline.Midscreen}, func(int, int) { cancel() })
	if !errors.Is(err, context.Canceled) || len(rows) != 1 {
		t.Errorf("cancelled: %d rows, %v", len(rows), err)
	}
}

// judgeAll judges every answer listed anew, and finds it as the search says.
func judgeAll(t *testing.T, p *timeline.Project, r *Result) {
	t.Helper()
	for _, a := range r.Answers {
		least := timeline.Maybe{}
		for i, s := range a.Setups {
			if err := p.CheckSetup(nil, &s); err != nil {
				t.Fatalf("answer %d: %v", a.Rank, err)
			}
			plan, err := timeline.Compile(p, s)
			if err != nil {
				t.Fatalf("answer %d: %v", a.Rank, err)
			}
			v := words.VerdictAt(plan, s.Delay)
			if v.Word != timeline.Safe && (i > 0 || v.Word != a.Word) {
				t.Errorf("answer %d, %s: %s, want %s: %s", a.Rank, s.Name, v.Word, a.Word, v.Because)
			}
			if v.JumpOn != timeline.Some(a.JumpOn) || s.Delay != a.Wait() {
				t.Errorf("answer %d: jumps on %v after a wait of %d, want %d and %d", a.Rank, v.JumpOn, s.Delay, a.JumpOn, a.Wait())
			}
			for _, rise := range v.Rises {
				for _, x := range rise.Replies {
					if x.Demand != timeline.DemandNone && x.Outcome.Survived() && x.Spare.Given && (!least.Given || x.Spare.N < least.N) {
						least = x.Spare
					}
				}
			}
		}
		if least != a.Spare {
			t.Errorf("answer %d: least spare %v, the search says %v", a.Rank, least, a.Spare)
		}
	}
}
