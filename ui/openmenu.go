package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/paint"
)

var (
	_ fyne.Focusable    = (*openMenu)(nil)
	_ fyne.Tappable     = (*openMenu)(nil)
	_ desktop.Hoverable = (*openMenu)(nil)
)

// openMenu lies over the window while a menu is open, and holds it. The titles
// under it stay in reach: the pointer opens the one that it comes over, and a
// click the one that it is made on, or closes the one that was opened by a
// click before.
type openMenu struct {
	widget.BaseWidget
	b       *menuBar
	at      int  // of the menus
	byHover bool // and not by a click
	menu    *widget.Menu
}

func newOpenMenu(b *menuBar, i int, byHover bool) *openMenu {
	o := &openMenu{b: b, at: i, byHover: byHover, menu: widget.NewMenu(b.menus[i])}
	o.menu.OnDismiss = o.close
	o.ExtendBaseWidget(o)
	return o
}

// close takes the menu away.
func (o *openMenu) close() {
	if o.b.open == o {
		o.b.open = nil
		o.b.w.Canvas().Overlays().Remove(o)
		o.b.Refresh()
	}
}

// CreateRenderer implements fyne.Widget.
func (o *openMenu) CreateRenderer() fyne.WidgetRenderer { return &openMenuRenderer{o} }

type openMenuRenderer struct{ o *openMenu }

func (r *openMenuRenderer) Layout(fyne.Size) {
	defer paint.Survive("The menu")
	from, _ := r.o.b.span(r.o.at)
	r.o.menu.Move(r.o.barAt().AddXY(from, menuBarHeight))
	r.o.menu.Resize(r.o.menu.MinSize())
}

func (r *openMenuRenderer) MinSize() fyne.Size           { return fyne.Size{} }
func (r *openMenuRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.o.menu} }
func (r *openMenuRenderer) Refresh()                     { r.o.menu.Refresh() }
func (r *openMenuRenderer) Destroy()                     {}

// barAt is where the bar lies on the canvas.
func (o *openMenu) barAt() fyne.Position {
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(o.b)
}

// title is the title under a place of the canvas, -1 where there is none.
func (o *openMenu) title(at fyne.Position) int { return o.b.hit(at.Subtract(o.barAt())) }

// Tapped opens another menu, or closes this one.
func (o *openMenu) Tapped(ev *fyne.PointEvent) {
	defer paint.Survive("The menu")
	switch i := o.title(ev.Position); {
	case i >= 0 && i != o.at:
		o.b.show(i, false)
	case i == o.at && o.byHover:
		o.byHover = false // the click that came with the pointer
	default:
		o.close()
	}
}

// MouseIn implements desktop.Hoverable.
func (o *openMenu) MouseIn(ev *desktop.MouseEvent) { o.MouseMoved(ev) }

// MouseMoved opens the menu of another title.
func (o *openMenu) MouseMoved(ev *desktop.MouseEvent) {
	defer paint.Survive("The menu")
	if i := o.title(ev.Position); i >= 0 && i != o.at {
		o.b.show(i, true)
	}
}

// MouseOut implements desktop.Hoverable.
func (o *openMenu) MouseOut() {}

// FocusGained implements fyne.Focusable.
func (o *openMenu) FocusGained() {}

// FocusLost implements fyne.Focusable.
func (o *openMenu) FocusLost() {}

// TypedRune implements fyne.Focusable.
func (o *openMenu) TypedRune(rune) {}

// TypedKey goes through the menu, to the one beside it, and out.
func (o *openMenu) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The menu")
	n := len(o.b.menus)
	switch ev.Name {
	case fyne.KeyUp:
		o.menu.ActivatePrevious()
	case fyne.KeyDown:
		o.menu.ActivateNext()
	case fyne.KeyLeft:
		if !o.menu.DeactivateLastSubmenu() {
			o.b.show((o.at+n-1)%n, false)
		}
	case fyne.KeyRight:
		if !o.menu.ActivateLastSubmenu() {
			o.b.show((o.at+1)%n, false)
		}
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		o.menu.TriggerLast()
	case fyne.KeyEscape, fyne.KeyF10:
		o.close()
	}
}
