package ingame

import (
	"fmt"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/timeline/handout"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// list lists the setups to test: what to set up, which advantage to read, and
// which replies to record.
type list struct {
	paint.RowList
	page    *Page
	wrapper paint.Wrapper
}

func newList(p *Page) *list {
	l := &list{page: p, wrapper: paint.Wrapper{Size: paint.TextSize}}
	l.ExtendBaseWidget(l)
	l.HideSeparators = true
	l.Fill("The in-game tests", func() int { return len(p.rows) }, func() fyne.CanvasObject { return newRow(l) }, paint.SetRow)
	l.OnSelected = func(i widget.ListItemID) {
		defer paint.Survive("The in-game tests")
		p.choose(i)
	}
	return l
}

// FocusGained and FocusLost leave the toolkit's own place of the keys unshown:
// the chosen row is that place.
func (l *list) FocusGained() {}

// FocusLost implements fyne.Focusable.
func (l *list) FocusLost() {}

// TypedKey moves the choice at once, opens the setup on Enter, and closes the
// page on Escape.
func (l *list) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The in-game tests")
	p := l.page
	step := map[fyne.KeyName]int{fyne.KeyDown: 1, fyne.KeyUp: -1, fyne.KeyPageDown: 8, fyne.KeyPageUp: -8,
		fyne.KeyHome: -len(p.rows), fyne.KeyEnd: len(p.rows)}[ev.Name]
	switch {
	case p.host.PageKey(ev):
	case step != 0 && len(p.rows) > 0:
		l.Select(min(max(p.at+step, 0), len(p.rows)-1))
	case ev.Name == fyne.KeyReturn, ev.Name == fyne.KeyEnter:
		p.showSetup()
	}
}

// TypedRune records a result, or begins the advantage or the note.
func (l *list) TypedRune(r rune) {
	defer paint.Survive("The in-game tests")
	l.page.typed(r)
}

// typed does what a letter or a digit stands for.
func (p *Page) typed(r rune) {
	switch result := map[rune]string{'w': worked, 'f': failed, 'u': unclear}[unicode.ToLower(r)]; {
	case result != "":
		p.record(result)
	case unicode.ToLower(r) == 'n' && p.at >= 0:
		p.host.Canvas().Focus(p.note)
	case r >= '0' && r <= '9' && p.at >= 0:
		p.read.SetText(string(r))
		p.read.CursorColumn = 1
		p.host.Canvas().Focus(p.read)
	}
}

// field is one of the two fields below. Enter and the arrows lead back to the
// list; in the one of the advantage, which takes digits alone, a letter does
// what it does there.
type field struct {
	paint.PageEntry
	page   *Page
	digits bool
}

func newField(p *Page, holder string, digits bool) *field {
	f := &field{page: p, digits: digits}
	f.W = p.host
	f.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	f.ExtendBaseWidget(f)
	f.SetPlaceHolder(holder)
	return f
}

// mostDigits is how many digits an advantage has at most.
const mostDigits = 3

// TypedRune types it.
func (f *field) TypedRune(r rune) {
	defer paint.Survive("The in-game tests")
	switch {
	case !f.digits:
		f.PageEntry.TypedRune(r)
	case r >= '0' && r <= '9':
		if len(f.Text) < mostDigits {
			f.PageEntry.TypedRune(r)
		}
	default:
		f.page.typed(r)
	}
}

// TypedKey leads back to the list, or types.
func (f *field) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The in-game tests")
	switch ev.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeyUp, fyne.KeyDown:
		f.page.Refocus()
	default:
		f.PageEntry.TypedKey(ev)
	}
}

// row is one row of the list.
type row struct {
	paint.Row
	l *list
}

const rowHeight = 62

func newRow(l *list) *row {
	r := &row{l: l}
	r.Extend(r, r.paint, func() fyne.Size { return fyne.NewSize(160, paint.WholeRow(r.l, rowHeight)) })
	return r
}

func (r *row) paint(p *paint.Pen, size fyne.Size) {
	if r.At < 0 || r.At >= len(r.l.page.rows) {
		return
	}
	const left, marks = 10, 96
	of, w := r.l.page.look(r.At), &r.l.wrapper
	write := func(s string, x, base float32, room float32, role sheet.Role, bold bool) {
		t := paint.ColumnText(w.Fit(s, room), x, base, role)
		t.Bold = bold
		p.Text(&t)
	}
	write(of.name, left, 17, size.Width-left-marks-8, sheet.Ink, true)
	if of.result != "" {
		x := size.Width - marks
		p.Mark(judgement(of.result), float64(x), 6)
		write(of.result, x+paint.MarkSide+6, 17, marks-paint.MarkSide-8, sheet.Ink, false)
	}
	first, second := of.why, ""
	if of.check != nil {
		first, second = setUpWords(of.check), recordWords(of.check)
	}
	write(first, left, 36, size.Width-left-6, sheet.Soft, false)
	write(second, left, 54, size.Width-left-6, sheet.Soft, false)
}

// judgement is the mark of a result.
func judgement(result string) timeline.Judgement {
	switch result {
	case worked:
		return timeline.JudgedSafe
	case failed:
		return timeline.JudgedUnsafe
	}
	return timeline.JudgedEven
}

// setUpWords say what to set up, and which advantage to read: "Read 44. Keel
// Scrape, wait 2 frames, forward, Leeboard, then guard".
func setUpWords(c *handout.Check) string {
	return fmt.Sprintf("Read %d. %s", c.Advantage, strings.Join(c.SetUp, ", "))
}

// recordWords say which replies to record: "Record Millrace: reply blocked on
// frame 46".
func recordWords(c *handout.Check) string {
	if len(c.Record) == 0 {
		return "No reply is demanded."
	}
	out := make([]string, len(c.Record))
	for i, r := range c.Record {
		out[i] = fmt.Sprintf("%s (%s): %s", r.Reply, r.Rise, r.Expected)
	}
	return "Record " + strings.Join(out, "; ")
}
