package sheet

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/words"
)

// The most rows and columns of a match-up that one picture takes.
const (
	GridRows    = 400
	GridColumns = 60
)

// The sizes of a match-up, in ems.
const (
	gridRowHigh = 2.75
	gridSmall   = 0.85 // text of a cell
	gridMark    = 0.75
	gridAir     = 0.45 // between the things in a cell
	gridHeads   = 3.7  // the heads of the columns
)

// gridPen lays a match-up out on one or several pages.
type gridPen struct {
	pager
	g           *compare.Grid
	between     [2]string // the attacker and the rival
	cell, names float64   // how wide a column, and the names before the first
	from, to    int       // the columns on the page
	top         float64   // of its first row
	rows        int       // that it has
}

// DrawGrid draws a match-up: a row per setup, a column per reply, and a key. A
// cell says what the window's says: the mark, the outcome and the frames to
// spare of the rise that is worst; an outline says that the setup covers the
// reply. w is the width in units, more where the columns need it. More rows or
// columns than a picture takes are an error.
func DrawGrid(g *compare.Grid, attacker, rival string, w float64) (*Drawing, error) {
	if len(g.Rows) > GridRows || len(g.Replies) > GridColumns {
		return nil, fmt.Errorf("match-up: expected at most %d setups and %d replies in one picture, got %d and %d: a PDF or CSV has room for more", GridRows, GridColumns, len(g.Rows), len(g.Replies))
	}
	p := newGridPen(g, attacker, rival, w)
	p.w = math.Max(p.w, 24*p.em+p.cell*float64(len(g.Replies)))
	if err := p.band(0, len(g.Replies)); err != nil {
		return nil, err
	}
	p.key()
	return p.end()[0], nil
}

// DrawGridOn is DrawGrid on pages, each w units wide and high: where a page has no
// room for more setups, or for more replies, the match-up goes on on the next,
// down first, with its heads and its setups' names.
func DrawGridOn(g *compare.Grid, attacker, rival string, w, high float64) ([]*Drawing, error) {
	p := newGridPen(g, attacker, rival, w)
	p.high = high
	columns, most := len(g.Replies), p.columns()
	bands := max(1, (columns+most-1)/most)
	for i := range bands { // each about as wide
		if err := p.band(columns*i/bands, columns*(i+1)/bands); err != nil {
			return nil, err
		}
	}
	return p.end(), nil
}

// GridWidth is how many units a match-up takes that is drawn for the width w.
func GridWidth(g *compare.Grid, w float64) float64 {
	p := newGridPen(g, "", "", w)
	return math.Max(p.w, (2+gridNamesLeast)*p.em+p.cell*float64(len(g.Replies)))
}

func newGridPen(g *compare.Grid, attacker, rival string, w float64) *gridPen {
	em := clamp(7+atLeast(w, MinW)/190, 10.5, 22)
	return &gridPen{g: g, between: [2]string{clean(attacker), clean(rival)}, pager: pager{w: atLeast(w, MinW), em: em}, cell: gridCellWidth(g) * em}
}

// The least and the most that the names of setups take, in ems.
const (
	gridNamesLeast = 14
	gridNamesMost  = 32
)

// columns is how many a page has room for.
func (p *gridPen) columns() int {
	return max(1, int((p.w-(2+gridNamesLeast)*p.em)/p.cell))
}

// band draws all rows with those columns.
func (p *gridPen) band(from, to int) error {
	p.from, p.to = from, to
	n := float64(to - from)
	p.names = clamp(p.w-2*p.em-p.cell*n, gridNamesLeast*p.em, gridNamesMost*p.em)
	if err := p.begin(); err != nil {
		return err
	}
	for i := range p.g.Rows {
		if p.high > 0 && p.rows > 0 && p.y+gridRowHigh*p.em > p.high-p.em {
			p.foot()
			if err := p.begin(); err != nil {
				return err
			}
		}
		p.p.gridRow(p.g, i, from, to, p.names, p.y, p.cell, gridRowHigh*p.em)
		p.rows++
		p.y = p.top + float64(p.rows)*gridRowHigh*p.em
	}
	p.foot()
	return nil
}

// foot is the line under the last row of a page.
func (p *gridPen) foot() { p.p.line(p.em, p.y, p.p.right, p.y, hair, Soft) }

// begin begins a page, with its heading and its heads; the first of several has
// the key over them.
func (p *gridPen) begin() error {
	if len(p.out) == MostTablePages {
		return fmt.Errorf("match-up: expected at most %d pages", MostTablePages)
	}
	p.page()
	em := p.em
	p.p.left = em + p.names
	p.p.right = p.p.left + p.cell*float64(p.to-p.from)
	under := p.heading(len(p.out) == 1)
	if p.y = (under + gridHeads) * em; p.high > 0 && len(p.out) == 1 {
		p.y = under * em
		p.key()
		p.y += (0.4 + gridHeads) * em
	}
	p.top, p.rows = p.y, 0
	for k, r := range p.g.Replies[p.from:p.to] {
		lines, _ := wrap(clean(r.Title), 0.95*em, false, p.cell-gridAir*em, 2)
		for i, l := range lines {
			y := p.y - (0.5+1.15*float64(len(lines)-1-i))*em
			p.p.write(Text{At: Point{p.p.left + float64(k)*p.cell + 0.3*em, y}, Str: l, Size: 0.95 * em, Role: Ink})
		}
	}
	return nil
}

// heading says what the match-up is of, and on what follows that it goes on. It
// returns how many ems down it reaches.
func (p *gridPen) heading(first bool) float64 {
	em := p.em
	size, base, more := 1.7*em, 2.3, ""
	if !first {
		size, base, more = 1.1*em, 1.9, ", continued"
	}
	parts := []string{p.between[0], " vs ", p.between[1], more}
	share(parts, size, true, p.w-2*em)
	p.p.write(Text{At: Point{em, base * em}, Str: strings.Join(parts, ""), Size: size, Bold: true, Role: Ink})
	if !first {
		return base
	}
	p.p.write(Text{At: Point{em, 3.9 * em}, Str: fit("Each setup at its own delay against each reply, on the worst rise claimed.", 0.9*em, false, p.w-2*em), Size: 0.9 * em, Role: Soft})
	return 3.9
}

// key says what the signs mean: under the last row of a picture, before the
// first of pages.
func (p *gridPen) key() { p.y = p.p.gridKey(p.y+0.7*p.em, p.g.Valued) }

// end ends the last page.
func (p *gridPen) end() []*Drawing {
	p.done()
	for i, d := range p.out {
		d.Title = p.between[0] + " vs " + p.between[1] + ": match-up"
		if len(p.out) > 1 {
			d.Title += ", page " + strconv.Itoa(i+1)
		}
		d.Desc = fmt.Sprintf("%d setups against %d replies.", len(p.g.Rows), len(p.g.Replies))
	}
	return p.out
}

// gridCellWidth is how wide a column is, in ems, for the longest outcome and
// number of the match-up.
func gridCellWidth(g *compare.Grid) float64 {
	word, number := 0.0, 0.0
	for i := range g.Rows {
		for k := range g.Rows[i].Cells {
			for _, l := range cellLines(&g.Rows[i].Cells[k], g.Valued) {
				word = math.Max(word, TextWidth(l, gridSmall, false))
			}
			number = math.Max(number, TextWidth(cellSpare(&g.Rows[i].Cells[k]), 1, false))
		}
	}
	return math.Max(5, gridAir+gridMark+gridAir+word+gridAir+number+gridAir+0.24)
}

// cellLines say a cell's outcome, a word on each line; or on one, and what it
// comes to under it.
func cellLines(c *compare.GridCell, valued bool) []string {
	switch {
	case !c.Judged:
		return []string{"does", "not fit"}
	case valued:
		return []string{c.Cell.Outcome.String(), words.ShortWorth(c.Worth)}
	}
	return strings.Fields(c.Cell.Outcome.String())
}

// cellSpare is how many frames a cell has to spare, negative where the guard is
// late; empty where that has no meaning.
func cellSpare(c *compare.GridCell) string {
	if !c.Judged || !c.Cell.Spare.Given {
		return ""
	}
	return strconv.Itoa(c.Cell.Spare.N)
}

// gridRow draws one setup: its name and verdict, then its cells of those columns.
func (p *pen) gridRow(g *compare.Grid, i, from, to int, names, y, cell, high float64) {
	em, r := p.em, &g.Rows[i]
	p.line(em, y, p.right, y, hair, Soft)
	base := y + high/2 + 0.36*em
	j := r.Called.Judgement()
	p.mark(j, em, y+(high-0.8*em)/2, 0.8*em, 0.14*em, RoleOf(j))
	word := string(r.Called)
	p.write(Text{At: Point{p.left - 0.6*em, base}, Str: word, Size: 0.9 * em, Role: RoleOf(j), Anchor: AtEnd})
	room := names - 3*em - TextWidth(word, 0.9*em, false)
	lines, _ := wrap(clean(r.Setup), em, true, room, 2)
	for n, l := range lines {
		at := base + (float64(n)-float64(len(lines)-1)/2)*1.15*em
		p.write(Text{At: Point{2.3 * em, at}, Str: l, Size: em, Bold: true, Role: Ink})
	}
	for k := range r.Cells[from:to] {
		p.gridCell(&r.Cells[from+k], g.Valued, p.left+float64(k)*cell, y, cell, high)
	}
}

// gridCell draws what becomes of one reply: in ink where the setup asks
// something of it, else soft.
func (p *pen) gridCell(c *compare.GridCell, valued bool, x, y, wide, high float64) {
	em := p.em
	text := Ink
	if !c.Judged || c.Demand == timeline.DemandNone {
		text = Soft
	}
	if c.Judged {
		role := RoleOf(c.Mark)
		b := Box{Min: Point{x + 0.12*em, y + 0.12*em}, Max: Point{x + wide - 0.12*em, y + high - 0.12*em}, Fill: role, Texture: Tint}
		if c.Covers {
			b.Stroke, b.Width = role, medium*em
		}
		p.box(b)
		p.mark(c.Mark, x+gridAir*em, y+(high-gridMark*em)/2, gridMark*em, 0.13*em, role)
	}
	lines := cellLines(c, valued)
	size := gridSmall * em
	for i, l := range lines {
		at := y + high/2 + 0.36*size + (float64(i)-float64(len(lines)-1)/2)*1.12*size
		p.write(Text{At: Point{x + (2*gridAir+gridMark)*em, at}, Str: l, Size: size, Role: text})
	}
	p.write(Text{At: Point{x + wide - gridAir*em, y + high/2 + 0.36*em}, Str: cellSpare(c), Size: em, Role: text, Anchor: AtEnd})
}

// gridKey says what the signs of a match-up mean, from y on, and returns where
// it ends.
func (p *pen) gridKey(y float64, valued bool) float64 {
	em := p.em
	size, side := 0.9*p.em, 0.8*em
	x, line := em, 0
	item := func(sign float64, means string, role Role, draw func(x, mid float64)) {
		wide := sign + 0.5*em + TextWidth(means, size, false)
		if x > em && x+wide > p.d.W-em {
			x, line = em, line+1
		}
		mid := y + (0.7+1.6*float64(line))*em
		draw(x, mid)
		p.write(Text{At: Point{x + sign + 0.5*em, mid + 0.36*size}, Str: fit(means, size, false, p.d.W-em-x-sign-0.5*em), Size: size, Role: role})
		x += wide + 1.8*em
	}
	for j := range judgements {
		j := timeline.Judgement(j)
		item(side, j.String(), RoleOf(j), func(x, mid float64) { p.mark(j, x, mid-side/2, side, 0.13*em, RoleOf(j)) })
	}
	item(1.6*em, "outlined: the setup covers the reply, on each rise claimed", Ink, func(x, mid float64) {
		p.box(Box{Min: Point{x, mid - 0.5*em}, Max: Point{x + 1.6*em, mid + 0.5*em}, Fill: Safe, Texture: Tint, Stroke: Safe, Width: medium * em})
	})
	item(TextWidth("2", em, false), "at the right of a cell: frames to spare", Ink, func(x, mid float64) {
		p.write(Text{At: Point{x, mid + 0.36*em}, Str: "2", Size: em, Role: Ink})
	})
	if valued {
		const sample = "412 points; ends 412"
		item(TextWidth(sample, size, false), "what you gain, and the health from which it ends the round", Ink, func(x, mid float64) {
			p.write(Text{At: Point{x, mid + 0.36*size}, Str: sample, Size: size, Role: Ink})
		})
	}
	item(TextWidth("grey", size, false), "text: the setup demands nothing against the reply", Soft, func(x, mid float64) {
		p.write(Text{At: Point{x, mid + 0.36*size}, Str: "grey", Size: size, Role: Soft})
	})
	return y + (1.4+1.6*float64(line))*em
}
