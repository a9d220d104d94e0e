package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

func TestTabs(t *testing.T) {
	test.NewTempApp(t)
	tabs := newTabs()
	a, b := widget.NewLabel("a"), widget.NewLabel("b")
	tabs.add("First", a)
	tabs.add("Second", b)
	told := -1
	tabs.OnShow = func(i int) { told = i }
	if !a.Visible() || b.Visible() {
		t.Fatal("the first is not the one shown")
	}
	from, _ := tabs.row.span(1)
	tabs.row.Tapped(&fyne.PointEvent{Position: fyne.NewPos(from+4, 8)})
	if a.Visible() || !b.Visible() || told != 1 {
		t.Errorf("a click shows a %v, b %v, and tells %d", a.Visible(), b.Visible(), told)
	}
	tabs.row.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	tabs.row.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	if !a.Visible() || b.Visible() {
		t.Error("Left doesn't show the first")
	}
}
