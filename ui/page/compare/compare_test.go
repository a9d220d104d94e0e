package compare

import (
	"context"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/patch"
	"wakeline/timeline/value"
	"wakeline/ui/model"
	"wakeline/ui/page/pagetest"
)

// game is the sample with damage, and with a route that links with nothing to
// spare and ends in the setups' ender.
func game() *timeline.Project {
	p := pagetest.Sample()
	f := p.Fighter(p.Setups[0].Attacker)
	ender := p.Setups[0].Ender
	f.Move(ender).Damage = 70
	f.Moves = append(f.Moves,
		timeline.Move{Name: "Tap", Kind: timeline.Strike, Level: timeline.Mid, Startup: 5, Active: []int{2}, Recovery: 9, Damage: 30,
			OnHit: timeline.Some(f.Move(ender).FirstActive(p.Ruleset) + 1)})
	f.Routes = []timeline.Route{{Name: "Slope", Steps: []timeline.RouteStep{{Move: "Tap", By: timeline.Link}, {Move: ender, By: timeline.Link}}}}
	for i := range p.Fighters {
		for k := range p.Fighters[i].Moves {
			if m := &p.Fighters[i].Moves[k]; m.Hits() {
				m.Damage += 40 + 3*k
			}
		}
	}
	return p
}

// patched is the move data after a patch.
func patched() *timeline.Project {
	p := game()
	p.Setups = nil
	p.Fighters[1].Moves[0].Startup -= 2
	p.Fighters[0].Moves[0].Knockdown.Midscreen.N++
	p.Fighters[0].Move("Tap").OnHit.N--
	p.Fighters[1].Move("grip").Damage += 20 // which the mix loses to
	return p
}

// asked notes what the page asks of the window.
type asked struct{ find, mix []int }

// openPage opens the page of a patch, compared.
func openPage(t testing.TB, after *timeline.Project) (*pagetest.Host, *Page, *asked) {
	t.Helper()
	w := pagetest.OpenFile(t, game())
	w.Model().SetDelay(4)
	w.Model().Commit()
	d := w.Model().Document()
	if err := d.File().Edit("import", func(s *storage.Step) error {
		if err := s.BeginRevision("1.2", "import"); err != nil {
			return err
		}
		return s.Take(after)
	}); err != nil {
		t.Fatal(err)
	}
	if err := d.Reload(); err != nil {
		t.Fatal(err)
	}
	w.Model().Reread()
	list, err := d.File().Revisions()
	if err != nil || len(list) != 2 {
		t.Fatal(list, err)
	}
	did := &asked{}
	c := New(w, d, list, list[0].Name, list[1].Name, Asks{
		Find: func(at int) { did.find = append(did.find, at) }, Mix: func(at int) { did.mix = append(did.mix, at) }})
	w.Show(c)
	return w, c, did
}

// press types a key where the keys are.
func press(w *pagetest.Host, keys ...fyne.KeyName) {
	for _, k := range keys {
		w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: k})
	}
}

func TestEachChangeIsShownBeforeAndAfter(t *testing.T) {
	w, c, _ := openPage(t, patched())
	c.Run()
	d := w.Model().Document()
	if got := c.answer.About.Text; got != "3 of 3 setups changed from first to 1.2." || len(c.patch.Day.Setups) != 3 {
		t.Errorf("it counts %q, and lists %d", got, len(c.patch.Day.Setups))
	}
	if !c.patch.Day.Weighed || c.Answer() != c.patch.Day.Answer() || !strings.Contains(c.Answer(), "4 parts of the move data changed") {
		t.Errorf("it answers %q", c.Answer())
	}
	before, after := dataOf(t, d, "first"), dataOf(t, d, "1.2")
	for _, s := range patch.Sections() {
		c.turn(s, true)
	}
	seen := map[patch.Section]int{}
	for i := 0; i < len(c.rows); i++ {
		at := c.rows[i]
		c.list.Select(i)
		if seen[at.section]++; at.head {
			if got, want := c.detail.title.Text, fmt.Sprintf("%s (%d)", at.section, c.patch.Day.Counts()[at.section]); got != want {
				t.Errorf("row %d is headed %q, want %q", i, got, want)
			}
			continue
		}
		name := c.detail.setup
		if part := at.at; name == "" && at.section == patch.MoveData && len(c.patch.TurnedBy(&c.patch.Day.Parts[part])) == 0 {
			if !strings.HasPrefix(c.detail.nothing.Text, "No setup changed") || c.detail.noSheet.Hidden {
				t.Errorf("row %d says %q", i, c.detail.nothing.Text)
			}
			continue
		}
		if name == "" {
			t.Fatalf("row %d, of %s, shows no setup", i, at.section)
		}
		s, err := c.setup(name)
		if err != nil {
			t.Fatal(err)
		}
		want := compare.New(before, after).Of(&s)
		if got := c.patch.Change(name); (got == nil) != !want.Changed() || got != nil && !reflect.DeepEqual(*got, want) {
			t.Errorf("%s changed so: %+v, want %+v", name, got, want)
		}
		for h, p := range []*timeline.Project{before, after} {
			plan, err := timeline.Compile(p, s)
			if err != nil {
				t.Fatal(err)
			}
			if got := c.detail.sheets.halves[h].scene; got.Verdict != plan.Word(s.Delay) || got.Setup != s.Name {
				t.Errorf("row %d: sheet %d of %s says %s, want %s", i, h, got.Setup, got.Verdict, plan.Word(s.Delay))
			}
		}
		switch at.section {
		case patch.Turned, patch.Shrank, patch.Grew, patch.Moved, patch.Covered, patch.Uncovered:
			if c.detail.because.Text != want.Because {
				t.Errorf("it says %q, want %q", c.detail.because.Text, want.Because)
			}
		case patch.RoutesBroke:
			if got := c.detail.because.Text; !strings.Contains(got, "1 too slow, it was 0 to spare") || !strings.Contains(c.detail.lines.Text, "After: Tap, ") {
				t.Errorf("of the route it says %q and %q", got, c.detail.lines.Text)
			}
		case patch.Mixes:
			m := &c.patch.Day.Mixes[at.at]
			for h, p := range []*timeline.Project{before, after} {
				q := &timeline.Project{Ruleset: p.Ruleset, Fighters: p.Fighters}
				for i := range d.Len() {
					s, err := d.Setup(i)
					if err != nil {
						t.Fatal(err)
					}
					q.Setups = append(q.Setups, s)
				}
				got := []*patch.MixState{&m.Before, &m.After}[h].Mix
				mix, err := value.NewBook(q).Mix(context.Background(), timeline.NewIndex(q), q.Setups, value.MixOptions{})
				if err != nil || got.Value.Cmp(mix.Value) != 0 {
					t.Errorf("the mix is worth %v, want %v, %v", got.Value, mix.Value, err)
				}
			}
		}
	}
	for _, s := range []patch.Section{patch.MoveData, patch.Turned, patch.RoutesBroke, patch.Mixes} {
		if seen[s] < 2 {
			t.Errorf("the section %s has %d rows", s, seen[s])
		}
	}
	c.from.SetSelected("1.2")
	if got := c.Answer(); got != "The move data are the same." || !strings.Contains(c.detail.nothing.Text, "All move data") || len(c.rows) != 0 {
		t.Errorf("compared with itself: %q, %q", got, c.detail.nothing.Text)
	}
}

func TestTheListFoldsAndLeadsOn(t *testing.T) {
	w, c, did := openPage(t, patched())
	c.Run()
	// The first thing that turned is chosen; the move data stand over it,
	// folded.
	if at := c.chosen(); at.section != patch.Turned || at.head || c.open[patch.MoveData] || !c.rows[0].head {
		t.Fatalf("%+v is chosen of %+v", at, c.rows)
	}
	setup := c.detail.setup
	press(w, fyne.KeyF)
	if want := w.Model().Find(setup); len(did.find) != 1 || did.find[0] != want {
		t.Errorf("F searches from %v, want %d", did.find, want)
	}
	rows := len(c.rows)
	press(w, fyne.KeyLeft)
	if at := c.chosen(); !at.head || at.section != patch.Turned || len(c.rows) != rows-1 {
		t.Fatalf("Left leaves %d of %d rows, on %+v", len(c.rows), rows, at)
	}
	press(w, fyne.KeyF)
	if len(did.find) != 1 {
		t.Error("F searches from a head")
	}
	press(w, fyne.KeyRight)
	if len(c.rows) != rows {
		t.Errorf("Right gives %d rows, want %d", len(c.rows), rows)
	}
	press(w, fyne.KeyReturn, fyne.KeyReturn, fyne.KeyHome, fyne.KeyReturn)
	if !c.open[patch.MoveData] || !c.open[patch.Turned] || c.at != 0 {
		t.Errorf("Enter on a head turns it: %v, at %d", c.open, c.at)
	}
	press(w, fyne.KeyEnd)
	if at := c.chosen(); at.section != patch.Mixes || !at.head {
		t.Fatalf("the last row is %+v", at)
	}
	press(w, fyne.KeyRight, fyne.KeyDown)
	if c.detail.mix.Hidden {
		t.Fatal("a mix has no way to its page")
	}
	test.Tap(c.detail.mix)
	if len(did.mix) != 1 {
		t.Errorf("the mix of %v is shown", did.mix)
	}
	last := c.detail.which.Options[len(c.detail.which.Options)-1]
	c.detail.which.SetSelected(last)
	c.Refocus()
	press(w, fyne.KeyReturn)
	if w.Page != nil || w.Model().Setup().Name != last {
		t.Errorf("Enter shows %q, page %v; want %q", w.Model().Setup().Name, w.Page, last)
	}
}

// TestTheWeighingStops holds the work, ends it, and begins it again.
func TestTheWeighingStops(t *testing.T) {
	w, c, _ := openPage(t, patched())
	var held []func()
	c.Run()
	w.Hold = func(do func()) { held = append(held, do) }
	c.Run()
	if len(held) != 1 || c.patch.Day.Weighed || !strings.Contains(c.headWords(patch.Mixes), "weighing, 0 of 3") {
		t.Fatalf("%d held, %q", len(held), c.headWords(patch.Mixes))
	}
	if !c.EndOwn() || c.EndOwn() {
		t.Fatal("Escape doesn't end the weighing once")
	}
	held[0]()
	if c.patch.Day.Weighed || !strings.HasSuffix(c.headWords(patch.Mixes), "not weighed") || len(c.patch.Day.Mixes) != 0 {
		t.Fatalf("ended: %q", c.headWords(patch.Mixes))
	}
	w.Hold = nil
	c.turn(patch.Mixes, true)
	if !c.patch.Day.Weighed || len(c.patch.Day.Mixes) != 1 {
		t.Errorf("begun again: %q", c.headWords(patch.Mixes))
	}
}

// TestOnlyRowsInViewExist lists thousands of setups.
func TestOnlyRowsInViewExist(t *testing.T) {
	_, c, _ := openPage(t, patched())
	c.Run()
	one := c.patch.Day.Setups[0]
	for i := range 3000 {
		one.Setup = fmt.Sprint("set ", i)
		c.patch.Day.Setups = append(c.patch.Day.Setups, one)
	}
	c.refill(entry{section: patch.Turned, head: true})
	c.list.Select(2000)
	if n := rowsMade(c); n == 0 || n > 40 {
		t.Errorf("%d rows exist of %d", n, len(c.rows))
	}
	if !strings.HasPrefix(c.detail.nothing.Text, "the setup") {
		t.Errorf("of a setup that is gone it says %q", c.detail.nothing.Text)
	}
}

func rowsMade(c *Page) (n int) {
	for _, o := range test.LaidOutObjects(c.list) {
		if r, ok := o.(*row); ok && r.Visible() {
			n++
		}
	}
	return n
}

// BenchmarkCompareScroll goes through a list of 3,000 setups, a row a step.
func BenchmarkCompareScroll(b *testing.B) {
	_, c, _ := openPage(b, patched())
	c.Run()
	one := c.patch.Day.Setups[0]
	for range 3000 {
		c.patch.Day.Setups = append(c.patch.Day.Setups, one)
	}
	c.refill(entry{section: patch.Turned, head: true})
	at := float32(0)
	for b.Loop() {
		if at += rowHeight; at > 2000*rowHeight {
			at = 0
		}
		c.list.ScrollToOffset(at)
	}
}

func dataOf(t *testing.T, d *model.Document, revision string) *timeline.Project {
	t.Helper()
	p, err := d.File().DataOf(revision)
	if err != nil {
		t.Fatal(err)
	}
	return p
}
