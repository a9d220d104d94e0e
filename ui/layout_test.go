package ui

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"
)

// TestTheLowerPartHasItsHeight holds the words and the replies under the sheet
// to their share of the window, and to the least and the most of it.
func TestTheLowerPartHasItsHeight(t *testing.T) {
	for _, c := range []struct {
		size fyne.Size
		want func(high float64) float64
	}{
		{fyne.NewSize(1024, 640), func(float64) float64 { return 270 }},
		{fyne.NewSize(1600, 1000), func(high float64) float64 { return 0.42 * high }},
		{fyne.NewSize(2560, 1440), func(float64) float64 { return 460 }},
	} {
		w := open(t, sample(), c.size)
		w.welcome.Hide()
		w.panes.Layout(nil, w.main.Size())
		high := float64(w.upDown.Size().Height)
		if got, want := high*(1-w.upDown.Offset), c.want(high); math.Abs(got-want) > 0.5 {
			t.Errorf("%v: the lower part is %.1f high, want %.1f", c.size, got, want)
		}
	}
}

// TestASheetIsFittedAgainWhereItIsSmall holds the share of the tracks that the
// scene must fill: below it a fitted view is fitted again.
func TestASheetIsFittedAgainWhereItIsSmall(t *testing.T) {
	w := open(t, sample(), laptop)
	fitted, ok := w.sheet.View()
	if w.sheet.Draw(w.sheet.Size()); !ok {
		fitted = w.sheet.CurrentView
	}
	for _, c := range []struct {
		share float64
		stays bool
	}{{0.66, true}, {0.64, false}} {
		w.sheet.CurrentView = fitted
		w.sheet.CurrentView.Scale *= c.share
		small := w.sheet.CurrentView.Scale
		w.sheet.Fitted = true
		w.sheet.Draw(w.sheet.Size())
		if got := w.sheet.CurrentView.Scale; (got == small) != c.stays || !c.stays && got != fitted.Scale {
			t.Errorf("where the scene fills %.2f of the tracks the scale is %v; it was %v, fitted it is %v", c.share, got, small, fitted.Scale)
		}
	}
}
