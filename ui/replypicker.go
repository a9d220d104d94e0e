package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

// replyPicker is a field and, under it, what the rival can reply with that has
// the words typed in it. The arrow keys go through it while the field is typed
// in.
type replyPicker struct {
	paint.PageEntry
	model *model.Model
	list  *paint.PageList
	shown []string
	at    int
	take  func(name string)
}

func newReplyPicker(w *window, take func(name string)) *replyPicker {
	p := &replyPicker{PageEntry: paint.PageEntry{W: w}, model: w.model, take: take}
	p.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	p.ExtendBaseWidget(p)
	p.SetPlaceHolder("A few letters of its name")
	p.list = paint.NewPageList(w, func() int { return len(p.shown) },
		func() fyne.CanvasObject {
			name, what := widget.NewLabel(""), widget.NewLabel("")
			name.Truncation = fyne.TextTruncateEllipsis
			what.Importance = widget.LowImportance
			return container.NewBorder(nil, nil, nil, what, name)
		},
		func(i widget.ListItemID, o fyne.CanvasObject) {
			c := o.(*fyne.Container)
			c.Objects[0].(*widget.Label).SetText(p.title(p.shown[i]))
			c.Objects[1].(*widget.Label).SetText(p.phases(p.shown[i]))
		})
	p.list.OnSelected = func(i widget.ListItemID) { p.at = i }
	p.OnChanged = paint.GuardedOf("The replies", func(string) { p.filter() })
	p.filter()
	return p
}

// title is a name as it would be added.
func (p *replyPicker) title(name string) string {
	r := p.model.NextReply(name)
	return r.Title()
}

// phases says how long what the name stands for takes.
func (p *replyPicker) phases(name string) string {
	f := p.model.Data().Fighter(p.model.Setup().Rival)
	if f == nil {
		return ""
	}
	if j := f.Jump(name); j != nil {
		return words.JumpPhases(j)
	}
	if m := f.Move(name); m != nil {
		return words.MovePhases(m, p.model.Data().Ruleset)
	}
	return ""
}

// filter shows what has every typed word, in any case, and marks the first.
func (p *replyPicker) filter() {
	words := strings.Fields(strings.ToLower(p.Text))
	p.shown = slices.DeleteFunc(p.model.PossibleReplies(), func(name string) bool {
		name = strings.ToLower(name)
		return slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(name, w) })
	})
	p.list.UnselectAll()
	p.list.Refresh()
	p.mark(0)
}

func (p *replyPicker) mark(i int) {
	if p.at = min(max(i, 0), len(p.shown)-1); p.at >= 0 {
		p.list.Select(p.at)
	}
}

func (p *replyPicker) takeMarked() {
	if p.at >= 0 && p.at < len(p.shown) {
		p.take(p.shown[p.at])
	}
}

// TypedKey goes through the list, and leaves the rest to the field.
func (p *replyPicker) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The replies")
	switch ev.Name {
	case fyne.KeyUp:
		p.mark(p.at - 1)
	case fyne.KeyDown:
		p.mark(p.at + 1)
	default:
		p.PageEntry.TypedKey(ev)
	}
}

// askReply asks for a reply to add to the chosen setup.
func (w *window) askReply() {
	if w.model.Plan() == nil || w.busy() {
		return
	}
	var a *page.Dialog
	p := newReplyPicker(w, func(name string) {
		a.Hide()
		w.replies.AddNamed(name)
	})
	a = w.Dialogs().New("Add a reply of "+model.CutText(w.model.Setup().Rival, 40), container.NewBorder(p, nil, nil, nil, p.list))
	a.Button("Cancel", a.Hide)
	all := a.Button("Add all that are missing", func() {
		a.Hide()
		w.replies.AddAll()
	})
	if len(w.model.MissingReplies()) == 0 {
		all.Disable()
	}
	a.Main("Add", p.takeMarked)
	a.Closed = func() { w.Canvas().Focus(w.replies.Body) }
	a.Show(fyne.NewSize(560, 440), p)
}
