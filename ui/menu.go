package ui

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/ui/model"
	"wakeline/ui/page/data"
	"wakeline/ui/paint"
)

// menu is the window's menu bar, and the items of it that change.
type menu struct {
	w    *window
	main *fyne.MainMenu

	recent, save, saveAs, keep, intake, paste, merge, revise, copy, compact *fyne.MenuItem
	undo, redo, history, compare, follow                                    *fyne.MenuItem
	paper, night, student, system                                           *fyne.MenuItem
	sizes                                                                   []*fyne.MenuItem // of the text: the one that suits, and the steps

	sheet []*fyne.MenuItem // those that do nothing while a page is open
}

func newMenu(w *window) *menu {
	m := &menu{w: w}
	// A shortcut reaches the menu also while a dialog is up; nothing comes of
	// it then.
	item := func(label string, key fyne.KeyName, mod fyne.KeyModifier, do func()) *fyne.MenuItem {
		i := paint.MenuItem(label, func() {
			if !w.busy() {
				do()
			}
		})
		if key != "" {
			i.Shortcut = &desktop.CustomShortcut{KeyName: key, Modifier: mod}
		}
		return i
	}
	onSheet := func(i *fyne.MenuItem) *fyne.MenuItem {
		do := i.Action
		i.Action = func() { // a shortcut asks for what is grey, too
			defer paint.Survive("The command " + i.Label)
			if w.page == nil {
				do()
			}
		}
		m.sheet = append(m.sheet, i)
		return i
	}
	plain := func(label string, do func()) *fyne.MenuItem { return item(label, "", 0, do) }
	const ctrl, shift, alt = fyne.KeyModifierControl, fyne.KeyModifierShift, fyne.KeyModifierAlt
	line := fyne.NewMenuItemSeparator
	under := func(label string, items ...*fyne.MenuItem) *fyne.MenuItem {
		i := fyne.NewMenuItem(label, nil)
		i.ChildMenu = fyne.NewMenu("", items...)
		return i
	}
	find := func() {
		switch d, ok := w.page.(*data.Page); {
		case ok:
			d.Find()
		case w.page == nil:
			w.left.Show(0)
			w.Canvas().Focus(w.setups.Field)
		}
	}

	m.recent = fyne.NewMenuItem("Open recent", nil)
	m.save = item("Save JSON", fyne.KeyS, ctrl, w.save)
	m.saveAs = item("", fyne.KeyS, ctrl|shift, w.askSave)
	m.keep = plain("Save as project file…", w.askKeep)
	m.merge = plain("Merge project…", w.askMergeProject)
	m.intake = item("Import…", fyne.KeyI, ctrl, w.askImport)
	m.paste = plain("Import copied table…", w.importPasted)
	m.revise = plain("New revision…", w.askRevision)
	m.copy = plain("Save a copy…", w.askCopy)
	m.compact = plain("Compact", w.compact)
	quit := paint.MenuItem("Quit", w.quit)
	quit.Shortcut = &desktop.CustomShortcut{KeyName: fyne.KeyQ, Modifier: ctrl}
	quit.IsQuit = true
	m.undo = paint.MenuItem("Undo", w.undo)
	m.undo.Shortcut = &fyne.ShortcutUndo{}
	m.redo = paint.MenuItem("Redo", w.redo)
	m.redo.Shortcut = &desktop.CustomShortcut{KeyName: fyne.KeyZ, Modifier: ctrl | shift}
	to := func(name string) func() { return func() { w.goTo(namedPage(name)) } }
	m.history = item("History", fyne.KeyH, ctrl, to("History"))
	m.compare = item("Compare revisions", fyne.KeyH, ctrl|shift, to("Compare"))
	m.follow = onSheet(plain("Follow the deciding reply (D)", w.model.Follow))
	m.student = plain("Student mode", w.switchStudent)
	m.paper = paint.MenuItem("Paper", func() { w.setPalette(paint.PaletteNamed(paint.PaperName)) })
	m.system = paint.MenuItem("As the system", w.followSystem)
	m.night = paint.MenuItem("Night", func() { w.setPalette(paint.PaletteNamed(paint.NightName)) })

	m.sizes = append(m.sizes, paint.MenuItem("As suits the window", func() { w.text.ask(0) }))
	for _, s := range sizeSteps {
		m.sizes = append(m.sizes, paint.MenuItem(s.label, func() { w.text.ask(s.percent) }))
	}

	m.main = fyne.NewMainMenu(
		fyne.NewMenu("File",
			item("New project…", fyne.KeyN, ctrl, w.askNew),
			item("Open…", fyne.KeyO, ctrl, w.askOpen),
			m.recent,
			plain("Open the sample", w.askSample),
			line(),
			m.save, m.saveAs, m.keep, m.copy,
			line(),
			m.intake, m.paste, m.merge, m.revise, m.compact,
			line(),
			item("Export…", fyne.KeyE, ctrl, to("Export")),
			line(),
			quit),
		fyne.NewMenu("Edit",
			m.undo, m.redo, line(),
			onSheet(plain("Cut fillers (Ctrl+X)", w.sheet.Cut)),
			onSheet(plain("Copy fillers (Ctrl+C)", func() { w.sheet.Copy() })),
			onSheet(plain("Paste fillers (Ctrl+V)", w.sheet.Paste)),
			onSheet(plain("Duplicate fillers (Ctrl+D)", w.sheet.Duplicate)),
			onSheet(plain("Select all fillers (Ctrl+A)", w.sheet.SelectFillers)),
			line(),
			onSheet(plain("Remove selected block (Delete)", w.sheet.Remove)),
			onSheet(plain("Edit value (Enter)", w.sheet.TypeNow)),
			line(),
			onSheet(item("Press the attack earlier", fyne.KeyLeft, alt, func() { w.sheet.PressBy(-1) })),
			onSheet(item("Press the attack later", fyne.KeyRight, alt, func() { w.sheet.PressBy(1) })),
			onSheet(plain("Press the attack automatically", w.model.PressAuto)),
			onSheet(plain("Use the ender's knockdown advantage", w.model.EnderAdvantage)),
			line(),
			item("Copy as a picture", fyne.KeyC, ctrl|shift, w.copyPicture),
			item("Copy as text", fyne.KeyT, ctrl|shift, w.copyText),
			line(),
			item("Filter setups", fyne.KeyF, ctrl, find)),
		fyne.NewMenu("Setup", w.setupItems()...),
		fyne.NewMenu("View",
			onSheet(item("Blocks", fyne.KeyB, ctrl, w.showShelf)),
			onSheet(item("Numbers", fyne.KeyG, ctrl, w.goNumbers)),
			onSheet(item("Replies", fyne.KeyR, ctrl, w.showReplies)),
			onSheet(item("Lanes", fyne.KeyL, ctrl, w.showLanes)),
			onSheet(item("Side view", fyne.KeyK, ctrl, w.toggleSide)),
			line(),
			m.follow,
			onSheet(plain("Go to the meeting (End)", w.readMeeting)),
			onSheet(plain("Play or pause (Space)", w.player.Toggle)),
			onSheet(item("Play at the next speed", fyne.KeySpace, ctrl, w.player.NextSpeed)),
			line(),
			under("Zoom",
				onSheet(plain("In (+)", w.sheet.ZoomIn)),
				onSheet(plain("Out (-)", w.sheet.ZoomOut)),
				onSheet(plain("Fit (F)", w.sheet.Fit)),
				onSheet(plain("Zoom to the meeting (M)", w.sheet.FitMeeting))),
			under("Text size", m.sizes...),
			under("Theme", m.system, m.paper, m.night),
			line(),
			m.student),
		fyne.NewMenu("Pages",
			item("Timeline", fyne.Key1, ctrl, to("Timeline")),
			item("Move data", fyne.Key2, ctrl, to("Move data")),
			item("Match-up", fyne.Key3, ctrl, to("Match-up")),
			item("Cast", fyne.Key9, ctrl, to("Cast")),
			item("Lesson", fyne.Key6, ctrl, to("Lesson")),
			item("Exercises", fyne.KeyE, ctrl|shift, to("Exercises")),
			item("Present", fyne.KeyP, ctrl|shift, w.showPresent),
			item("Mix", fyne.Key7, ctrl, to("Mix")),
			item("Finish", fyne.Key8, ctrl, to("Finish")),
			line(),
			m.history, m.compare),
		fyne.NewMenu("Help", paint.MenuItem("Keys (F1)", w.showKeys), item("Glossary", fyne.KeyF1, ctrl, to("Glossary"))),
	)
	// A menu shows one shortcut an item; Ctrl+Y redoes too.
	w.Canvas().AddShortcut(&fyne.ShortcutRedo{}, paint.GuardedOf("The command Redo", func(fyne.Shortcut) { w.redo() }))
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
	chosen := w.Preferences().String(prefTheme)
	set(m.system, "", false, chosen == "")
	set(m.paper, "", false, chosen == paint.PaperName)
	set(m.night, "", false, chosen == paint.NightName)
	set(m.student, "", false, w.model.Student())
	asked := w.Preferences().String(prefText)
	for i, of := range m.sizes {
		set(of, "", false, i == 0 && asked == "" || i > 0 && asked == strconv.Itoa(sizeSteps[i-1].percent))
	}
	set(m.save, "", !text, false)
	saveAs := "Save JSON as…"
	if !text {
		saveAs = "Export JSON…"
	}
	set(m.saveAs, saveAs, false, false)
	set(m.keep, "", !text, false)
	set(m.intake, "", readOnly, false)
	set(m.merge, "", readOnly, false)
	set(m.paste, "", readOnly, false)
	set(m.revise, "", text || readOnly, false)
	set(m.compact, "", text || readOnly, false)
	for _, i := range []*fyne.MenuItem{m.copy, m.compare} {
		set(i, "", text, false)
	}
	for _, i := range m.sheet {
		set(i, "", w.page != nil, false)
	}
	if (m.fillRecent() || changed) && nativeMenus() {
		m.main.Refresh()
	}
}

// step names what undo or redo would do, and to which setup where another is
// chosen.
func (m *menu) step(word string, s model.NextStep) string {
	if s.What == "" {
		return word
	}
	label := word + " " + model.CutText(s.What, 40)
	if s.Setup != "" && s.At != m.w.model.Chosen() {
		label += " (" + model.CutText(s.Setup, 40) + ")"
	}
	return label
}

// fillRecent lists the recent files, and reports whether they are others.
func (m *menu) fillRecent() bool {
	var labels []string
	var items []*fyne.MenuItem
	for _, path := range m.w.recent() {
		i := paint.MenuItem(fileLabel(path), func() { m.w.openRecent(path) })
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
		items = append(items, fyne.NewMenuItemSeparator(), paint.MenuItem("Clear list", m.w.forgetRecent))
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
