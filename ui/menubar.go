package ui

import (
	"io"
	"log"
	"runtime"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Focusable = (*menuBar)(nil)
	_ fyne.Tappable  = (*menuBar)(nil)
)

// menuBar names the menus above everything. The toolkit's own bar closes the
// menu that is open where another title is clicked; this one opens the other.
type menuBar struct {
	paint.Keyed
	paint.Pointed
	w       *window
	menus   []*fyne.Menu
	wrapper paint.Wrapper
	open    *openMenu // nil: none
	hover   int       // the title under the pointer, -1: none
	at      int       // the title that the keys are on
}

// The measures of the bar, in units.
const (
	menuBarHeight = 27
	menuTitlePad  = 10
	menuBarLeft   = 4
)

// nativeMenus reports whether the system has a place of its own for menus.
func nativeMenus() bool { return runtime.GOOS == "darwin" }

func newMenuBar(w *window, menus []*fyne.Menu) *menuBar {
	b := &menuBar{w: w, menus: menus, wrapper: paint.Wrapper{Size: paint.TextSize}, hover: -1}
	b.Extend(b, b.paint, func() fyne.Size {
		_, end := b.span(len(b.menus) - 1)
		return fyne.NewSize(end, menuBarHeight)
	})
	b.OnPointer("The menu", func(at fyne.Position) { b.point(b.hit(at)) }, func() { b.point(-1) })
	return b
}

// attach has the toolkit know the menus' shortcuts. A main menu that is empty
// when it is set gets no bar of the toolkit's (Fyne 2.7.1), which it notes as
// an error.
func (m *menu) attach() {
	if nativeMenus() {
		m.w.win.SetMainMenu(m.main)
		return
	}
	main := fyne.NewMainMenu()
	to := log.Writer()
	log.SetOutput(io.Discard)
	m.w.win.SetMainMenu(main)
	log.SetOutput(to)
	main.Items = append(main.Items, m.main.Items...)
	main.Items = append(main.Items, m.w.menuBar.letters())
}

// letters are the shortcuts that open the menus: Alt and a title's first
// letter.
func (b *menuBar) letters() *fyne.Menu {
	keys := fyne.NewMenu("")
	for i, m := range b.menus {
		item := paint.MenuItem(m.Label, func() {
			if !b.w.busy() {
				b.show(i, false)
			}
		})
		item.Shortcut = &desktop.CustomShortcut{KeyName: fyne.KeyName(m.Label[:1]), Modifier: fyne.KeyModifierAlt}
		keys.Items = append(keys.Items, item)
	}
	return keys
}

// span is where title i lies.
func (b *menuBar) span(i int) (from, to float32) {
	to = menuBarLeft
	for k := 0; k <= i; k++ {
		from, to = to, to+b.wrapper.WidthOf(b.menus[k].Label)+2*menuTitlePad
	}
	return from, to
}

// hit is the title at a place of the bar, -1 where there is none.
func (b *menuBar) hit(at fyne.Position) int {
	for i := range b.menus {
		if from, to := b.span(i); at.Y >= 0 && at.Y < menuBarHeight && at.X >= from && at.X < to {
			return i
		}
	}
	return -1
}

func (b *menuBar) paint(p *paint.Pen, size fyne.Size) {
	px := func(v float32) int { return p.Px(float64(v)) }
	p.Rect(0, px(menuBarHeight)-1, px(size.Width), px(menuBarHeight), paint.Colours().Ink[sheet.Rule], nil, 0)
	for i, m := range b.menus {
		from, to := b.span(i)
		share := 0.0
		switch {
		case b.open != nil && b.open.at == i:
			share = 0.18
		case b.open == nil && b.hover == i:
			share = 0.10
		}
		if share > 0 {
			p.Rect(px(from), 0, px(to), px(menuBarHeight)-1, paint.Colours().Blend(sheet.Ink, share), nil, 0)
		}
		if b.Focused && b.open == nil && b.at == i {
			p.Rect(px(from+2), px(3), px(to-2), px(menuBarHeight-4), nil, paint.Colours().Ink[sheet.Ink], p.Thick(1.5))
		}
		t := paint.ColumnText(m.Label, from+menuTitlePad, menuBarHeight-9, sheet.Ink)
		p.Text(&t)
	}
}

// Tapped opens the menu under the pointer.
func (b *menuBar) Tapped(ev *fyne.PointEvent) {
	defer paint.Survive("The menu")
	if i := b.hit(ev.Position); i >= 0 {
		b.show(i, false)
	}
}

// show opens menu i; byHover says that the pointer came over its title while
// another was open.
func (b *menuBar) show(i int, byHover bool) {
	if b.open != nil {
		b.open.close()
	}
	b.at, b.open = i, newOpenMenu(b, i, byHover)
	c := b.w.Canvas()
	c.Overlays().Add(b.open)
	b.open.Resize(c.Size())
	c.Focus(b.open)
	b.Refresh()
}

func (b *menuBar) point(i int) {
	if i != b.hover {
		b.hover = i
		b.Refresh()
	}
}

// TypedKey goes from title to title, and opens a menu.
func (b *menuBar) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The menu")
	n := len(b.menus)
	switch ev.Name {
	case fyne.KeyLeft:
		b.at = (b.at + n - 1) % n
	case fyne.KeyRight:
		b.at = (b.at + 1) % n
	case fyne.KeyDown, fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		b.show(b.at, false)
	case fyne.KeyEscape:
		b.w.refocus()
	default:
		b.w.typedKey(ev)
	}
	b.Refresh()
}
