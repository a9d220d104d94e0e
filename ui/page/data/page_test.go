package data

import (
	"reflect"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"wakeline/samples"
	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/ui/grid"
	"wakeline/ui/model"
	"wakeline/ui/page/pagetest"
)

func TestTypingACellIsOneStep(t *testing.T) {
	w, d := openData(t, pagetest.Sample())
	d.goTo(t, "tide sweep", "recovery")
	d.typeIn("19")
	if !d.editing || d.entry.Text != "19" {
		t.Fatalf("typed %q, typing %v", d.entry.Text, d.editing)
	}
	if got := w.Model().Data().Fighter("Ostrel").Move("tide sweep").Recovery; got != 22 {
		t.Errorf("recovery %d before the cell was taken", got)
	}
	d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyTab})
	if got := w.Model().Data().Fighter("Ostrel").Move("tide sweep").Recovery; got != 19 || edits(w) != 1 {
		t.Errorf("recovery %d after %d steps", got, edits(w))
	}
	if got := d.Heads()[d.grid.At().Col]; got != "total" || d.editing {
		t.Errorf("Tab went to %s", got)
	}
	if undo, _ := w.Model().Document().Next(); undo.What != "recovery of tide sweep: 19" {
		t.Errorf("the step is called %q", undo.What)
	}
	d.goTo(t, "tide sweep", "active")
	gridKey(d, fyne.KeyF2)
	if d.entry.Text != "3" {
		t.Errorf("F2 begins with %q", d.entry.Text)
	}
	d.entry.SetText("2(5)1")
	d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got := w.Model().Data().Fighter("Ostrel").Move("tide sweep").Active; !reflect.DeepEqual(got, []int{2, 5, 1}) {
		t.Errorf("active %v", got)
	}
	d.goTo(t, "tide sweep", "recovery")
	gridKey(d, fyne.KeyDelete)
	if got := w.Model().Data().Fighter("Ostrel").Move("tide sweep").Recovery; got != 0 || edits(w) != 3 {
		t.Errorf("Delete left %d after %d steps", got, edits(w))
	}
	w.Model().Undo()
	w.Model().Undo()
	w.Model().Undo()
	if got := w.Model().Data().Fighter("Ostrel").Move("tide sweep"); !reflect.DeepEqual(*got, pagetest.Sample().Fighters[0].Moves[0]) || !w.Model().CanRedo() {
		t.Errorf("all undone it is %+v", got)
	}
	if got := d.plain(d.grid.At().Row, d.grid.At().Col); got != "22" || d.Heads()[d.grid.At().Col] != "recovery" {
		t.Errorf("the cursor is on %s, %q", d.Heads()[d.grid.At().Col], got)
	}
}

// TestANameThatIsClearedTellsHowToRemoveTheRow types Delete on a name, which
// must stay, and on a cell that may be empty.
func TestANameThatIsClearedTellsHowToRemoveTheRow(t *testing.T) {
	_, d := openData(t, pagetest.Sample())
	d.goTo(t, "tide sweep", "name")
	gridKey(d, fyne.KeyDelete)
	if want := "expected a name, got an empty text. Nothing was changed. Ctrl+- removes the row."; !strings.HasSuffix(d.reason.text, want) {
		t.Errorf("it says %q, want %q", d.reason.text, want)
	}
	d.goTo(t, "tide sweep", "kind")
	gridKey(d, fyne.KeyDelete)
	if strings.Contains(d.reason.text, "Ctrl+-") {
		t.Errorf("of a kind it says %q", d.reason.text)
	}
}

func TestEscapeTakesACellBack(t *testing.T) {
	w, d := openData(t, pagetest.Sample())
	d.goTo(t, "tide sweep", "startup")
	d.typeIn("12")
	d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if d.editing || edits(w) != 0 || d.plain(d.grid.At().Row, d.grid.At().Col) != "8" || w.Page == nil {
		t.Errorf("typing %v, %d steps, page %v", d.editing, edits(w), w.Page)
	}
	gridKey(d, fyne.KeyEscape)
	if w.Page != nil {
		t.Error("a second Escape leaves the page open")
	}
}

func TestAWrongNumberIsRefusedWhereItIsTyped(t *testing.T) {
	for _, test := range []struct{ name, col, text, why string }{
		{"tide sweep", "startup", "six", `Expected a whole number, got "six".`},
		{"tide sweep", "startup", "600", "Expected a whole number from 1 to 512, got 600."},
		{"tide sweep", "level", "throw", `Expected mid, low or overhead for a strike, got "throw".`},
		{"tide sweep", "active", "2(5", `Expected frames written like 3, or 2(5)1 with gaps in brackets, got "2(5".`},
		{"tide sweep", "immune", "30-40", "Expected a frame from 30 to the move's last, 32, got 40."},
		{"falling heel", "on_hit", "4", "Hitstun: expected on hit or hitstun, not both, got 20."},
		{"tide sweep", "name", "low reed", `Expected a unique name, got "low reed" again.`},
		{"tide sweep", "name", "forward jump", `Expected a unique name, got "forward jump" again.`},
		{"falling heel", "air", "no", "“tide sweep, two steps, heel” uses falling heel as its attack: expected an air move."},
	} {
		w, d := openData(t, pagetest.Sample())
		d.enter(t, test.name, test.col, test.text)
		if got := d.reason.text; got != test.why || !d.reason.Visible() {
			t.Errorf("%s %q: it says %q, want %q", test.col, test.text, got, test.why)
		}
		if !d.editing || d.entry.Text != test.text || edits(w) != 0 {
			t.Errorf("%s %q: typing %v %q, %d steps", test.col, test.text, d.editing, d.entry.Text, edits(w))
		}
		if d.close() || w.Page == nil {
			t.Errorf("%s %q: the page closes over it", test.col, test.text)
		}
		d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		if d.reason.Visible() || d.editing {
			t.Errorf("%s %q: Escape doesn't take it back", test.col, test.text)
		}
	}
}

func TestANewMoveWaitsUntilItIsWhole(t *testing.T) {
	w, d := openData(t, pagetest.Sample())
	for _, c := range [][2]string{{"name", "long oar"}, {"kind", "strike"}, {"level", "mid"}, {"startup", "9"}} {
		d.enter(t, "", c[0], c[1])
		if d.editing {
			t.Fatalf("%s %q is refused: %s", c[0], c[1], d.reason.text)
		}
	}
	if edits(w) != 0 || len(d.drafts) != 1 {
		t.Fatalf("%d steps, %d drafts", edits(w), len(d.drafts))
	}
	d.goTo(t, "", "name")
	if got := d.about(d.grid.At()); got != "Not saved yet. active: expected the active frames of a strike, got nothing. Escape discards the row." {
		t.Errorf("it says %q", got)
	}
	d.enter(t, "", "landing_recovery", "x")
	if !d.editing {
		t.Error("a word for a number is taken into a row that waits")
	}
	d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	d.enter(t, "", "startup", "999")
	if !d.editing || d.reason.text != "Expected a whole number from 1 to 512, got 999." {
		t.Errorf("a startup of 999 in a row that waits: %q", d.reason.text)
	}
	d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	d.enter(t, "", "active", "2")
	m := w.Model().Data().Fighter("Ostrel").Move("long oar")
	if m == nil || m.Startup != 9 || edits(w) != 1 || len(d.drafts) != 0 {
		t.Fatalf("%+v after %d steps, %d drafts", m, edits(w), len(d.drafts))
	}
	if got, _ := w.Model().Document().Next(); got.What != "new move long oar" {
		t.Errorf("the step is called %q", got.What)
	}
	d.enter(t, "short step", "kind", "strike")
	if edits(w) != 1 || len(d.drafts) != 1 || d.Text(1, columnAt(d.table, "kind")) != "strike" {
		t.Errorf("another kind: %d steps, %d drafts", edits(w), len(d.drafts))
	}
	d.goTo(t, "short step", "kind")
	gridKey(d, fyne.KeyEscape)
	if len(d.drafts) != 0 || w.Page == nil || d.plain(1, columnAt(d.table, "kind")) != "dash" {
		t.Error("Escape doesn't give the row up")
	}
}

func TestARenameCarriesThrough(t *testing.T) {
	w, d := openData(t, pagetest.Sample())
	d.enter(t, "falling heel", "name", "heel drop")
	if got := w.Model().Setup().Attack; got != "heel drop" || edits(w) != 1 {
		t.Errorf("the setup's attack is %q", got)
	}
	if e := d.foot.effect; !e.done || len(e.changes) != 0 || !e.renames {
		t.Errorf("it says %+v", e)
	}
	d.tabs.Show(int(model.FighterRow))
	d.enter(t, "Ostrel", "name", "Vessel")
	if got := w.Model().Setup().Attacker; got != "Vessel" || d.fighter != "Vessel" {
		t.Errorf("the setup's attacker is %q, the page's fighter %q", got, d.fighter)
	}
}

func TestWhatASetupUsesStays(t *testing.T) {
	w, d := openData(t, pagetest.Sample())
	d.goTo(t, "falling heel", "name")
	ctrl(d, fyne.KeyMinus)
	if got := d.reason.text; got != `Setup "tide sweep, two steps, heel" uses the move "falling heel".` || edits(w) != 0 {
		t.Errorf("it says %q after %d steps", got, edits(w))
	}
	cell, size, _ := d.grid.Rect(d.grid.At())
	if at := d.reason.Position(); at.X != cell.X || at.Y < cell.Y+size.Height || d.reason.Size() != d.reason.need() {
		t.Errorf("it stands at %v, %v, the cell at %v", at, d.reason.Size(), cell)
	}
	d.goTo(t, "low reed", "name")
	gridKey(d, fyne.KeyLeft)
	gridKey(d, fyne.KeyDelete)
	if w.Model().Data().Fighter("Ostrel").Move("low reed") != nil || edits(w) != 1 {
		t.Errorf("Delete on the row's number leaves the move: %q", d.reason.text)
	}
	d.tabs.Show(2)
	d.goTo(t, "normal", "name")
	ctrl(d, fyne.KeyMinus)
	if got := d.reason.text; !strings.Contains(got, "at least one rise") {
		t.Errorf("the last rise: %q", got)
	}
	d.tabs.Show(int(model.RulesetRow))
	ctrl(d, fyne.KeyMinus)
	if got := d.reason.text; got != "These rows can't be removed." {
		t.Errorf("a rule: %q", got)
	}
}

func TestTheStripSaysWhatWouldChange(t *testing.T) {
	w, d := openData(t, pagetest.Sample())
	w.Model().Choose(2)
	d.choose("Maerwyn")
	d.goTo(t, "rising gale", "startup")
	d.typeIn("1")
	after := *w.Model().Data()
	after.Fighters = append([]timeline.Fighter(nil), after.Fighters...)
	after.Fighters[1].Moves = append([]timeline.Move(nil), after.Fighters[1].Moves...)
	after.Fighters[1].Moves[0].Startup = 1
	after.Fighters[1].Moves[0].Immune = nil
	want := 0
	for i := range w.Model().Len() {
		s, _ := w.Model().Document().Setup(i)
		if c := compare.New(w.Model().Data(), &after).Of(&s); c.Changed() {
			want++
		}
	}
	e := d.foot.effect
	if len(e.changes) != want || want == 0 || e.done || !strings.HasSuffix(e.lead(), "would change:") {
		t.Fatalf("it says %s %d, want %d", e.lead(), len(e.changes), want)
	}
	d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if e := d.foot.effect; len(e.changes) != want || !strings.HasSuffix(e.lead(), "changed:") || !e.done {
		t.Errorf("after it: %s %d", e.lead(), len(e.changes))
	}
	if len(d.foot.places) == 0 {
		t.Fatal("no name of a setup can be opened")
	}
	name := d.foot.effect.changes[0].Setup
	r := d.foot.places[0]
	d.foot.Tapped(&fyne.PointEvent{Position: fyne.NewPos(r.x0+2, r.y0+5)})
	if w.Page != nil || w.Model().Setup().Name != name {
		t.Errorf("a click on %s opens %s", name, w.Model().Setup().Name)
	}
}

func TestPasteGoesInWholeOrNotAtAll(t *testing.T) {
	w, d := openData(t, pagetest.Sample())
	d.goTo(t, "low reed", "name")
	pasteIn(d, "low reed\tstrike\t\tlow\t6\t3\t10\r\nhigh reed\tstrike\t\tmid\t7\t2(4)1\t11\r\n\"a \"\"b\"\"\"\tdash\t\t\t\t\t\t18\r\n")
	f := w.Model().Data().Fighter("Ostrel")
	if edits(w) != 1 || len(f.Moves) != 7 || f.Move("low reed").Startup != 6 || !reflect.DeepEqual(f.Move("high reed").Active, []int{2, 4, 1}) || f.Move(`a "b"`).Length != 18 {
		t.Fatalf("%d steps, %d moves: %s", edits(w), len(f.Moves), d.reason.text)
	}
	if a, b := d.grid.Selection(); a.Row != 4 || b.Row != 6 || b.Col != 7 {
		t.Errorf("selected %v to %v", a, b)
	}
	if got := copied(d); got != "low reed\tstrike\t\tlow\t6\t3\t10\t\nhigh reed\tstrike\t\tmid\t7\t2(4)1\t11\t\n\"a \"\"b\"\"\"\tdash\t\t\t\t\t\t18\n" && !strings.HasPrefix(got, "low reed\t") {
		t.Errorf("copied %q", got)
	}
	for _, test := range []struct{ col, text, want string }{
		{"startup", "6\n5\nx\n", `Line 3 of the paste (row 6), startup: expected a whole number, got "x". Nothing was changed.`},
		{"startup", "6\n900\n", "Line 2 of the paste (row 5), startup: expected a whole number from 1 to 512, got 900. Nothing was changed."},
		{"name", "fine\tdash\ttrue\t\t\t\t\t9\nfine\tdash\t\t\t\t\t\t9", `Line 2 of the paste (row 5), name: expected a unique name, got "fine" again, as in line 1 of the paste (row 4). Nothing was changed.`},
		{"distance_wall", "1\t2\t3", "The pasted cells are 3 columns wide, and from here on there are 1 column. Nothing was changed."},
	} {
		row := "falling heel"
		d.goTo(t, row, test.col)
		pasteIn(d, test.text)
		if got := d.reason.text; got != test.want || edits(w) != 1 {
			t.Errorf("%q: it says %q, want %q, after %d steps", test.text, got, test.want, edits(w))
		}
	}
	w.Model().Undo()
	if len(w.Model().Data().Fighter("Ostrel").Moves) != 5 || d.Len() != 6 {
		t.Error("undo doesn't take the paste back whole")
	}
}

func TestOneCellFillsTheSelection(t *testing.T) {
	w, d := openData(t, pagetest.Sample())
	d.goTo(t, "feint palm", "damage")
	at := d.grid.At()
	d.grid.Stretch(grid.Place{Row: at.Row + 2, Col: at.Col})
	pasteIn(d, "300")
	f := w.Model().Data().Fighter("Ostrel")
	if f.Move("feint palm").Damage != 300 || f.Move("low reed").Damage != 300 || edits(w) != 1 {
		t.Errorf("damage %d and %d", f.Move("feint palm").Damage, f.Move("low reed").Damage)
	}
	d.grid.TypedShortcut(&fyne.ShortcutCut{Clipboard: fyne.CurrentApp().Clipboard()})
	if got := fyne.CurrentApp().Clipboard().Content(); got != "300\n300\n300\n" || w.Model().Data().Fighter("Ostrel").Move("low reed").Damage != 0 || edits(w) != 2 {
		t.Errorf("cut %q", got)
	}
}

func TestSortIsOfTheDisplayAlone(t *testing.T) {
	w, d := openData(t, pagetest.Sample())
	before := w.Model().Data()
	startup := columnAt(d.table, "startup")
	d.goTo(t, "low reed", "startup")
	clickOn(d, -1, startup)
	var got []string
	for view := range d.table.len() {
		got = append(got, d.plain(view, startup))
	}
	if !reflect.DeepEqual(got, []string{"4", "5", "7", "8", ""}) || w.Model().Data() != before || edits(w) != 0 {
		t.Errorf("sorted %q", got)
	}
	if got := d.plain(d.grid.At().Row, 0); got != "low reed" {
		t.Errorf("the cursor is on %s", got)
	}
	d.typeIn("6")
	d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyTab})
	if f := w.Model().Data().Fighter("Ostrel"); f.Move("low reed").Startup != 6 || f.Moves[4].Name != "low reed" {
		t.Error("an edit of a sorted table went to another move")
	}
	clickOn(d, -1, startup)
	if got := d.plain(0, startup); got != "8" || d.plain(4, startup) != "" {
		t.Errorf("the other way %q first", got)
	}
	clickOn(d, -1, startup)
	if d.plain(0, 0) != "tide sweep" || d.grid.Sorted != -1 {
		t.Errorf("a third click: sorted by %d, first %q", d.grid.Sorted, d.plain(0, 0))
	}
}

func TestFindGoesFromCellToCell(t *testing.T) {
	w, d := openData(t, pagetest.Sample())
	d.Find()
	if w.Canvas().Focused() != fyne.Focusable(d.field) {
		t.Fatal("Ctrl+F is not the table's")
	}
	d.field.SetText("REED")
	if got := d.plain(d.grid.At().Row, d.grid.At().Col); got != "low reed" {
		t.Errorf("found %q", got)
	}
	d.field.SetText("strike")
	first := d.grid.At()
	d.field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if d.grid.At() == first || d.plain(d.grid.At().Row, d.grid.At().Col) != "strike" {
		t.Errorf("next at %v after %v", d.grid.At(), first)
	}
	d.field.SetText("no such")
	if !strings.Contains(d.foot.words, "No cell") {
		t.Errorf("it says %q", d.foot.words)
	}
	d.field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.Canvas().Focused() != fyne.Focusable(d.grid) || d.needle != "" {
		t.Errorf("Escape keeps the field: %T, %q", w.Canvas().Focused(), d.needle)
	}
}

// TestEnterAfterTabBeginsTheNextRow types two rows of jumps as in a sheet:
// Enter after Tab leads to the column where that began, elsewhere it keeps to
// the column.
func TestEnterAfterTabBeginsTheNextRow(t *testing.T) {
	w, d := openData(t, pagetest.Sample())
	d.tabs.Show(1)
	have := len(w.Model().Data().Fighters[0].Jumps)
	d.goTo(t, "", "name")
	for _, row := range [][]string{{"low hop", "3", "20", "2"}, {"long hop", "4", "41", "3"}} {
		for i, cell := range row {
			d.typeIn(cell)
			if i < len(row)-1 {
				d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyTab})
			}
		}
		d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	}
	jumps := w.Model().Data().Fighters[0].Jumps
	if len(jumps) != have+2 || jumps[have+1].Name != "long hop" || jumps[have+1].Landing != 3 {
		t.Fatalf("the jumps are %+v", jumps[have:])
	}
	gridKey(d, fyne.KeyTab)
	gridKey(d, fyne.KeyUp)
	d.typeIn("5")
	at := d.grid.At()
	d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if want := (grid.Place{Row: at.Row + 1, Col: at.Col}); d.grid.At() != want {
		t.Errorf("Enter led to %v, want %v", d.grid.At(), want)
	}
}

func TestEveryTableIsEdited(t *testing.T) {
	w, d := openData(t, pagetest.Sample())
	d.tabs.Show(1)
	d.enter(t, "forward jump", "airborne", "38")
	d.enter(t, "forward jump", "apex", "200")
	d.enter(t, "forward jump", "guard_after", "4")
	if d.reason.text != "Expected a whole number from 0 to the landing recovery, 3, got 4." {
		t.Errorf("it says %q", d.reason.text)
	}
	d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	d.tabs.Show(2)
	d.enter(t, "", "name", "late")
	d.enter(t, "", "extra", "7")
	d.tabs.Show(int(model.FighterRow))
	d.enter(t, "Maerwyn", "body", "95")
	d.enter(t, "", "name", "Third")
	d.tabs.Show(int(model.RulesetRow))
	d.goTo(t, "Strikes trade", "value")
	d.typeIn("no")
	d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	d.goTo(t, "Health", "value")
	d.typeIn("0")
	d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if d.reason.text != "Expected a whole number from 1 to 1000000000, got 0." {
		t.Errorf("it says %q", d.reason.text)
	}
	d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	d.goTo(t, "Frames per second", "value")
	d.typeIn("50")
	d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	p := w.Model().Data()
	j := p.Fighters[0].Jumps[0]
	if j.Airborne != 38 || j.Apex != timeline.Some(200) || p.Fighters[0].Rises[1] != (timeline.Rise{Name: "late", Extra: 7}) ||
		p.Fighters[1].Body != timeline.Some(95) || p.Ruleset.Trades || p.Ruleset.Rate != (timeline.Rate{Num: 50, Den: 1}) {
		t.Errorf("it holds %+v", p)
	}
	if f := p.Fighter("Third"); f == nil || len(f.Rises) != 1 {
		t.Errorf("the new fighter is %+v", f)
	}
	d.goTo(t, "Strikes trade", "value")
	gridKey(d, fyne.KeyDelete)
	if !w.Model().Data().Ruleset.Trades {
		t.Error("Delete is not the default")
	}
	if at := d.home(); at != (grid.Place{Row: 0, Col: ruleValue}) {
		t.Errorf("the ruleset begins at %v", at)
	}
	d.grid.Place(grid.Place{Row: 0, Col: 0})
	d.grid.TypedRune('x')
	if d.editing || d.reason.text != "This column can't be edited." {
		t.Errorf("a rule's name is typed: %q", d.reason.text)
	}
}

func TestUndoKeepsTheCursor(t *testing.T) {
	w, d := openData(t, pagetest.Sample())
	d.goTo(t, "short step", "name")
	d.enter(t, "low reed", "damage", "70")
	d.goTo(t, "feint palm", "travel")
	at := d.grid.At()
	w.Model().Undo()
	if d.grid.At() != at {
		t.Errorf("the cursor went to %v", d.grid.At())
	}
	d.goTo(t, "low reed", "name")
	ctrl(d, fyne.KeyMinus)
	d.goTo(t, "falling heel", "travel")
	w.Model().Undo()
	if got := d.plain(d.grid.At().Row, 0); got != "falling heel" || d.table.len() != 5 {
		t.Errorf("the cursor is on %s of %d", got, d.table.len())
	}
}

func TestAnEmptyProjectSaysWhatToDoFirst(t *testing.T) {
	w, d := openData(t, nil)
	if !d.message.Visible() || d.sheet.Visible() {
		t.Fatal("no words in an empty project")
	}
	if w.Canvas().Focused() != fyne.Focusable(d.first) {
		t.Error("the button has not the keys")
	}
	test.Tap(d.first)
	w.Canvas().Focused().TypedRune('V')
	tap(t, w, "Add")
	if len(w.Model().Data().Fighters) != 1 || d.message.Visible() || d.fighter != "V" {
		t.Fatalf("fighters %v", w.Model().Data().Fighters)
	}
	if got := d.about(d.grid.At()); !strings.Contains(got, "still needs a move that knocks down") {
		t.Errorf("it says %q", got)
	}
	d.enter(t, "", "kind", "strike")
	d.enter(t, "", "name", "sweep")
	d.enter(t, "", "level", "low")
	d.enter(t, "", "startup", "6")
	d.enter(t, "", "active", "3")
	if len(w.Model().Data().Fighters[0].Moves) != 1 {
		t.Errorf("no move: %s", d.reason.text)
	}
	d.enter(t, "sweep", "knockdown_midscreen", "40")
	d.goTo(t, "", "name")
	if got := d.about(d.grid.At()); !strings.Contains(got, "still needs a jump") {
		t.Errorf("it says %q", got)
	}
}

func TestTheLastFighterGoesFromUnderACell(t *testing.T) {
	w, d := openData(t, nil)
	if why := d.apply("new fighter", timeline.FighterEdit{Fighter: &timeline.Fighter{Name: "V", Rises: []timeline.Rise{{Name: "normal"}}}}); why != "" {
		t.Fatal(why)
	}
	d.goTo(t, "", "name")
	d.typeIn("step")
	w.Model().Undo()
	if d.editing || !d.message.Visible() {
		t.Error("a cell of nobody is typed in")
	}
}

func TestTabGoesAroundTheTable(t *testing.T) {
	w, d := openData(t, pagetest.Sample())
	d.field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyTab}) // whoever has the keys
	d.Refocus()
	c := w.Canvas()
	seen := map[fyne.Focusable]bool{}
	gridKey(d, fyne.KeyF6)
	for range 12 {
		seen[c.Focused()] = true
		c.FocusNext()
	}
	for _, f := range []fyne.Focusable{d.fighters, d.tabs.Row, d.field, d.foot, d.grid} {
		if !seen[f] {
			t.Errorf("the keys never come to %T", f)
		}
	}
}

func TestAnAdditionAsksNoSetup(t *testing.T) {
	w, d := openData(t, pagetest.Sample())
	behind := 0
	w.Hold = func(do func()) { behind++; do() }
	d.tabs.Show(1)
	for _, c := range [][2]string{{"name", "hop"}, {"prejump", "3"}, {"airborne", "20"}, {"landing", "2"}} {
		d.enter(t, "", c[0], c[1])
	}
	if e := d.foot.effect; behind != 0 || !e.done || e.lead() != "No setup changed." || len(w.Model().Data().Fighter("Ostrel").Jumps) != 2 {
		t.Errorf("%d weighed: %s", behind, e.lead())
	}
	d.tabs.Show(2)
	d.choose("Maerwyn")
	d.enter(t, "", "name", "late")
	d.enter(t, "", "extra", "30")
	if e := d.foot.effect; behind == 0 || len(e.changes) == 0 {
		t.Errorf("a rise more, which a setup claims with all others: %s", e.lead())
	}
}

func TestAReadOnlyFileIsShownAndRefused(t *testing.T) {
	w := pagetest.OpenFile(t, pagetest.Sample())
	f, err := storage.Open(w.Model().Path())
	if err != nil {
		t.Fatal(err)
	}
	again, err := model.NewDocument(f)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { again.Close() })
	w = pagetest.Of(t, model.NewModel(again))
	if w.Model().ReadOnly() == "" {
		t.Fatal("a second window edits the file")
	}
	d := pageOn(t, w)
	d.goTo(t, "tide sweep", "startup")
	d.grid.TypedRune('5')
	if d.editing || !strings.HasPrefix(d.reason.text, "This project is read-only: ") {
		t.Errorf("it says %q", d.reason.text)
	}
	pasteIn(d, "5")
	gridKey(d, fyne.KeyDelete)
	if got := d.plain(d.grid.At().Row, d.grid.At().Col); got != "8" {
		t.Errorf("the cell holds %q", got)
	}
}

func TestCellsOfAFileAreOnDisk(t *testing.T) {
	w := pagetest.OpenFile(t, pagetest.Sample())
	onDisk := func() timeline.Move {
		f, err := storage.Open(w.Model().Path())
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		return *f.Data().Fighter("Ostrel").Move("tide sweep")
	}
	d := pageOn(t, w)
	d.enter(t, "tide sweep", "recovery", "20")
	d.enter(t, "falling heel", "air", "no")
	if got := d.reason.text; !strings.HasPrefix(got, "“tide sweep, two steps, heel” uses falling heel as its attack: expected an air move") {
		t.Errorf("it says %q", got)
	}
	d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	d.goTo(t, "falling heel", "name")
	ctrl(d, fyne.KeyMinus)
	if got := d.reason.text; got != `Setup "tide sweep, two steps, heel" uses the move "falling heel".` {
		t.Errorf("it says %q", got)
	}
	if got := onDisk(); edits(w) != 1 || got.Recovery != 20 {
		t.Errorf("%d steps, recovery %d", edits(w), got.Recovery)
	}
	w.Model().Undo()
	if onDisk().Recovery != 22 || d.plain(0, columnAt(d.table, "recovery")) != "22" {
		t.Error("undo leaves another number")
	}
}

// TestAnEmptyRuleIsTheDefault clears each cell of a ruleset.
func TestAnEmptyRuleIsTheDefault(t *testing.T) {
	p := pagetest.Sample()
	r := &rulesetTable{p}
	for row := range r.len() {
		if e, f := r.read(row, []string{"", "", ""}); f != nil || !e.(timeline.RulesetEdit).Ruleset.Equal(timeline.DefaultRuleset()) {
			t.Errorf("%s: %+v, %+v", r.cell(row, ruleName), e, f)
		}
	}
}

// TestCellsReadBackEqual takes every row of every table of the demo through
// its cells: what is written is read as what it was.
func TestCellsReadBackEqual(t *testing.T) {
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	for i := range p.Fighters {
		f := &p.Fighters[i]
		for _, kind := range tables {
			s := kind.of(p, f)
			for row := range s.len() {
				cells := cellsOf(s, row)
				e, bad := s.read(row, cells)
				if bad != nil {
					t.Fatalf("%s %q: %s", s.rowWord(), cells[0], bad.words())
				}
				q, err := p.With(e)
				if err != nil || !reflect.DeepEqual(p, q) {
					t.Errorf("%s %q reads back as %+v, %v", s.rowWord(), cells[0], e, err)
				}
				for col := range cells {
					if bad := s.alone(row, col, cells); bad != nil {
						t.Errorf("%s %q, %s: %s", s.rowWord(), cells[0], s.columns()[col].name, bad.words())
					}
				}
			}
		}
	}
}
