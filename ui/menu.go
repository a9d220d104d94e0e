package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// menu is the window's menu bar, and the items of it that change.
type menu struct {
	w                  *window
	main               *fyne.MainMenu
	undo, redo, follow *fyne.MenuItem
	paper, night       *fyne.MenuItem
}

func newMenu(w *window) *menu {
	m := &menu{w: w}
	item := func(label string, key fyne.KeyName, mod fyne.KeyModifier, do func()) *fyne.MenuItem {
		i := fyne.NewMenuItem(label, do)
		if key != "" {
			i.Shortcut = &desktop.CustomShortcut{KeyName: key, Modifier: mod}
		}
		return i
	}
	const ctrl, shift, alt = fyne.KeyModifierControl, fyne.KeyModifierShift, fyne.KeyModifierAlt
	line := fyne.NewMenuItemSeparator

	quit := item("Quit", fyne.KeyQ, ctrl, w.quit)
	quit.IsQuit = true
	m.undo = fyne.NewMenuItem("Undo", w.undo)
	m.undo.Shortcut = &fyne.ShortcutUndo{}
	m.redo = item("Redo", fyne.KeyZ, ctrl|shift, w.redo)
	m.follow = fyne.NewMenuItem("Follow the deciding reply (D)", w.model.Follow)
	m.paper = fyne.NewMenuItem("Paper", func() { w.setPalette(paletteNamed(paperName)) })
	m.night = fyne.NewMenuItem("Night", func() { w.setPalette(paletteNamed(nightName)) })

	m.main = fyne.NewMainMenu(
		fyne.NewMenu("File",
			item("Open project text…", fyne.KeyO, ctrl, w.askOpen),
			item("Save project text", fyne.KeyS, ctrl, w.save),
			item("Save project text as…", fyne.KeyS, ctrl|shift, w.askSave),
			line(),
			item("Save strip…", fyne.KeyE, ctrl, w.askStrip),
			line(),
			quit),
		fyne.NewMenu("Edit",
			m.undo, m.redo, line(),
			item("Press the attack earlier", fyne.KeyLeft, alt, func() { w.sheet.PressBy(-1) }),
			item("Press the attack later", fyne.KeyRight, alt, func() { w.sheet.PressBy(1) }),
			fyne.NewMenuItem("Let the jump choose the press (auto)", w.model.PressAuto),
			line(),
			fyne.NewMenuItem("Take the ender's own advantage", w.model.EnderAdvantage),
			line(),
			item("Filter setups", fyne.KeyF, ctrl, func() { w.win.Canvas().Focus(w.setups.filter) })),
		fyne.NewMenu("View",
			m.paper, m.night, line(),
			fyne.NewMenuItem("Zoom in (+)", w.sheet.ZoomIn),
			fyne.NewMenuItem("Zoom out (-)", w.sheet.ZoomOut),
			fyne.NewMenuItem("Fit (0)", w.sheet.Fit),
			line(), m.follow),
		fyne.NewMenu("Help", fyne.NewMenuItem("Keys (F1)", w.showKeys)),
	)
	// A menu shows one shortcut an item; Ctrl+Y redoes too.
	w.win.Canvas().AddShortcut(&fyne.ShortcutRedo{}, func(fyne.Shortcut) { w.redo() })
	return m
}

// update greys and ticks the items by the state.
func (m *menu) update() {
	undo, redo := !m.w.model.CanUndo(), !m.w.model.CanRedo()
	paper := m.w.palette.name == paperName
	if m.undo.Disabled == undo && m.redo.Disabled == redo && m.paper.Checked == paper && m.night.Checked == !paper {
		return
	}
	m.undo.Disabled, m.redo.Disabled = undo, redo
	m.paper.Checked, m.night.Checked = paper, !paper
	m.main.Refresh()
}

// undo takes an edit back: the filter's, while that is typed in.
func (w *window) undo() {
	if e, ok := w.win.Canvas().Focused().(*widget.Entry); ok {
		e.Undo()
		return
	}
	if w.sheet.idle() {
		w.model.Undo()
	}
}

func (w *window) redo() {
	if e, ok := w.win.Canvas().Focused().(*widget.Entry); ok {
		e.Redo()
		return
	}
	if w.sheet.idle() {
		w.model.Redo()
	}
}
