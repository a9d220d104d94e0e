package ui

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/page/export"
	"wakeline/ui/paint"
	"wakeline/ui/panel"
)

// severalItems are what can be done with the setups that are selected in the
// list, each as one step; nothing while fewer than two are.
func (w *window) severalItems() []*fyne.MenuItem {
	places := w.setups.Selected()
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
