package sheet

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"wakeline/timeline"
)

// The most rows and columns of a match-up that one picture takes.
const (
	GridRows    = 400
	GridColumns = 60
)

// DrawGrid draws a match-up: a row a setup, a column a reply, in each cell the
// mark of what becomes of it and the frame of the meeting; a frame around a
// cell says that the setup covers the reply. w is the width in units, more
// where the columns need it. More rows or columns than a picture takes are an
// error.
func DrawGrid(g *timeline.Grid, attacker, rival string, w float64) (*Drawing, error) {
	if len(g.Rows) > GridRows || len(g.Replies) > GridColumns {
		return nil, fmt.Errorf("match-up: expected at most %d setups and %d replies in one picture, got %d and %d", GridRows, GridColumns, len(g.Rows), len(g.Replies))
	}
	const cell, row = 3.4, 1.9 // in ems
	em := clamp(7+atLeast(w, MinW)/190, 10.5, 22)
	n := float64(len(g.Replies))
	w = math.Max(atLeast(w, MinW), (26+cell*n)*em)
	names := clamp(w-2*em-(cell*n+8)*em, 14*em, 32*em)
	p := &pen{d: &Drawing{W: w, Em: em}}
	p.em, p.left, p.right = em, em+names, em+names+cell*n*em
	ground := Box{Fill: Paper, Texture: Solid}
	p.box(ground)

	title := 1.7 * em
	parts := []string{clean(attacker), " against ", clean(rival)}
	share(parts, title, true, w-2*em)
	p.write(Text{At: Point{em, 2.3 * em}, Str: strings.Join(parts, ""), Size: title, Bold: true, Role: Ink})
	p.write(Text{At: Point{em, 3.9 * em}, Str: fit("Each setup at its own delay against each reply, on the rise that is worst. Outlined: the setup covers the reply.", 0.9*em, false, w-2*em), Size: 0.9 * em, Role: Soft})
	top := 5.2*em + n*1.25*em
	for k, r := range g.Replies { // headings come down like stairs, so that none is turned on its side
		x, y := p.left+(float64(k)+0.5)*cell*em, 5.2*em+float64(k)*1.25*em
		p.line(x, y+0.45*em, x, top-0.2*em, hair, Soft)
		p.write(Text{At: Point{x - 0.3*em, y + 0.3*em}, Str: fit(clean(r.Title), em, false, w-em-x), Size: em, Role: Ink})
	}
	for i := range g.Rows {
		p.gridRow(&g.Rows[i], names, top+float64(i)*row*em, cell*em, row*em)
	}
	y := top + float64(len(g.Rows))*row*em
	p.line(em, y, p.right, y, hair, Soft)
	p.d.H = math.Ceil(y + em)
	ground.Max = Point{w, p.d.H}
	p.d.Shapes[0] = ground
	p.d.Shapes = append(p.d.Shapes, p.texts...)
	p.d.Title = clean(attacker) + " against " + clean(rival) + ": match-up"
	p.d.Desc = fmt.Sprintf("%d setups against %d replies.", len(g.Rows), len(g.Replies))
	return p.d, nil
}

// gridRow draws one setup: its name and verdict, then its cells.
func (p *pen) gridRow(r *timeline.GridRow, names, y, cell, high float64) {
	em := p.em
	p.line(em, y, p.right, y, hair, Soft)
	base := y + high/2 + 0.36*em
	j := r.Word.Judgement()
	p.mark(j, em, y+(high-0.8*em)/2, 0.8*em, 0.14*em, RoleOf(j))
	word := string(r.Word)
	p.write(Text{At: Point{p.left - 0.6*em, base}, Str: word, Size: 0.9 * em, Role: RoleOf(j), Anchor: AtEnd})
	room := names - 3*em - TextWidth(word, 0.9*em, false)
	p.write(Text{At: Point{2.3 * em, base}, Str: fit(clean(r.Setup), em, true, room), Size: em, Bold: true, Role: Ink})
	for k := range r.Cells {
		c := &r.Cells[k]
		x := p.left + float64(k)*cell
		if !c.Judged {
			p.line(x+0.35*cell, y+0.3*high, x+0.65*cell, y+0.7*high, hair, Soft)
			continue
		}
		role := RoleOf(c.Mark)
		b := Box{Min: Point{x + 0.12*em, y + 0.12*em}, Max: Point{x + cell - 0.12*em, y + high - 0.12*em}, Fill: role, Texture: Tint}
		if c.Covers {
			b.Stroke, b.Width = role, medium*em
		}
		p.box(b)
		side := 0.75 * em
		if !c.Cell.Meeting.Given {
			p.mark(c.Mark, x+(cell-side)/2, y+(high-side)/2, side, 0.13*em, role)
			continue
		}
		p.mark(c.Mark, x+0.45*em, y+(high-side)/2, side, 0.13*em, role)
		p.write(Text{At: Point{x + cell - 0.4*em, base}, Str: strconv.Itoa(c.Cell.Meeting.N), Size: 0.9 * em, Role: Ink, Anchor: AtEnd})
	}
}
