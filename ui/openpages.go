package ui

import (
	"time"

	"fyne.io/fyne/v2"

	"wakeline/ui/page/drill"
	"wakeline/ui/page/find"
	"wakeline/ui/page/glossary"
	"wakeline/ui/page/history"
	"wakeline/ui/page/lesson"
	"wakeline/ui/page/matchup"
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

// showLesson shows the page for the chosen setup.
func (w *window) showLesson() {
	if w.model.Chosen() < 0 {
		w.Dialogs().Lines("There is nothing to teach yet", []string{"A lesson shows a setup and its neighbours. Choose one, or make it first."})
		return
	}
	l := lesson.New(w, lesson.Asks{
		Keys: func() fyne.KeyModifier { return w.sheet.Keys() }, CopyPicture: w.copyPicture, CopyText: w.copyText,
		Export: func() { w.showExportOf(exportLesson) },
	})
	w.showPage(l)
	l.Refocus()
}

// showMatchup shows the page of the chosen setup's pair.
func (w *window) showMatchup() {
	if len(w.model.Data().Fighters) == 0 {
		w.Dialogs().Lines("No fighters yet", []string{"A match-up shows the setups of one fighter against another. Add fighters in the move data first."})
		return
	}
	m := matchup.New(w)
	w.showPage(m)
	m.Refocus()
	m.Run()
}

// showFind shows the search that starts from the chosen setup.
func (w *window) showFind() {
	if w.model.Chosen() < 0 || w.model.Data().Fighter(w.model.Setup().Attacker) == nil {
		w.Dialogs().Lines("There is no setup yet", []string{"A search starts from a setup: its ender, its position, its rival and what is asked of the rival's replies."})
		return
	}
	f := find.New(w)
	w.showPage(f)
	f.Refocus()
	f.Run()
}
