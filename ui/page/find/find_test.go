package find

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/timeline/find"
	"wakeline/ui/model"
	"wakeline/ui/page/pagetest"
	"wakeline/ui/paint"
)

// openFind shows the search of p's first setup.
func openFind(t testing.TB, p *timeline.Project) (*pagetest.Host, *Page) {
	t.Helper()
	w := pagetest.Open(t, p)
	return w, show(w)
}

// show shows the search of the chosen setup.
func show(w *pagetest.Host) *Page {
	f := New(w, func() {})
	w.Show(f)
	f.Run()
	return f
}

// steps is how many steps the history has.
func steps(t testing.TB, w *pagetest.Host) int {
	t.Helper()
	past, err := w.Model().Past(model.MostHistory)
	if err != nil {
		t.Fatal(err)
	}
	return len(past)
}

// wants is what the core finds for what the form asks.
func wants(t testing.TB, w *pagetest.Host, f *Page) *find.Result {
	t.Helper()
	q, rivals, lacks := f.form.query(false)
	if lacks != "" {
		t.Fatal(lacks)
	}
	targets := find.Demands{}.Targets(w.Model().Data(), &f.form.of, rivals)
	q.Setup.Rival, q.Setup.Rises, q.Setup.Replies, q.Also = targets[0].Rival, targets[0].Rises, targets[0].Replies, targets[1:]
	q.Hand = w.Timing().Person().Timing(w.Model().Data().Ruleset)
	got, err := find.Search(t.Context(), w.Model().Data(), q)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func TestFindShowsWhatTheCoreFinds(t *testing.T) {
	w, f := openFind(t, pagetest.Sample())
	want := wants(t, w, f)
	if len(want.Answers) < 3 || len(f.list.answers) != len(want.Answers) || !strings.HasPrefix(f.count.Text, want.Count.String()+" answers") {
		t.Fatalf("%d answers, %q, want %d of %v", len(f.list.answers), f.count.Text, len(want.Answers), want.Count)
	}
	if f.list.at != 0 || f.sheet.Drawing == nil || f.sheet.Scene.Setup != want.Answers[0].Setups[0].Name || f.why.Text != want.Answers[0].Why {
		t.Errorf("the first is not shown: %d, %q", f.list.at, f.why.Text)
	}
	f.list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	if a := want.Answers[1]; f.sheet.Scene.Setup != a.Setups[0].Name || a.Wait() == 0 || !strings.HasPrefix(f.why.Text, a.Why+" Best aim: ") {
		t.Errorf("Down shows %q, %q, want %q", f.sheet.Scene.Setup, f.why.Text, a.Setups[0].Name)
	}
}

func TestEachChangeOfTheFormSearchesAnew(t *testing.T) {
	for name, change := range map[string]func(f *Page){
		"fewer fillers":     func(f *Page) { f.form.most.SetSelected("0") },
		"no wait":           func(f *Page) { f.form.wait.SetSelected(noWaiting) },
		"a short wait":      func(f *Page) { f.form.wait.SetSelected(waitChoice(2)) },
		"not this filler":   func(f *Page) { tick(f.form.fillers, "short step", false) },
		"each order":        func(f *Page) { f.form.ordered.SetChecked(true) },
		"another place":     func(f *Page) { f.form.where.SetSelected(string(timeline.Wall)) },
		"another rival too": func(f *Page) { tick(f.form.rivals, "Ostrel", true) },
	} {
		w, f := openFind(t, pagetest.Sample())
		before := f.count.Text
		change(f)
		want := wants(t, w, f)
		if len(f.list.answers) != len(want.Answers) || len(want.Answers) > 0 && !strings.HasPrefix(f.count.Text, want.Count.String()+" answer") {
			t.Errorf("%s: %d answers, %q, want %d of %v", name, len(f.list.answers), f.count.Text, len(want.Answers), want.Count)
		}
		if q, rivals, _ := f.form.query(false); f.count.Text == before && !q.Ordered && len(rivals) == 1 {
			t.Errorf("%s changes nothing: %q", name, before)
		}
	}
}

func tick(l *tickList, name string, on bool) {
	l.checks[slices.Index(l.names, name)].SetChecked(on)
}

// TestLongNamesLeaveTheFormInSight looks where the choices of the form end: a
// long name beside a tick must not push their arrows out of sight.
func TestLongNamesLeaveTheFormInSight(t *testing.T) {
	p := pagetest.Sample()
	p.Fighters[1].Rises[0].Name = strings.Repeat("very slow ", 6)
	for i := range p.Setups {
		p.Setups[i].Rises = nil
	}
	_, f := openFind(t, p)
	f.box.Resize(fyne.NewSize(1000, 600))
	for name, pick := range map[string]*paint.Pick{"ender": f.form.ender, "wait": f.form.wait} {
		if right := fyne.CurrentApp().Driver().AbsolutePositionForObject(pick).X + pick.Size().Width; right > formWidth+20 || pick.Size().Width < 100 {
			t.Errorf("the choice of the %s ends at %.0f, the form is %d wide", name, right, formWidth)
		}
	}
}

func TestFindSaysWhyThereIsNothing(t *testing.T) {
	w, f := openFind(t, pagetest.Sample())
	f.form.wait.SetSelected(noWaiting)
	f.form.most.SetSelected("0")
	want := wants(t, w, f)
	if want.Count.Sign() != 0 {
		t.Fatal("the sample has an answer without fillers and wait")
	}
	if f.none.Text != strings.Join(want.Because, "\n\n") || !f.nones.Visible() || f.list.Visible() || f.sheet.Drawing != nil || !f.open.Disabled() {
		t.Errorf("says %q", f.none.Text)
	}
	for _, c := range []struct {
		off  *tickList
		says string
	}{{f.form.jumps, "Tick at least one jump."}, {f.form.attacks, "Tick at least one attack."}, {f.form.rivals, "Tick at least one rival."}} {
		for _, name := range c.off.names {
			tick(c.off, name, false)
		}
		if f.none.Text != c.says {
			t.Errorf("says %q, want %q", f.none.Text, c.says)
		}
		for _, name := range c.off.names {
			tick(c.off, name, true)
		}
	}
}

// Where only limited answers exist, the page says so, and by which box they are
// listed; the box does it.
func TestFindTellsOfLimitedAnswers(t *testing.T) {
	p := pagetest.Sample()
	p.Setups[0].Replies[4].Demand = timeline.Beat // the back step: no attack touches it
	w, f := openFind(t, p)
	want := wants(t, w, f)
	if want.Count.Sign() != 0 || want.Limited.Sign() == 0 {
		t.Fatalf("%v answers, %v limited ones", want.Count, want.Limited)
	}
	says := "With “Include limited” there would be " + want.Limited.String() + " answers, safe but for replies that no timing covers."
	if f.none.Text != strings.Join(append(want.Because, says), "\n\n") {
		t.Errorf("says %q, want %q last", f.none.Text, says)
	}
	f.tabs.Show(1)
	f.enders.choose(widget.TableCellID{Row: 0, Col: 0})
	if c := f.enders.rows[0].Cells[0]; !c.Limited || !strings.HasSuffix(f.enders.words.Text, c.Because+" With “Include limited” there is one.") {
		t.Errorf("by ender it says %q", f.enders.words.Text)
	}
	f.tabs.Show(0)
	if f.form.limited.Text != "Include limited" {
		t.Errorf("the box is called %q", f.form.limited.Text)
	}
	f.form.limited.SetChecked(true)
	if len(f.list.answers) == 0 || !strings.HasPrefix(f.count.Text, want.Limited.String()+" answers at knockdown advantage ") {
		t.Errorf("with the box %q", f.count.Text)
	}
}

// What can't be searched for is told by the page's own labels.
func TestFindNamesWhatCannotBeSearchedFor(t *testing.T) {
	_, f := openFind(t, pagetest.Sample())
	for err, want := range map[error]string{
		&find.QueryError{Field: "most", Want: "at most 26", Got: "32"}:                                                              "This can't be searched for: Max fillers: expected at most 26, got 32.",
		&timeline.FieldError{Path: (*timeline.Path)(nil).At("setup").At("ender"), Want: "an ender or an advantage", Got: "neither"}: "This can't be searched for: expected an ender or an advantage, got neither.",
	} {
		f.took(found{}, err, false)
		if f.none.Text != want {
			t.Errorf("says %q, want %q", f.none.Text, want)
		}
	}
}

func TestAnAnswerOpensAsASetupInOneStep(t *testing.T) {
	w, f := openFind(t, pagetest.Sample())
	n, before := w.Model().Len(), steps(t, w)
	want := f.list.answers[1].Setups[0]
	f.list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	f.list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if w.Page != nil || w.Model().Len() != n+1 || steps(t, w) != before+1 {
		t.Fatalf("page %v, %d setups, %d steps", w.Page, w.Model().Len(), steps(t, w))
	}
	if got := w.Model().Setup(); got.Name != want.Name || !slices.Equal(got.Fillers, want.Fillers) || got.Delay != want.Delay || w.Model().Verdict().Word != timeline.Safe {
		t.Errorf("opened %+v, want %+v", got, want)
	}
	f = show(w) // the same again gets a name of its own
	for i := range f.list.answers {
		if f.list.answers[i].Setups[0].Name == want.Name {
			f.list.choose(i)
		}
	}
	f.openAnswer()
	if got := w.Model().Setup().Name; got != want.Name+" 2" {
		t.Errorf("opened again as %q", got)
	}
	w.Model().Undo()
	w.Model().Undo()
	if w.Model().Len() != n {
		t.Errorf("%d setups after undo, want %d", w.Model().Len(), n)
	}
}

func TestSeveralRivalsOpenAsOneStep(t *testing.T) {
	p := pagetest.Sample()
	twin := *p.Fighter(p.Setups[0].Rival)
	twin.Name = "Twin"
	p.Fighters = append(p.Fighters, twin)
	w, f := openFind(t, p)
	tick(f.form.rivals, "Twin", true)
	if len(f.list.answers) == 0 || len(f.list.answers[0].Setups) != 2 || !f.sides.Visible() {
		t.Fatalf("%d answers, %q", len(f.list.answers), f.none.Text)
	}
	first := f.sheet.Scene.Rival
	f.list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if f.sheet.Scene.Rival == first {
		t.Error("Right doesn't show the other rival's sheet")
	}
	shown, n, before := f.sheet.Scene.Rival, w.Model().Len(), steps(t, w)
	f.openAnswer()
	if w.Model().Len() != n+2 || steps(t, w) != before+1 || w.Model().Setup().Rival != shown {
		t.Errorf("%d setups more in %d steps, against %s", w.Model().Len()-n, steps(t, w)-before, w.Model().Setup().Rival)
	}
}

func TestEndersTable(t *testing.T) {
	w, f := openFind(t, pagetest.Sample())
	f.tabs.Show(1)
	q, rivals, _ := f.form.query(true)
	targets := find.Demands{}.Targets(w.Model().Data(), &f.form.of, rivals)
	q.Setup.Rises, q.Setup.Replies = targets[0].Rises, targets[0].Replies
	q.Hand = w.Timing().Person().Timing(w.Model().Data().Ruleset)
	want, err := find.Enders(t.Context(), w.Model().Data(), q, []timeline.Position{timeline.Midscreen, timeline.Wall}, nil)
	if err != nil || len(want) == 0 || len(f.enders.rows) != len(want) {
		t.Fatalf("%d rows, %v, want %d", len(f.enders.rows), err, len(want))
	}
	cell := widget.NewLabel("")
	f.enders.fillCell(widget.TableCellID{Row: 1, Col: 0}, cell)
	if want := want[1].Cells[0].Shortest.Short(); cell.Text != want {
		t.Errorf("the cell holds %q, want %q", cell.Text, want)
	}
	f.enders.choose(widget.TableCellID{Row: 1, Col: 0})
	if f.tabs.At != 0 || f.form.where.Selected != string(want[1].Position) || f.form.ender.Selected != want[1].Ender || len(f.list.answers) == 0 {
		t.Errorf("a click doesn't search for %s at %s: %q at %q", want[1].Ender, want[1].Position, f.form.ender.Selected, f.form.where.Selected)
	}
}

func TestAnEnderWithoutASafeJumpSaysWhy(t *testing.T) {
	_, f := openFind(t, pagetest.Sample())
	f.form.most.SetSelected("0")
	f.form.wait.SetSelected(noWaiting)
	f.tabs.Show(1)
	f.enders.choose(widget.TableCellID{Row: 0, Col: 0})
	if c := f.enders.rows[0].Cells[0]; f.tabs.At != 1 || c.Because == "" || !strings.HasSuffix(f.enders.words.Text, c.Because) {
		t.Errorf("says %q, want %q", f.enders.words.Text, c.Because)
	}
}

// A search that takes long can be stopped, and a later one is not mixed up
// with it.
func TestASearchIsStopped(t *testing.T) {
	w, f := openFind(t, pagetest.Sample())
	var held []func()
	w.Hold = func(do func()) { held = append(held, do) }
	f.form.most.SetSelected("2")
	if f.cancel == nil {
		t.Fatal("the search is over before it ran")
	}
	f.key(&fyne.KeyEvent{Name: fyne.KeyEscape})
	held[0]()
	if w.Page == nil || f.cancel != nil || !strings.Contains(f.none.Text, "stopped") {
		t.Errorf("stopped: page %v, %q", w.Page, f.none.Text)
	}
	f.form.most.SetSelected("1")
	f.form.most.SetSelected("3")
	held[1]() // comes too late
	if f.cancel == nil {
		t.Error("a search of before ends the one that runs")
	}
	held[2]()
	if f.cancel != nil || len(f.list.answers) == 0 {
		t.Errorf("the last search brought %d answers", len(f.list.answers))
	}
	f.key(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.Page != nil {
		t.Error("Escape doesn't close the page")
	}
}

func TestFindFollowsAnUndo(t *testing.T) {
	w, f := openFind(t, pagetest.Sample())
	before := f.count.Text
	w.Model().SetAdvantage(70)
	if f.form.ender.Selected != "knockdown advantage 70 (set manually)" || f.count.Text == before {
		t.Errorf("an edit doesn't reach the search: %q", f.count.Text)
	}
	w.Model().Undo()
	if f.count.Text != before {
		t.Errorf("after undo %q, want %q", f.count.Text, before)
	}
}
