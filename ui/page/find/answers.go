package find

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline/find"
	"wakeline/timeline/words"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Focusable         = (*answerList)(nil)
	_ fyne.Tappable          = (*answerRow)(nil)
	_ fyne.DoubleTappable    = (*answerRow)(nil)
	_ desktop.Cursorable     = (*answerRow)(nil)
	_ fyne.SecondaryTappable = (*answerRow)(nil)
)

// answerList lists the answers of a search, the best first. Only rows in view
// are there.
type answerList struct {
	paint.RowList

	OnChosen func(i int)
	OnOpen   func()
	OnSide   func(n int)             // the next rival's sheet, or the one before
	OnKey    func(ev *fyne.KeyEvent) // of no use here

	wrapper paint.Wrapper
	answers []find.Answer
	at      int // the one chosen, -1: none
	keys    bool
	rows    paint.FilledRows[*answerRow]
}

func newAnswerList() *answerList {
	l := &answerList{wrapper: paint.Wrapper{Size: paint.TextSize}, at: -1}
	l.HideSeparators = true
	l.OnRows = func() { l.rows = nil }
	l.Fill("The search", func() int { return len(l.answers) }, func() fyne.CanvasObject {
		r := &answerRow{l: l}
		r.Extend(r, r.paint, func() fyne.Size { return fyne.NewSize(200, answerHeight) })
		return r
	}, paint.SetRow)
	l.OnSelected = paint.GuardedOf("The search", func(i widget.ListItemID) { l.choose(i) })
	l.ExtendBaseWidget(l)
	return l
}

// show lists other answers, and chooses the first.
func (l *answerList) show(answers []find.Answer) {
	l.answers, l.at = answers, -1
	l.UnselectAll()
	l.Refresh()
	l.ScrollToTop()
	l.step(1)
}

func (l *answerList) choose(i int) {
	if i < 0 || i >= len(l.answers) || i == l.at {
		return
	}
	l.at = i
	l.Select(i)
	l.OnChosen(i)
	l.again()
}

// step chooses the answer n further on, or the last there is.
func (l *answerList) step(n int) { l.choose(max(0, min(l.at+n, len(l.answers)-1))) }

func (l *answerList) again() {
	for _, r := range l.rows {
		r.Refresh()
	}
}

// FocusGained implements fyne.Focusable.
func (l *answerList) FocusGained() { l.keys = true; l.again() }

// FocusLost implements fyne.Focusable.
func (l *answerList) FocusLost() { l.keys = false; l.again() }

// TypedRune implements fyne.Focusable.
func (l *answerList) TypedRune(rune) {}

// TypedKey chooses another answer, or opens the one chosen.
func (l *answerList) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The search")
	page := max(1, int(l.Size().Height/answerHeight)-1)
	switch ev.Name {
	case fyne.KeyUp:
		l.step(-1)
	case fyne.KeyDown:
		l.step(1)
	case fyne.KeyPageUp:
		l.step(-page)
	case fyne.KeyPageDown:
		l.step(page)
	case fyne.KeyHome:
		l.step(-len(l.answers))
	case fyne.KeyEnd:
		l.step(len(l.answers))
	case fyne.KeyLeft:
		l.OnSide(-1)
	case fyne.KeyRight:
		l.OnSide(1)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		l.OnOpen()
	default:
		l.OnKey(ev)
	}
}

// answerRow is one answer on screen: its fillers in words, and under them the
// rest.
type answerRow struct {
	paint.Row
	l *answerList
}

// Set shows another answer.
func (r *answerRow) Set(i int) {
	r.l.rows.Note(r)
	r.Row.Set(i)
}

// The measures of a row, in units.
const (
	answerHeight = 40
	answerLeft   = 58 // where the words begin
	answerMark   = 38
)

func (r *answerRow) paint(p *paint.Pen, size fyne.Size) {
	if r.At < 0 || r.At >= len(r.l.answers) {
		return
	}
	a := &r.l.answers[r.At]
	w := &r.l.wrapper
	if r.At == r.l.at && r.l.keys {
		p.Box(&sheet.Box{Min: sheet.Point{X: 2, Y: 1}, Max: sheet.Point{X: float64(size.Width) - 2, Y: answerHeight - 1}, Stroke: sheet.Ink, Width: 1})
	}
	rank := paint.ColumnText(fmt.Sprintf("%d.", a.Rank), answerMark-8, 16, sheet.Soft)
	rank.Anchor = sheet.AtEnd
	p.Text(&rank)
	p.Mark(a.Word.Judgement(), answerMark, 5)
	room := size.Width - answerLeft - 8
	first := paint.ColumnText(w.Fit(answerTitle(a), room), answerLeft, 16, sheet.Ink)
	p.Text(&first)
	second := paint.ColumnText(w.Fit(answerFacts(a), room), answerLeft, 33, sheet.Soft)
	second.Size = paint.CaptionSize
	p.Text(&second)
}

// answerTitle is what an answer is made of.
func answerTitle(a *find.Answer) string {
	s := &a.Setups[0]
	parts := []string{"no filler"}
	if len(s.Fillers) > 0 {
		parts[0] = strings.Join(s.Fillers, ", ")
	}
	if a.Wait() > 0 {
		parts = append(parts, fmt.Sprintf("wait %d", a.Wait()))
	}
	return strings.Join(append(parts, s.Jump+" "+s.Attack), " · ")
}

// answerFacts is what an answer has.
func answerFacts(a *find.Answer) string {
	parts := []string{"no reply comes near"}
	if a.Spare.Given {
		parts[0] = fmt.Sprintf("%d to spare", a.Spare.N)
	}
	switch {
	case a.Wait() > 0:
		parts = append(parts, "lands "+words.Percent(a.Chance))
	case a.Chance < 1:
		parts = append(parts, "no wait, "+words.Percent(a.Chance))
	default:
		parts = append(parts, "exact")
	}
	if a.Gauge > 0 {
		parts = append(parts, "gauge "+fmt.Sprint(a.Gauge))
	}
	if a.Travel != 0 {
		parts = append(parts, fmt.Sprintf("travel %d", a.Travel))
	}
	if a.Orders.BitLen() > 1 {
		parts = append(parts, a.Orders.String()+" orders")
	}
	return strings.Join(parts, " · ")
}

// Tapped chooses the answer.
func (r *answerRow) Tapped(*fyne.PointEvent) {
	defer paint.Survive("The search")
	paint.FocusOn(r.l)
	r.l.choose(r.At)
}

// TappedSecondary chooses it too.
func (r *answerRow) TappedSecondary(ev *fyne.PointEvent) { r.Tapped(ev) }

// DoubleTapped opens it as a setup.
func (r *answerRow) DoubleTapped(ev *fyne.PointEvent) {
	defer paint.Survive("The search")
	r.Tapped(ev)
	r.l.OnOpen()
}

// Cursor implements desktop.Cursorable.
func (r *answerRow) Cursor() desktop.Cursor { return desktop.PointerCursor }
