package paint

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

func TestTabs(t *testing.T) {
	test.NewTempApp(t)
	tabs := NewTabs()
	a, b := widget.NewLabel("a"), widget.NewLabel("b")
	tabs.Add("First", a)
	tabs.Add("Second", b)
	told := -1
	tabs.OnShow = func(i int) { told = i }
	if !a.Visible() || b.Visible() {
		t.Fatal("the first is not the one shown")
	}
	from, _ := tabs.Row.Span(1)
	tabs.Row.Tapped(&fyne.PointEvent{Position: fyne.NewPos(from+4, 8)})
	if a.Visible() || !b.Visible() || told != 1 {
		t.Errorf("a click shows a %v, b %v, and tells %d", a.Visible(), b.Visible(), told)
	}
	tabs.Row.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	tabs.Row.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	if !a.Visible() || b.Visible() {
		t.Error("Left doesn't show the first")
	}
}
