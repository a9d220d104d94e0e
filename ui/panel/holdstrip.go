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

// HoldStrip shows under the sheet where the setup holds, and where in that it
// stands: a bar for its advantage, and one for its distance where that is
// known. While that is being worked out it shows what was known of the setup
// before, in dashes and without its numbers.
type HoldStrip struct {
	paint.Painted

	OnHeight func() // when it needs another height

	model   *model.Model
	holding *model.Holding
	wrapper paint.Wrapper
	Rows    []HoldRow
	Known   bool
	high    int  // bars that its height is for
	low     bool // there is little room: both bars stand in one row
}

// HoldRow is one bar with its words.
type HoldRow struct {
	Holding words.Holding
	Title   string
	Say     []string           // the longest first
	Mark    timeline.Judgement // of where it stands
	ink     timeline.Judgement // of where it holds
}

const (
	holdRow    = 19
	holdPad    = 4
	holdBarW   = 300  // where the titles have a column
	holdShare  = 0.36 // of the width, where they have none
	holdBeside = 520  // from which width both bars may stand in one row
)

// NewHoldStrip returns the strip of m's chosen setup.
func NewHoldStrip(m *model.Model, h *model.Holding) *HoldStrip {
	s := &HoldStrip{model: m, holding: h, wrapper: paint.Wrapper{Size: paint.TextSize}}
	s.Extend(s, s.paint, s.MinSize)
	return s
}

// MinSize has the height of its rows.
func (s *HoldStrip) MinSize() fyne.Size {
	s.ExtendBaseWidget(s)
	rows := s.high
	if s.beside(s.Size().Width) {
		rows = 1
	}
	if rows == 0 {
		return fyne.NewSize(360, 0)
	}
	return fyne.NewSize(360, float32(rows*holdRow+holdPad))
}

// beside reports whether at that width both bars stand in one row.
func (s *HoldStrip) beside(width float32) bool { return s.low && s.high > 1 && width >= holdBeside }

// FitIn has it take less height where there is little, and returns what it
// takes at that width.
func (s *HoldStrip) FitIn(low bool, width float32) float32 {
	if low != s.low {
		s.low = low
		s.Refresh()
	}
	s.Resize(fyne.NewSize(width, s.Size().Height))
	return s.MinSize().Height
}

// Update shows it as it stands now.
func (s *HoldStrip) Update() {
	s.fill()
	if s.high != len(s.Rows) {
		s.high = len(s.Rows)
		if s.OnHeight != nil {
			s.OnHeight()
		}
	}
	s.Refresh()
}

// fill takes the rows from the model.
func (s *HoldStrip) fill() {
	s.Rows, s.Known = s.Rows[:0], false
	p := s.model.Plan()
	if p == nil || p.Blank() {
		return
	}
	holds, ok := s.holding.Now()
	if s.Known = ok; !ok {
		holds, _ = s.holding.Last()
	}
	for _, h := range words.Holdings(p, &holds) {
		s.Rows = append(s.Rows, s.row(p, h))
	}
}

func (s *HoldStrip) row(p *timeline.Plan, h words.Holding) HoldRow {
	r := HoldRow{Holding: h, Title: fmt.Sprintf("%s %d", model.Capital(h.By), h.At), Say: []string{unknown}, ink: timeline.JudgedSafe}
	if len(p.Uncovered()) > 0 {
		r.ink = timeline.JudgedLimited
	}
	if !s.Known {
		return r
	}
	r.Say, r.Mark = h.Say(), r.ink
	switch {
	case !h.Here():
		r.Mark = timeline.JudgedUnsafe
	case p.SafeDelays().Empty(): // no demand can be met
		r.Mark = timeline.JudgedUnsafe
		r.Say = []string{"no timing covers the replies; the wake-up is met at " + h.List(), "no timing covers the replies"}
	}
	return r
}

func (s *HoldStrip) paint(p *paint.Pen, size fyne.Size) {
	s.fill()
	l := explainFor(size.Width)
	if !s.beside(size.Width) {
		for i := range s.Rows {
			s.line(p, &s.Rows[i], &l, 0, float32(holdPad+i*holdRow), size.Width)
		}
		return
	}
	half := size.Width / 2
	l.inline, l.mark = true, explainNarrow.mark
	for i := range s.Rows {
		s.line(p, &s.Rows[i], &l, float32(i)*half, holdPad, half)
	}
}

// line draws a bar with its words, from x on.
func (s *HoldStrip) line(p *paint.Pen, r *HoldRow, l *explainLayout, x, y, width float32) {
	bar := width * holdShare
	if !l.inline {
		bar = holdBarW
	}
	from, end, base := x+l.mark+explainAfter, x+width-explainRight, y+paint.TextSize
	room := end - bar - 12 - from
	title := ""
	if l.inline {
		title = r.Title + ": "
	} else {
		t := paint.ColumnText(r.Title, x+ReplyPad, base, sheet.Soft)
		p.Text(&t)
	}
	say := ""
	for _, words := range r.Say {
		if say = title + words; s.wrapper.WidthOf(say) <= room {
			break
		}
	}
	t := paint.ColumnText(s.wrapper.Fit(model.Capital(say), room), from, base, sheet.Ink)
	p.Text(&t)
	if s.Known {
		p.Mark(r.Mark, float64(x+l.mark), float64(base)-11)
	}
	p.Draw(sheet.HoldBar(&r.Holding, r.ink, s.Known, float64(end-bar), float64(end), float64(y)))
}
