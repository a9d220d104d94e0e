package ui

import "wakeline/ui/page/glossary"

// showGlossary shows the words in use.
func (w *window) showGlossary() {
	g := glossary.New(w, func() { w.showExportOf(exportGlossary) })
	w.showPage(g)
	g.Refocus()
}
