package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"wakeline/timeline"
	"wakeline/ui/editor"
	"wakeline/ui/paint"
	"wakeline/ui/panel"
)

// TestABlockLeavesTheSetupsNumbersInReach selects a block: its numbers have a
// tab of their own, and the setup's stay where they were under theirs.
func TestABlockLeavesTheSetupsNumbersInReach(t *testing.T) {
	w := open(t, sample(), laptop)
	n := w.numbers
	top := func(o fyne.CanvasObject) float32 { return w.app.Driver().AbsolutePositionForObject(o).Y }
	name := entryNamed(t, w, "Name")
	before := top(name)
	tapTab := func(i int) {
		from, _ := n.Tabs.Row.Span(i)
		test.TapAt(n.Tabs.Row, fyne.NewPos(from+paint.TabPad+2, 10))
	}
	w.sheet.Select(editor.One(timeline.PartJump, 0))
	if n.Tabs.At != panel.BlockTab || n.Thing.Of == nil || n.Thing.Of.Name != "forward jump" {
		t.Fatalf("tab %d shows %+v", n.Tabs.At, n.Thing.Of)
	}
	if first := n.Thing.Rows[0].Field.Object(); top(first) > before+60 {
		t.Errorf("the block's first field lies at %g", top(first))
	}
	tapTab(panel.SetupTab)
	if n.Tabs.At != panel.SetupTab || top(name) != before {
		t.Errorf("tab %d; the setup's name lies at %g, and lay at %g", n.Tabs.At, top(name), before)
	}
	w.sheet.Select(editor.One(timeline.PartAttack, 0))
	if n.Tabs.At != panel.SetupTab || n.Thing.Of.Name != "falling heel" {
		t.Errorf("another block leads the hand away, to tab %d of %+v", n.Tabs.At, n.Thing.Of)
	}
	tapTab(panel.BlockTab)
	w.sheet.Select(editor.Selection{})
	if n.Tabs.At != panel.SetupTab {
		t.Error("without a block its tab stays")
	}
	w.sheet.Select(editor.One(timeline.PartEnder, 0))
	if n.Tabs.At != panel.BlockTab {
		t.Error("a hand that has taken the block's tab is not led to it again")
	}
}

// TestTheKeyOfTheNumbersLeadsToThem presses Ctrl+G with the numbers shown, in
// them, and without them.
func TestTheKeyOfTheNumbersLeadsToThem(t *testing.T) {
	w := open(t, sample(), laptop)
	press := item(t, w, "Numbers").Action
	c := w.Canvas()
	if press(); !w.numbers.Visible() || c.Focused() != fyne.Focusable(entryNamed(t, w, "Name")) {
		t.Errorf("shown %v, and %T has the keys", w.numbers.Visible(), c.Focused())
	}
	if press(); w.numbers.Visible() || c.Focused() != fyne.Focusable(w.sheet) {
		t.Errorf("again: shown %v, and %T has the keys", w.numbers.Visible(), c.Focused())
	}
	w.sheet.Select(editor.One(timeline.PartJump, 0))
	if press(); !w.numbers.Visible() || c.Focused() != fyne.Focusable(w.numbers.Thing.Rows[0].Field.(*panel.TypedField).Entry) {
		t.Errorf("with a block: shown %v, and %T has the keys", w.numbers.Visible(), c.Focused())
	}
	w.model.Open(inMemory(t, nil))
	if press(); !w.numbers.Visible() || !w.numbers.Has(c.Focused()) {
		t.Errorf("without a setup: shown %v, and %T has the keys", w.numbers.Visible(), c.Focused())
	}
}
