package cast

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/ui/grid"
	"wakeline/ui/model"
	"wakeline/ui/output"
	"wakeline/ui/page/pagetest"
	"wakeline/ui/paint"
)

// three is a project with three rivals: one is asked replies, one none.
func three() *timeline.Project {
	p := pagetest.Many(6)
	for i := range p.Setups {
		if plan, err := timeline.Compile(p, p.Setups[i]); err == nil && !plan.WindowSet().Empty() {
			p.Setups[i].Delay = plan.WindowSet().First()
		}
	}
	one := p.Fighters[1]
	one.Name, one.Replies = "Third", nil
	p.Fighters = append(p.Fighters, one)
	return p
}

// openCast shows the cast of p's first setup.
func openCast(t testing.TB, p *timeline.Project) (*pagetest.Host, *Page) {
	t.Helper()
	w := pagetest.Open(t, p)
	c := New(w, func() {})
	w.Show(c)
	c.Run()
	return w, c
}

func TestEachCellSaysWhatTheCoreSays(t *testing.T) {
	p := three()
	_, c := openCast(t, p)
	whole, err := compare.NewCast(p, p.Setups[0].Attacker)
	if err != nil {
		t.Fatal(err)
	}
	rows := 0
	for i := range p.Setups {
		if s := &p.Setups[i]; s.Attacker == whole.Attacker {
			row := whole.Row(s)
			if got := c.table.Text(rows, nameColumn); got != s.Name {
				t.Errorf("row %d is %q, want %q", rows, got, s.Name)
			}
			for k := range row.Cells {
				cell := &row.Cells[k]
				if got := c.table.Text(rows, firstRival+k); got != cell.Short() {
					t.Errorf("%s vs %s: %q, want %q", s.Name, whole.Rivals[k], got, cell.Short())
				}
				mark, shown := c.table.Mark(rows, firstRival+k)
				if known := cell.Word != "" && !cell.Unknown(); shown != known || known && mark != cell.Word.Judgement() {
					t.Errorf("%s vs %s: mark %v, %v", s.Name, whole.Rivals[k], mark, shown)
				}
			}
			rows++
		}
	}
	if rows == 0 || c.table.Len() != rows {
		t.Errorf("%d rows, want %d", c.table.Len(), rows)
	}
}

func TestARivalWithoutRepliesIsNotShownAsSafe(t *testing.T) {
	p := three()
	_, c := openCast(t, p)
	col := firstRival
	for k, rival := range c.got.Cast.Rivals {
		if rival == "Third" {
			col += k
		}
	}
	seen := 0
	for row := range c.table.Len() {
		switch text := c.table.Text(row, col); text {
		case "no replies":
			seen++
			if _, marked := c.table.Mark(row, col); marked {
				t.Errorf("row %d has a mark", row)
			}
		}
	}
	if seen == 0 {
		t.Fatal("no setup meets the wake-up of the rival without replies")
	}
	for _, i := range c.got.Fewest.Sets {
		if c.got.Rows[i].Cells[col-firstRival].Holds() {
			t.Errorf("%s counts as one that holds against a rival without replies", c.got.Rows[i].Setup)
		}
	}
}

func TestASetupAgainstAnotherRivalIsSavedAsOneOfItsOwn(t *testing.T) {
	p := three()
	w, c := openCast(t, p)
	s := c.got.Setups[0]
	at := grid.Place{Row: 0, Col: firstRival}
	for c.got.Cast.Rivals[at.Col-firstRival] == s.Rival {
		at.Col++
	}
	rival := c.got.Cast.Rivals[at.Col-firstRival]
	c.grid.Place(at)
	if c.save.Disabled() || c.original.Hidden || !strings.HasPrefix(c.said.Text, s.Name+" vs "+rival+": ") {
		t.Fatalf("save %v, original %v, said %q", c.save.Disabled(), c.original.Hidden, c.said.Text)
	}
	c.Open()
	if w.Page != nil {
		t.Error("the page is still shown")
	}
	got := w.Model().Setup()
	if got.Rival != rival || got.Name != s.Name+" vs "+rival || got.Delay != s.Delay || got.Ender != s.Ender {
		t.Errorf("saved %+v", got)
	}
	if n := w.Model().Document().Len(); n != len(p.Setups)+1 {
		t.Errorf("%d setups, want %d", n, len(p.Setups)+1)
	}
}

func TestASetupAgainstItsOwnRivalIsOpened(t *testing.T) {
	p := three()
	w, c := openCast(t, p)
	row := c.table.Len() - 1
	s := c.got.Setups[c.table.order[row]]
	at := grid.Place{Row: row, Col: firstRival}
	for c.got.Cast.Rivals[at.Col-firstRival] != s.Rival {
		at.Col++
	}
	c.grid.Place(at)
	if !c.save.Disabled() || !c.original.Hidden {
		t.Error("a setup against its own rival can be saved once more")
	}
	c.Open()
	if w.Page != nil || w.Model().Setup().Name != s.Name || w.Model().Document().Len() != len(p.Setups) {
		t.Errorf("opened %q, %d setups", w.Model().Setup().Name, w.Model().Document().Len())
	}
}

func TestFiltersNarrowTheCast(t *testing.T) {
	p := three()
	p.Setups[1].Tags = []string{"corner"}
	p.Setups[2].Position = timeline.Wall
	_, c := openCast(t, p)
	all := c.table.Len()
	names := func() (out []string) {
		for row := range c.table.Len() {
			out = append(out, c.table.Text(row, nameColumn))
		}
		return out
	}
	c.tag.SetSelected("corner")
	if got := names(); len(got) != 1 || got[0] != p.Setups[1].Name {
		t.Errorf("with the tag: %v", got)
	}
	c.tag.SetSelected(anyTag)
	c.filter.SetText(p.Setups[3].Name)
	for _, got := range names() {
		if !strings.Contains(got, p.Setups[3].Name) {
			t.Errorf("filtered by a name: %v", got)
		}
	}
	c.filter.SetText("")
	counts := 0
	for _, word := range []timeline.Word{timeline.Safe, timeline.Limited, timeline.Unsafe} {
		c.verdict.SetSelected(string(word))
		for i := range c.got.Rows {
			for k, rival := range c.got.Cast.Rivals {
				if rival == c.got.Rows[i].Rival && c.got.Rows[i].Cells[k].Word != word {
					t.Errorf("%s is %s, shown among %s", c.got.Rows[i].Setup, c.got.Rows[i].Cells[k].Word, word)
				}
			}
		}
		counts += len(c.got.Rows)
	}
	if counts != all {
		t.Errorf("%d setups by verdict, %d in all", counts, all)
	}
}

func TestMostRivalsFirst(t *testing.T) {
	_, c := openCast(t, three())
	c.order.SetSelected(mostFirst)
	last := len(c.got.Cast.Rivals) + 1
	for row := range c.table.Len() {
		n := c.got.Rows[c.table.order[row]].Covers()
		if n > last {
			t.Errorf("row %d holds against %d rivals, the one before against %d", row, n, last)
		}
		last = n
	}
}

// TestWhatIsShownIsExported: the rows in the order shown, with the minimum set
// marked, and in JSON as the command has it.
func TestWhatIsShownIsExported(t *testing.T) {
	p := three()
	w := pagetest.Open(t, p)
	asked := 0
	c := New(w, func() { asked++ })
	w.Show(c)
	if c.Shown() != nil {
		t.Error("there is something to export before anything was judged")
	}
	c.Run()
	c.order.SetSelected(mostFirst)
	shown := c.Shown()
	if shown == nil || shown.Kind != output.Cast {
		t.Fatalf("shown: %+v", shown)
	}
	o := output.Standard()
	made, err := shown.Make(context.Background(), &o, "csv")
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(made.Text)).ReadAll()
	if err != nil || len(rows) != c.table.Len()+1 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for row := range c.table.Len() {
		if rows[row+1][0] != c.table.Text(row, nameColumn) || rows[row+1][2] != c.table.Text(row, coversColumn) {
			t.Errorf("row %d is %q, want %q", row, rows[row+1], c.table.Text(row, nameColumn))
		}
	}
	made, err = shown.Make(context.Background(), &o, "json")
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Setups []struct {
			Setup string
			Cells []struct{ Because string }
		}
	}
	if err := json.Unmarshal([]byte(made.Text), &got); err != nil || len(got.Setups) != c.table.Len() {
		t.Fatalf("%d setups, %v", len(got.Setups), err)
	}
	for row, s := range got.Setups {
		if s.Setup != c.table.Text(row, nameColumn) || s.Cells[0].Because == "" {
			t.Errorf("row %d is %+v", row, s)
		}
	}
	for _, o := range test.LaidOutObjects(c.Content()) {
		if b, ok := o.(*paint.PushButton); ok && b.Text == "Export…" {
			test.Tap(b)
		}
	}
	if asked != 1 {
		t.Error("the button doesn't ask for the export")
	}
}

func TestEscapeLeavesTheCast(t *testing.T) {
	w, c := openCast(t, three())
	c.grid.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.Page != nil {
		t.Error("Escape left the page shown")
	}
}

// BenchmarkCast judges 300 setups of one of 60 fighters, each of whom asks 12
// replies on two rises.
func BenchmarkCast(b *testing.B) {
	p := pagetest.Many(300)
	like := p.Fighters[1]
	rises := []timeline.Rise{{Name: "normal"}, {Name: "late", Extra: 6}}
	like.Rises, like.Replies = rises, nil
	for i := 0; len(like.Replies) < 12; i++ {
		like.Replies = append(like.Replies, timeline.Reply{Move: like.Moves[0].Name, Demand: timeline.Survive, Late: i})
	}
	for i := range p.Setups {
		p.Setups[i].Attacker, p.Setups[i].Rises, p.Setups[i].Replies = p.Setups[0].Attacker, nil, nil
	}
	p.Fighters[1] = like
	for n := len(p.Fighters); n < 60; n++ {
		like.Name = "Rival " + strings.Repeat("x", n)
		p.Fighters = append(p.Fighters, like)
	}
	w, c := openCast(b, p)
	var began time.Time
	var waited time.Duration // until the first cells of a run are shown
	first := false
	w.Tasks.Later = func(do func()) {
		do()
		if first && c.table.Len() > 0 {
			first, waited = false, waited+time.Since(began)
		}
	}
	runs := 0
	for b.Loop() {
		c.got, c.order.Selected = model.CastSetups{}, asProject
		c.table.lay(&model.CastSetups{}, asProject)
		began, first = time.Now(), true
		c.Run()
		runs++
	}
	b.ReportMetric(float64(waited.Microseconds())/1000/float64(runs), "ms/first-cells")
	if len(c.got.Rows) != len(p.Setups) {
		b.Fatalf("%d rows", len(c.got.Rows))
	}
	for _, cell := range c.got.Rows[0].Cells[1:] {
		if cell.Word == "" || !cell.Asked {
			b.Fatalf("not judged: %s", cell.Because)
		}
	}
}
