package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/ui/page/data"
)

// titleAt is the middle of a title of the menu bar, on the canvas.
func titleAt(w *window, i int) fyne.PointEvent {
	from, to := w.menuBar.span(i)
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(w.menuBar).AddXY((from+to)/2, menuBarHeight/2)
	return fyne.PointEvent{Position: at, AbsolutePosition: at}
}

// clickTitle clicks a title: the bar's own where no menu is open, else what
// lies over it.
func clickTitle(w *window, i int) {
	ev := titleAt(w, i)
	if o := w.menuBar.open; o != nil {
		o.Tapped(&ev)
	} else {
		w.menuBar.Tapped(&ev)
	}
}

func hoverTitle(w *window, i int) {
	w.menuBar.open.MouseMoved(&desktop.MouseEvent{PointEvent: titleAt(w, i)})
}

// openTitle is the menu that is open, -1 where none is.
func openTitle(w *window) int {
	if w.menuBar.open == nil {
		return -1
	}
	return w.menuBar.open.at
}

// TestAClickOnAnotherTitleOpensItsMenu goes through the titles by clicks and
// by the pointer alone.
func TestAClickOnAnotherTitleOpensItsMenu(t *testing.T) {
	w := open(t, sample(), small)
	is := func(what string, want int) {
		t.Helper()
		if got := openTitle(w); got != want {
			t.Fatalf("%s: menu %d is open, want %d", what, got, want)
		}
		if over := len(w.Canvas().Overlays().List()); over != min(want+1, 1) {
			t.Fatalf("%s: %d things lie over the window", what, over)
		}
	}
	clickTitle(w, 0)
	is("a click on the first", 0)
	clickTitle(w, 1)
	is("a click on the second", 1)
	clickTitle(w, 1)
	is("another click on it", -1)
	clickTitle(w, 0)
	hoverTitle(w, 2)
	is("the pointer over the third", 2)
	clickTitle(w, 2)
	is("a click that the pointer came with", 2)
	clickTitle(w, 2)
	is("another click", -1)
	clickTitle(w, 3)
	w.menuBar.open.Tapped(&fyne.PointEvent{Position: fyne.NewPos(600, 400)})
	is("a click beside it", -1)
	if w.Canvas().Focused() != fyne.Focusable(w.sheet) {
		t.Errorf("the keys are with %T", w.Canvas().Focused())
	}
}

// TestTheMenusGoByKeys opens, goes through and closes them by keys.
func TestTheMenusGoByKeys(t *testing.T) {
	w := open(t, sample(), small)
	typeKey(w, fyne.KeyF10)
	typeKey(w, fyne.KeyLeft)
	if got := openTitle(w); got != len(w.menuBar.menus)-1 {
		t.Errorf("Left from the first leads to %d", got)
	}
	typeKey(w, fyne.KeyRight)
	typeKey(w, fyne.KeyRight)
	if got := openTitle(w); got != 1 {
		t.Errorf("Right twice leads to %d", got)
	}
	typeKey(w, fyne.KeyEscape)
	if openTitle(w) >= 0 || w.busy() || w.Canvas().Focused() != fyne.Focusable(w.sheet) {
		t.Errorf("Escape leaves menu %d, the keys with %T", openTitle(w), w.Canvas().Focused())
	}
	for _, page := range []string{"", "Match-up"} { // Escape closes the menu, not the page behind it
		if page != "" {
			tapPage(w, page)
		}
		was := w.page
		typeKey(w, fyne.KeyF10)
		typeKey(w, fyne.KeyEscape)
		if w.page != was || w.busy() {
			t.Errorf("Escape in a menu over %T leads to %T", was, w.page)
		}
	}
	w.Close()
	w.Canvas().Focus(w.menuBar)
	typeKey(w, fyne.KeyRight)
	typeKey(w, fyne.KeyRight)
	typeKey(w, fyne.KeyRight)
	typeKey(w, fyne.KeyRight)
	typeKey(w, fyne.KeyDown)
	if got := w.menuBar.menus[openTitle(w)].Label; got != "Pages" {
		t.Fatalf("four to the right and Down open %s", got)
	}
	typeKey(w, fyne.KeyDown)
	typeKey(w, fyne.KeyDown)
	typeKey(w, fyne.KeyReturn)
	if _, ok := w.page.(*data.Page); !ok || openTitle(w) >= 0 || w.busy() {
		t.Errorf("the second line of Pages leads to %T, menu %d", w.page, openTitle(w))
	}
}

// TestTheToolkitKnowsTheShortcuts holds that the menus' shortcuts reach it,
// and those that open a menu.
func TestTheToolkitKnowsTheShortcuts(t *testing.T) {
	w := open(t, sample(), small)
	w.menu.attach()
	got := map[string]func(){}
	for _, m := range w.win.MainMenu().Items {
		for _, i := range m.Items {
			if i.Shortcut != nil {
				if got[i.Shortcut.ShortcutName()] != nil {
					t.Errorf("%s is taken twice", i.Shortcut.ShortcutName())
				}
				got[i.Shortcut.ShortcutName()] = i.Action
			}
		}
	}
	for name := range menuShortcuts(w) {
		if got[name] == nil {
			t.Errorf("nothing takes %s", name)
		}
	}
	for i, m := range w.menuBar.menus {
		got[(&desktop.CustomShortcut{KeyName: fyne.KeyName(m.Label[:1]), Modifier: fyne.KeyModifierAlt}).ShortcutName()]()
		if openTitle(w) != i {
			t.Errorf("Alt and the first letter of %s open menu %d", m.Label, openTitle(w))
		}
		typeKey(w, fyne.KeyEscape)
	}
}
