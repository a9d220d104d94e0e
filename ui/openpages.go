package ui

import (
	"io"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"wakeline/storage"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/page/cast"
	"wakeline/ui/page/data"
	"wakeline/ui/page/drill"
	"wakeline/ui/page/exercises"
	"wakeline/ui/page/export"
	"wakeline/ui/page/find"
	"wakeline/ui/page/finish"
	"wakeline/ui/page/glossary"
	"wakeline/ui/page/history"
	"wakeline/ui/page/ingame"
	"wakeline/ui/page/lesson"
	"wakeline/ui/page/matchup"
	"wakeline/ui/page/mix"
	"wakeline/ui/page/present"
)

// openPage shows a page, gives it the keys, and begins what it works out.
func (w *window) openPage(p page.Page) {
	w.showPage(p)
	p.Refocus()
	if p, ok := p.(interface{ Run() }); ok {
		p.Run()
	}
}

// hasFighters reports whether there are fighters, and else tells what the page
// would show of them.
func (w *window) hasFighters(about string) bool {
	if page.HasFighters(w) {
		return true
	}
	w.Dialogs().Lines("No fighters yet", []string{about + " Add fighters in the move data first."})
	return false
}

// showGlossary shows the words in use.
func (w *window) showGlossary() {
	w.openPage(glossary.New(w, func() { w.showExportOf(export.Glossary) }))
}

// showData shows the page of the move data as it was left.
func (w *window) showData() {
	if w.data == nil {
		w.data = data.New(w, w.askRevision, w.mapped)
	}
	if !w.Showing(w.data) {
		w.showPage(w.data)
	}
	w.data.Refresh()
	w.data.Refocus()
}

// showTimeline closes a page that is open.
func (w *window) showTimeline() {
	if w.settled() {
		w.Close()
	}
}

// settled reports whether the page can be left; what is typed there may keep
// it.
func (w *window) settled() bool {
	p, ok := w.page.(page.Settling)
	return !ok || p.Leave()
}

// showDrill shows the page for the chosen setup.
func (w *window) showDrill() {
	if w.model.Plan() == nil {
		w.Dialogs().Lines("There is nothing to drill", []string{"A drill runs a setup that can be judged. Select one, or create it first."})
		return
	}
	d, err := drill.New(w, time.Now)
	if err != nil {
		w.Dialogs().Fail("This setup can't be drilled", err)
		return
	}
	w.openPage(d)
}

// showHistory shows the steps that were done.
func (w *window) showHistory() {
	h, err := history.New(w)
	if err != nil {
		w.Dialogs().Fail(history.Unread, err)
		return
	}
	w.openPage(h)
}

// showLesson shows the page for the chosen setup.
func (w *window) showLesson() {
	if w.model.Chosen() < 0 {
		w.Dialogs().Lines("There is nothing to teach yet", []string{"A lesson shows a setup and its neighbours. Select one, or create it first."})
		return
	}
	l := lesson.New(w, lesson.Asks{
		Keys: func() fyne.KeyModifier { return w.sheet.Keys() }, CopyPicture: w.copyPicture, CopyText: w.copyText,
		Export: func() { w.showExportOf(export.Lesson) },
	})
	w.openPage(l)
}

// showExercises shows the page that asks about the setups of the list.
func (w *window) showExercises() {
	if w.model.Len() == 0 {
		w.Dialogs().Lines("There is nothing to ask about yet", []string{"Exercises ask about the setups of the list. Create one first."})
		return
	}
	e := exercises.New(w, exercises.Asks{Keys: func() fyne.KeyModifier { return w.sheet.Keys() }, Export: func(csv string) {
		w.askPath(asked{title: "Export results", button: "Export", dir: export.LastFolder(w.Preferences()), name: w.baseName("-results.csv", "results"), ext: ".csv"}, func(path string) {
			if w.Done("The results could not be exported", storage.Replace(path, func(to io.Writer) error { _, err := io.WriteString(to, csv); return err })) {
				w.Note("Exported " + path)
			}
		})
	}})
	w.openPage(e)
}

// switchStudent begins or ends student mode: the exercises are shown, and nothing
// but answers is taken.
func (w *window) switchStudent() {
	if !w.settled() {
		return
	}
	w.model.SetStudent(!w.model.Student())
	if w.model.Student() && w.model.Len() > 0 {
		w.showExercises()
	}
}

// showMatchup shows the page of the chosen setup's pair.
func (w *window) showMatchup() {
	if w.hasFighters("A match-up shows the setups of one fighter against another.") {
		w.openPage(matchup.New(w))
	}
}

// showMix shows the page of the chosen setup's ender.
func (w *window) showMix() {
	if w.hasFighters("A mix weighs the setups of one fighter against another.") {
		w.openPage(mix.New(w, func() { w.showExportOf(export.Mix) }))
	}
}

// showCast shows the page of the chosen setup's attacker.
func (w *window) showCast() {
	if w.hasFighters("The cast shows the setups of one fighter against every rival.") {
		w.openPage(cast.New(w, func() { w.showExportOf(export.Cast) }))
	}
}

// showPresent shows the setups of the list on the whole screen, one at a time.
func (w *window) showPresent() {
	if w.model.Chosen() < 0 {
		w.Dialogs().Lines("There is nothing to present yet", []string{"A presentation shows the setups of the list. Select one, or create it first."})
		return
	}
	if onPage[*present.Page](w) || !w.settled() {
		return
	}
	was := w.text.whole()
	p := present.New(w, func(on bool) {
		w.menuBar.Hidden, w.pageBar.Hidden = on || nativeMenus(), on
		w.win.SetFullScreen(on)
		if !on {
			w.text.resize(was) // the toolkit would keep the screen's size
		}
		w.win.Content().Refresh()
	})
	w.openPage(p)
}

// showTests shows what was not tried in the game since the last revision.
func (w *window) showTests() {
	d, ok := w.model.Document().OnDisk()
	switch {
	case !ok:
		w.needsFile("In-game tests", model.ProofsKeptIn)
		return
	case w.model.ReadOnly() != "":
		w.refused(w.model.ReadOnly())
		return
	}
	if !w.settled() {
		return
	}
	w.model.Commit()
	p, err := ingame.New(w, d, time.Now)
	if err != nil {
		w.Dialogs().Fail("The in-game tests can't be read", err)
		return
	}
	w.openPage(p)
}

// showFinish shows how a fight ends from the chosen setup on.
func (w *window) showFinish() {
	if !finish.Possible(w.model) {
		w.Dialogs().Lines("There is no setup yet", []string{"A finish begins with a setup of two fighters. Select one, or create it first."})
		return
	}
	w.openPage(finish.New(w, func() { w.showExportOf(export.Finish) }))
}

// showFind shows the search that starts from the chosen setup.
func (w *window) showFind() {
	if w.model.Chosen() < 0 || w.model.Data().Fighter(w.model.Setup().Attacker) == nil {
		w.Dialogs().Lines("There is no setup yet", []string{"A search starts from a setup: its ender, its position, its rival and what is asked of the rival's replies."})
		return
	}
	w.openPage(find.New(w, func() {
		kind := export.Found
		if shown := page.ShownBy(w.page); shown != nil { // by ender
			kind = export.KindOf(shown)
		}
		w.showExportOf(kind)
	}))
}

// showExport shows the page with the kind that was exported last; from a
// lesson, with the lesson, and from a page whose table can be exported with
// that.
func (w *window) showExport() {
	kind := ""
	if l, ok := w.page.(*lesson.Page); ok {
		if _, _, _, ok := l.Taught(); ok {
			kind = export.Lesson
		}
	}
	if shown := page.ShownBy(w.page); shown != nil {
		kind = export.KindOf(shown)
	}
	w.showExportOf(kind)
}

// showExportOf shows the page for one kind of thing.
func (w *window) showExportOf(kind string) {
	e := export.New(w, export.Asks{
		Screen: w.sheet.Drawing, Title: w.listTitle, Folder: w.folder, Busy: w.busy, CopyPicture: w.copyPicture, CopyText: w.copyText,
	})
	taught, _ := w.page.(*lesson.Page)
	shown := page.ShownBy(w.page)
	w.showPage(e)
	if shown != nil && kind == export.KindOf(shown) {
		e.OpenShown(shown)
		return
	}
	if taught != nil && kind == export.Lesson {
		rise, line, neighbours, _ := taught.Taught()
		e.OpenLesson(rise, line, neighbours)
		return
	}
	e.Open(kind)
}

// listTitle heads what is made of the setups listed.
func (w *window) listTitle() string {
	if !w.setups.Filtered() {
		return "All setups"
	}
	var of []string
	if words := strings.Join(strings.Fields(w.setups.Field.Text), " "); words != "" {
		of = append(of, "“"+words+"”")
	}
	if words := w.setups.By.Words(); words != "" {
		of = append(of, words)
	}
	return "Setups: " + strings.Join(of, ", ")
}

// revealRow shows a row of the move data.
func (w *window) revealRow(of model.DataRow) {
	w.goTo(namedPage("Move data"))
	if d, ok := w.page.(*data.Page); ok {
		d.GoTo(of)
	}
}

// showStanding shows the standing replies of the chosen setup's rival.
func (w *window) showStanding() {
	rival := w.model.Setup().Rival
	if w.busy() || w.model.Data().Fighter(rival) == nil {
		return
	}
	w.revealRow(model.DataRow{Owner: rival, Kind: model.ReplyRow})
}

// showRoutesTo shows the first route of a fighter that ends in that move.
func (w *window) showRoutesTo(fighter, ender string) {
	f := w.model.Data().Fighter(fighter)
	if w.busy() || f == nil {
		return
	}
	if ender == "" {
		w.status.Hint("The setup has no ender, only a knockdown advantage of its own.")
		return
	}
	for i := range f.Routes {
		if steps := f.Routes[i].Steps; steps[len(steps)-1].Move == ender {
			w.revealRow(model.DataRow{Owner: fighter, Kind: model.RouteRow, Name: f.Routes[i].Name})
			return
		}
	}
	w.status.Hint("No route of " + fighter + " ends in " + ender + " yet. Routes are added in Move data, under Routes.")
}
