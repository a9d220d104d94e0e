package ui

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// TestWindowIsRemembered leaves a window and opens the next.
func TestWindowIsRemembered(t *testing.T) {
	a := test.NewTempApp(t)
	begin := func() *window {
		w := newWindow(a, Start{Project: sample(), inline: true})
		t.Cleanup(func() {
			w.win.SetCloseIntercept(nil)
			w.win.Close()
			noFailures(t)
		})
		return w
	}
	w := begin()
	w.win.Resize(fyne.NewSize(1500, 900))
	w.left.Show(1)
	w.right.SetOffset(0.7)
	w.rememberWindow()
	again := begin()
	if got, want := again.rememberedSize(), w.Canvas().Size(); got != want {
		t.Errorf("the next window is %v, want %v", got, want)
	}
	again.win.Resize(again.rememberedSize())
	if again.left.At != 1 || math.Abs(again.right.Offset-0.7) > 0.001 {
		t.Errorf("the next window shows tab %d, and the numbers at %g", again.left.At, again.right.Offset)
	}
	if _, own := again.sheet.View(); own {
		t.Error("a fitted sheet comes back zoomed")
	}
	again.sheet.Zoom(4, 600)
	want, _ := again.sheet.View()
	again.rememberWindow()
	zoomed := begin()
	zoomed.win.Resize(zoomed.rememberedSize())
	zoomed.recallView()
	if got, own := zoomed.sheet.View(); !own || math.Abs(got.Scale-want.Scale) > 0.01 || math.Abs(got.From-want.From) > 0.01 {
		t.Errorf("the sheet comes back at %+v, want %+v", got, want)
	}
	zoomed.app.Preferences().SetFloat(prefScale, math.NaN())
	zoomed.sheet.Fit()
	zoomed.recallView()
	if _, own := zoomed.sheet.View(); own {
		t.Error("no number is taken for a scale")
	}
	zoomed.rememberWindow()
	again.hideNumbers()
	third := begin()
	third.win.Resize(fyne.NewSize(1500, 900))
	if again.numbers.Visible() || third.numbers.Visible() {
		t.Error("the numbers come back")
	}
	third.goNumbers()
	third.win.Resize(fyne.NewSize(1024, 640))
	if !third.numbers.Visible() {
		t.Error("the numbers that were asked for go in a narrow window")
	}
}

// TestSizesAreSane takes no size of a preference that no screen has.
func TestSizesAreSane(t *testing.T) {
	for _, bad := range []float64{-5, 0, 12, 1e9, math.NaN(), math.Inf(1)} {
		w := open(t, sample(), laptop)
		w.Preferences().SetFloat(prefWidth, bad)
		w.Preferences().SetFloat(prefHeight, 700)
		if got, want := w.rememberedSize(), fyne.NewSize(firstWidth, 700); got != want {
			t.Errorf("for %g the window is %v, want %v", bad, got, want)
		}
	}
}
