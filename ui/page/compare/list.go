package compare

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline/compare"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// list lists the setups that changed: each verdict and window before
// and after, and by what.
type list struct {
	paint.RowList
	page    *Page
	wrapper paint.Wrapper
}

func newList(c *Page) *list {
	l := &list{page: c, wrapper: paint.Wrapper{Size: paint.TextSize}}
	l.ExtendBaseWidget(l)
	l.HideSeparators = true
	l.Length = func() int { return len(c.changes) }
	l.CreateItem = func() fyne.CanvasObject { return newRow(l) }
	l.UpdateItem = paint.GuardedOf2("The comparison", func(i widget.ListItemID, o fyne.CanvasObject) { o.(*row).set(i) })
	l.OnSelected = func(i widget.ListItemID) {
		defer paint.Survive("The comparison")
		if i < len(c.changes) {
			c.choose(i)
		}
	}
	return l
}

// TypedKey moves the choice at once, and closes the page on Escape.
func (l *list) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The comparison")
	step := map[fyne.KeyName]int{fyne.KeyDown: 1, fyne.KeyUp: -1, fyne.KeyPageDown: 8, fyne.KeyPageUp: -8}[ev.Name]
	switch {
	case l.page.host.PageKey(ev):
	case step != 0 && len(l.page.changes) > 0:
		l.Select(min(max(l.page.at+step, 0), len(l.page.changes)-1))
	default:
		l.List.TypedKey(ev)
	}
}

// row is one setup of the list.
type row struct {
	widget.BaseWidget
	l  *list
	at int
}

const rowHeight = 62

func newRow(l *list) *row {
	r := &row{l: l, at: -1}
	r.ExtendBaseWidget(r)
	return r
}

func (r *row) set(i int) {
	r.at = i
	r.Refresh()
}

// CreateRenderer implements fyne.Widget.
func (r *row) CreateRenderer() fyne.WidgetRenderer {
	return &paint.PenRenderer{Owner: r, Paint: r.paint,
		Min: func() fyne.Size { return fyne.NewSize(160, paint.WholeRow(r.l, rowHeight)) }}
}

func (r *row) paint(p *paint.Pen, size fyne.Size) {
	if r.at < 0 || r.at >= len(r.l.page.changes) {
		return
	}
	const left = 10
	c := &r.l.page.changes[r.at]
	w := &r.l.wrapper
	write := func(s string, x, base float32, role sheet.Role) float32 {
		s = w.Fit(s, size.Width-x-6)
		t := paint.ColumnText(s, x, base, role)
		p.Text(&t)
		return x + w.WidthOf(s)
	}
	state := func(s *compare.State, x, base float32) float32 {
		if !s.Judged() {
			return write("not judged", x, base, sheet.Ink)
		}
		p.Mark(s.Word.Judgement(), float64(x), float64(base)-11)
		return write(string(s.Word), x+paint.MarkSide+6, base, sheet.Ink)
	}
	write(c.Setup, left, 17, sheet.Ink)
	x := state(&c.Before, left, 36)
	x = write("→", x+8, 36, sheet.Soft)
	x = state(&c.After, x+8, 36)
	write(model.CoveredWords(&c.Change), x+14, 36, sheet.Soft)
	write("by "+causeNames(c.By), left, 54, sheet.Soft)
}

// causeNames names what changed a result.
func causeNames(by []compare.Cause) string {
	out := make([]string, len(by))
	for i := range by {
		switch c := &by[i]; c.Kind {
		case compare.RulesetPart:
			out[i] = "the ruleset"
		case compare.FighterPart:
			out[i] = "the fighter " + c.Fighter
		case compare.BodyPart:
			out[i] = c.Fighter + "'s body"
		case compare.RisePart:
			out[i] = c.Fighter + "'s rise " + c.Name
		default:
			out[i] = c.Fighter + "'s " + c.Name
		}
	}
	return strings.Join(out, ", ")
}
