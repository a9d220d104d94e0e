package ui

import (
	"fyne.io/fyne/v2"

	"wakeline/ui/paint"
	"wakeline/ui/panel"
)

// proportions lays the window out. A divider that the hand has not moved
// keeps the list and the numbers at their width, and the sheet at its share,
// at every size.
type proportions struct {
	w                   *window
	list, drawing, wide float64 // offsets that were set here
}

const (
	listWidth  = 268 // units
	lowerShare = 0.42
	lowerLeast = 270 // units: the words and a few rows
	lowerMost  = 460
	wordsMost  = 176 // of the words; longer ones scroll
	wordsLeast = 64
	wordsLine  = 24 // where the window has no more for them: a line, and the rest scrolls
	rowsLeast  = 1  // of the replies, where the words are whole
	rowsMost   = 4  // where they are not
	rowsPad    = 6
	stripLow   = 300 // units: less is little for the strip, the words and the replies
	sideMost   = 0.4 // of the window's width, for a pane beside the sheet

	numbersFrom = 1160 // units of width, without the bar of pages, from which the numbers are shown unasked
)

// MinSize implements fyne.Layout.
func (p *proportions) MinSize([]fyne.CanvasObject) fyne.Size {
	defer paint.Survive("The layout")
	s := p.w.sides.MinSize()
	return fyne.NewSize(s.Width, s.Height+p.below(s.Width))
}

// below is the height of what stands under the panes.
func (p *proportions) below(width float32) float32 {
	high := float32(panel.StatusHeight)
	if p.w.welcome.Visible() {
		high += p.w.welcome.High(width)
	}
	return high
}

// Layout implements fyne.Layout.
func (p *proportions) Layout(_ []fyne.CanvasObject, s fyne.Size) {
	defer paint.Survive("The layout")
	w, high := p.w, s.Height-p.below(s.Width)
	if s.Width <= 0 || high <= 0 {
		return
	}
	w.showNumbers(s.Width)
	if w.sides.Offset == p.list {
		p.list = min(listWidth/float64(s.Width), sideMost)
		w.sides.Offset = p.list
	}
	if rest := s.Width * float32(1-w.sides.Offset); w.right.Offset == p.wide {
		p.wide = max(1-panel.InspectorWide/float64(rest), 1-sideMost)
		w.right.Offset = p.wide
	}
	if w.upDown.Offset == p.drawing {
		lower := min(max(lowerShare*float64(high), lowerLeast), lowerMost)
		p.drawing = max(1-lower/float64(high), 0)
		w.upDown.Offset = p.drawing
	}
	w.sides.Move(fyne.NewPos(0, 0))
	w.sides.Resize(fyne.NewSize(s.Width, high))
	w.sides.Refresh()
	if w.welcome.Visible() {
		w.welcome.Move(fyne.NewPos(0, high))
		w.welcome.Resize(fyne.NewSize(s.Width, w.welcome.High(s.Width)))
	}
	w.status.Move(fyne.NewPos(0, s.Height-panel.StatusHeight))
	w.status.Resize(fyne.NewSize(s.Width, panel.StatusHeight))
}

// wordsOver lays the words over the rest, and the strip of where the setup holds
// over both. Long words take little room from a small window: of those less is
// said, and what is too long even so scrolls.
type wordsOver struct {
	words *panel.Explain
	strip *panel.HoldStrip
}

// MinSize implements fyne.Layout.
func (l wordsOver) MinSize(o []fyne.CanvasObject) fyne.Size {
	defer paint.Survive("The layout")
	words, rest, strip := l.words.MinSize(), o[1].MinSize(), o[2].MinSize()
	return fyne.NewSize(max(words.Width, rest.Width, strip.Width), strip.Height+wordsLine+rest.Height)
}

// Layout implements fyne.Layout.
func (l wordsOver) Layout(o []fyne.CanvasObject, s fyne.Size) {
	defer paint.Survive("The layout")
	strip := l.strip.FitIn(s.Height < stripLow, s.Width)
	o[2].Move(fyne.NewPos(0, 0))
	o[2].Resize(fyne.NewSize(s.Width, strip))
	s.Height -= strip
	room := func(rows int) float32 { // the rest keeps one row of itself
		return max(s.Height-o[1].MinSize().Height-float32(rows-1)*panel.ReplyRow-rowsPad, wordsLeast)
	}
	l.words.FitIn(room(rowsMost))
	high := min(l.words.MinSize().Height, wordsMost)
	if high > room(rowsLeast) {
		high = room(rowsMost)
	}
	high = max(min(high, s.Height-o[1].MinSize().Height), 0)
	o[0].Move(fyne.NewPos(0, strip))
	o[0].Resize(fyne.NewSize(s.Width, high))
	o[1].Move(fyne.NewPos(0, strip+high))
	o[1].Resize(fyne.NewSize(s.Width, s.Height-high))
}
