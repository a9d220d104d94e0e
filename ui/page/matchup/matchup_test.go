package matchup

import (
	"context"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/value"
	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/page/pagetest"
	"wakeline/ui/paint"
)

// openMatchup shows the match-up of p's first setup.
func openMatchup(t testing.TB, p *timeline.Project) (*pagetest.Host, *Page) {
	t.Helper()
	w := pagetest.Open(t, p)
	return w, show(w)
}

// show shows the match-up of the chosen setup.
func show(w *pagetest.Host) *Page {
	m := New(w)
	w.Show(m)
	m.Run()
	return m
}

func TestMatchupShowsThePairOfTheChosenSetup(t *testing.T) {
	p := pagetest.Many(12)
	w, m := openMatchup(t, p)
	if m.attacker.Selected != p.Setups[0].Attacker || m.rival.Selected != p.Setups[0].Rival {
		t.Fatalf("shows %s against %s", m.attacker.Selected, m.rival.Selected)
	}
	for i, place := range m.got.Places {
		row := &m.got.Grid.Rows[i]
		if row.Setup != p.Setups[place].Name {
			t.Errorf("row %d is %q, its place holds %q", i, row.Setup, p.Setups[place].Name)
		}
		plan, err := timeline.Compile(w.Model().Data(), p.Setups[place])
		if err != nil {
			t.Fatal(err)
		}
		if got, want := row.Word, plan.Word(p.Setups[place].Delay); got != want {
			t.Errorf("%q is %s, want %s", row.Setup, got, want)
		}
	}
	m.rival.SetSelected(m.attacker.Selected)
	if len(m.got.Grid.Rows) != 0 || !strings.HasPrefix(m.count.Text, "0 setups") || m.cover.words != "There are no setups." {
		t.Errorf("of a pair without a setup: %d rows, %q, %q", len(m.got.Grid.Rows), m.count.Text, m.cover.words)
	}
}

// cellPlace is the middle of a cell among all cells.
func cellPlace(row, column int) fyne.Position {
	return fyne.NewPos((float32(column)+0.5)*gridCell, (float32(row)+0.5)*gridRow)
}

func TestAClickOnACellOpensTheSetupWithThatReply(t *testing.T) {
	w, m := openMatchup(t, pagetest.Many(12))
	place, column := m.got.Places[3], -1
	want := timeline.Reply{}
	s, _ := w.Model().Document().Setup(place)
	for k, r := range m.got.Grid.Replies {
		if r.Reply.Move == s.Replies[1].Move && r.Reply.Late == s.Replies[1].Late {
			column, want = k, s.Replies[1]
		}
	}
	rise := m.got.Grid.Rows[3].Cells[column].Rise
	m.grid.Cells.Tapped(&fyne.PointEvent{Position: cellPlace(3, column)})
	if w.Page != nil || w.Model().Chosen() != place {
		t.Fatalf("page %v, setup %d, want none and %d", w.Page, w.Model().Chosen(), place)
	}
	r, l := w.Model().Shown()
	got := w.Model().Verdict().Rises[r]
	if w.Model().Follows() || got.Rise != rise || got.Replies[l].Reply != want.Move || got.Replies[l].Late != want.Late {
		t.Errorf("shows %s on %s, want %s on %s", got.Replies[l].Reply, got.Rise, want.Move, rise)
	}
	m = show(w) // where the reply is shown already it stays
	if m.grid.Row != 3 {
		t.Errorf("the cursor is on row %d, want that of the chosen setup, 3", m.grid.Row)
	}
	m.grid.MoveTo(3, column)
	m.grid.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if w.Page != nil || w.Model().Follows() {
		t.Error("Enter doesn't open the cell under the cursor")
	}
	m = show(w)
	m.grid.Names.Tapped(&fyne.PointEvent{Position: fyne.NewPos(30, gridRow/2)})
	if w.Page != nil || w.Model().Chosen() != m.got.Places[0] {
		t.Error("a click on a name doesn't open its setup")
	}
}

func TestMatchupShowsTheRestOfTheReplies(t *testing.T) {
	p := pagetest.Many(12)
	rival := p.Fighter(p.Setups[0].Rival)
	rival.Moves = append(rival.Moves, timeline.Move{Name: "unasked", Kind: rival.Moves[0].Kind, Level: rival.Moves[0].Level, Startup: 30, Active: []int{2}})
	w, m := openMatchup(t, p)
	has := func() int {
		for k, r := range m.got.Grid.Replies {
			if r.Reply.Move == "unasked" {
				return k
			}
		}
		return -1
	}
	if k := has(); k >= 0 {
		t.Errorf("a reply that no setup names is column %d", k)
	}
	m.all.SetChecked(true)
	k := has()
	if k < 0 {
		t.Fatal("the rest of the replies is not shown")
	}
	if c := m.got.Grid.Rows[0].Cells[k]; c.Demand != timeline.DemandNone {
		t.Errorf("the setup demands %s of it", c.Demand)
	}
	m.open(0, k)
	if said := strings.Join(w.Notes, "\n"); !strings.Contains(said, "unasked is not among the replies") {
		t.Errorf("the window says %q", said)
	}
}

func TestOnlySafeSetups(t *testing.T) {
	_, m := openMatchup(t, pagetest.Many(20))
	all, safe := len(m.got.Grid.Rows), 0
	for i := range m.got.Grid.Rows {
		if m.got.Grid.Rows[i].Word == timeline.Safe {
			safe++
		}
	}
	if safe == 0 || safe == all {
		t.Fatalf("%d of %d setups are safe: nothing to tell apart", safe, all)
	}
	m.safe.SetChecked(true)
	if len(m.rows) != safe || len(m.got.Places) != safe {
		t.Errorf("%d rows, want the %d safe ones", len(m.rows), safe)
	}
	for _, i := range m.rows {
		if m.got.Grid.Rows[i].Word != timeline.Safe {
			t.Errorf("%q is %s", m.got.Grid.Rows[i].Setup, m.got.Grid.Rows[i].Word)
		}
	}
}

func TestTheFewestStandFirstAndAreMarked(t *testing.T) {
	_, m := openMatchup(t, pagetest.Many(20))
	if len(m.got.Fewest.Sets) == 0 || m.got.Fewest.Sets[0] == 0 {
		m.got.Fewest = compare.Cover{Sets: []int{4, 7}, Missing: []int{3}}
		m.cover.show(&m.got.Grid, m.got.Fewest)
	}
	fewest := m.got.Fewest.Sets
	m.first.SetChecked(true)
	if got := m.rows[:len(fewest)]; !reflect.DeepEqual(got, fewest) || len(m.rows) != len(m.got.Grid.Rows) {
		t.Errorf("%d rows begin with %v, want %v", len(m.rows), got, fewest)
	}
	for _, i := range fewest {
		if !m.grid.marked[i] {
			t.Errorf("row %d is not marked", i)
		}
	}
	m.first.SetChecked(false)
	for line, l := range m.cover.lines {
		if l.entry == len(fewest)-1 {
			m.cover.Tapped(&fyne.PointEvent{Position: fyne.NewPos(40, float32(line)*coverRow+3)})
			break
		}
	}
	if got, want := m.rows[m.grid.Row], fewest[len(fewest)-1]; got != want {
		t.Errorf("a click on the last of the fewest goes to row %d, want %d", got, want)
	}
}

func TestCoverWords(t *testing.T) {
	always := []compare.GridReply{{Title: "guard high", Shown: true}, {Title: "guard low", Shown: true}, {Title: "nothing", Shown: true}}
	grid := func(rows ...string) *compare.Grid {
		g := &compare.Grid{Replies: append(slices.Clone(always), compare.GridReply{Title: "gale"}, compare.GridReply{Title: "jab"})}
		for _, r := range rows {
			row := compare.GridRow{Setup: "setup", Called: timeline.Safe}
			for _, c := range r {
				row.Cells = append(row.Cells, compare.GridCell{Covers: c == 'x'})
			}
			g.Rows = append(g.Rows, row)
		}
		return g
	}
	for _, tt := range []struct {
		name string
		g    *compare.Grid
		want string
	}{
		{"all", grid("xxxx.", "....x"), "2 setups cover all of the 2 replies. This is the minimum."},
		{"some", grid("xxxx.", "....."), "1 setup covers the 1 reply of 2 that can be covered. This is the minimum."},
		{"none", grid("xxx.."), "No setup covers any of the replies."},
		{"empty", grid(), "There are no setups."},
		{"unasked", &compare.Grid{Replies: always, Rows: make([]compare.GridRow, 1)}, "The setups have no replies to cover."},
	} {
		cover := tt.g.Fewest(compare.CoverLimit)
		if got := coverWords(tt.g, &cover); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
	g := grid("xxxxx", "xxx.x")
	if got := []string{covers(g, &compare.Cover{}, 0), covers(g, &compare.Cover{}, 1)}; got[0] != "covers all 2" || got[1] != "covers 1: jab" {
		t.Errorf("%q", got)
	}
	if got := coverWords(g, &compare.Cover{Sets: []int{0}}); !strings.Contains(got, "may be a smaller set") {
		t.Errorf("%q", got)
	}
}

func TestGridKeys(t *testing.T) {
	w, m := openMatchup(t, pagetest.Many(300))
	press := func(name fyne.KeyName, n int) {
		for range n {
			m.grid.TypedKey(&fyne.KeyEvent{Name: name})
		}
	}
	rows, columns := len(m.rows), len(m.got.Grid.Replies)
	press(fyne.KeyDown, 5)
	press(fyne.KeyRight, 2)
	press(fyne.KeyUp, 1)
	press(fyne.KeyLeft, 1)
	if m.grid.Row != 4 || m.grid.Column != 1 {
		t.Errorf("the cursor is on %d, %d, want 4, 1", m.grid.Row, m.grid.Column)
	}
	press(fyne.KeyEnd, 1)
	press(fyne.KeyPageDown, 100)
	if m.grid.Row != rows-1 || m.grid.Column != columns-1 {
		t.Errorf("the cursor is on %d, %d, want the last, %d, %d", m.grid.Row, m.grid.Column, rows-1, columns-1)
	}
	from, to, _, end := m.grid.View()
	if rows-1 < from || rows-1 >= to || columns-1 >= end {
		t.Errorf("rows %d to %d, columns to %d in view, not the cursor's", from, to, end)
	}
	press(fyne.KeyPageUp, 100)
	press(fyne.KeyHome, 1)
	if o := m.grid.Scroll.Offset; m.grid.Row != 0 || m.grid.Column != 0 || o != (fyne.Position{}) {
		t.Errorf("the cursor is on %d, %d, scrolled to %v", m.grid.Row, m.grid.Column, o)
	}
	w.Page.Refocus() // as after a dialog
	if w.Canvas().Focused() != fyne.Focusable(m.grid) {
		t.Error("the keys don't go to the grid")
	}
	press(fyne.KeyEscape, 1)
	if w.Page != nil {
		t.Error("Escape doesn't close the page")
	}
}

func TestGridPaintsWhatIsInViewAlone(t *testing.T) {
	_, m := openMatchup(t, pagetest.Many(3000))
	m.grid.MoveTo(1500, 2)
	from, to, column, end := m.grid.View()
	if shown := (to - from) * (end - column); shown > 400 || from == 0 {
		t.Errorf("rows %d to %d, columns %d to %d in view", from, to, column, end)
	}
	if names, head := m.grid.Names.Size(), m.grid.Head.Size(); names.Width < gridName || head.Height != gridHead {
		t.Errorf("the names take %v, the headings %v", names, head)
	}
	p := &paint.Pen{}
	p.Begin(1)
	m.grid.paintCells(p, m.grid.Cells.Size())
	if n, most := len(p.Objects), 6*(to-from)*(end-column)+100; n > most {
		t.Errorf("%d objects for %d cells, want at most %d", n, (to-from)*(end-column), most)
	}
}

func TestLongNamesAreSaidInFull(t *testing.T) {
	p := pagetest.Many(4)
	long := strings.Repeat("very ", 20) + "long"
	rival := p.Fighter(p.Setups[0].Rival)
	m0 := rival.Move(p.Setups[0].Replies[0].Move)
	for i := range p.Setups {
		for k := range p.Setups[i].Replies {
			if p.Setups[i].Rival == rival.Name && p.Setups[i].Replies[k].Move == m0.Name {
				p.Setups[i].Replies[k].Move = long
			}
		}
	}
	m0.Name, p.Setups[0].Name = long, long+" setup"
	w, m := openMatchup(t, p)
	w.Window.Resize(fyne.NewSize(1024, 640))
	column := 3
	m.grid.Head.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(gridCell*3+5-m.grid.Scroll.Offset.X, 10)}})
	if m.words.Name != m.got.Grid.Replies[column].Title || !strings.HasPrefix(m.words.Name, long) {
		t.Errorf("the heading is said as %q", m.words.Name)
	}
	m.grid.Names.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(20, 5)}})
	if m.words.Name != long+" setup" {
		t.Errorf("the setup is said as %q", m.words.Name)
	}
	m.grid.Names.MouseOut()
	if !strings.Contains(m.words.Name, " · ") {
		t.Errorf("without the pointer it says %q, not the cursor's cell", m.words.Name)
	}
}

func TestCopyTheGrid(t *testing.T) {
	p := pagetest.Many(3)
	p.Setups[0].Name = "the first"
	_, m := openMatchup(t, p)
	m.grid.TypedShortcut(&fyne.ShortcutCopy{})
	lines := strings.Split(strings.TrimSuffix(fyne.CurrentApp().Clipboard().Content(), "\n"), "\n")
	if len(lines) != len(m.rows)+1 {
		t.Fatalf("%d lines, want a heading and %d", len(lines), len(m.rows))
	}
	for i, l := range lines {
		if got, want := strings.Count(l, "\t"), 2+len(m.got.Grid.Replies); got != want {
			t.Errorf("line %d has %d tabs, want %d", i, got, want)
		}
	}
	row := slices.IndexFunc(m.rows, func(i int) bool { return m.got.Grid.Rows[i].Setup == p.Setups[0].Name })
	c := &m.got.Grid.Rows[m.rows[row]].Cells[3]
	want := strings.TrimSpace(c.Cell.Outcome.String() + " " + spareText(&c.Cell))
	if got := strings.Split(lines[1+row], "\t"); got[0] != "the first" || got[6] != want {
		t.Errorf("its line is %q, want %q for %s", got, want, m.got.Grid.Replies[3].Title)
	}
}

func TestMatchupFollowsUndo(t *testing.T) {
	w := pagetest.Open(t, pagetest.Sample())
	for range 6 {
		w.Model().SetDelay(w.Model().Setup().Delay + 1)
		w.Model().Commit()
	}
	m := show(w)
	before := m.got.Grid.Rows[0]
	for range 6 {
		w.Model().Undo()
	}
	after := m.got.Grid.Rows[0]
	if after.Delay != before.Delay-6 || !w.Showing(m) {
		t.Errorf("after undo the row stands at delay %d, was %d", after.Delay, before.Delay)
	}
}

func TestMatchupOfAFile(t *testing.T) {
	w := pagetest.OpenFile(t, pagetest.Many(30))
	m := show(w)
	last := len(m.rows) - 1
	name := m.got.Grid.Rows[last].Setup
	m.open(last, -1)
	if got := w.Model().Setup().Name; got != name {
		t.Errorf("the row of %q opens %q", name, got)
	}
}

func TestMatchupEndsWhenItIsCancelled(t *testing.T) {
	p := pagetest.Many(12)
	m := pagetest.Open(t, p).Model()
	ctx, cancel := context.WithCancel(context.Background())
	done := 0
	of := model.MatchupQuery{Attacker: p.Setups[0].Attacker, Rival: p.Setups[0].Rival}
	_, err := of.Judge(ctx, m.Document().Each(), m.Data(), func(n, _ int) {
		if done = n; n == 3 {
			cancel()
		}
	})
	if !errors.Is(err, context.Canceled) || done != 3 {
		t.Errorf("cancelled after 3 setups it has judged %d, error %v", done, err)
	}
}

func BenchmarkMatchupScroll(b *testing.B) {
	w, m := openMatchup(b, pagetest.Many(3000))
	w.Window.Resize(fyne.NewSize(1440, 900))
	for i := 0; b.Loop(); i++ {
		m.grid.Scroll.ScrollToOffset(fyne.NewPos(float32(i%7)*40, float32(i*53%60000)))
	}
}

// TestMatchupCellsHaveRoom: the longest outcome stands apart from a number of
// two digits behind a minus.
func TestMatchupCellsHaveRoom(t *testing.T) {
	w := paint.Wrapper{Size: paint.TextSize}
	for o := range timeline.Outcome(timeline.Outcomes) {
		if end, number := gridOutcome+w.WidthOf(o.String()), gridSpare-w.WidthOf("-12"); end+8 > number {
			t.Errorf("%s ends at %v, and a number begins at %v", o, end, number)
		}
	}
}

// TestAMatchupSaysWhatAnExchangeIsWorth: under the cell, as package value has it,
// also of a reply that the setup itself isn't asked.
func TestAMatchupSaysWhatAnExchangeIsWorth(t *testing.T) {
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	_, m := openMatchup(t, p)
	plan, err := timeline.Compile(p, p.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	own, asked, others := value.OfPlan(plan), 0, 0
	for k := range m.got.Grid.Replies {
		r := m.got.Grid.Replies[k].Reply
		got := m.got.Grid.Rows[0].Cells[k].Worth
		known := false
		for l := range plan.Lines() {
			if mine := plan.Reply(l); mine.Move == r.Move && mine.Late == r.Late {
				known = true
				asked++
				if got != own.Rises[0][l] {
					t.Errorf("%s is worth %+v, want %+v", r.Move, got, own.Rises[0][l])
				}
			}
		}
		if !known && got.Points.Given {
			others++
		}
		m.point(0, k)
		if !strings.Contains(m.words.What, words.WorthSentence(got)) {
			t.Errorf("%q doesn't say %q", m.words.What, words.WorthSentence(got))
		}
	}
	if m.got.Grid.Rows[0].Setup != plan.Setup.Name || plan.Rises() != 1 || asked < 4 || others == 0 {
		t.Errorf("%s on %d rises: %d replies of its own, %d others", m.got.Grid.Rows[0].Setup, plan.Rises(), asked, others)
	}
}

// TestCellsSayTheirPoints: on a second line, while the tick is set; the project
// without damage has neither.
func TestCellsSayTheirPoints(t *testing.T) {
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	_, m := openMatchup(t, p)
	if !m.points.Visible() || !m.points.Checked || m.grid.Measures.Row != gridRow+gridLine || !strings.Contains(m.count.Text, "points") {
		t.Fatalf("tick %v, %v; rows of %v; %q", m.points.Visible(), m.points.Checked, m.grid.Measures.Row, m.count.Text)
	}
	want := words.ShortWorth(m.got.Grid.Rows[0].Cells[0].Worth)
	if want == "" || !strings.Contains(m.text(), want) {
		t.Errorf("the copied table doesn't say %q", want)
	}
	m.points.SetChecked(false)
	if m.grid.Measures.Row != gridRow || strings.Contains(m.text(), want) || strings.Contains(m.count.Text, "points") {
		t.Errorf("without the tick: rows of %v, %q", m.grid.Measures.Row, m.count.Text)
	}
	m.points.SetChecked(true)
	for i := range p.Fighters {
		for k := range p.Fighters[i].Moves {
			p.Fighters[i].Moves[k].Damage = 0
		}
		p.Fighters[i].Routes = nil
	}
	for i := range p.Setups {
		s := &p.Setups[i]
		s.OnHit, s.Punish, s.Follow, s.Pressure = "", nil, nil, 0
		for k := range s.Replies {
			s.Replies[k].Costs = timeline.Maybe{}
		}
	}
	p.Ruleset.GaugeWorth = 0
	if _, m = openMatchup(t, p); m.points.Visible() || m.grid.Measures.Row != gridRow {
		t.Error("points are offered where no move has damage")
	}
}

// TestPointsHaveRoom: five digits behind a minus, and the health of four.
func TestPointsHaveRoom(t *testing.T) {
	w := paint.Wrapper{Size: paint.TextSize}
	if got := w.WidthOf("-9999 points; ends 9999"); gridOutcome+got+gridPad > gridCell {
		t.Errorf("points take %v of %v", gridOutcome+got+gridPad, gridCell)
	}
}
