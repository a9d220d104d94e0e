package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/page"
)

// askMergeReplies finds the setups against one rival that have the same replies
// of their own, and offers to make those the rival's standing ones.
func (w *window) askMergeReplies() {
	if w.page != nil {
		w.showTimeline()
	}
	if why := w.model.ReadOnly(); why != "" {
		w.refused(why)
		return
	}
	p, each := w.model.Data(), w.model.Document().Each()
	var found []model.ReplyMerge
	w.Task("Comparing replies", nil, func(at page.Work) (err error) {
		found, err = model.ReplyMerges(at.Context, p, each)
		return err
	}, func(err error) {
		switch {
		case !w.Done("The replies could not be compared", err):
		case len(found) == 0:
			w.Dialogs().Lines("Nothing to merge", []string{"No two setups against a rival have the same replies of their own."})
		default:
			w.offerMerge(found)
		}
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
	label := widget.NewLabel(text + "The setups that are merged keep their verdicts. Undo takes it all back.")
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
