package paint

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Picker is a field and, under it, a list of what has the words typed in it,
// each with what is to say about it. The arrow keys go through the list while
// the field is typed in.
type Picker struct {
	PageEntry
	List *PageList
	At   int // the one that is marked, -1: none

	count int
	find  func(fits func(name string) bool) int
}

// Begin makes the picker that embeds it, owner, known to the toolkit, and fills
// the list. find lists anew what fits, and returns how many they are; row is
// what the list says of each.
func (p *Picker) Begin(owner fyne.Widget, w KeyTaker, holder string, find func(fits func(name string) bool) int, row func(i int) (name, what string)) {
	p.W, p.find = w, find
	p.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	p.ExtendBaseWidget(owner)
	p.SetPlaceHolder(holder)
	p.List = NewPageList(w, func() int { return p.count },
		func() fyne.CanvasObject {
			name, what := widget.NewLabel(""), widget.NewLabel("")
			name.Truncation = fyne.TextTruncateEllipsis
			what.Importance = widget.LowImportance
			return container.NewBorder(nil, nil, nil, what, name)
		},
		func(i widget.ListItemID, o fyne.CanvasObject) {
			c := o.(*fyne.Container)
			name, what := row(i)
			c.Objects[0].(*widget.Label).SetText(name)
			c.Objects[1].(*widget.Label).SetText(what)
		})
	p.List.OnSelected = func(i widget.ListItemID) { p.At = i }
	p.OnChanged = GuardedOf("The list", func(string) { p.Filter() })
	p.Filter()
}

// Filter shows what has every typed word, in any case, and marks the first.
func (p *Picker) Filter() {
	typed := strings.Fields(strings.ToLower(p.Text))
	p.count = p.find(func(name string) bool {
		name = strings.ToLower(name)
		return !slices.ContainsFunc(typed, func(w string) bool { return !strings.Contains(name, w) })
	})
	p.List.UnselectAll()
	p.List.Refresh()
	p.mark(0)
}

// mark marks a line.
func (p *Picker) mark(i int) {
	if p.At = min(max(i, 0), p.count-1); p.At >= 0 {
		p.List.Select(p.At)
	}
}

// TypedKey goes through the list, and leaves the rest to the field.
func (p *Picker) TypedKey(ev *fyne.KeyEvent) {
	defer Survive("The list")
	switch ev.Name {
	case fyne.KeyUp:
		p.mark(p.At - 1)
	case fyne.KeyDown:
		p.mark(p.At + 1)
	default:
		p.PageEntry.TypedKey(ev)
	}
}
