package ui

import (
	"wakeline/ui/page"
	"wakeline/ui/page/cast"
	"wakeline/ui/page/compare"
	"wakeline/ui/page/data"
	"wakeline/ui/page/drill"
	"wakeline/ui/page/exercises"
	"wakeline/ui/page/export"
	"wakeline/ui/page/find"
	"wakeline/ui/page/finish"
	"wakeline/ui/page/glossary"
	"wakeline/ui/page/history"
	"wakeline/ui/page/lesson"
	"wakeline/ui/page/matchup"
	"wakeline/ui/page/mix"
)

// barPage is a page as the bar of pages names it.
type barPage struct {
	name  string
	key   string // as it is written; the menu has the shortcut
	about string
	show  func(w *window)
	here  func(w *window) bool
	lacks func(w *window) string // why it can't be shown; may be nil
	group int                    // those of one group stand together
}

// The groups: what is judged, what is made of it, its past, and at the foot of
// the bar what explains.
const (
	ofSetups = iota
	toTake
	ofPast
	toRead
)

// onPage reports whether the window shows a page of that type.
func onPage[P page.Page](w *window) bool {
	_, ok := w.page.(P)
	return ok
}

// namedPage is the page of that name in the bar.
func namedPage(name string) *barPage {
	for i := range barPages {
		if barPages[i].name == name {
			return &barPages[i]
		}
	}
	panic("ui: no page " + name)
}

// barPages are the pages, in the order of the bar. More may be added: the bar
// has room.
var barPages []barPage

func init() { // the functions lead back to the list
	barPages = []barPage{
		{"Timeline", "Ctrl+1", "The sheet of the setup: drag it, and read the verdict.", (*window).showTimeline, func(w *window) bool { return w.page == nil }, nil, ofSetups},
		{"Move data", "Ctrl+2", "Fighters, their moves, jumps, rises, routes and replies, and the ruleset.", (*window).showData, onPage[*data.Page], nil, ofSetups},
		{"Match-up", "Ctrl+3", "All setups of one fighter against every reply of another.", (*window).showMatchup, onPage[*matchup.Page], nil, ofSetups},
		{"Cast", "Ctrl+9", "All setups of one fighter against every rival.", (*window).showCast, onPage[*cast.Page], nil, ofSetups},
		{"Find", "Ctrl+4", "Search for setups that use up the advantage.", (*window).showFind, onPage[*find.Page], nil, ofSetups},
		{"Drill", "Ctrl+5", "Practise the timing of the setup.", (*window).showDrill, onPage[*drill.Page], nil, ofSetups},
		{"Lesson", "Ctrl+6", "Teach the setup: it, its neighbours and an exercise.", (*window).showLesson, onPage[*lesson.Page], nil, ofSetups},
		{"Exercises", "Ctrl+Shift+E", "Questions about the setups of the list, with results for each student.", (*window).showExercises, onPage[*exercises.Page], nil, ofSetups},
		{"Mix", "Ctrl+7", "Several setups of one ender together: what a round is worth, and how often to play each.", (*window).showMix, onPage[*mix.Page], nil, ofSetups},
		{"Finish", "Ctrl+8", "The fewest rounds from the setup to a knock-out, against one reply.", (*window).showFinish, onPage[*finish.Page], nil, ofSetups},
		{"Export", "Ctrl+E", "Pictures, pages and texts of setups.", (*window).showExport, onPage[*export.Page], nil, toTake},
		{"History", "Ctrl+H", "Every step that was done, and the way back to each.", (*window).showHistory, onPage[*history.Page], nil, ofPast},
		{"Compare", "Ctrl+Shift+H", "What changed from one revision of the move data to another.", (*window).askCompare, onPage[*compare.Page], (*window).lacksRevisions, ofPast},
		{"Glossary", "Ctrl+F1", "Each word in use, with a picture.", (*window).showGlossary, onPage[*glossary.Page], nil, toRead},
		{"Keys", "F1", "What keys and the mouse do.", (*window).showKeys, func(*window) bool { return false }, nil, toRead},
	}
}

// lacksRevisions says why revisions can't be compared.
func (w *window) lacksRevisions() string {
	if w.isText() {
		return "Revisions are stored in a project file. File, Save as project file… makes one of this project."
	}
	return ""
}

// goTo shows the page of a name in the bar, unless something is in the way: a dialog, or
// a cell that can't be left as it is.
func (w *window) goTo(p *barPage) {
	if w.busy() {
		return
	}
	if p.here(w) {
		w.refocus()
		return
	}
	if !w.settled() {
		return
	}
	if p.lacks != nil {
		if why := p.lacks(w); why != "" {
			w.needsFile(p.name, why)
			return
		}
	}
	p.show(w)
}
