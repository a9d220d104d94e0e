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
)

// DrawGrid draws a match-up: a row per setup, a column per reply, and a key. A
// cell says what the window's says: the mark, the outcome and the frames to
// spare of the rise that is worst; an outline says that the setup covers the
// reply. w is the width in units, more where the columns need it. More rows or
// columns than a picture takes are an error.
func DrawGrid(g *compare.Grid, attacker, rival string, w float64) (*Drawing, error) {
	if len(g.Rows) > GridRows || len(g.Replies) > GridColumns {
		return nil, fmt.Errorf("match-up: expected at most %d setups and %d replies in one picture, got %d and %d", GridRows, GridColumns, len(g.Rows), len(g.Replies))
	}
	em := clamp(7+atLeast(w, MinW)/190, 10.5, 22)
	cell := gridCellWidth(g) * em
	n := float64(len(g.Replies))
	w = math.Max(atLeast(w, MinW), 24*em+cell*n)
	names := clamp(w-2*em-cell*n, 14*em, 32*em)
	p := &pen{d: &Drawing{W: w, Em: em}}
	p.em, p.left, p.right = em, em+names, em+names+cell*n
	ground := Box{Fill: Paper, Texture: Solid}
	p.box(ground)

	title := 1.7 * em
	parts := []string{clean(attacker), " vs ", clean(rival)}
	share(parts, title, true, w-2*em)
	p.write(Text{At: Point{em, 2.3 * em}, Str: strings.Join(parts, ""), Size: title, Bold: true, Role: Ink})
	p.write(Text{At: Point{em, 3.9 * em}, Str: fit("Each setup at its own delay against each reply, on the worst rise claimed.", 0.9*em, false, w-2*em), Size: 0.9 * em, Role: Soft})
	top := 7.6 * em
	for k, r := range g.Replies {
		lines, _ := wrap(clean(r.Title), 0.95*em, false, cell-gridAir*em, 2)
		for i, l := range lines {
			y := top - (0.5+1.15*float64(len(lines)-1-i))*em
			p.write(Text{At: Point{p.left + float64(k)*cell + 0.3*em, y}, Str: l, Size: 0.95 * em, Role: Ink})
		}
	}
	for i := range g.Rows {
		p.gridRow(g, i, names, top+float64(i)*gridRowHigh*em, cell, gridRowHigh*em)
	}
	y := top + float64(len(g.Rows))*gridRowHigh*em
	p.line(em, y, p.right, y, hair, Soft)
	p.d.H = math.Ceil(p.gridKey(y+0.7*em, g.Valued) + 0.6*em)
	ground.Max = Point{w, p.d.H}
	p.d.Shapes[0] = ground
	p.d.Shapes = append(p.d.Shapes, p.texts...)
	p.d.Title = clean(attacker) + " vs " + clean(rival) + ": match-up"
	p.d.Desc = fmt.Sprintf("%d setups against %d replies.", len(g.Rows), len(g.Replies))
	return p.d, nil
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

// gridRow draws one setup: its name and verdict, then its cells.
func (p *pen) gridRow(g *compare.Grid, i int, names, y, cell, high float64) {
	em, r := p.em, &g.Rows[i]
	p.line(em, y, p.right, y, hair, Soft)
	base := y + high/2 + 0.36*em
	j := r.Called.Judgement()
	p.mark(j, em, y+(high-0.8*em)/2, 0.8*em, 0.14*em, RoleOf(j))
	word := string(r.Called)
	p.write(Text{At: Point{p.left - 0.6*em, base}, Str: word, Size: 0.9 * em, Role: RoleOf(j), Anchor: AtEnd})
	room := names - 3*em - TextWidth(word, 0.9*em, false)
	p.write(Text{At: Point{2.3 * em, base}, Str: fit(clean(r.Setup), em, true, room), Size: em, Bold: true, Role: Ink})
	for k := range r.Cells {
		p.gridCell(&r.Cells[k], g.Valued, p.left+float64(k)*cell, y, cell, high)
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
