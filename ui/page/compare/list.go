package compare

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline/compare"
	"wakeline/timeline/patch"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// list lists what changed, section by section.
type list struct {
	paint.RowList
	page    *Page
	wrapper paint.Wrapper
	heads   map[int]bool // the rows that are as high as a head
}

func newList(c *Page) *list {
	l := &list{page: c, wrapper: paint.Wrapper{Size: paint.TextSize}, heads: map[int]bool{}}
	l.ExtendBaseWidget(l)
	l.HideSeparators = true
	l.Fill("The comparison", func() int { return len(c.rows) }, func() fyne.CanvasObject { return newRow(l) }, paint.SetRow)
	l.OnSelected = func(i widget.ListItemID) {
		defer paint.Survive("The comparison")
		if i < len(c.rows) {
			c.choose(i)
		}
	}
	return l
}

// lay gives each row its height, after other rows were listed.
func (l *list) lay() {
	for i := range l.heads {
		if i >= len(l.page.rows) || !l.page.rows[i].head {
			l.SetItemHeight(i, paint.WholeRow(l, rowHeight))
			delete(l.heads, i)
		}
	}
	for i := range l.page.rows {
		if l.page.rows[i].head && !l.heads[i] {
			l.heads[i] = true
			l.SetItemHeight(i, paint.WholeRow(l, headHeight))
		}
	}
	l.Refresh()
}

// FocusGained and FocusLost leave the toolkit's own place of the keys unshown:
// the chosen row is that place.
func (l *list) FocusGained() {}

// FocusLost implements fyne.Focusable.
func (l *list) FocusLost() {}

// TypedKey moves the choice at once, folds sections, and closes the page on
// Escape.
func (l *list) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The comparison")
	c := l.page
	step := map[fyne.KeyName]int{fyne.KeyDown: 1, fyne.KeyUp: -1, fyne.KeyPageDown: 8, fyne.KeyPageUp: -8,
		fyne.KeyHome: -len(c.rows), fyne.KeyEnd: len(c.rows)}[ev.Name]
	switch {
	case c.host.PageKey(ev):
	case len(c.rows) == 0:
	case step != 0:
		l.Select(min(max(c.at+step, 0), len(c.rows)-1))
	case ev.Name == fyne.KeyLeft:
		c.turn(c.rows[c.at].section, false)
	case ev.Name == fyne.KeyRight:
		c.turn(c.rows[c.at].section, true)
	case ev.Name == fyne.KeyReturn, ev.Name == fyne.KeyEnter:
		if r := c.rows[c.at]; r.head {
			c.turn(r.section, !c.open[r.section])
		} else {
			c.showSetup()
		}
	case ev.Name == fyne.KeyF:
		c.find()
	default:
		l.List.TypedKey(ev)
	}
}

// row is one row of the list.
type row struct {
	paint.Row
	l *list
}

const (
	rowHeight  = 62
	headHeight = 30
	rowLeft    = 24
)

func newRow(l *list) *row {
	r := &row{l: l}
	r.Extend(r, r.paint, func() fyne.Size { return fyne.NewSize(160, paint.WholeRow(r.l, rowHeight)) })
	return r
}

// Tapped chooses the row; a head folds its section or unfolds it.
func (r *row) Tapped(*fyne.PointEvent) {
	defer paint.Survive("The comparison")
	c := r.l.page
	if r.At < 0 || r.At >= len(c.rows) {
		return
	}
	at := c.rows[r.At]
	c.host.Canvas().Focus(r.l)
	r.l.Select(r.At)
	if at.head {
		c.turn(at.section, !c.open[at.section])
	}
}

func (r *row) paint(p *paint.Pen, size fyne.Size) {
	c := r.l.page
	if r.At < 0 || r.At >= len(c.rows) || c.patch == nil {
		return
	}
	w := &pencil{p, &r.l.wrapper, size.Width}
	at, d := c.rows[r.At], &c.patch.Day
	switch {
	case at.head:
		r.paintHead(p, w, at.section)
	case at.section == patch.MoveData:
		w.lines(d.Parts[at.at].Title(), d.Parts[at.at].Became())
	case at.section == patch.Mixes:
		m := &d.Mixes[at.at]
		w.lines(m.Title(), m.Became())
	case at.section == patch.RoutesBroke, at.section == patch.RoutesMended, at.section == patch.RoutesChanged:
		w.lines(d.Routes[at.at].Title(), d.Routes[at.at].Became())
	default:
		w.setup(&d.Setups[at.at])
	}
}

func (r *row) paintHead(p *paint.Pen, w *pencil, s patch.Section) {
	c := r.l.page
	// A triangle that points down where the section is open.
	points := []sheet.Point{{X: 9, Y: 10}, {X: 16, Y: 15}, {X: 9, Y: 20}}
	if c.open[s] {
		points = []sheet.Point{{X: 7, Y: 11}, {X: 17, Y: 11}, {X: 12, Y: 18}}
	}
	p.Draw([]sheet.Shape{sheet.Path{Points: points, Fill: sheet.Ink, Closed: true}})
	text := paint.ColumnText(w.wrapper.Fit(c.headWords(s), w.width-rowLeft-6), rowLeft, 20, sheet.Ink)
	text.Bold = true
	p.Text(&text)
}

// pencil writes the lines of a row.
type pencil struct {
	*paint.Pen
	wrapper *paint.Wrapper
	width   float32
}

func (w *pencil) write(s string, x, base float32, role sheet.Role) float32 {
	s = w.wrapper.Fit(s, w.width-x-6)
	t := paint.ColumnText(s, x, base, role)
	w.Text(&t)
	return x + w.wrapper.WidthOf(s)
}

// lines writes a title, and on two lines what became of it.
func (w *pencil) lines(title, became string) {
	w.write(title, rowLeft, 17, sheet.Ink)
	lines := w.wrapper.Wrap(nil, became, w.width-rowLeft-6)
	if len(lines) > 2 {
		lines = []string{lines[0], strings.Join(lines[1:], " ")}
	}
	for i, s := range lines {
		w.write(s, rowLeft, 36+18*float32(i), sheet.Soft)
	}
}

// setup writes what became of a setup: its verdicts, its window, and by what.
func (w *pencil) setup(c *compare.Change) {
	state := func(s *compare.State, x, base float32) float32 {
		if !s.Judged() {
			return w.write("not judged", x, base, sheet.Ink)
		}
		w.Mark(s.Word.Judgement(), float64(x), float64(base)-11)
		return w.write(string(s.Word), x+paint.MarkSide+6, base, sheet.Ink)
	}
	w.write(c.Setup, rowLeft, 17, sheet.Ink)
	x := state(&c.Before, rowLeft, 36)
	x = w.write("→", x+8, 36, sheet.Soft)
	x = state(&c.After, x+8, 36)
	w.write(model.CoveredWords(c), x+14, 36, sheet.Soft)
	w.write("by "+causeNames(c.By), rowLeft, 54, sheet.Soft)
}

// causeNames names what changed a result.
func causeNames(by []compare.Cause) string {
	out := make([]string, len(by))
	for i := range by {
		if out[i] = by[i].Title(); by[i].Kind == compare.BodyPart {
			out[i] += " itself"
		}
	}
	return strings.Join(out, ", ")
}
