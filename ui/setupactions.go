package ui

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/page/export"
	"wakeline/ui/paint"
	"wakeline/ui/panel"
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
		item("Select all listed", "", 0, func() { w.left.Show(0); w.setups.Marks.All() }),
		item("Selected setups…", "", 0, w.askSeveral),
		fyne.NewMenuItemSeparator(),
		item("Find setups…", fyne.Key4, ctrl, func() { w.goTo(namedPage("Find")) }),
		item("Drill the timing…", fyne.Key5, ctrl, func() { w.goTo(namedPage("Drill")) }),
		item("Your timing…", "", 0, w.askTiming),
		fyne.NewMenuItemSeparator(),
		item("Routes to this ender", "", 0, func() { w.showRoutesTo(w.model.Setup().Attacker, w.model.Setup().Ender) }),
		item("Saved lists…", "", 0, func() { w.showTimeline(); w.left.Show(0); w.setups.AskLists() }),
		item("Merge equal replies…", "", 0, w.askMergeReplies),
		item("Merge equal setups…", "", 0, w.askMergeSetups),
		item("In-game test…", "", 0, w.askProof),
		item("In-game tests to do", fyne.Key0, ctrl, w.showTests),
	}
}

// askSeveral shows what can be done with the setups that are selected, or says
// how several are.
func (w *window) askSeveral() {
	if w.page != nil {
		return
	}
	if w.setups.Marks.Places() == nil {
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

// severalItems are what can be done with the setups that are selected in the
// list, each as one step; nothing while fewer than two are.
func (w *window) severalItems() []*fyne.MenuItem {
	places := w.setups.Marks.Places()
	if places == nil {
		return nil
	}
	item := func(label string, do func()) *fyne.MenuItem {
		return paint.MenuItem(label, func() {
			if w.busy() || w.page != nil {
				return
			}
			if why := w.model.ReadOnly(); why != "" {
				w.refused(why)
				return
			}
			do()
		})
	}
	of := fmt.Sprintf(" %d setups", len(places))
	return []*fyne.MenuItem{
		item("Tag"+of+"…", func() { w.askTag(places) }),
		item("Remove a tag from"+of+"…", func() { w.askUntag(places) }),
		item("Put"+of+" against another rival…", func() { w.askRival(places) }),
		item("Add a reply to"+of+"…", func() { w.askReplyOf(places) }),
		item("Export"+of+"…", func() { w.showExportOf(export.Folder) }),
		item("Delete"+of, func() { w.deleteSeveral(places) }),
	}
}

// severally edits the setups of those places as one step, and says what was
// done.
func (w *window) severally(what, done string, places []int, change func(s *timeline.Setup) (bool, error)) error {
	n, err := w.model.Several(what, places, change)
	if errors.Is(err, model.ErrHeld) {
		return nil // it was told already
	}
	if err == nil {
		w.status.Hint(fmt.Sprintf("%s: %s. Ctrl+Z takes it back", done, model.CountOf(n, "setup")))
	}
	return err
}

// askTag asks for tags that the setups get beside their own.
func (w *window) askTag(places []int) {
	entry := paint.NewPageEntry(w)
	entry.SetPlaceHolder("tag, tag")
	w.Dialogs().Form(fmt.Sprintf("Tag %d setups", len(places)), "Tag", container.NewVBox(entry), entry, func() error {
		tags := panel.SplitTags(entry.Text)
		if len(tags) == 0 {
			return errors.New("expected a tag")
		}
		return w.severally("tag "+strings.Join(tags, ", "), "Tagged", places, func(s *timeline.Setup) (changed bool, err error) {
			for _, tag := range tags {
				if !slices.Contains(s.Tags, tag) {
					s.Tags, changed = append(s.Tags, tag), true
				}
			}
			return changed, nil
		})
	})
}

// chosenFrom asks for one of several names.
func (w *window) chosenFrom(title, button string, names []string, do func(name string) error) {
	pick := paint.NewPick(w, names, nil)
	if len(names) > 0 {
		pick.SetSelected(names[0])
	}
	unseen := paint.NewPageEntry(w) // the dialog begins with a field
	unseen.Hide()
	w.Dialogs().Form(title, button, container.NewVBox(pick, unseen), unseen, func() error {
		if pick.Selected == "" {
			return errors.New("there is nothing to choose")
		}
		return do(pick.Selected)
	})
}

// askUntag asks for a tag that the setups lose.
func (w *window) askUntag(places []int) {
	var tags []string
	for _, i := range places {
		s, err := w.model.Document().Setup(i)
		if err != nil {
			w.Done("The setups can't be read", err)
			return
		}
		for _, tag := range s.Tags {
			if !slices.Contains(tags, tag) {
				tags = append(tags, tag)
			}
		}
	}
	slices.Sort(tags)
	w.chosenFrom(fmt.Sprintf("Remove a tag from %d setups", len(places)), "Remove", tags, func(tag string) error {
		return w.severally("remove tag "+tag, "Removed from", places, func(s *timeline.Setup) (bool, error) {
			before := len(s.Tags)
			s.Tags = slices.DeleteFunc(s.Tags, func(t string) bool { return t == tag })
			return len(s.Tags) != before, nil
		})
	})
}

// askRival asks for the rival that the setups are put against: on all its rises,
// asked what every setup against it is.
func (w *window) askRival(places []int) {
	w.chosenFrom(fmt.Sprintf("Put %d setups against another rival", len(places)), "Change", model.FighterNames(w.model.Data()), func(rival string) error {
		return w.severally("rival "+rival, "Put against "+rival, places, func(s *timeline.Setup) (bool, error) {
			changed := s.Rival != rival
			*s = s.Against(rival)
			return changed, nil
		})
	})
}

// askReplyOf asks for a reply that the setups ask too: they have one rival.
func (w *window) askReplyOf(places []int) {
	heads := w.model.Document()
	rival := heads.Head(places[0]).Rival
	for _, i := range places {
		if heads.Head(i).Rival != rival {
			w.Dialogs().Lines("These setups have several rivals", []string{"A reply is of one rival. Select setups against one rival alone."})
			return
		}
	}
	f := w.model.Data().Fighter(rival)
	var names []string
	for k := range f.Moves {
		if !f.Moves[k].Air {
			names = append(names, f.Moves[k].Name)
		}
	}
	for k := range f.Jumps {
		names = append(names, f.Jumps[k].Name)
	}
	reply := paint.NewPick(w, names, nil)
	demand := paint.NewPick(w, []string{string(timeline.Survive), string(timeline.Beat), string(timeline.DemandNone)}, nil)
	demand.SetSelected(string(timeline.Survive))
	late := paint.NewPageEntry(w)
	late.SetText("0")
	body := container.NewVBox(widget.NewLabel("Reply of "+rival), reply, widget.NewLabel("Demand"), demand, widget.NewLabel("Frames late"), late)
	w.Dialogs().Form(fmt.Sprintf("Add a reply to %d setups", len(places)), "Add", body, late, func() error {
		if reply.Selected == "" {
			return errors.New("choose a reply")
		}
		frames, err := strconv.Atoi(strings.TrimSpace(late.Text))
		if err != nil {
			return model.ErrWhole(late.Text)
		}
		next := timeline.Reply{Move: reply.Selected, Demand: timeline.Demand(demand.Selected), Late: frames}
		return w.severally("add reply "+next.Title(), "Added to", places, func(s *timeline.Setup) (bool, error) {
			asked := slices.Clone(s.Asked(f))
			if slices.ContainsFunc(asked, func(r timeline.Reply) bool { return r.Move == next.Move && r.Late == next.Late }) {
				return false, nil
			}
			s.Replies = append(asked, next)
			return true, nil
		})
	})
}

// deleteSeveral takes the setups away.
func (w *window) deleteSeveral(places []int) {
	if w.Done("The setups could not be deleted", w.model.DeleteSeveral(places)) {
		w.status.Hint(fmt.Sprintf("Deleted %d setups. Ctrl+Z brings them back", len(places)))
	}
}
