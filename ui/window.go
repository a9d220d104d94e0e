package ui

import (
	"context"
	"os"
	"os/signal"
	"syscall"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/container"

	"wakeline/storage/guard"
	"wakeline/timeline"
	"wakeline/ui/editor"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/page/data"
	"wakeline/ui/page/lists"
	"wakeline/ui/paint"
	"wakeline/ui/panel"
)

// Start is what a window opens with.
type Start struct {
	Path   string            // the file to open; empty: the one open last, else the sample
	Sample *timeline.Project // the demo of the first start; nil: none

	Project *timeline.Project // shown in place of a file
	Err     error             // shown first

	inline bool // for tests: nothing runs behind the window
}

const (
	appID   = "org.wakeline.app"
	appName = "Wakeline"
)

// The names of what is remembered from one run to the next.
const (
	prefTheme = "theme" // empty: as the system has it
)

// Run opens the window and returns when it is closed.
func Run(s Start) {
	a := app.NewWithID(appID)
	w := newWindow(a, s)
	size := w.rememberedSize()
	w.win.Resize(fyne.NewSize(size.Width/w.text.step(), size.Height/w.text.step()))
	w.win.CenterOnScreen()
	// On X11 the first title is the window's class too, by which a desktop finds
	// its icon: the StartupWMClass of the packages. The project's follows.
	w.win.SetTitle(appName)
	a.Lifecycle().SetOnStarted(func() {
		defer paint.Survive("The start")
		w.win.SetTitle(w.title())
		w.menu.attach()
		w.recallView() // when the sheet has its size
		w.lookAtSystem(paint.SystemDark)
		w.askBeginning()
	})
	a.Settings().AddListener(func(fyne.Settings) {
		defer paint.Survive("The system's theme")
		w.lookAtSystem(paint.SystemDark)
	})
	guard.Go("The watch of the system's theme", func() {
		paint.WatchSystem(func() {
			fyne.Do(paint.Guarded("The system's theme", func() { w.lookAtSystem(paint.SystemDark) }))
		})
	})
	guard.Go("The watch of the file", w.watch)
	guard.Go("The wait for a hangup", w.quitOnHangup)
	guard.Go("The trace", func() { w.trace.watch(w) })
	save := saveAtEnd(a)
	w.win.ShowAndRun()
	save()
	w.end()
}

// saveAtEnd takes from the toolkit the saving of the preferences when the
// program ends, and returns what does it. The toolkit hands it to the loop of
// the window just when that ends: where the loop is the faster of the two, it
// is never done, and the toolkit waits for it without end.
func saveAtEnd(a fyne.App) (save func()) {
	l, ok := a.Lifecycle().(interface {
		OnStopped() func()
		SetOnStoppedHookExecuted(func())
	})
	if !ok || l.OnStopped() == nil {
		return func() {}
	}
	save = l.OnStopped()
	l.SetOnStoppedHookExecuted(nil)
	return save
}

// quitOnHangup ends the window where its terminal is closed, as the toolkit
// does on the other signals that ask a program to end.
func (w *window) quitOnHangup() {
	if signal.Ignored(syscall.SIGHUP) { // as nohup has it
		return
	}
	hangup := make(chan os.Signal, 1)
	signal.Notify(hangup, syscall.SIGHUP)
	<-hangup
	fyne.Do(w.app.Quit)
}

// window holds one project on screen: the widgets, and the model they show.
type window struct {
	app    fyne.App
	win    fyne.Window
	model  *model.Model
	sample *timeline.Project

	setups  *panel.Setups
	sheet   *editor.Timeline
	shelf   *panel.Shelf
	explain *panel.Explain
	replies *panel.Replies
	scrub   *editor.Scrub
	player  *editor.Player
	strip   *editor.PlayBar // under the sheet
	lanes   *editor.Lanes
	side    *editor.SideView
	status  *panel.Status
	timing  *model.Timing // whose timing the odds are of
	holding *model.Holding
	holds   *panel.HoldStrip // under the sheet
	numbers *panel.Inspector
	welcome *panel.Welcome
	empty   *panel.EmptyView // in place of the sheet where there is none

	left     *paint.Tabs // the setups, and what else stands beside the sheet
	below    *paint.Tabs // the replies, and what else stands under the words
	lower    *fyne.Container
	upDown   *container.Split
	sides    *container.Split
	right    *container.Split // the sheet, and the numbers beside it
	panes    *proportions
	bar      *panel.ReadOnlyBar
	pageBar  *pageBar
	menuBar  *menuBar
	text     *textScale
	crashes  *panel.CrashBar
	main     *fyne.Container // the setups and all that shows one
	pages    *fyne.Container // main, and over it a page where one is open
	page     page.Page       // nil: none
	data     *data.Page      // as it was left; nil: not shown yet
	menu     *menu
	trace    *tracer
	lastDir  string
	openData func() // shows the move data; nil: nothing does
	tasks    *page.Tasks
	dialogs  *page.Dialogs

	ctx  context.Context // ends with the window, and what runs behind it
	stop context.CancelFunc
}

func newWindow(a fyne.App, s Start) *window {
	w := &window{app: a, model: model.NewModel(beginningOf(&s)), sample: s.Sample, trace: newTracer()}
	w.ctx, w.stop = context.WithCancel(context.Background())
	w.win = a.NewWindow(appName)
	w.win.SetPadded(false)
	w.dialogs = page.NewDialogs(w.win, w.refocus)
	w.tasks = page.NewTasks(w.ctx, w.model, w.dialogs)
	w.tasks.Spawn = func(do func()) { guard.Go("What runs behind the window", do) }
	w.tasks.Later = func(do func()) { fyne.Do(paint.Guarded("What ran behind the window", do)) }
	if s.inline {
		w.tasks.Spawn, w.tasks.Later = func(do func()) { do() }, func(do func()) { do() }
	}
	a.Settings().SetTheme(paint.Theme{Palette: paint.PaletteNamed(a.Preferences().StringWithFallback(prefTheme, paint.PaperName))})
	w.text = newTextScale(w)
	w.text.off = s.inline
	w.build()
	w.openData = w.showData
	if s.inline {
		w.pageBar.wait = 0
	} else {
		w.setups.Later = w.tasks.Later
	}
	w.model.Observe(w.changed)
	w.model.Worth.Start(func(do func()) { w.Run(do) }, func(do func()) { w.Later(do) })
	w.model.OnRefuse, w.model.OnFail = w.refused, w.notKept
	guard.Tell = func(c *guard.Crash) {
		fyne.Do(func() { guard.Try("The bar of failures", func() error { w.crashes.Say(c); return nil }) })
	}
	w.win.SetCloseIntercept(paint.Guarded("The end", w.quit))
	w.win.SetOnDropped(paint.GuardedOf2("The drop", w.dropped))
	w.Canvas().SetOnTypedKey(paint.GuardedOf("The window", w.typedKey))
	w.recallPanes()
	w.begin(s)
	w.changed(model.Everything)
	w.refocus()
	return w
}

// beginningOf is the document that a window begins with. One that can't be opened is
// shown as an error over an empty one.
func beginningOf(s *Start) *model.Document {
	doc, err := model.InMemory(s.Project, "")
	if err != nil {
		s.Err = err
		if doc, err = model.InMemory(nil, ""); err != nil {
			panic(err) // nothing can be shown without one
		}
	}
	return doc
}

// typedKey does what a key does wherever the focus is.
func (w *window) typedKey(ev *fyne.KeyEvent) {
	if w.Dialogs().OverlayKey(ev) || w.page == nil && w.momentKey(ev) {
		return
	}
	switch ev.Name {
	case fyne.KeyF1:
		w.showKeys()
	case fyne.KeyF10:
		w.menuBar.show(0, false)
	case fyne.KeyF2:
		w.askRename()
	case fyne.KeyEscape:
		if w.page == nil {
			w.refocus()
		} else {
			w.Close()
		}
	}
}

// guard does something of which a failure must not end the program.
func (w *window) guard(where string, do func()) {
	defer paint.Survive(where)
	do()
}

// begin opens what the window begins with.
func (w *window) begin(s Start) {
	path := s.Path
	if s.Project == nil && path == "" {
		if path = w.lastOpen(); w.sample != nil {
			w.showSample()
		}
	}
	switch {
	case s.Err != nil:
		w.Dialogs().Fail("The project could not be opened", s.Err)
	case path != "":
		w.openPath(path)
	}
}

// end ends what the window has open.
func (w *window) end() {
	w.stop()
	if err := w.model.Document().Close(); err != nil {
		fyne.LogError("close", err)
	}
}

func (w *window) build() {
	w.setups = panel.NewSetups(w.model, func(do func()) { w.Run(do) }, func(do func()) { w.Later(do) })
	w.sheet = editor.NewTimeline(w.model)
	w.shelf = panel.NewShelf(w.model, w.sheet)
	w.explain = panel.NewExplain(w.model)
	w.replies = panel.NewReplies(w.model)
	w.status = panel.NewStatus(w.model)
	w.timing = model.NewTiming(w.model, w.Preferences())
	w.timing.OnChange, w.timing.OnFail = w.timingChanged, w.status.Hint
	w.holding = model.NewHolding(w.ctx, w.model, func(do func()) { w.Run(do) }, func(do func()) { w.Later(do) })
	w.holding.OnChange = w.holdingChanged
	w.sheet.Options, w.explain.Odds = w.oddsCurve, w.timing.Words
	w.setups.OnChosen = func() {
		if w.Canvas().Focused() == fyne.Focusable(w.setups.Field) { // whose keys are done with
			w.refocus()
		}
	}
	w.setups.OnMenu = w.showSetupMenu
	saved := &lists.Menu{Host: w, Filter: w.setups}
	w.setups.OnLists = saved.Ask
	w.setups.OnKey = w.typedKey
	w.sheet.OnHint, w.shelf.OnHint = w.status.Hint, w.status.Hint
	w.sheet.OnShelf, w.shelf.OnDone = w.showShelf, w.refocus
	w.sheet.OnDraw = func() { w.trace.drew(w); w.sheetDrawn() }
	w.sheet.OnKey = w.typedKey
	w.empty = panel.NewEmptyView()
	w.buildNumbers()
	w.numbers.Odds, w.numbers.Holds = w.timing.Facts, w.holding.Now

	words := container.NewVScroll(w.explain)
	w.left, w.below = paint.NewTabs(), paint.NewTabs()
	w.left.OnKey, w.below.OnKey = w.typedKey, w.typedKey
	w.left.Add("Setups", w.setups)
	w.left.Add("Blocks", w.shelf)
	upper := w.buildMoment()
	w.below.Add("Replies", w.replies)
	w.below.Add("Lanes", w.lanes)
	w.below.Add("Side view", w.side)
	source := w.replies.NewSource()
	source.OnStanding, source.OnKey = w.showStanding, w.typedKey
	w.below.Beside(source)
	w.holds = panel.NewHoldStrip(w.model, w.holding)
	w.lower = container.New(wordsOver{w.explain, w.holds}, words, w.below.Box, w.holds)
	w.explain.OnHeight = func() {
		w.lower.Layout.Layout(w.lower.Objects, w.lower.Size())
		words.Refresh() // what scrolls has another height
	}
	w.holds.OnHeight = w.explain.OnHeight
	w.upDown = container.NewVSplit(upper, w.lower)
	middle := container.NewStack(w.upDown, w.empty.Box)
	w.right = container.NewHSplit(middle, w.numbers)
	w.sides = container.NewHSplit(w.left.Box, w.right)
	w.sides.Offset, w.right.Offset, w.upDown.Offset = 0, 0, 0
	w.panes = &proportions{w: w}
	w.recallLeft()
	w.bar = panel.NewReadOnlyBar(w.takeOver, w.askCopy)
	w.bar.Hide()
	w.main = container.New(w.panes, w.sides, w.welcome, w.status)
	w.pages = container.NewStack(w.main)
	w.crashes = panel.NewCrashBar()
	w.crashes.OnHeight = func() { w.win.Content().Refresh() }
	w.pageBar, w.menu = newPageBar(w), newMenu(w)
	w.menuBar = newMenuBar(w, w.menu.main.Items)
	if nativeMenus() {
		w.menuBar.Hide()
	}
	w.win.SetContent(container.New(whenSized{w.text.sized, &fyne.Size{}}, container.NewBorder(container.NewVBox(w.menuBar, w.crashes, w.bar), nil, w.pageBar, nil, w.pages),
		w.shelf.Slip, container.NewWithoutLayout(w.pageBar.tip)))
}

// changed shows what has changed in the model.
func (w *window) changed(c model.Change) {
	w.guard("The window", func() { w.changedMain(c) })
	if w.page != nil {
		w.guard("The page", func() { w.page.Changed(c) })
	}
}

// changedMain shows it in all but the page.
func (w *window) changedMain(c model.Change) {
	if c&model.ProjectChanged != 0 {
		w.Close()
		w.data = nil
		w.status.Refresh()
	}
	w.setups.Changed(c)
	w.numbers.Changed(c)
	w.look()
	w.changedWelcome(c)
	w.shelf.Changed(c)
	if c&model.ChoiceChanged != 0 {
		w.status.Refresh()
		w.sheet.Fitted, w.sheet.Stale = true, true
		w.say()
	}
	if c&(model.ListChanged|model.SetupChanged) != 0 && c&model.ChoiceChanged == 0 {
		w.say()
	}
	if c&model.WorthChanged != 0 {
		w.sheet.Refresh()
		w.explain.Refresh()
	}
	if c&(model.SetupChanged|model.ShownChanged) != 0 {
		w.sheet.Refresh()
		w.explain.Refresh()
		w.replies.Update()
	}
	if c&model.WorthChanged != 0 {
		w.replies.Update()
	}
	if c&model.ShownChanged != 0 {
		w.replies.Reveal()
	}
	if c&model.StateChanged != 0 {
		w.win.SetTitle(w.title())
		w.bar.Say(w.model.ReadOnly())
		w.menu.update()
		w.pageBar.Refresh()
		w.status.Refresh()
	}
	w.holding.Ask()
	w.holds.Update()
}

// say puts a message in place of a sheet that can't be shown.
func (w *window) say() {
	held := w.empty.Has(w.Canvas().Focused())
	w.empty.Say(w.emptyWords())
	if over := w.empty.Box.Visible(); over != w.upDown.Hidden { // else nothing of it has to be painted
		w.upDown.Hidden = over
		w.upDown.Refresh()
	}
	if held {
		w.refocus()
	}
}

// setPalette changes the theme, and remembers it.
func (w *window) setPalette(p *paint.Palette) {
	w.Preferences().SetString(prefTheme, p.Name)
	w.showPalette(p)
}

// showPalette shows a theme. What is painted with a pen follows by itself.
func (w *window) showPalette(p *paint.Palette) {
	w.app.Settings().SetTheme(paint.Theme{Palette: p})
	for _, o := range []interface{ Recolour() }{w.setups, w.shelf, w.bar, w.crashes, w.welcome} {
		o.Recolour()
	}
	for _, o := range []fyne.CanvasObject{w.sheet, w.scrub, w.lanes, w.side, w.numbers, w.pages} {
		o.Refresh()
	}
	if p, ok := w.page.(page.Recoloured); ok {
		p.Recolour()
	}
	w.menu.update()
}
