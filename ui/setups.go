package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

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
	OnKey    func(ev *fyne.KeyEvent) // a key that does nothing in the list

	model    *model.Model
	wrapper  paint.Wrapper
	verdicts model.Verdicts

	filter   *filterEntry
	picks    *filterPicks
	count    *canvas.Text
	sort     *paint.WordButton
	what     *paint.LineText // what is filtered, or how far the judging is
	clear    *paint.WordButton
	narrowed *fyne.Container
	list     *setupList

	by     setupFilter
	order  setupOrder
	places []int // all setups in that order; nil: the document's, or not known
	shown  []int // setups that pass the filter
	failed error // why the document can't be searched
	typed  int   // how often the filter's text has changed
	later  func(do func())
	box    *fyne.Container
}

// NewSetups returns the list of m's setups. What takes long runs through
// spawn, and hops back through later.
func NewSetups(m *model.Model, spawn, later func(do func())) *Setups {
	s := &Setups{model: m, wrapper: paint.Wrapper{Size: paint.TextSize}}
	s.verdicts = model.Verdicts{Model: m, Spawn: spawn, Later: later, OnMore: s.more}
	s.verdicts.Forget()
	s.filter = newFilterEntry(s)
	s.picks = newFilterPicks(s)
	s.picks.box.Hide()
	s.count = canvas.NewText("", paint.Colours().Ink[sheet.Soft])
	s.count.TextSize = paint.CaptionSize
	s.sort = paint.NewWordButton(orderWords[byAge], s.askOrder)
	s.what = paint.NewLineText()
	s.clear = paint.NewWordButton("clear", s.clearOrStop)
	s.narrowed = container.NewBorder(nil, nil, nil, s.clear, s.what)
	s.list = newSetupList(s)
	by := paint.NewWordButton("by…", s.askPicks)
	for _, b := range []*paint.WordButton{s.sort, s.clear, by} {
		b.OnKey = s.leftOver
	}
	head := container.NewVBox(
		container.NewBorder(nil, nil, nil, container.NewCenter(by), s.filter), s.picks.box,
		container.NewBorder(nil, nil, container.NewCenter(container.NewPadded(s.count)), s.sort),
		s.narrowed)
	s.box = container.NewBorder(container.NewPadded(head), nil, nil, nil, s.list)
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

// askPicks shows or hides the choices of the filter.
func (s *Setups) askPicks() {
	if s.picks.box.Visible() {
		s.picks.box.Hide()
	} else {
		s.picks.show(s.model)
		s.picks.box.Show()
	}
	s.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (s *Setups) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(s.box) }

// MinSize leaves room for a name.
func (s *Setups) MinSize() fyne.Size { return fyne.NewSize(200, 160) }

// Recolour draws in the colours of the theme that is shown.
func (s *Setups) Recolour() {
	s.count.Color = paint.Colours().Ink[sheet.Soft]
	s.Refresh()
}

// changed shows what has changed in the model.
func (s *Setups) changed(c model.Change) {
	switch {
	case c&(model.ProjectChanged|model.DataChanged) != 0:
		s.verdicts.Forget()
	case c&model.ListChanged != 0:
		s.verdicts.Drop(s.model.Named)
	}
	if c&model.SetupChanged != 0 {
		s.verdicts.Note()
	}
	switch {
	case c&model.ProjectChanged != 0:
		s.places = nil
		s.Clear()
	case c&(model.ListChanged|model.DataChanged) != 0:
		s.places = nil
		if s.picks.box.Visible() {
			s.picks.show(s.model)
		}
		s.Filter()
	}
	if c&model.ChoiceChanged != 0 {
		s.Choice()
	}
	if c&model.SetupChanged != 0 {
		s.Update()
	}
}

// row is where the chosen setup stands in the list, -1 where the filter hides
// it.
func (s *Setups) row() int {
	for row, i := range s.shown {
		if i == s.model.Chosen() {
			return row
		}
	}
	return -1
}

// Choice marks the row of the chosen setup, where the filter shows it.
func (s *Setups) Choice() {
	if row := s.row(); row >= 0 {
		s.list.Select(row)
	} else {
		s.list.UnselectAll()
	}
}

// Step chooses the setup n rows further on.
func (s *Setups) Step(n int) {
	at := s.row()
	if to := min(max(at+n, 0), len(s.shown)-1); to >= 0 && to != at {
		s.list.Select(to)
	}
}

// Update shows the chosen setup's row as it stands.
func (s *Setups) Update() {
	for _, r := range s.list.rows {
		if r.at == s.model.Chosen() {
			r.set(r.at)
		}
	}
}

// setupList is a list whose arrow keys choose at once.
type setupList struct {
	paint.RowList
	s    *Setups
	rows []*setupRow
}

func newSetupList(s *Setups) *setupList {
	l := &setupList{s: s}
	l.ExtendBaseWidget(l)
	l.HideSeparators = true
	l.OnRows = func() { l.rows = nil }
	l.Length = func() int { return len(s.shown) }
	l.CreateItem = func() fyne.CanvasObject { return newSetupRow(s) }
	l.UpdateItem = paint.GuardedOf2("The list of setups", func(i widget.ListItemID, o fyne.CanvasObject) { o.(*setupRow).set(s.shown[i]) })
	l.OnSelected = func(i widget.ListItemID) {
		defer paint.Survive("The list of setups")
		if i < len(s.shown) && s.shown[i] != s.model.Chosen() {
			s.model.Choose(s.shown[i])
			if s.OnChosen != nil {
				s.OnChosen()
			}
		}
	}
	return l
}

// TypedKey moves the choice, and asks for the chosen setup's menu.
func (l *setupList) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The list of setups")
	switch ev.Name {
	case fyne.KeyDown:
		l.s.Step(1)
	case fyne.KeyUp:
		l.s.Step(-1)
	case fyne.KeyPageDown:
		l.s.Step(10)
	case fyne.KeyPageUp:
		l.s.Step(-10)
	case fyne.KeyHome:
		l.s.Step(-len(l.s.shown))
	case fyne.KeyEnd:
		l.s.Step(len(l.s.shown))
	case desktop.KeyMenu:
		for _, r := range l.s.list.rows {
			if r.at == l.s.model.Chosen() && r.Visible() {
				r.ask(fyne.NewPos(rowLeft, setupRowHeight))
				return
			}
		}
	default:
		l.List.TypedKey(ev)
		l.s.leftOver(ev)
	}
}
