package paint

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// PageSlider is a slider on a page or in a dialog: Escape does what it does
// there.
type PageSlider struct {
	widget.Slider
	w KeyTaker
}

// NewPageSlider returns a slider of whole numbers from least to most.
func NewPageSlider(w KeyTaker, least, most int, changed func(n int)) *PageSlider {
	s := &PageSlider{w: w}
	s.Min, s.Max, s.Step = float64(least), float64(most), 1
	s.ExtendBaseWidget(s)
	s.OnChanged = GuardedOf("The slider", func(f float64) { changed(int(f + 0.5)) })
	return s
}

// TypedKey implements fyne.Focusable.
func (s *PageSlider) TypedKey(ev *fyne.KeyEvent) {
	defer Survive("The page")
	if !s.w.PageKey(ev) {
		s.Slider.TypedKey(ev)
	}
}
