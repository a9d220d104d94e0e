package ui

import (
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
)

// Start is what a window opens with.
type Start struct {
	Project *timeline.Project // nil: a project without setups
	Path    string            // the file it came from, empty where there is none
	Err     error             // shown first, where a file could not be opened
}

const appID = "org.wakeline.app"

// The names of what is remembered from one run to the next.
const (
	prefTheme  = "theme"
	prefWidth  = "window.width"
	prefHeight = "window.height"
)

// Run opens the window and returns when it is closed.
func Run(s Start) {
	a := app.NewWithID(appID)
	w := newWindow(a, s)
	prefs := a.Preferences()
	w.win.Resize(fyne.NewSize(float32(prefs.FloatWithFallback(prefWidth, 1280)), float32(prefs.FloatWithFallback(prefHeight, 800))))
	w.win.CenterOnScreen()
	w.win.ShowAndRun()
}

// window holds one project on screen: the widgets, and the model they show.
type window struct {
	app     fyne.App
	win     fyne.Window
	model   *Model
	palette *palette

	setups  *Setups
	sheet   *Timeline
	explain *Explain
	replies *Replies
	status  *Status
	message *fyne.Container // in place of the sheet where there is none
	heading *widget.Label
	text    *widget.Label

	lower   *fyne.Container
	upDown  *container.Split
	sides   *container.Split
	menu    *menu
	trace   *tracer
	lastDir string
}

func newWindow(a fyne.App, s Start) *window {
	w := &window{app: a, model: NewModel(s.Project, s.Path), trace: newTracer()}
	w.palette = paletteNamed(a.Preferences().StringWithFallback(prefTheme, paperName))
	a.Settings().SetTheme(look{w.palette})
	w.win = a.NewWindow("Wakeline")
	w.win.SetPadded(false)
	w.build()
	w.menu = newMenu(w)
	w.win.SetMainMenu(w.menu.main)
	w.model.Observe(w.changed)
	w.changed(ProjectChanged | ChoiceChanged | SetupChanged | ShownChanged | StateChanged)
	w.win.SetCloseIntercept(w.quit)
	w.win.SetOnDropped(w.dropped)
	w.win.Canvas().SetOnTypedKey(func(ev *fyne.KeyEvent) {
		if ev.Name == fyne.KeyF1 {
			w.showKeys()
		}
	})
	w.refocus()
	if s.Err != nil {
		w.fail("The project could not be opened", s.Err)
	}
	return w
}

func (w *window) build() {
	w.setups = NewSetups(w.model, w.palette)
	w.sheet = NewTimeline(w.model, w.palette)
	w.explain = NewExplain(w.model, w.palette)
	w.replies = NewReplies(w.model, w.palette)
	w.status = NewStatus(w.model, w.palette)
	w.sheet.OnHint = w.status.Hint
	w.sheet.OnDraw = func() { w.trace.note(w.sheet) }
	w.sheet.OnHelp = w.showKeys
	w.heading, w.text = widget.NewLabel(""), widget.NewLabel("")
	w.heading.TextStyle.Bold, w.heading.SizeName = true, theme.SizeNameSubHeadingText
	w.text.Wrapping = fyne.TextWrapWord
	w.heading.Alignment, w.text.Alignment = fyne.TextAlignCenter, fyne.TextAlignCenter
	w.message = container.NewVBox(layout.NewSpacer(), w.heading, w.text, layout.NewSpacer())

	words := container.NewVScroll(w.explain)
	w.lower = container.NewBorder(words, nil, nil, nil, w.replies)
	w.explain.OnHeight = func() {
		words.SetMinSize(fyne.NewSize(0, min(w.explain.MinSize().Height, wordsMost)))
		w.lower.Layout.Layout(w.lower.Objects, w.lower.Size())
	}
	w.upDown = container.NewVSplit(w.sheet, w.lower)
	middle := container.NewStack(w.upDown, w.message)
	w.sides = container.NewHSplit(w.setups, middle)
	w.sides.Offset, w.upDown.Offset = 0, 0
	w.win.SetContent(container.New(&proportions{w: w}, w.sides, w.status))
}

// proportions lays the window out. A divider that the hand has not moved
// keeps the list at its width, and the sheet at its share, at every size.
type proportions struct {
	w             *window
	list, drawing float64 // offsets that were set here
}

const (
	listWidth  = 268 // units
	lowerShare = 0.42
	lowerLeast = 270 // units: the words and a few rows
	lowerMost  = 460
	wordsMost  = 176 // of the words; longer ones scroll
)

// MinSize implements fyne.Layout.
func (p *proportions) MinSize([]fyne.CanvasObject) fyne.Size {
	s := p.w.sides.MinSize()
	return fyne.NewSize(s.Width, s.Height+statusHeight)
}

// Layout implements fyne.Layout.
func (p *proportions) Layout(_ []fyne.CanvasObject, s fyne.Size) {
	w, high := p.w, s.Height-statusHeight
	if w.sides.Offset == p.list && s.Width > 0 {
		p.list = min(listWidth/float64(s.Width), 0.4)
		w.sides.Offset = p.list
	}
	if w.upDown.Offset == p.drawing && high > 0 {
		lower := min(max(lowerShare*float64(high), lowerLeast), lowerMost)
		p.drawing = max(1-lower/float64(high), 0)
		w.upDown.Offset = p.drawing
	}
	w.sides.Move(fyne.NewPos(0, 0))
	w.sides.Resize(fyne.NewSize(s.Width, high))
	w.sides.Refresh()
	w.status.Move(fyne.NewPos(0, high))
	w.status.Resize(fyne.NewSize(s.Width, statusHeight))
}

// changed shows what has changed in the model.
func (w *window) changed(c Change) {
	if c&ProjectChanged != 0 {
		w.setups.filter.SetText("")
		w.setups.Filter()
		w.status.Refresh()
	} else if c&ListChanged != 0 {
		w.setups.Filter()
	}
	if c&ChoiceChanged != 0 {
		w.setups.Choice()
		w.sheet.fitted, w.sheet.stale = true, true
		w.say()
	}
	if c&(SetupChanged|ShownChanged) != 0 {
		w.sheet.Refresh()
		w.explain.Refresh()
		w.replies.Update()
	}
	if c&SetupChanged != 0 {
		w.setups.Update()
	}
	if c&ShownChanged != 0 {
		w.replies.Reveal()
	}
	if c&StateChanged != 0 {
		w.win.SetTitle(w.title())
		w.menu.update()
		w.status.Refresh()
	}
}

// say puts a message in place of a sheet that can't be shown.
func (w *window) say() {
	heading, text := "", ""
	switch {
	case w.model.Chosen() < 0:
		heading, text = "There are no setups here yet", emptyText
	case w.model.Err() != nil:
		heading, text = "This setup can't be judged", w.model.Err().Error()
	}
	w.heading.SetText(heading)
	w.text.SetText(text)
	if text == "" {
		w.upDown.Show()
		w.message.Hide()
	} else {
		w.upDown.Hide()
		w.message.Show()
	}
}

const emptyText = "Open a project text with File, Open project text… (Ctrl+O), or drop its file on this window.\n\n" +
	"Wakeline opened without a file shows an invented sample."

// title is the file's name, and whether it has unsaved edits.
func (w *window) title() string {
	name := "new project"
	if p := w.model.Path(); p != "" {
		name = filepath.Base(p)
	}
	if w.model.Edited() {
		name += " · edited"
	}
	return name + " — Wakeline"
}

// setPalette changes the theme, and remembers it.
func (w *window) setPalette(p *palette) {
	w.palette = p
	w.app.Preferences().SetString(prefTheme, p.name)
	w.app.Settings().SetTheme(look{p})
	w.setups.SetPalette(p)
	w.sheet.SetPalette(p)
	w.explain.SetPalette(p)
	w.replies.SetPalette(p)
	w.status.SetPalette(p)
	w.menu.update()
}
