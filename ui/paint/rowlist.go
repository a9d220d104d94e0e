package paint

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// RowList is the toolkit's list, which also keeps its place when the toolkit
// has dropped its renderer (see penRenderer). The list itself would begin at
// its top then, with its rows where they were. A row that is selected before the
// list has room is in sight once it has: the toolkit scrolls past it.
type RowList struct {
	widget.List

	OnRows func() // its rows are made anew; may be nil

	chosen widget.ListItemID // before there was room
	waits  bool              // for room, to bring chosen into sight
}

// Select selects a row and brings it into sight.
func (l *RowList) Select(id widget.ListItemID) {
	l.List.Select(id)
	l.chosen, l.waits = id, l.waits || l.Size().Height <= 0
}

// Resize implements fyne.CanvasObject.
func (l *RowList) Resize(size fyne.Size) {
	defer Survive("The list")
	l.List.Resize(size)
	if l.waits && size.Height >= l.MinSize().Height {
		l.waits = false
		l.ScrollToOffset(0)
		l.ScrollTo(l.chosen)
	}
}

// Fill says what the list shows: create makes a row, and update has one show an
// item. What fails there is told as a failure of what.
func (l *RowList) Fill(what string, length func() int, create func() fyne.CanvasObject, update func(widget.ListItemID, fyne.CanvasObject)) {
	l.Length = func() int {
		defer Survive(what)
		return length()
	}
	l.CreateItem = func() (o fyne.CanvasObject) {
		defer Survive(what)
		o = canvas.NewRectangle(nil) // what stands there where none can be made
		return create()
	}
	l.UpdateItem = GuardedOf2(what, update)
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

// FilledRows are the rows of a list that were filled with something to show. The
// toolkit makes another row at each refresh of a list, to measure it, and rows
// that it no longer keeps: who noted each that is made would keep them all.
type FilledRows[R comparable] []R

// mostFilled is how many rows are noted at most: several times what a window has
// room for.
const mostFilled = 256

// Note notes a row that was filled. Past the most, those noted first are
// forgotten, until they are filled again.
func (f *FilledRows[R]) Note(row R) {
	switch {
	case slices.Contains(*f, row):
	case len(*f) < mostFilled:
		*f = append(*f, row)
	default:
		*f = append(slices.Clone((*f)[mostFilled/2:]), row)
	}
}
