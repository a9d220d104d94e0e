package ui

import (
	"time"

	"wakeline/ui/page/drill"
	"wakeline/ui/page/glossary"
	"wakeline/ui/page/history"
)

// showGlossary shows the words in use.
func (w *window) showGlossary() {
	g := glossary.New(w, func() { w.showExportOf(exportGlossary) })
	w.showPage(g)
	g.Refocus()
}

// showDrill shows the page for the chosen setup.
func (w *window) showDrill() {
	if w.model.Plan() == nil {
		w.Dialogs().Lines("There is nothing to drill", []string{"A drill runs a setup that can be judged. Choose one, or make it first."})
		return
	}
	d, err := drill.New(w, time.Now)
	if err != nil {
		w.Dialogs().Fail("This setup can't be drilled", err)
		return
	}
	w.showPage(d)
	d.Refocus()
}

// showHistory shows the steps that were done.
func (w *window) showHistory() {
	h, err := history.New(w)
	if err != nil {
		w.Dialogs().Fail(history.Unread, err)
		return
	}
	w.showPage(h)
	h.Refocus()
}
