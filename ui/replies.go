package ui

import (
	"fmt"
	"math"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/ui/sheet"
)

// Replies is the table of a verdict: a row a reply, in the verdict's order, a
// column a rise. Its head stays while the rows scroll.
type Replies struct {
	widget.BaseWidget

	model   *Model
	palette *palette
	wrapper wrapper

	head *repliesHead
	body *repliesBody
	rows *container.Scroll
	all  *container.Scroll // sideways, where the columns don't fit
}

// The measures of the table, in units.
const (
	replyRow    = 25
	replyHead   = 26
	replyName   = 150 // least width of the names' column
	replyNameTo = 300 // and the most
	replyCell   = 232 // least width of a rise's column
	replyCellTo = 400 // and the most
	replyPad    = 10
)

// NewReplies returns the table of m's verdict.
func NewReplies(m *Model, p *palette) *Replies {
	r := &Replies{model: m, palette: p, wrapper: wrapper{size: textSize}}
	r.head = &repliesHead{r: r}
	r.head.ExtendBaseWidget(r.head)
	r.body = &repliesBody{r: r, hoverRise: -1, hoverLine: -1}
	r.body.ExtendBaseWidget(r.body)
	r.rows = container.NewVScroll(r.body)
	r.all = container.NewHScroll(container.NewBorder(r.head, nil, nil, nil, r.rows))
	r.ExtendBaseWidget(r)
	return r
}

// CreateRenderer implements fyne.Widget.
func (r *Replies) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(r.all) }

// MinSize keeps the head and two rows in view.
func (r *Replies) MinSize() fyne.Size { return fyne.NewSize(replyName+replyCell, replyHead+2*replyRow) }

// Resize keeps the shown reply in view, and else the first row at the top.
func (r *Replies) Resize(s fyne.Size) {
	high := r.Size().Height
	r.BaseWidget.Resize(s)
	if s.Height != high {
		r.rows.ScrollToTop()
		r.Reveal()
	}
}

// SetPalette draws in other colours from now on.
func (r *Replies) SetPalette(p *palette) {
	r.palette = p
	r.Update()
}

func (r *Replies) colours() *palette { return r.palette }

// Update shows the verdict as it stands.
func (r *Replies) Update() {
	r.head.Refresh()
	r.body.Refresh()
}

// Reveal scrolls so that the shown reply's row is in view.
func (r *Replies) Reveal() {
	_, line := r.model.Shown()
	top, high := float32(line*replyRow), r.rows.Size().Height
	switch y := r.rows.Offset.Y; {
	case high <= 0:
	case top < y:
		r.rows.ScrollToOffset(fyne.NewPos(0, top))
	case top+replyRow > y+high:
		hidden := math.Ceil(float64(top+replyRow-high) / replyRow) // whole rows
		r.rows.ScrollToOffset(fyne.NewPos(0, float32(hidden)*replyRow))
	}
}

// columns says where the columns lie for a width: rise i begins at name +
// i*cell.
func (r *Replies) columns(width float32) (name, cell float32) {
	n := 1
	if plan := r.model.Plan(); plan != nil {
		n = plan.Rises()
	}
	name = min(max(width*0.28, replyName), replyNameTo)
	cell = min((width-name)/float32(n), replyCellTo)
	if cell < replyCell {
		name = max(replyName, width-float32(n)*replyCell)
		cell = max(replyCell, (width-name)/float32(n))
	}
	return name, cell
}

func (r *Replies) minWidth() float32 {
	n := 1
	if plan := r.model.Plan(); plan != nil {
		n = plan.Rises()
	}
	return replyName + float32(n)*replyCell
}

// repliesHead is the row of titles.
type repliesHead struct {
	widget.BaseWidget
	r *Replies
}

func (h *repliesHead) CreateRenderer() fyne.WidgetRenderer {
	return &penRenderer{owner: h, palette: h.r.colours, paint: h.paint, min: func() fyne.Size { return fyne.NewSize(h.r.minWidth(), replyHead) }}
}

func (h *repliesHead) paint(p *pen, size fyne.Size) {
	r := h.r
	name, cell := r.columns(size.Width)
	base := float32(replyHead - 8)
	soft := func(s string, x, room float32) {
		t := columnText(r.wrapper.fit(s, room), x, base, sheet.Soft)
		p.text(&t)
	}
	soft("Reply", replyPad, name)
	if r.model.Plan() != nil {
		for i, rise := range r.model.Verdict().Rises {
			soft(fmt.Sprintf("%s rise, up on %d", rise.Rise, rise.Wake), name+float32(i)*cell+cellMark, cell-2*cellMark)
		}
	}
	p.line(&sheet.Line{From: sheet.Point{X: 0, Y: replyHead - 1}, To: sheet.Point{X: float64(size.Width), Y: replyHead - 1}, Stroke: sheet.Soft, Width: 1})
}

var (
	_ fyne.Tappable      = (*repliesBody)(nil)
	_ desktop.Hoverable  = (*repliesBody)(nil)
	_ desktop.Cursorable = (*repliesBody)(nil)
)

// repliesBody holds the rows: a click on a cell shows that reply and rise.
type repliesBody struct {
	widget.BaseWidget
	r                    *Replies
	hoverRise, hoverLine int
}

func (b *repliesBody) CreateRenderer() fyne.WidgetRenderer {
	return &penRenderer{owner: b, palette: b.r.colours, paint: b.paint, min: func() fyne.Size {
		n := 0
		if plan := b.r.model.Plan(); plan != nil {
			n = plan.Lines()
		}
		return fyne.NewSize(b.r.minWidth(), float32(n*replyRow))
	}}
}

func (b *repliesBody) paint(p *pen, size fyne.Size) {
	r := b.r
	plan := r.model.Plan()
	if plan == nil {
		return
	}
	v := r.model.Verdict()
	name, wide := r.columns(size.Width)
	rise, line := r.model.Shown()
	for l := range plan.Lines() {
		end := float64((l + 1) * replyRow)
		p.line(&sheet.Line{From: sheet.Point{X: 0, Y: end}, To: sheet.Point{X: float64(size.Width), Y: end}, Stroke: sheet.Rule, Width: 1})
	}
	b.ground(p, size, name, wide, rise, line)
	for l := range plan.Lines() {
		y := float32(l * replyRow)
		base := y + replyRow - 8
		b.title(p, &v.Rises[0].Replies[l], name, base)
		for i := range v.Rises {
			got := &v.Rises[i].Replies[l]
			b.cell(p, r.model.Mark(i, l), got, name+float32(i)*wide, base)
		}
	}
}

// ground marks the shown row and cell, and the cell under the pointer.
func (b *repliesBody) ground(p *pen, size fyne.Size, name, cell float32, rise, line int) {
	y := line * replyRow
	wash := b.r.palette.blend(sheet.Ink, 0.09)
	p.rect(0, p.px(float64(y)), p.px(float64(size.Width)), p.px(float64(y+replyRow)), wash, nil, 0)
	at := func(i int) (int, int) {
		x := name + float32(i)*cell
		return p.px(float64(x)), p.px(float64(x + cell))
	}
	if b.hoverLine >= 0 && (b.hoverLine != line || b.hoverRise != rise) {
		x0, x1 := at(b.hoverRise)
		y := b.hoverLine * replyRow
		p.rect(x0, p.px(float64(y)), x1, p.px(float64(y+replyRow)), b.r.palette.blend(sheet.Ink, 0.06), nil, 0)
	}
	x0, x1 := at(rise)
	p.rect(x0, p.px(float64(y)), x1, p.px(float64(y+replyRow)), b.r.palette.blend(sheet.Ink, 0.09), b.r.palette.ink[sheet.Ink], p.thick(1))
}

// title writes a reply's name and what is demanded of the setup against it.
func (b *repliesBody) title(p *pen, got *timeline.ReplyVerdict, name, base float32) {
	w := &b.r.wrapper
	demand := ""
	switch got.Demand {
	case timeline.Survive, timeline.Beat:
		demand = string(got.Demand)
	}
	room := name - 3*replyPad
	if demand != "" {
		n := w.widthOf(demand)
		t := columnText(demand, name-replyPad-n, base, sheet.Soft)
		p.text(&t)
		room -= n + 2*replyPad
	}
	t := columnText(w.fit(replyTitle(got), room), replyPad, base, sheet.Ink)
	p.text(&t)
}

func replyTitle(got *timeline.ReplyVerdict) string {
	if got.Late == 0 {
		return got.Reply
	}
	return fmt.Sprintf("%s, %d late", got.Reply, got.Late)
}

// Where the words of a cell stand, from its left edge.
const (
	cellMark    = 7
	cellOutcome = cellMark + markSide + 8
	cellMeets   = cellOutcome + 82
	cellSpare   = cellMeets + 54
)

func (b *repliesBody) cell(p *pen, mark timeline.Judgement, got *timeline.ReplyVerdict, x, base float32) {
	p.mark(mark, float64(x+cellMark), float64(base)-11)
	write := func(s string, at float32, role sheet.Role) {
		t := columnText(s, x+at, base, role)
		p.text(&t)
	}
	write(got.Outcome.String(), cellOutcome, sheet.Ink)
	if got.Meeting.Given {
		write("on "+strconv.Itoa(got.Meeting.N), cellMeets, sheet.Ink)
	}
	write(cellNumber(got), cellSpare, sheet.Ink)
}

// cellNumber is the number that matters most of an exchange, with its word.
func cellNumber(got *timeline.ReplyVerdict) string {
	switch {
	case got.Spare.Given && got.Spare.N < 0:
		return fmt.Sprintf("%d too late", -got.Spare.N)
	case got.Spare.Given:
		return fmt.Sprintf("%d spare", got.Spare.N)
	case got.Gap.Given && got.Gap.N != 0:
		return fmt.Sprintf("gap %d", got.Gap.N)
	case got.Advantage.Given:
		return fmt.Sprintf("%+d after", got.Advantage.N)
	case got.Budget.Given:
		return fmt.Sprintf("%+d after", got.Budget.N)
	}
	return ""
}

// hit is the cell at pos.
func (b *repliesBody) hit(pos fyne.Position) (rise, line int, ok bool) {
	plan := b.r.model.Plan()
	if plan == nil || pos.Y < 0 {
		return 0, 0, false
	}
	name, cell := b.r.columns(b.Size().Width)
	line = int(pos.Y / replyRow)
	if line >= plan.Lines() {
		return 0, 0, false
	}
	if pos.X < name { // the name stands for the rise that is shown
		rise, _ = b.r.model.Shown()
		return rise, line, true
	}
	rise = int((pos.X - name) / cell)
	return rise, line, rise < plan.Rises()
}

// Tapped shows the reply and rise of the cell.
func (b *repliesBody) Tapped(ev *fyne.PointEvent) {
	if rise, line, ok := b.hit(ev.Position); ok {
		b.r.model.Show(rise, line)
	}
}

// MouseIn implements desktop.Hoverable.
func (b *repliesBody) MouseIn(ev *desktop.MouseEvent) { b.MouseMoved(ev) }

// MouseMoved marks the cell under the pointer.
func (b *repliesBody) MouseMoved(ev *desktop.MouseEvent) {
	rise, line, ok := b.hit(ev.Position)
	if !ok {
		rise, line = -1, -1
	}
	b.setHover(rise, line)
}

// MouseOut implements desktop.Hoverable.
func (b *repliesBody) MouseOut() { b.setHover(-1, -1) }

func (b *repliesBody) setHover(rise, line int) {
	if rise != b.hoverRise || line != b.hoverLine {
		b.hoverRise, b.hoverLine = rise, line
		b.Refresh()
	}
}

// Cursor implements desktop.Cursorable.
func (b *repliesBody) Cursor() desktop.Cursor { return desktop.PointerCursor }
