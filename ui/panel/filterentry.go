package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/paint"
)

// filterEntry is the field that filters the list as it is typed in.
type filterEntry struct {
	widget.Entry
	s *Setups
}

func newFilterEntry(s *Setups) *filterEntry {
	e := &filterEntry{s: s}
	e.ExtendBaseWidget(e)
	e.SetPlaceHolder("Filter setups")
	e.OnChanged = paint.GuardedOf("The filter", func(string) { s.filterSoon() })
	return e
}

// TypedKey takes the filter away with Escape, and where there is none leaves
// the field; Up and Down go on in the list.
func (e *filterEntry) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The filter")
	switch ev.Name {
	case fyne.KeyEscape:
		if e.Text == "" && !e.s.Filtered() {
			e.s.leftOver(ev)
		}
		e.s.Clear()
	case fyne.KeyDown, fyne.KeyUp:
		paint.FocusOn(e.s.List)
		e.s.List.TypedKey(ev)
	default:
		e.Entry.TypedKey(ev)
	}
}
