package panel

import (
	"fmt"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// Explain says in plain words what the shown reply does, and what becomes of
// the setup one frame earlier and one frame later. Its height follows its
// text, but becomes less only with another width or setup: nothing below it
// jumps while a hand drags.
type Explain struct {
	paint.Painted

	OnHeight func()        // when it needs another height
	Odds     func() string // how likely a hand lands it; nil or empty: nothing is said

	model *model.Model

	wrapper paint.Wrapper
	Rows    [4]explainRow
	high    float32
	width   float32 // that high is for
	setup   int     // that high is for
	room    float32 // for all rows; 0: as much as they need
	brief   bool    // they don't fit: the neighbours alone are said
}

// explainRow is a title, a judgement's mark or none, and its text in lines.
type explainRow struct {
	title  string
	marked bool
	Mark   timeline.Judgement
	Text   string
	lines  []string
}

// explainLayout is how the rows lie, in units.
type explainLayout struct {
	inline    bool    // titles begin their texts, else they stand in a column
	mark      float32 // from the left edge to a row's mark
	line, gap float32 // height of a line, and between two rows
	pad       float32 // above the first row and under the last
}

var (
	explainWide   = explainLayout{mark: 140, line: 18, gap: 5, pad: 7}
	explainNarrow = explainLayout{inline: true, mark: ReplyPad, line: 17, gap: 3, pad: 3}
)

const (
	explainFrom  = 900 // units of width from which the titles have a column
	explainAfter = paint.MarkSide + 8
	explainRight = 8
)

func explainFor(width float32) explainLayout {
	if width < explainFrom {
		return explainNarrow
	}
	return explainWide
}

// NewExplain returns the words to m.
func NewExplain(m *model.Model) *Explain {
	e := &Explain{model: m, wrapper: paint.Wrapper{Size: paint.TextSize}, setup: -1}
	e.Extend(e, e.paint, e.MinSize)
	return e
}

// FitIn says what is said elsewhere too only where all fits in that height: of
// the deciding reply the sheet tells, and of the hand the numbers.
func (e *Explain) FitIn(room float32) {
	if room != e.room {
		e.room, e.setup = room, -1
		e.Refresh()
	}
}

// Fill takes the texts from the model.
func (e *Explain) Fill() {
	for i := range e.Rows {
		e.Rows[i] = explainRow{lines: e.Rows[i].lines[:0]}
	}
	plan := e.model.Plan()
	if plan == nil {
		return
	}
	v := e.model.Verdict()
	if plan.Blank() {
		e.Rows[0] = explainRow{"The verdict", true, timeline.JudgedNothing, model.Sentence(string(timeline.Blank)) + " Put an attack on the sheet, or add replies to survive.", e.Rows[0].lines}
		return
	}
	rise, line := e.model.Shown()
	title := "Deciding reply"
	if !e.model.Follows() {
		title = "Selected reply"
	}
	say := words.ExchangeAt(plan, v.Delay, rise, line)
	if then := words.Then(e.model.Worth.Sequel()); then != "" {
		say += " " + then
	}
	e.Rows[0] = explainRow{title, true, e.model.Mark(rise, line), say, e.Rows[0].lines}
	e.Rows[1].neighbour("One frame earlier", v.Earlier, "There is none: the delay is 0.")
	e.Rows[2].neighbour("One frame later", v.Later, "There is none: this is the last delay that is judged.")
	if e.Odds != nil {
		e.Rows[3].title, e.Rows[3].Text = "By hand", e.Odds()
	}
}

// cut leaves out what is said elsewhere, and reports whether anything is left.
func (e *Explain) cut() bool {
	if e.Rows[1].Text == "" {
		return false
	}
	if e.model.Follows() {
		e.Rows[0].Text = ""
	}
	e.Rows[3].Text = ""
	return true
}

func (r *explainRow) neighbour(title string, n *words.Neighbour, none string) {
	r.title, r.Text = title, none
	if n != nil {
		r.marked, r.Mark = true, n.Word.Judgement()
		r.Text = fmt.Sprintf("Delay %d is %s. %s", n.Delay, n.Word, n.Because)
	}
}

// wrap breaks the rows for a width and returns their height.
func (e *Explain) wrap(width float32, l explainLayout) float32 {
	h := 2*l.pad - l.gap
	for i := range e.Rows {
		r := &e.Rows[i]
		if r.Text == "" {
			continue
		}
		text := r.Text
		if l.inline && r.title != "" {
			text = r.title + ": " + text
		}
		r.lines = e.wrapper.Wrap(r.lines[:0], text, width-l.mark-explainAfter-explainRight)
		h += float32(max(1, len(r.lines)))*l.line + l.gap
	}
	return h
}

// MinSize is the height that the text needs at the present width.
func (e *Explain) MinSize() fyne.Size {
	e.ExtendBaseWidget(e)
	return fyne.NewSize(360, max(e.high, 60))
}

func (e *Explain) paint(p *paint.Pen, size fyne.Size) {
	l := explainFor(size.Width)
	e.Fill()
	before, h := e.high, e.wrap(size.Width, l)
	if c := e.model.Chosen(); c != e.setup || size.Width != e.width {
		e.setup, e.width, e.high, e.brief = c, size.Width, 0, false
	}
	if e.brief = e.brief || e.room > 0 && h > e.room; e.brief && e.cut() {
		h = e.wrap(size.Width, l)
	}
	if e.high = max(e.high, h); e.brief && before > e.room {
		e.high = h
	}
	y := l.pad
	for i := range e.Rows {
		r := &e.Rows[i]
		if r.Text == "" {
			continue
		}
		base := y + paint.TextSize
		if !l.inline {
			title := paint.ColumnText(r.title, ReplyPad, base, sheet.Soft)
			p.Text(&title)
		}
		if r.marked {
			p.Mark(r.Mark, float64(l.mark), float64(base)-11)
		}
		for j, line := range r.lines {
			t := paint.ColumnText(line, l.mark+explainAfter, base+float32(j)*l.line, sheet.Ink)
			p.Text(&t)
		}
		y += float32(max(1, len(r.lines)))*l.line + l.gap
	}
	if e.high != before && e.OnHeight != nil {
		e.OnHeight()
	}
}
