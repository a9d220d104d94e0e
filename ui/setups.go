package ui

import (
	"fmt"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/sheet"
)

// Setups is the list of a project's setups with a field that filters it by
// what is typed. Rows are judged when they come into view.
type Setups struct {
	widget.BaseWidget

	OnChosen func() // after another setup was chosen in the list

	model   *Model
	palette *palette
	wrapper wrapper

	filter *widget.Entry
	count  *canvas.Text
	list   *setupList
	shown  []int // setups that pass the filter
	typed  int   // how often the filter's text has changed
	later  func(do func())
	box    *fyne.Container
}

// NewSetups returns the list of m's setups.
func NewSetups(m *Model, p *palette) *Setups {
	s := &Setups{model: m, palette: p, wrapper: wrapper{size: textSize}}
	s.filter = widget.NewEntry()
	s.filter.SetPlaceHolder("Filter setups")
	s.filter.OnChanged = func(string) { s.filterSoon() }
	s.count = canvas.NewText("", p.ink[sheet.Soft])
	s.count.TextSize = captionSize
	s.list = &setupList{s: s}
	s.list.ExtendBaseWidget(s.list)
	s.list.HideSeparators = true
	s.list.Length = func() int { return len(s.shown) }
	s.list.CreateItem = func() fyne.CanvasObject { return newSetupRow(s) }
	s.list.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) { o.(*setupRow).set(s.shown[i]) }
	s.list.OnSelected = func(i widget.ListItemID) {
		if i < len(s.shown) && s.shown[i] != s.model.Chosen() {
			s.model.Choose(s.shown[i])
			if s.OnChosen != nil {
				s.OnChosen()
			}
		}
	}
	head := container.NewBorder(nil, container.NewPadded(s.count), nil, nil, s.filter)
	s.box = container.NewBorder(container.NewPadded(head), nil, nil, nil, s.list)
	s.ExtendBaseWidget(s)
	s.Filter()
	return s
}

// CreateRenderer implements fyne.Widget.
func (s *Setups) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(s.box) }

// MinSize leaves room for a name.
func (s *Setups) MinSize() fyne.Size { return fyne.NewSize(200, 160) }

// SetPalette draws in other colours from now on.
func (s *Setups) SetPalette(p *palette) {
	s.palette = p
	s.count.Color = p.ink[sheet.Soft]
	s.Refresh()
}

// Where there are so many setups, the filter waits for the hand to pause.
const (
	manyToFilter = 5000
	typingPause  = 120 * time.Millisecond
)

// filterSoon filters at once, or when the typing pauses.
func (s *Setups) filterSoon() {
	s.typed++
	if s.later == nil || s.model.Len() < manyToFilter {
		s.Filter()
		return
	}
	typed := s.typed
	time.AfterFunc(typingPause, func() {
		s.later(func() {
			if s.typed == typed {
				s.Filter()
			}
		})
	})
}

// Filter shows the setups that have every typed word, in any case of letters,
// where the document looks for it.
func (s *Setups) Filter() {
	words := strings.Fields(s.filter.Text)
	n := s.model.Len()
	var failed error
	s.shown = s.shown[:0]
	if len(words) > 0 {
		s.shown, failed = s.model.Document().Search(words)
	} else {
		for i := range n {
			s.shown = append(s.shown, i)
		}
	}
	switch {
	case failed != nil:
		s.count.Text = "the file can't be searched"
	case len(words) > 0:
		s.count.Text = fmt.Sprintf("%d of %s", len(s.shown), countOf(n, "setup"))
	default:
		s.count.Text = countOf(n, "setup")
	}
	s.count.Refresh()
	s.Choice()
	s.list.Refresh()
}

// countOf writes a number of things.
func countOf(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// Choice marks the row of the chosen setup, where the filter shows it.
func (s *Setups) Choice() {
	for row, i := range s.shown {
		if i == s.model.Chosen() {
			s.list.Select(row)
			return
		}
	}
	s.list.UnselectAll()
}

// Step chooses the setup n rows further on.
func (s *Setups) Step(n int) {
	at := -1
	for row, i := range s.shown {
		if i == s.model.Chosen() {
			at = row
		}
	}
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
	widget.List
	s    *Setups
	rows []*setupRow
}

// TypedKey moves the choice.
func (l *setupList) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyDown:
		l.s.Step(1)
	case fyne.KeyUp:
		l.s.Step(-1)
	case fyne.KeyPageDown:
		l.s.Step(10)
	case fyne.KeyPageUp:
		l.s.Step(-10)
	default:
		l.List.TypedKey(ev)
	}
}

// setupRow is one setup of the list: its mark, its name, and under it the
// verdict's word, the rival and the place.
type setupRow struct {
	widget.BaseWidget
	s  *Setups
	at int
}

const setupRowHeight = 39

func newSetupRow(s *Setups) *setupRow {
	r := &setupRow{s: s, at: -1}
	r.ExtendBaseWidget(r)
	s.list.rows = append(s.list.rows, r)
	return r
}

func (r *setupRow) set(i int) {
	r.at = i
	r.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (r *setupRow) CreateRenderer() fyne.WidgetRenderer {
	return &penRenderer{owner: r, palette: func() *palette { return r.s.palette }, paint: r.paint,
		min: func() fyne.Size { return fyne.NewSize(120, setupRowHeight) }}
}

func (r *setupRow) paint(p *pen, size fyne.Size) {
	if r.at < 0 || r.at >= r.s.model.Len() {
		return
	}
	const left = 8 + markSide + 8
	row := r.s.model.Row(r.at)
	w := &r.s.wrapper
	under := "can't be read"
	if row.Read {
		state := "does not fit"
		if row.Err == nil {
			state = string(row.Word)
			p.mark(row.Word.Judgement(), 8, 5)
		}
		under = fmt.Sprintf("%s · v %s, %s", state, row.Rival, row.Position)
	}
	name := columnText(w.fit(row.Name, size.Width-left-6), left, 16, sheet.Ink)
	p.text(&name)
	below := columnText(w.fit(under, size.Width-left-6), left, 32, sheet.Soft)
	below.Size = captionSize
	p.text(&below)
}
