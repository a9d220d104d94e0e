package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"wakeline/ui/page/export"
	"wakeline/ui/page/find"
)

// Escape leaves a page whatever on it has the keys.
func TestEscapeLeavesAPageFromEachOfItsControls(t *testing.T) {
	for name, c := range map[string]struct {
		show     func(w *window)
		controls int // that Tab comes by
	}{
		"find":     {(*window).showFind, 30},
		"enders":   {func(w *window) { w.showFind(); w.page.(*find.Page).ShowTab(1) }, 30},
		"drill":    {(*window).showDrill, 8},
		"export":   {(*window).showExport, 15},
		"words":    {func(w *window) { w.showExportOf(export.Words) }, 15},
		"cast":     {(*window).showCast, 12},
		"mix":      {(*window).showMix, 14},
		"finish":   {(*window).showFinish, 8},
		"exercise": {(*window).showExercises, 12},
		"match-up": {(*window).showMatchup, 12},
		"lesson":   {(*window).showLesson, 14},
		"glossary": {(*window).showGlossary, 5},
		"history":  {(*window).showHistory, 5},
		"compare":  {(*window).askCompare, 8},
		"tests":    {(*window).showTests, 9},
		"data":     {(*window).showData, 0}, // Tab goes from cell to cell
	} {
		w := twoRevisions(t)
		for n := range c.controls + 1 {
			if testing.Short() && n%5 != 0 {
				continue
			}
			c.show(w)
			for range n {
				w.Canvas().FocusNext()
			}
			at := w.Canvas().Focused()
			if at == nil {
				t.Fatalf("%s: nothing has the keys after %d Tabs", name, n)
			}
			at.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
			switch at.(type) {
			case *pageBar, *menuBar: // the keys go back to the page, which stays
				if f := w.Canvas().Focused(); f == at || w.page == nil {
					t.Errorf("%s: Escape on %T leads to %T, page %T", name, at, f, w.page)
				}
				w.Close()
				continue
			}
			if w.page != nil {
				t.Errorf("%s: Escape stays on the page from %T, %d Tabs on", name, at, n)
				w.Close()
			}
		}
	}
}

// Escape leads back to the sheet from every control beside it.
func TestEscapeLeadsBackToTheSheet(t *testing.T) {
	w := open(t, sample(), laptop)
	w.Preferences().SetString(prefNumbers, "shown")
	w.panes.Layout(nil, w.main.Size())
	w.setups.AskPicks()
	for _, shelf := range []bool{false, true} {
		if shelf {
			w.showShelf()
		}
		w.refocus()
		seen := 0
		for n := range 60 {
			w.refocus()
			for range n {
				w.Canvas().FocusNext()
			}
			at := w.Canvas().Focused()
			if n > 0 && at == fyne.Focusable(w.sheet) {
				break
			}
			seen++
			typeEscape(w)
			if got := w.Canvas().Focused(); got != fyne.Focusable(w.sheet) || w.busy() {
				t.Errorf("Escape on %T, %d Tabs on, leads to %T", at, n, got)
			}
		}
		if seen < 15 {
			t.Errorf("Tab comes by %d controls", seen)
		}
	}
}
