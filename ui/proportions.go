package ui

import "fyne.io/fyne/v2"

// proportions lays the window out. A divider that the hand has not moved
// keeps the list at its width, and the sheet at its share, at every size.
type proportions struct {
	w             *window
	list, drawing float64 // offsets that were set here
}

const (
	listWidth  = 268 // units
	lowerShare = 0.42
	lowerLeast = 270 // units: the words and a few rows
	lowerMost  = 460
	wordsMost  = 176 // of the words; longer ones scroll
)

// MinSize implements fyne.Layout.
func (p *proportions) MinSize([]fyne.CanvasObject) fyne.Size {
	s := p.w.sides.MinSize()
	return fyne.NewSize(s.Width, s.Height+statusHeight)
}

// Layout implements fyne.Layout.
func (p *proportions) Layout(_ []fyne.CanvasObject, s fyne.Size) {
	w, high := p.w, s.Height-statusHeight
	if w.sides.Offset == p.list && s.Width > 0 {
		p.list = min(listWidth/float64(s.Width), 0.4)
		w.sides.Offset = p.list
	}
	if w.upDown.Offset == p.drawing && high > 0 {
		lower := min(max(lowerShare*float64(high), lowerLeast), lowerMost)
		p.drawing = max(1-lower/float64(high), 0)
		w.upDown.Offset = p.drawing
	}
	w.sides.Move(fyne.NewPos(0, 0))
	w.sides.Resize(fyne.NewSize(s.Width, high))
	w.sides.Refresh()
	w.status.Move(fyne.NewPos(0, high))
	w.status.Resize(fyne.NewSize(s.Width, statusHeight))
}
