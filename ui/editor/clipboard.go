package editor

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"wakeline/ui/model"
)

// Copy puts the names of the fillers chosen on the clipboard, one a line. It
// reports whether there were any.
func (t *Timeline) Copy() bool {
	at := t.Chosen.fillers()
	if len(at) == 0 {
		t.hint("Select fillers first: click one, or press Ctrl+A.")
		return false
	}
	_, run := parted(t.model.Setup().Fillers, at)
	fyne.CurrentApp().Clipboard().SetContent(strings.Join(run, "\n"))
	t.hint(model.CountOf(len(run), "filler") + " copied.")
	return true
}

// Cut is Copy, and takes them out.
func (t *Timeline) Cut() {
	if t.Idle() && t.Copy() {
		t.Remove()
	}
}

// Paste puts the names on the clipboard behind the fillers chosen, else last.
// Those that the attacker has no filler for are left out, and said.
func (t *Timeline) Paste() {
	if !t.Idle() || t.model.Chosen() < 0 {
		return
	}
	names, lacking := t.model.FillersIn(fyne.CurrentApp().Clipboard().Content())
	said := ""
	if len(lacking) > 0 {
		said = "No filler of " + t.model.Setup().Attacker + ": " + model.Listed(lacking) + "."
	}
	if len(names) > 0 {
		if !t.insert(names) {
			return
		}
		said = strings.TrimSpace(model.CountOf(len(names), "filler") + " pasted. " + said)
	} else if said == "" {
		said = "The clipboard has no names of fillers."
	}
	t.hint(said)
}

// Duplicate puts the fillers chosen in once more, behind themselves.
func (t *Timeline) Duplicate() {
	at := t.Chosen.fillers()
	if len(at) == 0 {
		t.hint("Select fillers first: click one, or press Ctrl+A.")
		return
	}
	if t.Idle() {
		_, run := parted(t.model.Setup().Fillers, at)
		t.insert(run)
	}
}

// insert puts fillers behind those chosen, else last, and chooses them.
func (t *Timeline) insert(names []string) bool {
	s := t.model.Setup()
	to := t.after()
	s.Fillers = slices.Insert(slices.Clone(s.Fillers), to, names...)
	if !t.change(s) {
		return false
	}
	t.Select(FillersChosen(to, to+len(names)))
	return true
}

// after is the place behind the fillers chosen, else the last.
func (t *Timeline) after() int {
	if at := t.Chosen.fillers(); len(at) > 0 {
		return at[len(at)-1] + 1
	}
	return len(t.model.Setup().Fillers)
}
