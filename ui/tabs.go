package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/sheet"
)

var (
	_ fyne.Widget        = (*tabRow)(nil)
	_ fyne.Focusable     = (*tabRow)(nil)
	_ fyne.Tappable      = (*tabRow)(nil)
	_ desktop.Cursorable = (*tabRow)(nil)
)

// tabs shows one of several things under a row of their names.
type tabs struct {
	OnShow func(i int)             // after another is shown
	OnKey  func(ev *fyne.KeyEvent) // of no use here; may be nil

	row  *tabRow
	body *fyne.Container
	box  *fyne.Container
	at   int
}

// newTabs returns tabs without a thing.
func newTabs() *tabs {
	t := &tabs{body: container.NewStack(), at: -1}
	t.row = &tabRow{t: t, wrapper: wrapper{size: textSize}}
	t.row.ExtendBaseWidget(t.row)
	t.box = container.NewBorder(t.row, nil, nil, nil, t.body)
	return t
}

// add puts a thing last. The first is shown.
func (t *tabs) add(name string, o fyne.CanvasObject) {
	t.row.names = append(t.row.names, name)
	t.body.Add(o)
	o.Hide()
	if t.at < 0 {
		t.show(0)
	}
	t.row.Refresh()
}

// show shows thing i.
func (t *tabs) show(i int) {
	if i == t.at || i < 0 || i >= len(t.body.Objects) {
		return
	}
	if t.at >= 0 {
		t.body.Objects[t.at].Hide()
	}
	t.at = i
	t.body.Objects[i].Show()
	t.row.Refresh()
	if t.OnShow != nil {
		t.OnShow(i)
	}
}

// tabRow is the row of names; a click or an arrow key shows another.
type tabRow struct {
	widget.BaseWidget
	t       *tabs
	wrapper wrapper
	names   []string
	focused bool
}

const (
	tabHeight = 26
	tabPad    = 10
)

// CreateRenderer implements fyne.Widget.
func (r *tabRow) CreateRenderer() fyne.WidgetRenderer {
	return &penRenderer{owner: r, paint: r.paint, min: func() fyne.Size {
		_, end := r.span(len(r.names) - 1)
		return fyne.NewSize(end, tabHeight)
	}}
}

// span is where name i lies.
func (r *tabRow) span(i int) (from, to float32) {
	for k := 0; k <= i; k++ {
		from, to = to, to+r.wrapper.widthOf(r.names[k])+2*tabPad
	}
	return from, to
}

func (r *tabRow) paint(p *pen, size fyne.Size) {
	p.line(&sheet.Line{From: sheet.Point{Y: tabHeight - 1}, To: sheet.Point{X: float64(size.Width), Y: tabHeight - 1}, Stroke: sheet.Rule, Width: 1})
	for i, name := range r.names {
		from, to := r.span(i)
		role := sheet.Soft
		if i == r.t.at {
			role = sheet.Ink
			p.rect(p.px(float64(from+tabPad)), p.px(tabHeight-3), p.px(float64(to-tabPad)), p.px(tabHeight), colours().ink[sheet.Ink], nil, 0)
		}
		if i == r.t.at && r.focused {
			p.rect(p.px(float64(from+3)), p.px(3), p.px(float64(to-3)), p.px(tabHeight-5), nil, colours().ink[sheet.Ink], p.thick(1))
		}
		t := columnText(name, from+tabPad, 17, role)
		p.text(&t)
	}
}

// Tapped shows what is under the pointer.
func (r *tabRow) Tapped(ev *fyne.PointEvent) {
	defer survive("The tabs")
	for i := range r.names {
		if from, to := r.span(i); ev.Position.X >= from && ev.Position.X < to {
			r.t.show(i)
		}
	}
}

// FocusGained implements fyne.Focusable.
func (r *tabRow) FocusGained() { r.focus(true) }

// FocusLost implements fyne.Focusable.
func (r *tabRow) FocusLost() { r.focus(false) }

func (r *tabRow) focus(on bool) {
	r.focused = on
	r.Refresh()
}

// TypedRune implements fyne.Focusable.
func (r *tabRow) TypedRune(rune) {}

// TypedKey shows the thing before or after.
func (r *tabRow) TypedKey(ev *fyne.KeyEvent) {
	defer survive("The tabs")
	switch ev.Name {
	case fyne.KeyLeft:
		r.t.show(r.t.at - 1)
	case fyne.KeyRight:
		r.t.show(r.t.at + 1)
	default:
		if r.t.OnKey != nil {
			r.t.OnKey(ev)
		}
	}
}

// Cursor implements desktop.Cursorable.
func (r *tabRow) Cursor() desktop.Cursor { return desktop.PointerCursor }
