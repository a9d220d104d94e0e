package ui

import (
	"fmt"
	"strconv"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"wakeline/timeline"
)

// tall is the sample with n moves more.
func tall(n int) *timeline.Project {
	p := sample()
	for i := range n {
		m := p.Fighters[0].Moves[4]
		m.Name = fmt.Sprintf("low reed no. %d", i)
		m.Damage = i * 7 % 1000
		p.Fighters[0].Moves = append(p.Fighters[0].Moves, m)
	}
	return p
}

func (d *dataPage) objects() (texts []string) {
	for _, o := range test.WidgetRenderer(d.grid).Objects() {
		if t, ok := o.(*canvas.Text); ok {
			texts = append(texts, t.Text)
		}
	}
	return texts
}

func TestOnlyCellsInViewArePainted(t *testing.T) {
	_, few := openData(t, tall(100))
	n := len(few.objects())
	_, d := openData(t, tall(2000))
	if got := len(d.objects()); got > n+20 || got < n-20 { // the widths differ by a column
		t.Errorf("%d texts of 2,005 rows, %d of 105", got, n)
	}
	d.grid.place(dataPlace{1500, 0})
	all := strings.Join(d.objects(), "|")
	if !strings.Contains(all, "low reed no. 1495|") || strings.Contains(all, "tide sweep") {
		t.Errorf("on row 1501 it shows %s", all)
	}
	d.grid.place(dataPlace{1500, len(d.grid.widths) - 1})
	if x := d.grid.left(len(d.grid.widths)-1) + d.grid.wide(len(d.grid.widths)-1); x > d.grid.Size().Width {
		t.Errorf("the last column ends on %g of %g", x, d.grid.Size().Width)
	}
	if all := strings.Join(d.objects(), "|"); !strings.Contains(all, "low reed no. 1495|") || !strings.Contains(all, "distance wall") || strings.Contains(all, "|kind") {
		t.Errorf("scrolled across it shows %s", all)
	}
}

func TestKeysOfTheMoveData(t *testing.T) {
	_, d := openData(t, tall(100))
	g := d.grid
	for _, test := range []struct {
		key  fyne.KeyName
		want dataPlace
	}{
		{fyne.KeyDown, dataPlace{1, 0}}, {fyne.KeyRight, dataPlace{1, 1}}, {fyne.KeyTab, dataPlace{1, 2}}, {fyne.KeyEnd, dataPlace{1, 31}},
		{fyne.KeyTab, dataPlace{2, 0}}, {fyne.KeyLeft, dataPlace{2, labelColumn}}, {fyne.KeyLeft, dataPlace{2, labelColumn}}, {fyne.KeyHome, dataPlace{2, 0}},
		{fyne.KeyUp, dataPlace{1, 0}}, {fyne.KeyUp, dataPlace{0, 0}}, {fyne.KeyUp, dataPlace{0, 0}},
	} {
		gridKey(d, test.key)
		if g.cur != test.want || g.anchor != test.want {
			t.Fatalf("%s went to %v, want %v", test.key, g.cur, test.want)
		}
	}
	gridKey(d, fyne.KeyEnd)
	if g.offset.X == 0 {
		t.Error("End doesn't scroll")
	}
	gridKey(d, fyne.KeyHome)
	if g.offset.X != 0 {
		t.Error("Home doesn't scroll back")
	}
	gridKey(d, fyne.KeyPageDown)
	if g.cur.row < 5 || g.cur.row > 40 {
		t.Errorf("Page Down went to %v", g.cur)
	}
	ctrl(d, fyne.KeyEnd)
	if g.cur != (dataPlace{105, 31}) || d.text(105, 0) != "new move…" {
		t.Errorf("Ctrl+End went to %v", g.cur)
	}
	ctrl(d, fyne.KeyHome)
	g.keys = func() fyne.KeyModifier { return fyne.KeyModifierShift }
	gridKey(d, fyne.KeyDown)
	gridKey(d, fyne.KeyRight)
	if a, b := g.selection(); a != (dataPlace{}) || b != (dataPlace{1, 1}) || copied(d) != "tide sweep\tstrike\nshort step\tdash\n" {
		t.Errorf("chosen %v to %v: %q", a, b, copied(d))
	}
	gridKey(d, fyne.KeyTab)
	if g.cur != (dataPlace{1, 0}) {
		t.Errorf("Shift+Tab went to %v", g.cur)
	}
	g.keys = func() fyne.KeyModifier { return 0 }
	ctrl(d, fyne.KeyPageDown)
	if d.kind != 1 || d.grid.cur != (dataPlace{}) {
		t.Errorf("Ctrl+Page Down shows table %d", d.kind)
	}
	gridKey(d, fyne.KeyF1)
	if d.w.Canvas().Overlays().Top() == nil {
		t.Error("F1 shows no keys")
	}
	tap(t, d.w, "Close")
	gridKey(d, fyne.KeyF6)
	if d.w.Canvas().Focused() == fyne.Focusable(d.grid) {
		t.Error("F6 stays in the table")
	}
}

func TestTheMouseChoosesCells(t *testing.T) {
	_, d := openData(t, sample())
	g := d.grid
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
	if a, b := g.selection(); a != (dataPlace{1, 2}) || b != (dataPlace{3, 4}) {
		t.Errorf("a drag chose %v to %v", a, b)
	}
	down(at(4, 5), fyne.KeyModifierShift)
	if a, b := g.selection(); a != (dataPlace{1, 2}) || b != (dataPlace{4, 5}) {
		t.Errorf("Shift and a click chose %v to %v", a, b)
	}
	down(at(2, labelColumn), 0)
	if a, b := g.selection(); a != (dataPlace{2, 0}) || b != (dataPlace{2, len(g.widths) - 1}) {
		t.Errorf("a row's number chose %v to %v", a, b)
	}
	down(at(0, 3), 0)
	g.DoubleTapped(&fyne.PointEvent{Position: at(0, 3)})
	if !d.editing || d.entry.Text != "low" {
		t.Errorf("a double click types %v %q", d.editing, d.entry.Text)
	}
	d.entry.SetText("throw")
	down(at(4, 4), 0)
	if g.cur != (dataPlace{0, 3}) || !d.editing || !d.reason.Visible() {
		t.Error("a click elsewhere leaves a cell that is refused")
	}
	d.entry.SetText("mid")
	down(at(4, 4), 0)
	if g.cur != (dataPlace{4, 4}) || d.editing || d.plain(0, 3) != "mid" {
		t.Error("a click elsewhere doesn't take the cell")
	}
}

func TestARightClickOffersWhatTheKeysDo(t *testing.T) {
	w, d := openData(t, sample())
	d.goTo(t, "low reed", "damage")
	d.typeIn("90")
	d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	d.goTo(t, "low reed", "damage")
	choose := func(label string) {
		for _, i := range d.menu() {
			if strings.HasPrefix(i.Label, label) {
				i.Action()
				return
			}
		}
		t.Fatalf("no item %q", label)
	}
	choose("Cut")
	if got := w.app.Clipboard().Content(); got != "90\n" || d.plain(4, d.grid.cur.col) != "" {
		t.Errorf("cut %q", got)
	}
	choose("Paste")
	if d.plain(4, d.grid.cur.col) != "90" {
		t.Error("nothing is pasted")
	}
	choose("Sort descending")
	if d.plain(0, 0) != "low reed" {
		t.Error("it isn't sorted")
	}
	choose("Remove row")
	if d.has("low reed") {
		t.Error("the row stays")
	}
}

func TestWheelAndBarsScroll(t *testing.T) {
	_, d := openData(t, tall(100))
	g := d.grid
	g.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -60)})
	if g.offset.Y != 60 || g.offset.X != 0 {
		t.Errorf("the wheel went to %v", g.offset)
	}
	g.keys = func() fyne.KeyModifier { return fyne.KeyModifierShift }
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

// BenchmarkDataPage paints a page of a table of 2,000 rows further down at
// each step, as a wheel that turns does.
func BenchmarkDataPage(b *testing.B) {
	_, d := openData(b, tall(2000))
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		n = (n + 20) % 1900
		d.grid.scrollTo(fyne.NewPos(0, float32(n)*dataRow))
		d.grid.Refresh()
	}
}

// BenchmarkDataKeystroke types a digit in a cell of a table of 2,000 rows. What
// goes on behind the window, which setups it would change, is not counted, or
// is.
func BenchmarkDataKeystroke(b *testing.B) {
	for _, test := range []struct {
		name   string
		setups int
		weigh  bool
	}{{"typed", 500, false}, {"weighed_3_setups", 3, true}, {"weighed_500_setups", 500, true}} {
		b.Run(test.name, func(b *testing.B) {
			p := tall(2000)
			p.Setups = many(test.setups).Setups
			w, d := openData(b, p)
			if !test.weigh {
				w.tasks.Spawn = func(func()) {}
			}
			d.goTo(b, "tide sweep", "recovery")
			d.grid.TypedRune('1')
			i := 0
			for b.Loop() {
				i++
				d.entry.SetText(strconv.Itoa(i % 100))
			}
			if d.tried.edit == nil && d.entry.Text != d.was {
				b.Fatal("no edit")
			}
		})
	}
}

// BenchmarkDataPaste pastes 2,000 rows of 8 cells, and takes them back.
func BenchmarkDataPaste(b *testing.B) {
	w, d := openData(b, sample())
	w.tasks.Spawn = func(func()) {}
	var text strings.Builder
	for i := range 2000 {
		fmt.Fprintf(&text, "new %d\tstrike\t\tmid\t%d\t2(3)1\t12\t\n", i, 4+i%20)
	}
	block := text.String()
	for b.Loop() {
		d.goTo(b, "", "name")
		pasteIn(d, block)
		if n := d.rows.len(); n != 2005 {
			b.Fatalf("%d rows: %s", n, d.reason.text)
		}
		w.undo()
	}
}

func TestManySetupsAreWeighedWhenTheTypingPauses(t *testing.T) {
	w, d := openData(t, many(manyToWeigh))
	done := make(chan func(), 64)
	w.tasks.Later = func(do func()) { done <- do }
	var behind int
	w.tasks.Spawn = func(do func()) { behind++; do() }
	d.choose("Maerwyn")
	d.goTo(t, "rising gale", "startup")
	d.typeIn("12")
	if e := d.foot.effect; behind != 0 || !e.looking {
		t.Fatalf("%d were weighed at the keys, looking %v", behind, e.looking)
	}
	for deadline := time.After(20 * time.Second); d.foot.effect.looking; {
		select {
		case do := <-done:
			do()
		case <-deadline:
			t.Fatal("nothing was weighed")
		}
	}
	n := len(d.foot.effect.changes)
	if n == 0 || behind != 1 {
		t.Fatalf("%d change, weighed %d times", n, behind)
	}
	d.foot.follow(len(d.foot.places) - 1)
	last := d.foot.effect.changes[footMost].Setup + ":"
	if got := overlayText(w); strings.Contains(got, last) || !strings.Contains(got, d.foot.more(n-footMost)) {
		t.Errorf("of %d it lists more than %d", n, footMost)
	}
}
