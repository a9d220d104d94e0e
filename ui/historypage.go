package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var _ page.Page = (*historyPage)(nil)

// historyPage lists the steps of the history, the newest on top: when, what,
// and of which setup. A click on one leads to the state right after it.
type historyPage struct {
	w     *window
	steps []model.PastStep
	whole bool // nothing came before the steps listed
	at    int  // marked by the keys

	count *widget.Label
	said  *widget.Label
	list  *historyList
	box   *fyne.Container
}

// showHistory shows the page.
func (w *window) showHistory() {
	h := &historyPage{w: w, count: widget.NewLabel(""), said: widget.NewLabel("")}
	h.list = newHistoryList(h)
	h.count.Importance, h.said.Importance = widget.LowImportance, widget.LowImportance
	title := widget.NewLabel("History")
	title.TextStyle.Bold = true
	about := paint.NewLowLabel()
	about.SetText("Click a step, or press Enter, to go to the state after it.")
	top := container.NewVBox(container.NewPadded(container.NewBorder(nil, nil, container.NewHBox(title, h.count), paint.NewPageButton(w, "Close", theme.CancelIcon(), w.Close), about)), widget.NewSeparator())
	h.box = container.NewBorder(top, container.NewPadded(container.NewHBox(h.said, layout.NewSpacer())), nil, nil, h.list)
	if err := h.read(); err != nil {
		w.Dialogs().Fail("The history can't be read", err)
		return
	}
	w.showPage(h)
	h.Refocus()
}

// read takes the steps in, and marks the one that is done last.
func (h *historyPage) read() error {
	w := h.w
	steps, err := w.model.Past(model.MostHistory)
	if err != nil {
		return err
	}
	h.steps, h.whole = steps, len(steps) < model.MostHistory
	text := model.CountOf(len(steps), "step")
	if !h.whole {
		text = "the last " + text
	}
	h.count.SetText(text)
	h.list.Refresh()
	h.mark(model.NowStep(steps))
	return nil
}

// len is how many lines there are: the last is what was before all steps.
func (h *historyPage) len() int {
	if h.whole {
		return len(h.steps) + 1
	}
	return len(h.steps)
}

func (h *historyPage) mark(i int) {
	h.at = min(max(i, 0), h.len()-1)
	h.list.ScrollTo(h.at)
	h.list.Refresh()
}

// goTo leads to the state right after a step.
func (h *historyPage) goTo(i int) {
	h.at = i
	h.w.goBack(model.StepsTo(h.steps, i))
	h.list.Refresh()
}

func (h *historyPage) Content() fyne.CanvasObject { return h.box }
func (h *historyPage) Edits() bool                { return true }
func (h *historyPage) Refocus()                   { h.w.Canvas().Focus(h.list) }
func (h *historyPage) Note(text string)           { h.said.SetText(text) }
func (h *historyPage) Recolour()                  { h.list.Refresh() }

func (h *historyPage) Changed(model.Change) {
	if err := h.read(); err != nil {
		h.w.Close()
		h.w.Dialogs().Fail("The history can't be read", err)
	}
}

// historyList is the list of the page. Its keys mark a line, and Enter goes
// there.
type historyList struct {
	paint.RowList
	h       *historyPage
	wrapper paint.Wrapper
	focused bool
}

func newHistoryList(h *historyPage) *historyList {
	l := &historyList{h: h, wrapper: paint.Wrapper{Size: paint.TextSize}}
	l.ExtendBaseWidget(l)
	l.HideSeparators = true
	l.Length = h.len
	l.CreateItem = func() fyne.CanvasObject { return newHistoryRow(l) }
	l.UpdateItem = paint.GuardedOf2("The history", func(i widget.ListItemID, o fyne.CanvasObject) { o.(*historyRow).set(i) })
	return l
}

// TypedKey moves the mark, and goes to the marked step.
func (l *historyList) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The history")
	const page = 15
	switch h := l.h; ev.Name {
	case fyne.KeyUp:
		h.mark(h.at - 1)
	case fyne.KeyDown:
		h.mark(h.at + 1)
	case fyne.KeyPageUp:
		h.mark(h.at - page)
	case fyne.KeyPageDown:
		h.mark(h.at + page)
	case fyne.KeyHome:
		h.mark(0)
	case fyne.KeyEnd:
		h.mark(h.len() - 1)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		h.goTo(h.at)
	default:
		h.w.PageKey(ev)
	}
}

// FocusGained implements fyne.Focusable.
func (l *historyList) FocusGained() { l.focus(true) }

// FocusLost implements fyne.Focusable.
func (l *historyList) FocusLost() { l.focus(false) }

func (l *historyList) focus(on bool) {
	l.focused = on
	l.Refresh()
}

// historyRow is one line of the list.
type historyRow struct {
	widget.BaseWidget
	l  *historyList
	at int
}

// The measures of a line, in units.
const (
	historyLine  = 26
	historyNow   = 46  // the room of the word at the state that is shown
	historyWhat  = 196 // from the left edge to what was done
	historyShare = 0.55
)

func newHistoryRow(l *historyList) *historyRow {
	r := &historyRow{l: l, at: -1}
	r.ExtendBaseWidget(r)
	return r
}

func (r *historyRow) set(i int) {
	r.at = i
	r.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (r *historyRow) CreateRenderer() fyne.WidgetRenderer {
	return &paint.PenRenderer{Owner: r, Paint: r.paint,
		Min: func() fyne.Size { return fyne.NewSize(historyWhat, historyLine) }}
}

func (r *historyRow) paint(p *paint.Pen, size fyne.Size) {
	h := r.l.h
	if r.at < 0 || r.at >= h.len() {
		return
	}
	base := float32(historyLine - 9)
	s, role := model.PastStep{What: "before the first step"}, sheet.Ink
	if r.at < len(h.steps) {
		s = h.steps[r.at]
	}
	if r.at == h.at {
		edge := paint.Colours().Ink[sheet.Soft]
		if r.l.focused {
			edge = paint.Colours().Ink[sheet.Ink]
		}
		p.Rect(0, 0, p.Px(float64(size.Width)), p.Px(historyLine), paint.Colours().Blend(sheet.Ink, 0.09), edge, p.Thick(1))
	}
	now := r.at == model.NowStep(h.steps)
	write := func(text string, x, room float32, role sheet.Role) {
		t := paint.ColumnText(r.l.wrapper.Fit(text, room), x, base, role)
		t.Bold = now
		p.Text(&t)
	}
	if now {
		write("now", 8, historyNow, sheet.Ink)
	}
	what := s.What
	if s.Undone {
		role = sheet.Soft
		what += " (undone)"
	}
	end := historyWhat + (size.Width-historyWhat)*historyShare
	write(model.StepDate(s.Date), historyNow, historyWhat-historyNow-12, sheet.Soft)
	write(what, historyWhat, end-historyWhat-12, role)
	write(s.Setup, end, size.Width-end-8, role)
	p.Line(&sheet.Line{From: sheet.Point{Y: historyLine}, To: sheet.Point{X: float64(size.Width), Y: historyLine}, Stroke: sheet.Rule, Width: 1})
}

// Tapped goes to the step.
func (r *historyRow) Tapped(*fyne.PointEvent) {
	defer paint.Survive("The history")
	h := r.l.h
	defer paint.Survive("The history")
	if r.at >= 0 && r.at < h.len() {
		h.Refocus()
		h.goTo(r.at)
	}
}
