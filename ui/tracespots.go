//go:build trace

package ui

import (
	"reflect"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/panel"
)

// A spotter is a widget that paints, itself, what can be clicked on.
type spotter interface {
	Spots(add func(name string, at fyne.Position, size fyne.Size))
}

// spots is where the controls lie that can be clicked now, by their words:
// those of the topmost dialog, where one is up. Of several with the same
// words the last counts.
func (w *window) spots() map[string][4]int {
	s := spotting{found: map[string][4]int{}, scale: w.Canvas().Scale()}
	if top := w.Canvas().Overlays().Top(); top != nil {
		s.visit(top)
	} else {
		s.visit(w.win.Content())
	}
	return s.found
}

// spotting walks a window's widgets, as far as their fields lead.
type spotting struct {
	found map[string][4]int
	scale float32
}

func (s *spotting) visit(o fyne.CanvasObject) {
	if o == nil || !o.Visible() {
		return
	}
	switch o := o.(type) {
	case *fyne.Container:
		for _, c := range o.Objects {
			s.visit(c)
		}
	case *container.Scroll:
		s.visit(o.Content)
	case *container.Split:
		s.visit(o.Leading)
		s.visit(o.Trailing)
	case *container.Clip:
		s.visit(o.Content)
	case *widget.PopUp:
		s.visit(o.Content)
	case *widget.PopUpMenu:
		for _, i := range o.Items {
			s.visit(i)
		}
	case *widget.Form:
		for _, i := range o.Items {
			s.visit(i.Widget)
		}
	case *panel.Setups:
		s.visit(o.Box)
	case *panel.Shelf:
		s.visit(o.Box)
	case spotter:
		at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o.(fyne.CanvasObject))
		o.Spots(func(name string, in fyne.Position, size fyne.Size) { s.put(name, at.Add(in), size) })
	case *widget.Check: // it takes a click on its box and words alone
		s.put(o.Text, fyne.CurrentApp().Driver().AbsolutePositionForObject(o), o.MinSize())
	case fyne.Focusable, *widget.Label:
		s.put(wordsOf(o), fyne.CurrentApp().Driver().AbsolutePositionForObject(o), o.Size())
	default:
		s.field(o)
	}
}

// field goes into what Fyne keeps to itself: what lies over the window has its
// content in a field, and a line of a menu its item.
func (s *spotting) field(o fyne.CanvasObject) {
	v := reflect.Indirect(reflect.ValueOf(o))
	if v.Kind() != reflect.Struct {
		return
	}
	if f := v.FieldByName("Content"); f.IsValid() && f.CanInterface() {
		if c, ok := f.Interface().(fyne.CanvasObject); ok {
			s.visit(c)
		}
	}
	if f := v.FieldByName("Item"); f.IsValid() && f.CanInterface() {
		if i, ok := f.Interface().(*fyne.MenuItem); ok {
			s.put(i.Label, fyne.CurrentApp().Driver().AbsolutePositionForObject(o), o.Size())
		}
	}
}

func (s *spotting) put(name string, at fyne.Position, size fyne.Size) {
	px := func(v float32) int { return int(v * s.scale) }
	s.found[name] = [4]int{px(at.X), px(at.Y), px(at.X + size.Width), px(at.Y + size.Height)}
}

// Spots are the menu's lines, and the titles of the others.
func (o *openMenu) Spots(add func(name string, at fyne.Position, size fyne.Size)) {
	at := o.barAt()
	o.b.Spots(func(name string, in fyne.Position, size fyne.Size) { add(name, in.Add(at), size) })
	for _, i := range o.menu.Items {
		s := spotting{found: map[string][4]int{}, scale: 1}
		s.field(i)
		for name, r := range s.found {
			add(name, fyne.NewPos(float32(r[0]), float32(r[1])), fyne.NewSize(float32(r[2]-r[0]), float32(r[3]-r[1])))
		}
	}
}

// Spots are the titles.
func (b *menuBar) Spots(add func(name string, at fyne.Position, size fyne.Size)) {
	for i, m := range b.menus {
		from, to := b.span(i)
		add("menu "+m.Label, fyne.NewPos(from, 0), fyne.NewSize(to-from, menuBarHeight))
	}
}

// Spots are the names.
func (b *pageBar) Spots(add func(name string, at fyne.Position, size fyne.Size)) {
	for i := range barPages {
		from, to := b.span(i)
		add("page "+barPages[i].name, fyne.NewPos(0, from), fyne.NewSize(b.Size().Width, to-from))
	}
}
