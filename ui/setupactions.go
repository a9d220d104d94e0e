package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/paint"
)

// duplicateSetup puts a copy of the chosen setup last, and chooses it.
func (w *window) duplicateSetup() {
	w.model.Commit()
	s := w.model.Kept()
	if w.model.Chosen() < 0 || w.page != nil {
		return
	}
	from := s.Name
	s.Name = w.model.FreeName(timeline.CutName(s.Name, len(", copy 999")) + ", copy")
	if w.Done("The setup could not be duplicated", w.model.AddSetup("duplicate", s)) {
		w.ShowChosen()
		w.status.Hint("This is a copy of " + from + ". F2 renames it")
	}
}

// deleteSetup takes the chosen setup away, and chooses the one that stands in
// its place in the list.
func (w *window) deleteSetup() {
	w.model.Commit()
	name, row := w.model.Setup().Name, w.setups.Row()
	if w.model.Chosen() < 0 || w.page != nil {
		return
	}
	if _, typing := w.Canvas().Focused().(typedIn); typing {
		return
	}
	if !w.Done("The setup could not be deleted", w.model.Apply("delete", timeline.SetupEdit{Before: name})) {
		return
	}
	if row >= 0 && len(w.setups.Shown) > 0 {
		w.model.Choose(w.setups.Shown[min(row, len(w.setups.Shown)-1)])
	}
	w.status.Hint("Deleted " + name + ". Ctrl+Z brings it back")
}

// Done reports whether there is no error, and else says it; what is refused
// was told already.
func (w *window) Done(title string, err error) bool {
	if err != nil && err != model.ErrHeld {
		w.Dialogs().Fail(title, err)
	}
	return err == nil
}

// ShowChosen has the list show the chosen setup: where the filter hides it,
// that is taken away.
func (w *window) ShowChosen() {
	if w.setups.Row() < 0 {
		w.setups.Clear()
	}
	w.left.Show(0)
}

// askRename asks for another name of the chosen setup.
func (w *window) askRename() {
	if w.model.Chosen() < 0 || w.busy() || w.page != nil {
		return
	}
	if w.model.ReadOnly() != "" {
		w.refused(w.model.ReadOnly())
		return
	}
	w.model.Commit()
	entry := paint.NewPageEntry(w)
	entry.SetText(w.model.Setup().Name)
	w.Dialogs().Form("Rename the setup", "Rename", container.NewVBox(entry), entry, func() error { return w.model.Rename(entry.Text) })
	entry.TypedShortcut(&fyne.ShortcutSelectAll{})
}

// setupItems are what can be done with the list's setups, for its menus.
func (w *window) setupItems() []*fyne.MenuItem {
	const ctrl, shift = fyne.KeyModifierControl, fyne.KeyModifierShift
	item := func(label string, key fyne.KeyName, mod fyne.KeyModifier, do func()) *fyne.MenuItem {
		i := paint.MenuItem(label, func() {
			if !w.busy() {
				do()
			}
		})
		if key != "" {
			i.Shortcut = &desktop.CustomShortcut{KeyName: key, Modifier: mod}
		}
		return i
	}
	return []*fyne.MenuItem{
		item("New setup…", fyne.KeyN, ctrl|shift, w.askNewSetup),
		item("Duplicate", fyne.KeyD, ctrl|shift, w.duplicateSetup),
		item("Rename… (F2)", "", 0, w.askRename),
		item("Delete", fyne.KeyDelete, ctrl, w.deleteSetup),
		item("Select all listed", "", 0, func() { w.left.Show(0); w.setups.MarkAll() }),
		item("Selected setups…", "", 0, w.askSeveral),
		fyne.NewMenuItemSeparator(),
		item("Find setups…", fyne.Key4, ctrl, func() { w.goTo(namedPage("Find")) }),
		item("Drill the timing…", fyne.Key5, ctrl, func() { w.goTo(namedPage("Drill")) }),
		item("Your timing…", "", 0, w.askTiming),
		fyne.NewMenuItemSeparator(),
		item("Routes to this ender", "", 0, func() { w.showRoutesTo(w.model.Setup().Attacker, w.model.Setup().Ender) }),
		item("Merge equal replies…", "", 0, w.askMergeReplies),
		item("In-game test…", "", 0, w.askProof),
	}
}

// askSeveral shows what can be done with the setups that are selected, or says
// how several are.
func (w *window) askSeveral() {
	if w.page != nil {
		return
	}
	if w.setups.Selected() == nil {
		w.Dialogs().Lines("Several setups at once", []string{"Select setups in the list first: with Ctrl one by one, with Shift from the chosen one on.", "Then tag them, put them against another rival, add a reply, export or delete them, as one step."})
		return
	}
	w.left.Show(0)
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(w.setups.List)
	w.showSetupMenu(at.AddXY(40, 20))
}

// showSetupMenu shows them, or what can be done with several, at a place of the canvas.
func (w *window) showSetupMenu(at fyne.Position) {
	items := w.severalItems()
	if items == nil {
		items = w.setupItems()
	}
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), w.Canvas(), at)
}
