package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// menu is the window's menu bar, and the items of it that change.
type menu struct {
	w    *window
	main *fyne.MainMenu

	recent, save, saveAs, keep, intake, copy, compact *fyne.MenuItem
	undo, redo, history, compare, follow              *fyne.MenuItem
	paper, night                                      *fyne.MenuItem
}

func newMenu(w *window) *menu {
	m := &menu{w: w}
	// A shortcut reaches the menu also while a dialog is up; nothing comes of
	// it then.
	item := func(label string, key fyne.KeyName, mod fyne.KeyModifier, do func()) *fyne.MenuItem {
		i := fyne.NewMenuItem(label, func() {
			if !w.busy() {
				do()
			}
		})
		if key != "" {
			i.Shortcut = &desktop.CustomShortcut{KeyName: key, Modifier: mod}
		}
		return i
	}
	onSheet := func(do func()) func() {
		return func() {
			if w.page == nil {
				do()
			}
		}
	}
	plain := func(label string, do func()) *fyne.MenuItem { return item(label, "", 0, do) }
	const ctrl, shift, alt = fyne.KeyModifierControl, fyne.KeyModifierShift, fyne.KeyModifierAlt
	line := fyne.NewMenuItemSeparator
	orFind := func(do func()) func() { // in a table of the move data
		return func() {
			if d, ok := w.page.(*dataPage); ok {
				d.find()
			} else {
				onSheet(do)()
			}
		}
	}

	m.recent = fyne.NewMenuItem("Open recent", nil)
	m.save = item("Save project text", fyne.KeyS, ctrl, w.save)
	m.saveAs = item("", fyne.KeyS, ctrl|shift, w.askSave)
	m.keep = plain("Keep as project file…", w.askKeep)
	m.intake = item("Import…", fyne.KeyI, ctrl, w.askImport)
	m.copy = plain("Save a copy…", w.askCopy)
	m.compact = plain("Compact", w.compact)
	quit := fyne.NewMenuItem("Quit", w.quit)
	quit.Shortcut = &desktop.CustomShortcut{KeyName: fyne.KeyQ, Modifier: ctrl}
	quit.IsQuit = true
	m.undo = fyne.NewMenuItem("Undo", w.undo)
	m.undo.Shortcut = &fyne.ShortcutUndo{}
	m.redo = fyne.NewMenuItem("Redo", w.redo)
	m.redo.Shortcut = &desktop.CustomShortcut{KeyName: fyne.KeyZ, Modifier: ctrl | shift}
	m.history = plain("History…", w.showHistory)
	m.compare = plain("Compare revisions…", w.askCompare)
	m.follow = fyne.NewMenuItem("Follow the deciding reply (D)", w.model.Follow)
	m.paper = fyne.NewMenuItem("Paper", func() { w.setPalette(paletteNamed(paperName)) })
	m.night = fyne.NewMenuItem("Night", func() { w.setPalette(paletteNamed(nightName)) })

	m.main = fyne.NewMainMenu(
		fyne.NewMenu("File",
			item("New project…", fyne.KeyN, ctrl, w.askNew),
			item("Open…", fyne.KeyO, ctrl, w.askOpen),
			m.recent,
			plain("Open the sample", w.askSample),
			line(),
			m.save, m.saveAs, m.keep, m.copy,
			line(),
			m.intake, m.compact,
			line(),
			item("Save strip…", fyne.KeyE, ctrl, w.askStrip),
			line(),
			quit),
		fyne.NewMenu("Edit",
			m.undo, m.redo, m.history, line(),
			item("Press the attack earlier", fyne.KeyLeft, alt, onSheet(func() { w.sheet.PressBy(-1) })),
			item("Press the attack later", fyne.KeyRight, alt, onSheet(func() { w.sheet.PressBy(1) })),
			plain("Let the jump choose the press (auto)", onSheet(w.model.PressAuto)),
			line(),
			plain("Take the ender's own advantage", onSheet(w.model.EnderAdvantage)),
			line(),
			plain("Choose all fillers (Ctrl+A)", onSheet(w.sheet.SelectFillers)),
			plain("Cut fillers (Ctrl+X)", onSheet(w.sheet.Cut)),
			plain("Copy fillers (Ctrl+C)", onSheet(func() { w.sheet.Copy() })),
			plain("Paste fillers (Ctrl+V)", onSheet(w.sheet.Paste)),
			plain("Duplicate fillers (Ctrl+D)", onSheet(w.sheet.Duplicate)),
			plain("Take the chosen block out (Delete)", onSheet(w.sheet.Remove)),
			plain("Type the chosen block's number (Enter)", onSheet(w.sheet.TypeNow)),
			line(),
			item("Filter setups", fyne.KeyF, ctrl, orFind(func() { w.left.show(0); w.win.Canvas().Focus(w.setups.filter) }))),
		fyne.NewMenu("Setup", w.setupItems()...),
		fyne.NewMenu("View",
			m.paper, m.night, line(),
			fyne.NewMenuItem("Zoom in (+)", w.sheet.ZoomIn),
			fyne.NewMenuItem("Zoom out (-)", w.sheet.ZoomOut),
			fyne.NewMenuItem("Fit (F)", w.sheet.Fit),
			plain("Fit the meeting (M)", onSheet(w.sheet.FitMeeting)),
			line(),
			plain("Play or pause (Space)", onSheet(w.player.toggle)),
			item("Play at the next speed", fyne.KeySpace, ctrl, onSheet(w.player.nextSpeed)),
			plain("Read the frame of the meeting (End)", onSheet(w.readMeeting)),
			line(),
			item("Replies", fyne.KeyR, ctrl, onSheet(w.showReplies)),
			item("Lanes", fyne.KeyL, ctrl, onSheet(w.showLanes)),
			item("Blocks", fyne.KeyB, ctrl, onSheet(w.showShelf)),
			line(), m.follow,
			line(),
			item("Timeline", fyne.Key1, ctrl, w.showTimeline),
			item("Move data", fyne.Key2, ctrl, w.showData),
			item("Match-up", fyne.Key3, ctrl, w.showMatchup), m.compare),
		fyne.NewMenu("Help", fyne.NewMenuItem("Keys (F1)", w.showKeys)),
	)
	for _, top := range m.main.Items {
		for _, i := range top.Items {
			if do := i.Action; do != nil {
				i.Action = func() { w.guard("The command "+i.Label, do) }
			}
		}
	}
	// A menu shows one shortcut an item; Ctrl+Y redoes too.
	w.win.Canvas().AddShortcut(&fyne.ShortcutRedo{}, func(fyne.Shortcut) { w.redo() })
	return m
}

// update names, greys and ticks the items by the state.
func (m *menu) update() {
	w, changed := m.w, false
	set := func(i *fyne.MenuItem, label string, off, ticked bool) {
		if label != "" && i.Label != label || i.Disabled != off || i.Checked != ticked {
			i.Disabled, i.Checked = off, ticked
			if label != "" {
				i.Label = label
			}
			changed = true
		}
	}
	text, readOnly := w.isText(), w.model.ReadOnly() != ""
	undo, redo := w.model.Document().Next()
	set(m.undo, m.step("Undo", undo), undo.What == "", false)
	set(m.redo, m.step("Redo", redo), redo.What == "", false)
	set(m.paper, "", false, w.palette.name == paperName)
	set(m.night, "", false, w.palette.name == nightName)
	set(m.save, "", !text, false)
	saveAs := "Save project text as…"
	if !text {
		saveAs = "Export project text…"
	}
	set(m.saveAs, saveAs, false, false)
	set(m.keep, "", !text, false)
	set(m.intake, "", text || readOnly, false)
	set(m.compact, "", text || readOnly, false)
	for _, i := range []*fyne.MenuItem{m.copy, m.history, m.compare} {
		set(i, "", text, false)
	}
	if m.fillRecent() || changed {
		m.main.Refresh()
	}
}

// step names what undo or redo would do, and to which setup where another is
// chosen.
func (m *menu) step(word string, s NextStep) string {
	if s.What == "" {
		return word
	}
	label := word + " " + cutText(s.What, 40)
	if s.Setup != "" && s.At != m.w.model.Chosen() {
		label += " (" + cutText(s.Setup, 40) + ")"
	}
	return label
}

// cutText cuts s to at most n letters.
func cutText(s string, n int) string {
	if r := []rune(s); len(r) > n {
		return string(r[:n-1]) + "…"
	}
	return s
}

// fillRecent lists the recent files, and reports whether they are others.
func (m *menu) fillRecent() bool {
	var labels []string
	var items []*fyne.MenuItem
	for _, path := range m.w.recent() {
		i := fyne.NewMenuItem(fileLabel(path), func() { m.w.openRecent(path) })
		if !there(path) {
			i.Label += " (gone)"
			i.Disabled = true
		}
		labels, items = append(labels, i.Label), append(items, i)
	}
	if m.recent.ChildMenu != nil {
		same := len(m.recent.ChildMenu.Items) == max(1, len(items)+2)
		for i := range items {
			same = same && m.recent.ChildMenu.Items[i].Label == labels[i]
		}
		if same {
			return false
		}
	}
	if len(items) == 0 {
		none := fyne.NewMenuItem("None yet", nil)
		none.Disabled = true
		items = []*fyne.MenuItem{none}
	} else {
		items = append(items, fyne.NewMenuItemSeparator(), fyne.NewMenuItem("Empty this list", m.w.forgetRecent))
	}
	m.recent.ChildMenu = fyne.NewMenu("", items...)
	return true
}

func (w *window) openRecent(path string) {
	if w.busy() {
		return
	}
	w.unlessEdited("Open another project?", func() {
		w.openPath(path)
		w.menu.update()
	})
}

func (w *window) askSample() {
	if w.sample != nil {
		w.unlessEdited("Open the sample?", w.showSample)
	}
}
