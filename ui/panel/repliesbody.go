package panel

import (
	"fmt"
	"image/color"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Focusable         = (*repliesBody)(nil)
	_ fyne.Tappable          = (*repliesBody)(nil)
	_ fyne.SecondaryTappable = (*repliesBody)(nil)
	_ desktop.Cursorable     = (*repliesBody)(nil)
)

// repliesBody holds the rows, of which it paints those in view, and under
// them one that adds a reply. A click on a cell shows that reply and rise;
// one on its demand, or with the other button, opens what can be done with it.
type repliesBody struct {
	paint.Keyed
	paint.Pointed
	r                    *Replies
	hoverRise, hoverLine int
	Adding               bool   // the keys are on the row that adds
	hint                 string // given by the place under the pointer
}

// inView is the rows that the scroller shows.
func (b *repliesBody) inView(lines int) (from, to int) {
	top := b.r.Rows.Offset.Y
	return max(int(top/ReplyRow), 0), min(int((top+b.r.Rows.Size().Height)/ReplyRow)+1, lines)
}

func (b *repliesBody) paint(p *paint.Pen, size fyne.Size) {
	r := b.r
	plan := r.model.Plan()
	if plan == nil {
		return
	}
	v := r.model.Verdict()
	name, wide := r.Columns(size.Width)
	_, _, place := r.CellColumns()
	rise, line := r.model.Shown()
	from, to := b.inView(plan.Lines())
	for l := from; l < to; l++ {
		end := float64((l + 1) * ReplyRow)
		p.Line(&sheet.Line{From: sheet.Point{X: 0, Y: end}, To: sheet.Point{X: float64(size.Width), Y: end}, Stroke: sheet.Rule, Width: 1})
	}
	b.ground(p, size, name, wide, rise, line)
	for l := from; l < to; l++ {
		base := float32(l*ReplyRow) + ReplyRow - 8
		b.title(p, l, &v.Rises[0].Replies[l], name, base)
		for i := range v.Rises {
			got := &v.Rises[i].Replies[l]
			b.cell(p, r.model.Mark(i, l), got, r.placeWords(i, l, place, wide-r.pointsRoom()), name+float32(i)*wide, base)
			r.points(p, i, l, name+float32(i+1)*wide-cellMark, base)
		}
	}
	b.addRow(p, size, plan.Lines(), name)
}

// The words of the row that adds.
const (
	AddReply = "Add a reply… (A)"
	addAll   = "Add all that %s has"
)

// addRow is under the replies: to add one, or all that the rival has.
func (b *repliesBody) addRow(p *paint.Pen, size fyne.Size, lines int, name float32) {
	r := b.r
	y, base := lines*ReplyRow, float32(lines*ReplyRow)+ReplyRow-8
	mark := func(x0, x1 float32, held, hover bool) {
		switch {
		case held:
			p.Rect(p.Px(float64(x0)), p.Px(float64(y)), p.Px(float64(x1)), p.Px(float64(y+ReplyRow)), paint.Colours().Blend(sheet.Ink, 0.09), b.edge(), p.Thick(b.edgeWidth()))
		case hover:
			p.Rect(p.Px(float64(x0)), p.Px(float64(y)), p.Px(float64(x1)), p.Px(float64(y+ReplyRow)), paint.Colours().Blend(sheet.Ink, 0.06), nil, 0)
		}
	}
	mark(0, name, b.Adding, b.hoverLine == lines && b.hoverRise == 0)
	mark(name, size.Width, false, b.hoverLine == lines && b.hoverRise == 1)
	for i, s := range []string{AddReply, b.addAllWords()} {
		x := float32(ReplyPad)
		room := name - 2*ReplyPad
		if i == 1 {
			x, room = name+cellMark, size.Width-name-2*ReplyPad
		}
		t := paint.ColumnText(r.Wrapper.Fit(s, room), x, base, sheet.Soft)
		p.Text(&t)
	}
}

func (b *repliesBody) addAllWords() string {
	n := len(b.r.model.MissingReplies())
	if n == 0 {
		return fmt.Sprintf("All that %s has are here", b.r.model.Setup().Rival)
	}
	return fmt.Sprintf(addAll+" (%d more)", b.r.model.Setup().Rival, n)
}

// edge and edgeWidth are the line around what has the keys: heavy while the
// table is focused.
func (b *repliesBody) edge() color.Color { return paint.Colours().Ink[sheet.Ink] }

func (b *repliesBody) edgeWidth() float64 {
	if b.Focused {
		return 2
	}
	return 1
}

// ground marks the shown row and cell, and the cell under the pointer.
func (b *repliesBody) ground(p *paint.Pen, size fyne.Size, name, cell float32, rise, line int) {
	y := line * ReplyRow
	wash := paint.Colours().Blend(sheet.Ink, 0.09)
	p.Rect(0, p.Px(float64(y)), p.Px(float64(size.Width)), p.Px(float64(y+ReplyRow)), wash, nil, 0)
	at := func(i int) (int, int) {
		x := name + float32(i)*cell
		return p.Px(float64(x)), p.Px(float64(x + cell))
	}
	if b.hoverLine >= 0 && b.hoverLine < b.r.model.Plan().Lines() && (b.hoverLine != line || b.hoverRise != rise) {
		x0, x1 := at(b.hoverRise)
		y := b.hoverLine * ReplyRow
		p.Rect(x0, p.Px(float64(y)), x1, p.Px(float64(y+ReplyRow)), paint.Colours().Blend(sheet.Ink, 0.06), nil, 0)
	}
	x0, x1 := at(rise)
	edge := b.edgeWidth()
	if b.Adding {
		edge = 1
	}
	p.Rect(x0, p.Px(float64(y)), x1, p.Px(float64(y+ReplyRow)), paint.Colours().Blend(sheet.Ink, 0.09), b.edge(), p.Thick(edge))
}

// title writes a reply's name and what is demanded of the setup against it.
func (b *repliesBody) title(p *paint.Pen, line int, got *timeline.ReplyVerdict, name, base float32) {
	w := &b.r.Wrapper
	demand := ""
	if line >= b.r.model.BuiltIn() {
		demand = string(got.Demand)
	}
	room := name - 3*ReplyPad
	if demand != "" {
		n := w.WidthOf(demand)
		t := paint.ColumnText(demand, name-ReplyPad-n, base, sheet.Soft)
		p.Text(&t)
		room -= n + 2*ReplyPad
	}
	t := paint.ColumnText(w.Fit(got.Title(), room), ReplyPad, base, sheet.Ink)
	p.Text(&t)
}

// Where the words of a cell stand, from its left edge.
const (
	cellMark    = 7
	CellOutcome = cellMark + paint.MarkSide + 8
	cellSpace   = 10 // between two of its words
)

// CellColumns are where the frame of the meeting, the number and the places
// stand: past the longest outcome, a frame of three digits, and the longest
// number.
func (r *Replies) CellColumns() (meets, number, place float32) {
	for o := range timeline.Outcome(timeline.Outcomes) {
		meets = max(meets, r.Wrapper.WidthOf(o.String()))
	}
	meets += CellOutcome + cellSpace
	number = meets + r.Wrapper.WidthOf("on 444") + cellSpace
	return meets, number, number + r.Wrapper.WidthOf("44 after wake-up") + cellSpace
}

// placeWords is what the last column of a cell says of where both stand. It is
// empty in a cell
// of that width that has no room for it.
func (r *Replies) placeWords(rise, line int, place, cell float32) string {
	say := words.Place(&r.model.Verdict().Rises[rise].Replies[line])
	if place+r.Wrapper.WidthOf(say) > cell-cellMark {
		return ""
	}
	return say
}

func (b *repliesBody) cell(p *paint.Pen, mark timeline.Judgement, got *timeline.ReplyVerdict, place string, x, base float32) {
	p.Mark(mark, float64(x+cellMark), float64(base)-11)
	write := func(s string, at float32, role sheet.Role) {
		t := paint.ColumnText(s, x+at, base, role)
		p.Text(&t)
	}
	meets, number, at := b.r.CellColumns()
	write(got.Outcome.String(), CellOutcome, sheet.Ink)
	if got.Meeting.Given {
		write("on "+strconv.Itoa(got.Meeting.N), meets, sheet.Ink)
	}
	write(words.MainNumber(got), number, sheet.Ink)
	write(place, at, sheet.Soft)
}

// hit is the cell at pos; on the row that adds, rise 0 adds one reply and 1
// all.
func (b *repliesBody) hit(pos fyne.Position) (rise, line int, ok bool) {
	plan := b.r.model.Plan()
	if plan == nil || pos.Y < 0 {
		return 0, 0, false
	}
	name, cell := b.r.Columns(b.Size().Width)
	line = int(pos.Y / ReplyRow)
	if line >= plan.Lines() {
		if pos.X >= name {
			rise = 1
		}
		return rise, line, line == plan.Lines()
	}
	if pos.X < name { // the name stands for the rise that is shown
		rise, _ = b.r.model.Shown()
		return rise, line, true
	}
	rise = int((pos.X - name) / cell)
	return rise, line, rise < plan.Rises()
}

// onDemand reports whether pos lies on the word of a reply's demand.
func (b *repliesBody) onDemand(pos fyne.Position, line int) bool {
	m := b.r.model
	if line < m.BuiltIn() || line >= m.Plan().Lines() {
		return false
	}
	name, _ := b.r.Columns(b.Size().Width)
	n := b.r.Wrapper.WidthOf(string(m.Verdict().Rises[0].Replies[line].Demand))
	return pos.X < name && pos.X >= name-2*ReplyPad-n
}

// Tapped shows the reply and rise of the cell, opens its demand, or adds.
func (b *repliesBody) Tapped(ev *fyne.PointEvent) {
	defer paint.Survive("The table of replies")
	b.takeKeys()
	rise, line, ok := b.hit(ev.Position)
	switch {
	case !ok:
	case line == b.r.model.Plan().Lines():
		if rise == 0 {
			b.r.add()
		} else {
			b.r.AddAll()
		}
	case b.onDemand(ev.Position, line):
		b.ShowLine(line)
		b.OpenMenu(ev.AbsolutePosition)
	default:
		b.Adding = false
		b.r.model.Show(rise, line)
		b.Refresh()
	}
}

// TappedSecondary opens what can be done with the row.
func (b *repliesBody) TappedSecondary(ev *fyne.PointEvent) {
	defer paint.Survive("The table of replies")
	b.takeKeys()
	if _, line, ok := b.hit(ev.Position); ok {
		if line < b.r.model.Plan().Lines() {
			b.ShowLine(line)
		}
		b.OpenMenu(ev.AbsolutePosition)
	}
}

// ShowLine shows a line's reply, on the rise shown, and stays with it.
func (b *repliesBody) ShowLine(line int) {
	b.Adding = false
	if rise, at := b.r.model.Shown(); at != line || b.r.model.Follows() {
		b.r.model.Show(rise, line)
	}
	b.Refresh()
}

func (b *repliesBody) takeKeys() {
	paint.FocusOn(b)
}

// point marks the cell under the pointer.
func (b *repliesBody) point(at fyne.Position) {
	rise, line, ok := b.hit(at)
	if !ok {
		rise, line = -1, -1
	}
	name, _ := b.r.Columns(b.Size().Width)
	hint := ""
	if ok && b.onDemand(at, line) {
		hint = "Click to change what is demanded here: survive (S), beat (B), or none, it is only shown (N)"
	}
	if ok && hint == "" && at.X >= name {
		hint = b.r.worthHint(rise, line)
	}
	b.setHover(rise, line, hint)
}

func (b *repliesBody) setHover(rise, line int, hint string) {
	if rise != b.hoverRise || line != b.hoverLine {
		b.hoverRise, b.hoverLine = rise, line
		b.Refresh()
	}
	if hint != b.hint {
		b.hint = hint
		b.r.say(hint)
	}
}

// Cursor implements desktop.Cursorable.
func (b *repliesBody) Cursor() desktop.Cursor { return desktop.PointerCursor }
