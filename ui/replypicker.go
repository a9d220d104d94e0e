package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

// replyPicker lists what the rival can reply with.
type replyPicker struct {
	paint.Picker
	model *model.Model
	shown []string
	take  func(name string)
}

func newReplyPicker(w *window, take func(name string)) *replyPicker {
	p := &replyPicker{model: w.model, take: take}
	p.Begin(p, w, "A few letters of its name", func(fits func(name string) bool) int {
		p.shown = slices.DeleteFunc(p.model.PossibleReplies(), func(name string) bool { return !fits(name) })
		return len(p.shown)
	}, func(i int) (name, what string) { return p.title(p.shown[i]), p.phases(p.shown[i]) })
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

func (p *replyPicker) takeMarked() {
	if p.At >= 0 && p.At < len(p.shown) {
		p.take(p.shown[p.At])
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
	a = w.Dialogs().New("Add a reply of "+model.CutText(w.model.Setup().Rival, 40), container.NewBorder(p, nil, nil, nil, p.List))
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
