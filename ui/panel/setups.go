package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// Setups is the list of a project's setups with a field that filters it by
// what is typed, and by tag, fighters and verdict. Rows are judged when they
// come into view.
type Setups struct {
	widget.BaseWidget

	OnChosen func()                  // after another setup was chosen in the list
	OnMenu   func(at fyne.Position)  // the chosen setup's menu is asked for, at a place of the canvas
	OnLists  func(at fyne.Position)  // the menu of the saved lists is asked for, at a place of the canvas
	OnKey    func(ev *fyne.KeyEvent) // a key that does nothing in the list

	model    *model.Model
	wrapper  paint.Wrapper
	Verdicts model.Verdicts

	Field     *filterEntry
	Picks     *filterPicks
	Count     *canvas.Text
	sort      *paint.WordButton
	lists     *paint.WordButton
	What      *paint.LineText // what is filtered, or how far the judging is
	ClearWord *paint.WordButton
	Narrowed  *fyne.Container
	List      *setupList

	By     SetupFilter
	order  SetupOrder
	places []int           // all setups in that order; nil: the document's, or not known
	Shown  []int           // setups that pass the filter
	failed error           // why the document can't be searched
	search timeline.Search // the last typed that could be read
	unread error           // why what is typed now can't be; nil: it is search
	Marks  SetupMarks
	Keys   func() fyne.KeyModifier // that are held
	typed  int                     // how often the filter's text has changed
	Later  func(do func())
	Box    *fyne.Container
}

// NewSetups returns the list of m's setups. What takes long runs through
// spawn, and hops back through later.
func NewSetups(m *model.Model, spawn, later func(do func())) *Setups {
	s := &Setups{Keys: paint.HeldKeys, model: m, wrapper: paint.Wrapper{Size: paint.TextSize}}
	s.Marks.s = s
	s.Verdicts = model.Verdicts{Model: m, Spawn: spawn, Later: later, OnMore: s.more}
	s.Verdicts.Forget()
	s.Field = newFilterEntry(s)
	s.Picks = newFilterPicks(s)
	s.Picks.box.Hide()
	s.Count = canvas.NewText("", paint.Colours().Ink[sheet.Soft])
	s.Count.TextSize = paint.CaptionSize
	s.sort = paint.NewWordButton(OrderWords[ByAge], s.AskOrder)
	s.What = paint.NewLineText()
	s.ClearWord = paint.NewWordButton("clear", s.clearOrStop)
	s.Narrowed = container.NewBorder(nil, nil, nil, s.ClearWord, s.What)
	s.List = newSetupList(s)
	by := paint.NewWordButton("by…", s.AskPicks)
	s.lists = paint.NewWordButton("lists…", s.AskLists)
	for _, b := range []*paint.WordButton{s.sort, s.ClearWord, by, s.lists} {
		b.OnKey = s.leftOver
	}
	head := container.NewVBox(
		container.NewBorder(nil, nil, nil, container.NewCenter(container.NewHBox(by, s.lists)), s.Field), s.Picks.box,
		container.NewBorder(nil, nil, container.NewCenter(container.NewPadded(s.Count)), s.sort),
		s.Narrowed)
	s.Box = container.NewBorder(container.NewPadded(head), nil, nil, nil, s.List)
	s.ExtendBaseWidget(s)
	s.Filter()
	return s
}

// leftOver is a key that a control beside the list has no use for.
func (s *Setups) leftOver(ev *fyne.KeyEvent) {
	if s.OnKey != nil {
		s.OnKey(ev)
	}
}

// AskPicks shows or hides the choices of the filter.
func (s *Setups) AskPicks() {
	if s.Picks.box.Visible() {
		s.Picks.box.Hide()
	} else {
		s.Picks.show(s.model)
		s.Picks.box.Show()
	}
	s.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (s *Setups) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(s.Box) }

// MinSize leaves room for a name.
func (s *Setups) MinSize() fyne.Size { return fyne.NewSize(200, 160) }

// Recolour draws in the colours of the theme that is shown.
func (s *Setups) Recolour() {
	s.Count.Color = paint.Colours().Ink[sheet.Soft]
	s.Refresh()
}

// Changed shows what has changed in the model.
func (s *Setups) Changed(c model.Change) {
	switch {
	case c&(model.ProjectChanged|model.DataChanged) != 0:
		s.Verdicts.Forget()
	case c&model.ListChanged != 0:
		s.Verdicts.Drop(s.model.Named)
	}
	if c&model.SetupChanged != 0 {
		s.Verdicts.Note()
	}
	switch {
	case c&model.ProjectChanged != 0:
		s.places, s.Marks.names = nil, nil
		s.Clear()
	case c&(model.ListChanged|model.DataChanged) != 0:
		s.places = nil
		if s.Picks.box.Visible() {
			s.Picks.show(s.model)
		}
		s.Filter()
	}
	if c&model.ChoiceChanged != 0 {
		s.Choice()
		for _, r := range s.List.Rows { // one loses the outline, another gets it
			r.Refresh()
		}
	}
	if c&model.SetupChanged != 0 {
		s.Update()
	}
}

// Row is where the chosen setup stands in the list, -1 where the filter hides
// it.
func (s *Setups) Row() int {
	for row, i := range s.Shown {
		if i == s.model.Chosen() {
			return row
		}
	}
	return -1
}

// Choice marks the row of the chosen setup, where the filter shows it.
func (s *Setups) Choice() {
	if row := s.Row(); row >= 0 {
		s.List.Select(row)
	} else {
		s.List.UnselectAll()
	}
}

// Step chooses the setup n rows further on.
func (s *Setups) Step(n int) {
	at := s.Row()
	if to := min(max(at+n, 0), len(s.Shown)-1); to >= 0 && to != at {
		s.List.Select(to)
	}
}

// move chooses the setup n rows further on, or, with Shift, selects up to it.
func (s *Setups) move(n int, shift bool) {
	if shift {
		s.Marks.stretch(n)
		return
	}
	s.Marks.Clear()
	s.Step(n)
}

// Update shows the chosen setup's row as it stands.
func (s *Setups) Update() {
	for _, r := range s.List.Rows {
		if r.At == s.model.Chosen() {
			r.Refresh()
		}
	}
}

// setupList is a list whose arrow keys choose at once.
type setupList struct {
	paint.RowList
	s       *Setups
	Rows    paint.FilledRows[*setupRow]
	focused bool
}

// FocusGained outlines the chosen row. The toolkit's list would mark the row of
// its own keys, which is another.
func (l *setupList) FocusGained() { l.focus(true) }

// FocusLost takes the outline away.
func (l *setupList) FocusLost() { l.focus(false) }

func (l *setupList) focus(on bool) {
	defer paint.Survive("The list of setups")
	l.focused = on
	l.s.Update()
}

func newSetupList(s *Setups) *setupList {
	l := &setupList{s: s}
	l.ExtendBaseWidget(l)
	l.HideSeparators = true
	l.OnRows = func() { l.Rows = nil }
	l.Fill("The list of setups", func() int { return len(s.Shown) }, func() fyne.CanvasObject { return newSetupRow(s) },
		func(i widget.ListItemID, o fyne.CanvasObject) { paint.SetRow(s.Shown[i], o) })
	l.OnSelected = func(i widget.ListItemID) {
		defer paint.Survive("The list of setups")
		if i < len(s.Shown) && s.Shown[i] != s.model.Chosen() {
			s.model.Choose(s.Shown[i])
			if s.OnChosen != nil {
				s.OnChosen()
			}
		}
	}
	return l
}

// TypedShortcut selects all setups of the list; the rest is the window's.
func (l *setupList) TypedShortcut(of fyne.Shortcut) {
	defer paint.Survive("The list of setups")
	if _, all := of.(*fyne.ShortcutSelectAll); all {
		l.s.Marks.All()
		return
	}
	if c, ok := fyne.CurrentApp().Driver().CanvasForObject(l).(fyne.Shortcutable); ok {
		c.TypedShortcut(of)
	}
}

// TypedKey moves the choice, and asks for the chosen setup's menu.
func (l *setupList) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The list of setups")
	shift := l.s.Keys()&paint.KeyShift != 0
	switch ev.Name {
	case fyne.KeyDown:
		l.s.move(1, shift)
	case fyne.KeyUp:
		l.s.move(-1, shift)
	case fyne.KeyPageDown:
		l.s.Step(10)
	case fyne.KeyPageUp:
		l.s.Step(-10)
	case fyne.KeyHome:
		l.s.Step(-len(l.s.Shown))
	case fyne.KeyEnd:
		l.s.Step(len(l.s.Shown))
	case desktop.KeyMenu:
		for _, r := range l.s.List.Rows {
			if r.At == l.s.model.Chosen() && r.Visible() {
				r.ask(fyne.NewPos(rowLeft, SetupRowHeight))
				return
			}
		}
	case fyne.KeyEscape:
		if len(l.s.Marks.names) > 0 {
			l.s.Marks.Clear()
			return
		}
		l.s.leftOver(ev)
	default:
		l.List.TypedKey(ev)
		l.s.leftOver(ev)
	}
}
