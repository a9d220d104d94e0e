package grid

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
)

// numbered are rows and columns of cells that say where they stand, and what
// was asked of them.
type numbered struct {
	rows, columns int
	stays         bool // the cursor can't leave its cell
	asked         []string
}

func (n *numbered) Heads() (out []string) {
	for col := range n.columns {
		out = append(out, fmt.Sprintf("column %d", col))
	}
	return out
}
func (n *numbered) Len() int { return n.rows }
func (n *numbered) Text(row, col int) string {
	if col > 0 {
		return fmt.Sprint(col)
	}
	return fmt.Sprintf("row %d", row)
}
func (n *numbered) Label(row int) string   { return fmt.Sprint(row) }
func (n *numbered) Look(row, col int) Look { return Plain }

func (n *numbered) ask(what string, of ...any) { n.asked = append(n.asked, fmt.Sprintf(what, of...)) }

func (n *numbered) Moved()                 {}
func (n *numbered) Escape()                { n.ask("escape") }
func (n *numbered) Copy(fyne.Clipboard)    { n.ask("copy") }
func (n *numbered) Leave() bool            { return !n.stays }
func (n *numbered) Edit(with string)       { n.ask("edit %q", with) }
func (n *numbered) Empty()                 { n.ask("empty") }
func (n *numbered) Drop()                  { n.ask("drop") }
func (n *numbered) Paste(fyne.Clipboard)   { n.ask("paste") }
func (n *numbered) Sort()                  { n.ask("sort") }
func (n *numbered) Shift(by int)           { n.ask("shift %d", by) }
func (n *numbered) Turn(by int)            { n.ask("turn %d", by) }
func (n *numbered) Menu() []*fyne.MenuItem { return nil }
func (n *numbered) Help()                  { n.ask("help") }

// readOnly hides that they can be edited.
type readOnly struct{ Events }

func show(t testing.TB, rows, columns int) (*numbered, *Grid) {
	test.NewTempApp(t)
	n := &numbered{rows: rows, columns: columns}
	g := New(n, n)
	w := test.NewTempWindow(t, g)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(900, 600))
	g.Fit()
	return n, g
}

func (g *Grid) press(names ...fyne.KeyName) {
	for _, name := range names {
		g.TypedKey(&fyne.KeyEvent{Name: name})
	}
}

func (g *Grid) ctrl(name fyne.KeyName) {
	g.TypedShortcut(&desktop.CustomShortcut{KeyName: name, Modifier: fyne.KeyModifierControl})
}

// texts are what the grid paints.
func (g *Grid) texts() (out []string) {
	for _, o := range test.WidgetRenderer(g).Objects() {
		if t, ok := o.(*canvas.Text); ok {
			out = append(out, t.Text)
		}
	}
	return out
}

func TestOnlyCellsInViewArePainted(t *testing.T) {
	_, few := show(t, 100, 32)
	n := len(few.texts())
	_, g := show(t, 2000, 32)
	if got := len(g.texts()); got > n+20 || got < n-20 { // the widths differ by a column
		t.Errorf("%d texts of 2,000 rows, %d of 100", got, n)
	}
	g.Place(Place{1500, 0})
	all := strings.Join(g.texts(), "|") + "|"
	if !strings.Contains(all, "row 1500|") || strings.Contains(all, "row 0|") {
		t.Errorf("on row 1500 it shows %s", all)
	}
	g.Place(Place{1500, 31})
	if pos, size, _ := g.Rect(g.At()); pos.X+size.Width > g.Size().Width {
		t.Errorf("the last column ends on %g of %g", pos.X+size.Width, g.Size().Width)
	}
	if all := strings.Join(g.texts(), "|") + "|"; !strings.Contains(all, "row 1500|") || !strings.Contains(all, "column 31|") || strings.Contains(all, "column 1|") {
		t.Errorf("scrolled across it shows %s", all)
	}
}

func TestKeysMoveTheCursor(t *testing.T) {
	n, g := show(t, 106, 32)
	for _, test := range []struct {
		key  fyne.KeyName
		want Place
	}{
		{fyne.KeyDown, Place{1, 0}}, {fyne.KeyRight, Place{1, 1}}, {fyne.KeyTab, Place{1, 2}}, {fyne.KeyEnd, Place{1, 31}},
		{fyne.KeyTab, Place{2, 0}}, {fyne.KeyLeft, Place{2, LabelColumn}}, {fyne.KeyLeft, Place{2, LabelColumn}}, {fyne.KeyHome, Place{2, 0}},
		{fyne.KeyUp, Place{1, 0}}, {fyne.KeyUp, Place{0, 0}}, {fyne.KeyUp, Place{0, 0}},
	} {
		g.press(test.key)
		if g.cur != test.want || g.anchor != test.want {
			t.Fatalf("%s went to %v, want %v", test.key, g.cur, test.want)
		}
	}
	g.press(fyne.KeyEnd)
	if g.offset.X == 0 {
		t.Error("End doesn't scroll")
	}
	g.press(fyne.KeyHome)
	if g.offset.X != 0 {
		t.Error("Home doesn't scroll back")
	}
	g.press(fyne.KeyPageDown)
	if g.cur.Row < 5 || g.cur.Row > 40 {
		t.Errorf("Page Down went to %v", g.cur)
	}
	g.ctrl(fyne.KeyEnd)
	if g.cur != (Place{105, 31}) {
		t.Errorf("Ctrl+End went to %v", g.cur)
	}
	g.ctrl(fyne.KeyHome)
	g.Keys = func() fyne.KeyModifier { return fyne.KeyModifierShift }
	g.press(fyne.KeyDown, fyne.KeyRight)
	if a, b := g.Selection(); a != (Place{}) || b != (Place{1, 1}) {
		t.Errorf("chosen %v to %v", a, b)
	}
	g.press(fyne.KeyTab)
	if g.cur != (Place{1, 0}) {
		t.Errorf("Shift+Tab went to %v", g.cur)
	}
	g.Keys = func() fyne.KeyModifier { return 0 }
	g.Place(Place{3, 0})
	g.press(fyne.KeyTab, fyne.KeyTab)
	if got := g.Below(1); got != (Place{4, 0}) {
		t.Errorf("after Tab the next row begins at %v", got)
	}
	g.press(fyne.KeyF1, fyne.KeyDelete, fyne.KeyReturn, fyne.KeyEscape)
	g.TypedRune('7')
	g.ctrl(fyne.KeyMinus)
	g.ctrl(fyne.KeyPageDown)
	if got := strings.Join(n.asked, ", "); got != `help, empty, edit "", escape, edit "7", drop, turn 1` {
		t.Errorf("asked: %s", got)
	}
}

func TestTheMouseSelectsCells(t *testing.T) {
	n, g := show(t, 20, 32)
	at := func(row, col int) fyne.Position { return fyne.NewPos(g.left(col)+5, g.top(row)+5) }
	down := func(pos fyne.Position, mod fyne.KeyModifier) {
		ev := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary, Modifier: mod}
		ev.Position = pos
		g.MouseDown(ev)
	}
	down(at(1, 2), 0)
	ev := &fyne.DragEvent{}
	ev.Position = at(3, 4)
	g.Dragged(ev)
	g.DragEnd()
	if a, b := g.Selection(); a != (Place{1, 2}) || b != (Place{3, 4}) {
		t.Errorf("a drag chose %v to %v", a, b)
	}
	down(at(4, 5), fyne.KeyModifierShift)
	if a, b := g.Selection(); a != (Place{1, 2}) || b != (Place{4, 5}) {
		t.Errorf("Shift and a click chose %v to %v", a, b)
	}
	down(at(2, LabelColumn), 0)
	if a, b := g.Selection(); a != (Place{2, 0}) || b != (Place{2, 31}) {
		t.Errorf("a row's number chose %v to %v", a, b)
	}
	n.stays = true
	down(at(4, 4), 0)
	if a, b := g.Selection(); a != (Place{2, 0}) || b != (Place{2, 31}) {
		t.Errorf("a click elsewhere leaves a cell that stays, for %v to %v", a, b)
	}
}

func TestAHeadingSortsOnlyWhatCanBeSorted(t *testing.T) {
	n, g := show(t, 20, 3)
	head := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	head.Position = fyne.NewPos(g.left(1)+4, 5)
	for i, want := range []struct {
		sorted  int
		falling bool
	}{{1, false}, {1, true}, {-1, true}} {
		if g.MouseDown(head); g.Sorted != want.sorted || g.Falling != want.falling || len(n.asked) != i+1 {
			t.Errorf("click %d sorts by %d, %v, asked %v", i, g.Sorted, g.Falling, n.asked)
		}
	}
	fixed := New(n, readOnly{n})
	fixed.Fit()
	fixed.Resize(fyne.NewSize(900, 600))
	if fixed.MouseDown(head); fixed.Sorted != -1 {
		t.Error("a grid that is only read shows itself sorted")
	}
}

func TestWheelAndBarsScroll(t *testing.T) {
	_, g := show(t, 106, 32)
	g.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -60)})
	if g.offset.Y != 60 || g.offset.X != 0 {
		t.Errorf("the wheel went to %v", g.offset)
	}
	g.Keys = func() fyne.KeyModifier { return fyne.KeyModifierShift }
	g.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -60)})
	if g.offset.X != 60 || g.offset.Y != 60 {
		t.Errorf("Shift and the wheel went to %v", g.offset)
	}
	from, n, ok := g.bar(false)
	if !ok {
		t.Fatal("no bar")
	}
	ev := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	ev.Position = fyne.NewPos(g.Size().Width-4, from+n/2)
	g.MouseDown(ev)
	drag := &fyne.DragEvent{}
	drag.Position = fyne.NewPos(g.Size().Width-4, 5000)
	g.Dragged(drag)
	_, h := g.whole()
	if _, vh := g.view(); g.offset.Y != h-vh {
		t.Errorf("the bar's end is %v of %g", g.offset.Y, h)
	}
}

// BenchmarkScroll paints a page of a table of 2,000 rows further down at
// each step, as a wheel that turns does.
func BenchmarkScroll(b *testing.B) {
	_, g := show(b, 2000, 32)
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		n = (n + 20) % 1900
		g.scrollTo(fyne.NewPos(0, float32(n)*RowHeight))
		g.Refresh()
	}
}
