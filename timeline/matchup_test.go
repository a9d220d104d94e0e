package timeline_test

import (
	"fmt"
	"slices"
	"testing"

	. "wakeline/timeline"
	"wakeline/timeline/compare"
)

// pairOf makes a project with several setups of one pair, each with replies
// of its own.
func pairOf(seed uint64) *Project {
	p := RandomProject(seed)
	first := p.Setups[0]
	p.Setups[0].Name = "plan 0"
	for n := 1; n < 6; n++ {
		s := first
		s.Name, s.Delay = fmt.Sprintf("plan %d", n), first.Delay+n%3
		s.Replies = nil
		for i := range 3 {
			r := Reply{Move: fmt.Sprintf("step %d", (n+2*i)%8), Demand: []Demand{Survive, Beat, DemandNone}[i], Late: n % 2}
			s.Replies = append(s.Replies, r)
		}
		p.Setups = append(p.Setups, s)
	}
	return p
}

// slowCell is the grid's cell by the slow reading of the setup with that
// reply alone beside its own.
func slowCell(p *Project, s Setup, reply compare.GridReply) (cells []Cell, covers bool) {
	line := slices.Index([]string{GuardHigh, GuardLow, Nothing}, reply.Title)
	if line < 0 || !reply.Shown {
		s.Replies = []Reply{{Move: reply.Reply.Move, Demand: DemandNone, Late: reply.Reply.Late}}
		line = FirstReply
	}
	rises, bait := SlowTable(p, &s)
	covers = true
	for _, r := range rises {
		c := r[line]
		cells = append(cells, c)
		covers = covers && c.Outcome.Survived() && (bait || r[LineNothing].AfterWake == Some(0))
	}
	return cells, covers
}

func TestMatchupAgreesWithFrames(t *testing.T) {
	covered, open, off := 0, 0, 0
	n := 60
	if testing.Short() {
		n = 15
	}
	for seed := range uint64(n) {
		p := pairOf(seed)
		own := p.Setups
		known := *p
		if seed%2 == 0 {
			known.Setups = nil // columns come with the setups
		}
		m, err := compare.NewMatchup(&known, own[0].Attacker, own[0].Rival, seed%3 == 0)
		if err != nil {
			t.Fatal(err)
		}
		var in []Setup
		for _, s := range own {
			if m.Add(s) == nil {
				in = append(in, s)
			}
		}
		g := m.Grid()
		if len(g.Rows) != len(in) {
			t.Fatalf("seed %d: %d rows, want %d", seed, len(g.Rows), len(in))
		}
		for i, row := range g.Rows {
			if len(row.Cells) != len(g.Replies) {
				t.Fatalf("seed %d: row %d has %d cells, want %d", seed, i, len(row.Cells), len(g.Replies))
			}
			plan, err := Compile(p, in[i])
			if err != nil || row.Word != plan.Word(in[i].Delay) || row.Setup != in[i].Name {
				t.Fatalf("seed %d: row %+v, want the verdict %v of %q", seed, row, plan.Word(in[i].Delay), in[i].Name)
			}
			for k, c := range row.Cells {
				if !c.Judged {
					off++
					continue
				}
				want, covers := slowCell(p, in[i], g.Replies[k])
				if c.Covers != covers || !slices.Contains(want, c.Cell) {
					t.Fatalf("seed %d: %s against %s = %+v, want covers %v and one of %+v", seed, row.Setup, g.Replies[k].Title, c, covers, want)
				}
				for _, w := range want { // survived on the worst rise only where on all
					if c.Cell.Outcome.Survived() && c.Demand == DemandNone && !w.Outcome.Survived() {
						t.Fatalf("seed %d: %s against %s = %v, but one rise is %v", seed, row.Setup, g.Replies[k].Title, c.Cell.Outcome, w.Outcome)
					}
				}
				if covers {
					covered++
				} else {
					open++
				}
			}
		}
	}
	if min(covered, open) < 100 {
		t.Errorf("covered %d, not covered %d: want 100 of each", covered, open)
	}
	t.Logf("covered %d, not covered %d, past the width %d", covered, open, off)
}

func TestMatchupColumns(t *testing.T) {
	p := BusyProject()
	p.Fighters[1].Moves = append(p.Fighters[1].Moves, Move{Name: "crouch", Kind: Evade, Length: 9}, Move{Name: "air kick", Kind: Strike, Air: true, Level: Mid, Startup: 3, Active: []int{2}})
	s := p.Setups[0]
	s.Replies = []Reply{{Move: "answer 2", Demand: Beat, Late: 1}, {Move: "leap", Demand: Survive}}
	p.Setups = []Setup{s}
	titles := func(all bool) (out []string) {
		m, err := compare.NewMatchup(p, "Hesk", "Tarn", all)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range m.Grid().Replies {
			out = append(out, r.Title)
		}
		return out
	}
	named := []string{"guard high", "guard low", "nothing", "answer 2 late 1", "leap"}
	if got := titles(false); !slices.Equal(got, named) {
		t.Errorf("columns = %q, want %q", got, named)
	}
	got := titles(true)
	if len(got) != 3+2+35+1+1 || !slices.Equal(got[:5], named) || !slices.Contains(got, "crouch") || slices.Contains(got, "air kick") {
		t.Errorf("columns = %q, want the named ones, then the 37 others done on the ground", got)
	}
}

func TestMatchupRefuses(t *testing.T) {
	p := BusyProject()
	if _, err := compare.NewMatchup(p, "Hesk", "Nobody", false); err == nil {
		t.Error("NewMatchup of a fighter that isn't there = nil, want an error")
	}
	m, err := compare.NewMatchup(p, "Hesk", "Tarn", false)
	if err != nil {
		t.Fatal(err)
	}
	bad := []func(s *Setup){
		func(s *Setup) { s.Attacker, s.Rival = s.Rival, s.Attacker },
		func(s *Setup) { s.Jump = "flight" },
		func(s *Setup) { s.Delay = 500 },
	}
	for i, spoil := range bad {
		s := p.Setups[0]
		spoil(&s)
		if err := m.Add(s); err == nil {
			t.Errorf("setup %d is taken, want an error", i)
		}
	}
	if g := m.Grid(); len(g.Rows) != 0 {
		t.Errorf("rows after errors = %d, want 0", len(g.Rows))
	}
}

// A reply too long for the width of a setup that doesn't name it is not
// judged there, and does no harm.
func TestMatchupLeavesOutWhatDoesNotFit(t *testing.T) {
	p := BusyProject()
	p.Fighters[1].Moves = append(p.Fighters[1].Moves, Move{Name: "trance", Kind: Evade, Length: 457})
	m, err := compare.NewMatchup(p, "Hesk", "Tarn", true)
	if err != nil {
		t.Fatal(err)
	}
	early, late := p.Setups[0], p.Setups[0]
	early.Rises, late.Rises = []string{"normal"}, []string{"slow"} // up on 54, and on 55
	early.Advantage, late.Advantage = Some(54), Some(55)
	for _, s := range []Setup{early, late} {
		if err := m.Add(s); err != nil {
			t.Fatal(err)
		}
	}
	g := m.Grid()
	at := slices.IndexFunc(g.Replies, func(r compare.GridReply) bool { return r.Title == "trance" })
	if !g.Rows[0].Cells[at].Judged || g.Rows[1].Cells[at].Judged {
		t.Errorf("judged = %v, %v; want it to fit the first alone", g.Rows[0].Cells[at].Judged, g.Rows[1].Cells[at].Judged)
	}
}

func TestFewestSetupsOfAGrid(t *testing.T) {
	cell := func(covers bool) compare.GridCell { return compare.GridCell{Judged: true, Covers: covers} }
	row := func(covers ...bool) (r compare.GridRow) {
		for _, c := range covers {
			r.Cells = append(r.Cells, cell(c))
		}
		return r
	}
	g := compare.Grid{
		Replies: []compare.GridReply{{Shown: true}, {Shown: true}, {Shown: true}, {}, {}, {}, {}},
		Rows: []compare.GridRow{
			row(false, false, false, true, false, false, false),
			row(false, false, false, false, true, false, false),
			row(false, false, false, true, true, false, false),
			row(true, true, true, false, false, true, false),
		},
	}
	got := g.Fewest(compare.CoverLimit)
	if !slices.Equal(got.Sets, []int{2, 3}) || !slices.Equal(got.Missing, []int{6}) || !got.Proved {
		t.Errorf("Fewest = %+v, want rows 2 and 3, column 6 missing", got)
	}
}

// BenchmarkMatchup judges one setup more against 43 columns.
func BenchmarkMatchup(b *testing.B) {
	p := BusyProject()
	b.ReportAllocs()
	for b.Loop() {
		m, err := compare.NewMatchup(p, "Hesk", "Tarn", true)
		if err != nil {
			b.Fatal(err)
		}
		if err := m.Add(p.Setups[0]); err != nil {
			b.Fatal(err)
		}
	}
}
