package paint

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/layout"

	"wakeline/ui/sheet"
)

var (
	_ fyne.Focusable     = (*TabRow)(nil)
	_ fyne.Tappable      = (*TabRow)(nil)
	_ desktop.Cursorable = (*TabRow)(nil)
)

// Tabs shows one of several things under a row of their names.
type Tabs struct {
	OnShow func(i int)             // after another is shown
	OnKey  func(ev *fyne.KeyEvent) // of no use here; may be nil

	Row  *TabRow
	Body *fyne.Container
	Box  *fyne.Container
	At   int
}

// NewTabs returns tabs without a thing.
func NewTabs() *Tabs {
	t := &Tabs{Body: container.NewStack(), At: -1}
	t.Row = &TabRow{t: t, wrapper: Wrapper{Size: TextSize}}
	t.Row.Extend(t.Row, t.Row.paint, func() fyne.Size {
		_, end := t.Row.Span(len(t.Row.Names) - 1)
		return fyne.NewSize(end, TabHeight)
	})
	t.Box = container.NewBorder(t.Row, nil, nil, nil, t.Body)
	return t
}

// Beside puts a thing to the right of the names.
func (t *Tabs) Beside(o fyne.CanvasObject) {
	row := container.New(beside{t.Row}, t.Row, o)
	t.Box.Objects[1] = row
	t.Box.Layout = layout.NewBorderLayout(row, nil, nil, nil)
}

// beside lays a row of names out over the whole width, and another thing over
// what the names leave of it.
type beside struct{ row *TabRow }

// MinSize implements fyne.Layout.
func (b beside) MinSize([]fyne.CanvasObject) fyne.Size { return b.row.MinSize() }

// Layout implements fyne.Layout.
func (b beside) Layout(of []fyne.CanvasObject, s fyne.Size) {
	defer Survive("The layout")
	from := min(b.row.MinSize().Width, s.Width)
	of[0].Resize(s)
	of[1].Move(fyne.NewPos(from, 0))
	of[1].Resize(fyne.NewSize(s.Width-from, s.Height))
}

// Add puts a thing last. The first is shown.
func (t *Tabs) Add(name string, o fyne.CanvasObject) {
	t.Row.Names = append(t.Row.Names, name)
	t.Body.Add(o)
	o.Hide()
	if t.At < 0 {
		t.Show(0)
	}
	t.Row.Refresh()
}

// Show shows thing i.
func (t *Tabs) Show(i int) {
	if i == t.At || i < 0 || i >= len(t.Body.Objects) {
		return
	}
	if t.At >= 0 {
		t.Body.Objects[t.At].Hide()
	}
	t.At = i
	t.Body.Objects[i].Show()
	t.Row.Refresh()
	if t.OnShow != nil {
		t.OnShow(i)
	}
}

// TabRow is the row of names; a click or an arrow key shows another.
type TabRow struct {
	Keyed
	t       *Tabs
	wrapper Wrapper
	Names   []string
}

const (
	TabHeight = 26
	TabPad    = 10
)

// Span is where name i lies.
func (r *TabRow) Span(i int) (from, to float32) {
	for k := 0; k <= i; k++ {
		from, to = to, to+r.wrapper.WidthOf(r.Names[k])+2*TabPad
	}
	return from, to
}

func (r *TabRow) paint(p *Pen, size fyne.Size) {
	p.Line(&sheet.Line{From: sheet.Point{Y: TabHeight - 1}, To: sheet.Point{X: float64(size.Width), Y: TabHeight - 1}, Stroke: sheet.Rule, Width: 1})
	for i, name := range r.Names {
		from, to := r.Span(i)
		role := sheet.Soft
		if i == r.t.At {
			role = sheet.Ink
			p.Rect(p.Px(float64(from+TabPad)), p.Px(TabHeight-3), p.Px(float64(to-TabPad)), p.Px(TabHeight), Colours().Ink[sheet.Ink], nil, 0)
		}
		if i == r.t.At && r.Focused {
			p.Rect(p.Px(float64(from+3)), p.Px(3), p.Px(float64(to-3)), p.Px(TabHeight-5), nil, Colours().Ink[sheet.Ink], p.Thick(1))
		}
		t := ColumnText(name, from+TabPad, 17, role)
		p.Text(&t)
	}
}

// Tapped shows what is under the pointer.
func (r *TabRow) Tapped(ev *fyne.PointEvent) {
	defer Survive("The tabs")
	for i := range r.Names {
		if from, to := r.Span(i); ev.Position.X >= from && ev.Position.X < to {
			r.t.Show(i)
		}
	}
}

// TypedKey shows the thing before or after.
func (r *TabRow) TypedKey(ev *fyne.KeyEvent) {
	defer Survive("The tabs")
	switch ev.Name {
	case fyne.KeyLeft:
		r.t.Show(r.t.At - 1)
	case fyne.KeyRight:
		r.t.Show(r.t.At + 1)
	default:
		if r.t.OnKey != nil {
			r.t.OnKey(ev)
		}
	}
}

// Cursor implements desktop.Cursorable.
func (r *TabRow) Cursor() desktop.Cursor { return desktop.PointerCursor }
