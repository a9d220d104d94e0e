package data

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Focusable     = (*foot)(nil)
	_ fyne.Tappable      = (*foot)(nil)
	_ desktop.Cursorable = (*foot)(nil)
)

// foot is the strip under a table: what may stand in the cell, or what
// its row still lacks; and which setups an edit changes, each of which can be
// opened.
type foot struct {
	paint.Keyed
	paint.Pointed
	open    func(setup string)
	list    func(title string, lines []string) // all that change, where the strip has no room
	wrapper paint.Wrapper

	words  string
	effect effect
	more   footMore // while no edit is weighed
	places []footPlace
	at     int // the setup that the keys are on
	hover  bool
}

// footPlace is where a setup's name stands.
type footPlace struct {
	x0, x1, y0, y1 float32
	i              int // among the setups; past the last: all of them
}

// footMore is what is told of a row besides: in words, and the setups that it
// leads to, or the names of what else can be done.
type footMore struct {
	words, lead string
	setups      []string
	open        func(i int) // does something else with one than showing it; may be nil
}

// The measures of the strip, in units.
const (
	footLine  = 22
	footLines = 3 // one of words, two of setups
	footPad   = 10
	footMost  = 200 // setups that are listed
)

func newFoot(open func(setup string), list func(title string, lines []string)) *foot {
	f := &foot{open: open, list: list, wrapper: paint.Wrapper{Size: paint.TextSize}}
	f.Extend(f, f.paint, func() fyne.Size { return fyne.NewSize(200, footLines*footLine+8) })
	f.OnPointer("The line below the table", func(at fyne.Position) { f.hover = f.hit(at) >= 0 }, func() { f.hover = false })
	return f
}

// say shows words about the cell.
func (f *foot) say(words string) {
	if words != f.words {
		f.words = words
		f.Refresh()
	}
}

// tell shows what else is to be told of the row.
func (f *foot) tell(m footMore) {
	same := m.words == f.more.words && m.lead == f.more.lead && slices.Equal(m.setups, f.more.setups)
	if f.more = m; !same {
		f.at = 0
		f.Refresh()
	}
}

// show shows what an edit does to setups.
func (f *foot) show(e effect) {
	f.effect, f.at = e, 0
	f.Refresh()
}

// lead begins the sentence about setups.
func (e *effect) lead() string {
	n := len(e.changes)
	switch {
	case e.looking:
		return "Finding which setups change…"
	case e.failed:
		return "Could not find which setups change."
	case e.done && n > 0:
		return model.CountOf(n, "setup") + " changed:"
	case e.done:
		return "No setup changed."
	case n > 0:
		return model.CountOf(n, "setup") + " would change:"
	}
	return "No setup would change."
}

func (f *foot) paint(p *paint.Pen, size fyne.Size) {
	p.Rect(0, 0, p.Px(float64(size.Width)), p.Px(float64(size.Height)), paint.Colours().Ink[sheet.Paper], nil, 0)
	p.Rect(0, 0, p.Px(float64(size.Width)), p.Thick(1), paint.Colours().Ink[sheet.Rule], nil, 0)
	words := paint.ColumnText(f.wrapper.Fit(f.words, size.Width-2*footPad), footPad, 19, sheet.Soft)
	p.Text(&words)
	f.places = f.places[:0]
	if f.effect.weighed {
		f.effects(p, size)
	} else {
		f.told(p, size)
	}
}

// told writes what else there is to tell of the row, and the setups that it
// leads to.
func (f *foot) told(p *paint.Pen, size fyne.Size) {
	put := func(s string, x float32, line int) float32 {
		s = f.wrapper.Fit(s, size.Width-footPad-x)
		t := paint.ColumnText(s, x, float32(line)*footLine+18, sheet.Ink)
		p.Text(&t)
		return x + f.wrapper.WidthOf(s)
	}
	put(f.more.words, footPad, 1)
	x := put(f.more.lead, footPad, 2)
	space := f.wrapper.WidthOf("  ")
	for i, name := range f.more.setups {
		name = f.wrapper.Fit(name, 260)
		room := size.Width - footPad
		if i < len(f.more.setups)-1 {
			room -= f.wrapper.WidthOf(f.andMore(len(f.more.setups))) + space
		}
		if x += space; x+f.wrapper.WidthOf(name) > room {
			f.link(p, f.andMore(len(f.more.setups)-i), x, 2, len(f.more.setups))
			return
		}
		f.link(p, name, x, 2, i)
		x += f.wrapper.WidthOf(name)
	}
}

// effects writes the setups that change, as many as two lines hold.
func (f *foot) effects(p *paint.Pen, size fyne.Size) {
	e := &f.effect
	x, line := float32(footPad), 1
	space := f.wrapper.WidthOf(" x") - f.wrapper.WidthOf("x")
	base := func() float32 { return float32(line)*footLine + 18 }
	put := func(s string, role sheet.Role) {
		t := paint.ColumnText(s, x, base(), role)
		p.Text(&t)
		x += f.wrapper.WidthOf(s)
	}
	put(e.lead(), sheet.Ink)
	if e.renames {
		x += space
		put("Every setup that uses it takes the new name.", sheet.Soft)
	}
	for i := range e.changes {
		c := &e.changes[i].Change
		name, what := f.wrapper.Fit(c.Setup, 260), model.ChangeWords(c)
		if i < len(e.changes)-1 {
			what += ","
		}
		need := f.wrapper.WidthOf(name) + 2*space + paint.MarkSide + 4 + f.wrapper.WidthOf(what)
		room := size.Width - footPad
		if line == footLines-1 && i < len(e.changes)-1 {
			room -= f.wrapper.WidthOf(f.andMore(len(e.changes))) + 2*space
		}
		if x += 2 * space; x+need > room {
			if line == footLines-1 {
				f.link(p, f.andMore(len(e.changes)-i), x, line, len(e.changes))
				return
			}
			line++
			x = footPad
		}
		f.link(p, name, x, line, i)
		x += f.wrapper.WidthOf(name) + 2*space
		if c.After.Judged() {
			p.Mark(c.After.Word.Judgement(), float64(x), float64(base())-11)
			x += paint.MarkSide + 4
		}
		put(f.wrapper.Fit(what, size.Width-footPad-x), sheet.Soft)
	}
}

func (f *foot) andMore(n int) string { return fmt.Sprintf("and %d more", n) }

// link writes a name that can be opened.
func (f *foot) link(p *paint.Pen, name string, x float32, line, i int) {
	top := float32(line) * footLine
	wide := f.wrapper.WidthOf(name)
	if f.Focused && len(f.places) == f.at {
		p.Rect(p.Px(float64(x-3)), p.Px(float64(top+3)), p.Px(float64(x+wide+3)), p.Px(float64(top+footLine+1)), nil, paint.Colours().Ink[sheet.Ink], p.Thick(1.5))
	}
	t := paint.ColumnText(name, x, top+18, sheet.Ink)
	p.Text(&t)
	p.Rect(p.Px(float64(x)), p.Px(float64(top+20)), p.Px(float64(x+wide)), p.Px(float64(top+20))+p.Thick(1), paint.Colours().Ink[sheet.Soft], nil, 0)
	f.places = append(f.places, footPlace{x, x + wide, top, top + footLine, i})
}

// follow opens a place.
func (f *foot) follow(at int) {
	if at < 0 || at >= len(f.places) {
		return
	}
	i := f.places[at].i
	if !f.effect.weighed {
		if i < len(f.more.setups) && f.more.open != nil {
			f.more.open(i)
		} else if i < len(f.more.setups) {
			f.open(f.more.setups[i])
		} else {
			f.list(strings.TrimSuffix(f.more.lead, ":"), atMost(f.more.setups, f.andMore))
		}
		return
	}
	if i < len(f.effect.changes) {
		f.open(f.effect.changes[i].Setup)
		return
	}
	var lines []string
	for k := range f.effect.changes {
		c := &f.effect.changes[k].Change
		lines = append(lines, c.Setup+": "+model.ChangeWords(c))
	}
	f.list(strings.TrimSuffix(f.effect.lead(), ":"), atMost(lines, f.andMore))
}

// atMost are the first lines of a list, and how many there are more.
func atMost(lines []string, more func(n int) string) []string {
	if len(lines) <= footMost {
		return lines
	}
	return append(slices.Clone(lines[:footMost]), more(len(lines)-footMost))
}

func (f *foot) hit(pos fyne.Position) int {
	for i, r := range f.places {
		if pos.X >= r.x0 && pos.X < r.x1 && pos.Y >= r.y0 && pos.Y < r.y1 {
			return i
		}
	}
	return -1
}

// Tapped opens the setup under the pointer.
func (f *foot) Tapped(ev *fyne.PointEvent) {
	defer paint.Survive("The foot of the table")
	f.follow(f.hit(ev.Position))
}

// TypedKey goes from name to name, and opens one.
func (f *foot) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The foot of the table")
	switch ev.Name {
	case fyne.KeyLeft, fyne.KeyUp:
		f.at = max(f.at-1, 0)
	case fyne.KeyRight, fyne.KeyDown:
		f.at = max(min(f.at+1, len(f.places)-1), 0)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		f.follow(f.at)
	}
	f.Refresh()
}

// Cursor implements desktop.Cursorable.
func (f *foot) Cursor() desktop.Cursor {
	if f.hover {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}
