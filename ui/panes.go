package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// The names of what is remembered of the panes.
const (
	prefBelow  = "below"       // the tab under the words, by its name
	prefWorst  = "lanes.worst" // each lane on its worst rise
	prefSlow   = "play.slow"   // how many times slower than the game
	prefSides  = "panes.left"  // the share of the list, where a hand has set it
	prefUpDown = "panes.upper" // the share of the sheet, likewise
	prefRight  = "panes.right" // the share of all but the numbers, likewise
)

// recallPanes shows the panes as they were in the last run.
func (w *window) recallPanes() {
	prefs := w.Preferences()
	w.player.SetSpeed(prefs.IntWithFallback(prefSlow, 1))
	w.lanes.SetWorst(prefs.BoolWithFallback(prefWorst, true))
	recallShare(w.sides, prefs.Float(prefSides))
	recallShare(w.right, prefs.Float(prefRight))
	recallShare(w.upDown, prefs.Float(prefUpDown))
	w.showBelow(prefs.String(prefBelow))
	w.below.OnShow = func(i int) { prefs.SetString(prefBelow, w.below.Row.Names[i]) }
}

// recallShare sets a divider to where a hand had it, unless that would leave
// one side nothing.
func recallShare(s *container.Split, share float64) {
	if share > 0.02 && share < 0.98 {
		s.Offset = share
	}
}

// keepPanes remembers the dividers that a hand has moved.
func (w *window) keepPanes() {
	own := w.panes
	keep := func(name string, at, own float64) {
		if at == own {
			at = 0
		}
		w.Preferences().SetFloat(name, at)
	}
	keep(prefSides, w.sides.Offset, own.list)
	keep(prefRight, w.right.Offset, own.wide)
	keep(prefUpDown, w.upDown.Offset, own.drawing)
}

// showBelow shows the tab of that name under the words. It reports whether
// there is one.
func (w *window) showBelow(name string) bool {
	for i, n := range w.below.Row.Names {
		if n == name {
			w.below.Show(i)
			return true
		}
	}
	return false
}

// showShelf shows the blocks beside the sheet, and takes the keys to them.
func (w *window) showShelf() {
	w.left.Show(slices.Index(w.left.Body.Objects, fyne.CanvasObject(w.shelf)))
	w.shelf.Seek()
}
