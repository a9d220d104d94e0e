package data

import (
	"fmt"
	"strconv"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/timeline"
	"wakeline/ui/grid"
	"wakeline/ui/page/pagetest"
)

// tall is the sample with n moves more.
func tall(n int) *timeline.Project {
	p := pagetest.Sample()
	for i := range n {
		m := p.Fighters[0].Moves[4]
		m.Name = fmt.Sprintf("low reed no. %d", i)
		m.Damage = i * 7 % 1000
		p.Fighters[0].Moves = append(p.Fighters[0].Moves, m)
	}
	return p
}

func TestKeysOfTheMoveData(t *testing.T) {
	_, d := openData(t, tall(100))
	ctrl(d, fyne.KeyEnd)
	if d.grid.At() != (grid.Place{Row: 105, Col: 31}) || d.Text(105, 0) != "new move…" {
		t.Errorf("Ctrl+End went to %v", d.grid.At())
	}
	ctrl(d, fyne.KeyPageDown)
	if d.kind != 1 || d.grid.At() != (grid.Place{}) {
		t.Errorf("Ctrl+Page Down shows table %d", d.kind)
	}
	gridKey(d, fyne.KeyF6)
	if d.host.Canvas().Focused() == fyne.Focusable(d.grid) {
		t.Error("F6 stays in the table")
	}
}

// clickOn presses the mouse on a cell; a heading has row -1.
func clickOn(d *Page, row, col int) fyne.Position {
	pos, _, _ := d.grid.Rect(grid.Place{Row: max(row, 0), Col: col})
	if row < 0 {
		pos.Y -= grid.HeadHeight
	}
	ev := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	ev.Position = pos.AddXY(5, 5)
	d.grid.MouseDown(ev)
	d.grid.MouseUp(ev)
	return ev.Position
}

func TestTheMouseTakesACellOrKeepsIt(t *testing.T) {
	_, d := openData(t, pagetest.Sample())
	d.grid.DoubleTapped(&fyne.PointEvent{Position: clickOn(d, 0, 3)})
	if !d.editing || d.entry.Text != "low" {
		t.Errorf("a double click types %v %q", d.editing, d.entry.Text)
	}
	d.entry.SetText("throw")
	clickOn(d, 4, 4)
	if d.grid.At() != (grid.Place{Row: 0, Col: 3}) || !d.editing || !d.reason.Visible() {
		t.Error("a click elsewhere leaves a cell that is refused")
	}
	d.entry.SetText("mid")
	clickOn(d, 4, 4)
	if d.grid.At() != (grid.Place{Row: 4, Col: 4}) || d.editing || d.plain(0, 3) != "mid" {
		t.Error("a click elsewhere doesn't take the cell")
	}
}

func TestARightClickOffersWhatTheKeysDo(t *testing.T) {
	_, d := openData(t, pagetest.Sample())
	d.goTo(t, "low reed", "damage")
	d.typeIn("90")
	d.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	d.goTo(t, "low reed", "damage")
	choose := func(label string) {
		for _, i := range d.Menu() {
			if strings.HasPrefix(i.Label, label) {
				i.Action()
				return
			}
		}
		t.Fatalf("no item %q", label)
	}
	choose("Cut")
	if got := fyne.CurrentApp().Clipboard().Content(); got != "90\n" || d.plain(4, d.grid.At().Col) != "" {
		t.Errorf("cut %q", got)
	}
	choose("Paste")
	if d.plain(4, d.grid.At().Col) != "90" {
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
			p.Setups = pagetest.Many(test.setups).Setups
			w, d := openData(b, p)
			if !test.weigh {
				w.Hold = func(func()) {}
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
	w, d := openData(b, pagetest.Sample())
	w.Hold = func(func()) {}
	var text strings.Builder
	for i := range 2000 {
		fmt.Fprintf(&text, "new %d\tstrike\t\tmid\t%d\t2(3)1\t12\t\n", i, 4+i%20)
	}
	block := text.String()
	for b.Loop() {
		d.goTo(b, "", "name")
		pasteIn(d, block)
		if n := d.table.len(); n != 2005 {
			b.Fatalf("%d rows: %s", n, d.reason.text)
		}
		w.Model().Undo()
	}
}

func TestManySetupsAreWeighedWhenTheTypingPauses(t *testing.T) {
	w, d := openData(t, pagetest.Many(manyToWeigh))
	done := make(chan func(), 64)
	w.Tasks.Later = func(do func()) { done <- do }
	var behind int
	w.Hold = func(do func()) { behind++; do() }
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
	if got := overlayText(w); strings.Contains(got, last) || !strings.Contains(got, d.foot.andMore(n-footMost)) {
		t.Errorf("of %d it lists more than %d", n, footMost)
	}
}
