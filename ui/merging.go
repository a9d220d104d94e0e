package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/output"
	"wakeline/ui/page"
	"wakeline/ui/page/merge"
	"wakeline/ui/paint"
)

// askMerge shows the timeline, looks behind the window for what can be merged,
// and offers what was found; none says that nothing was.
func askMerge[T any](w *window, what, none string, look func(at page.Work, p *timeline.Project, each output.Each) ([]T, error), offer func(found []T)) {
	if w.page != nil {
		w.showTimeline()
	}
	if why := w.model.ReadOnly(); why != "" {
		w.refused(why)
		return
	}
	p, each := w.model.Data(), w.model.Document().Each()
	var found []T
	w.Task("Comparing "+what, nil, func(at page.Work) (err error) {
		found, err = look(at, p, each)
		return err
	}, func(err error) {
		switch {
		case !w.Done("The "+what+" could not be compared", err):
		case len(found) == 0:
			w.Dialogs().Lines("Nothing to merge", []string{none})
		default:
			offer(found)
		}
	})
}

// askMergeProject asks for another project, and shows what merging it into this
// one comes to.
func (w *window) askMergeProject() {
	if !w.settled() {
		return
	}
	w.askFile("Merge a project file or JSON into this project", "Compare", []string{storage.Ext, ".json"}, func(path string) {
		merge.Read(w, path, func(p *merge.Page) {
			w.showPage(p)
			p.Refocus()
		})
	})
}

// askMergeReplies finds the setups against one rival that have the same replies
// of their own, and offers to make those the rival's standing ones.
func (w *window) askMergeReplies() {
	askMerge(w, "replies", "No two setups against a rival have the same replies of their own.", func(at page.Work, p *timeline.Project, each output.Each) ([]model.ReplyMerge, error) {
		return model.ReplyMerges(at.Context, p, each)
	}, w.offerMerge)
}

// offerOldReplies offers to merge equal replies of a project that was just
// opened, where it is of a version in which each setup had to list its own.
func (w *window) offerOldReplies(d *model.Document) {
	if !d.File().BeforeStanding() || w.model.ReadOnly() != "" {
		return
	}
	p, each := w.model.Data(), d.Each()
	w.Run(func() {
		found, err := model.ReplyMerges(w.Context(), p, each)
		w.Later(func() {
			if err == nil && len(found) > 0 && w.model.Document() == d && w.Canvas().Overlays().Top() == nil {
				w.offerMerge(found)
			}
		})
	})
}

// offerMerge tells what would be merged, and does it when told to.
func (w *window) offerMerge(found []model.ReplyMerge) {
	text := ""
	var edits []timeline.Edit
	for i := range found {
		text += mergeWords(&found[i]) + "\n\n"
		edits = append(edits, found[i].Edits()...)
	}
	label := widget.NewLabel(text + "The setups that are merged keep their verdicts. Undo takes it all back. Setup > Merge equal replies… offers it again.")
	label.Wrapping = fyne.TextWrapWord
	a := w.Dialogs().New("Merge equal replies", container.NewVScroll(label))
	a.Button("Cancel", a.Hide)
	a.Main("Merge", func() {
		a.Hide()
		if w.Done("The replies could not be merged", w.model.Apply("merge equal replies", edits...)) {
			w.status.Hint("Merged. The standing replies are in Move data, under Replies; Ctrl+Z takes it back.")
		}
	})
	a.Show(fyne.NewSize(520, 340), nil)
}

// mergeWords say what becomes of the replies against one rival.
func mergeWords(r *model.ReplyMerge) string {
	n := model.CountOf(len(r.Setups), "setup")
	if !r.New {
		return fmt.Sprintf("%s against %s: their own replies are %s's standing ones, and are dropped.", n, r.Rival, r.Rival)
	}
	s := fmt.Sprintf("%s against %s: their %s become %s's standing ones.", n, r.Rival, model.CountOf(len(r.Replies), "reply"), r.Rival)
	if r.Others > 0 {
		s += fmt.Sprintf(" %s without replies will be asked these too.", model.CountOf(r.Others, "setup"))
	}
	return s
}

// mostSame is how many groups of equal setups a dialog lists.
const mostSame = 200

// mostShown is how many letters of their names it shows.
const mostShown = 66

// askMergeSetups finds the setups that come to the same frames, and offers to
// make one of each group.
func (w *window) askMergeSetups() {
	askMerge(w, "setups", "No two setups come to the same frames against one rival.", func(at page.Work, p *timeline.Project, each output.Each) ([]model.SameSetups, error) {
		return model.FindSame(at.Context, p, each)
	}, w.offerSame)
}

// offerSame lists the groups, each ticked, and merges those that stay so.
func (w *window) offerSame(found []model.SameSetups) {
	intro := widget.NewLabel("These setups come to the same frames. The first of each line stays, with the tags, notes and replies of all. Undo takes it all back.")
	intro.Wrapping = fyne.TextWrapWord
	rows := container.NewVBox(intro)
	listed := found[:min(len(found), mostSame)]
	ticks := make([]*paint.PageTick, len(listed))
	for i := range listed {
		var names []string
		for k := range listed[i].Setups {
			names = append(names, listed[i].Setups[k].Name)
		}
		ticks[i] = paint.NewPageTick(w, timeline.CutName(strings.Join(names, " = "), timeline.MaxName-mostShown), func(bool) {})
		ticks[i].SetChecked(true)
		rows.Add(ticks[i])
	}
	if more := len(found) - len(listed); more > 0 {
		rows.Add(widget.NewLabel(fmt.Sprintf("and %d more: merge these first.", more)))
	}
	a := w.Dialogs().New("Merge equal setups", container.NewVScroll(rows))
	a.Button("Cancel", a.Hide)
	a.Main("Merge", func() {
		a.Hide()
		var edits []timeline.Edit
		for i := range listed {
			if ticks[i].Checked {
				edits = append(edits, listed[i].Edits()...)
			}
		}
		if len(edits) > 0 && w.Done("The setups could not be merged", w.model.Apply("merge equal setups", edits...)) {
			w.status.Hint("Merged. Ctrl+Z takes it back")
		}
	})
	a.Show(fyne.NewSize(560, 380), nil)
}
