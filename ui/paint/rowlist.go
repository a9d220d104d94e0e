package paint

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// RowList is the toolkit's list, which also keeps its place when the toolkit
// has dropped its renderer (see penRenderer). The list itself would begin at
// its top then, with its rows where they were.
type RowList struct {
	widget.List

	OnRows func() // its rows are made anew; may be nil
}

func (l *RowList) forget() {
	defer Survive("The list")
	if l.OnRows != nil {
		l.OnRows()
	}
}

// CreateRenderer implements fyne.Widget.
func (l *RowList) CreateRenderer() fyne.WidgetRenderer {
	l.forget()
	at := l.GetScrollOffset()
	r := l.List.CreateRenderer()
	if at > 0 {
		r.Layout(l.Size())
		l.ScrollToTop()
		l.ScrollToOffset(at)
	}
	return r
}
