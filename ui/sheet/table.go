package sheet

import (
	"fmt"
	"math"
	"strconv"

	"wakeline/timeline"
)

// Table is a table as it is drawn: what it says first, then a row a thing, and
// what its signs mean.
type Table struct {
	Heading string   // what it is of
	Answer  string   // what it comes to
	Notes   []string // what else is to be known
	Columns []TableColumn
	Fixed   int // columns that are repeated on each page where the others go on; all: they are as narrow as a page asks for
	Lines   int // of one text in a cell, at most; 0: tableMost
	Rows    []TableRow
	Key     []TableKey
	Tight   bool // with less air between its lines and rows
}

// TableColumn is one column. It is as wide as its longest cell needs, between
// Least and Most; what is longer is broken into lines.
type TableColumn struct {
	Head        string
	Least, Most float64 // in ems
	AtEnd       bool    // its texts end together, as numbers do
}

// TableRow is one row.
type TableRow struct {
	Section string // heads the rows that have it; empty: none
	Cells   []TableCell
}

// TableCell is one cell: its lines, and the mark of a judgement before them.
type TableCell struct {
	Lines  []string
	More   []string // plain lines under them
	Marked bool
	Mark   timeline.Judgement
	Look   TableLook
	Told   string // what is said in place of the lines where nothing is drawn; empty: they are
}

// TableLook is how the text of a cell stands out.
type TableLook uint8

// The looks.
const (
	PlainCell TableLook = iota
	BoldCell
	UnderCell // bold, and underlined
	SoftCell
)

// TableKey says what a sign means: a mark where Marked, else a sample text in
// the look of a cell.
type TableKey struct {
	Marked bool
	Mark   timeline.Judgement
	Sample string
	Look   TableLook
	Means  string
}

// The most rows and columns of a table that one picture takes. Pages take more.
const (
	TableRows    = 400
	TableColumns = 64
)

// MostTablePages is how many pages a table takes: all are in memory.
const MostTablePages = 2000

// The sizes of a table, in ems.
const (
	tableSize = 0.95 // of a text
	tableLead = 1.2
	tablePad  = 0.42 // over and under the lines of a row
	tableAir  = 0.9  // between two columns
	tableMark = 0.8
	tableMore = 3 // that a column takes of what is left over
	tableMost = 4 // lines of one text in a cell
)

// tablePen lays a table out on one or several pages.
type tablePen struct {
	pager
	t     *Table
	wide  []float64 // of the columns, with the air after them
	shown []int     // columns on the page
}

// DrawTable draws a table. w is the width in units, more where a picture's
// columns need it; high is the height of a page, or 0: there is one picture, as
// high as it must be. A table that is longer or wider than a page goes on on
// the next ones, down first, each with its heads and its fixed columns. More
// than a picture or a document takes is an error.
func DrawTable(t *Table, w, high float64) ([]*Drawing, error) {
	w = atLeast(w, MinW)
	if high == 0 && (len(t.Rows) > TableRows || len(t.Columns) > TableColumns) {
		return nil, fmt.Errorf("table: expected at most %d rows and %d columns in one picture, got %d and %d: a PDF or CSV has room for more", TableRows, TableColumns, len(t.Rows), len(t.Columns))
	}
	p := &tablePen{t: t, pager: pager{w: w, em: clamp(7+w/190, 10.5, 22), high: high}}
	p.measure()
	bands := p.bands()
	if high == 0 {
		p.w = math.Max(w, p.total(bands[0])+2*p.em-0.01)
	}
	p.widen(bands)
	for i, band := range bands {
		p.shown = band
		if err := p.band(i == 0); err != nil {
			return nil, err
		}
	}
	if high == 0 {
		p.key()
	}
	p.done()
	for i, d := range p.out {
		d.Title = clean(t.Heading)
		if len(p.out) > 1 {
			d.Title += ", page " + strconv.Itoa(i+1)
		}
		d.Desc = clean(t.Answer)
	}
	return p.out, nil
}

// TableWidth is how wide a picture of a table is that is drawn for the width w.
func TableWidth(t *Table, w float64) float64 {
	p := &tablePen{t: t, pager: pager{w: w, em: clamp(7+w/190, 10.5, 22)}}
	p.measure()
	return math.Max(w, p.total(p.bands()[0])+2*p.em)
}

// measure finds how wide each column is.
func (p *tablePen) measure() {
	size := tableSize * p.em
	for k := range p.t.Columns {
		c := &p.t.Columns[k]
		need := 0.0
		for i := range p.t.Rows {
			need = math.Max(need, p.natural(&p.t.Rows[i].Cells[k]))
		}
		lines, _ := wrap(clean(c.Head), size, true, c.Most*p.em, tableMost)
		for _, l := range lines {
			need = math.Max(need, math.Min(TextWidth(l, size, true), math.Max(c.Least, 0.7*c.Most)*p.em))
		}
		p.wide = append(p.wide, clamp(need, c.Least*p.em, c.Most*p.em)+tableAir*p.em)
	}
}

// natural is how wide a cell is that isn't broken.
func (p *tablePen) natural(c *TableCell) (w float64) {
	for _, l := range c.Lines {
		w = math.Max(w, TextWidth(clean(l), tableSize*p.em, c.Look.bold()))
	}
	for _, l := range c.More {
		w = math.Max(w, TextWidth(clean(l), tableSize*p.em, false))
	}
	return w + p.indent(c) + 0.02*p.em // that a rounding breaks no line
}

func (l TableLook) bold() bool { return l == BoldCell || l == UnderCell }

func (l TableLook) role() Role {
	if l == SoftCell {
		return Soft
	}
	return Ink
}

// indent is the room of a cell's mark.
func (p *tablePen) indent(c *TableCell) float64 {
	if !c.Marked {
		return 0
	}
	return (tableMark + 0.4) * p.em
}

func (p *tablePen) total(columns []int) (w float64) {
	for _, k := range columns {
		w += p.wide[k]
	}
	return w - tableAir*p.em
}

func (p *tablePen) allFixed() bool { return p.t.Fixed >= len(p.t.Columns) }

// bands are the columns of each page across: of a picture all.
func (p *tablePen) bands() (out [][]int) {
	fixed := min(p.t.Fixed, len(p.t.Columns))
	var first []int
	for k := range fixed {
		first = append(first, k)
	}
	room := p.w - 2*p.em
	if p.allFixed() && p.total(first) > room {
		cut := (room + tableAir*p.em) / (p.total(first) + tableAir*p.em)
		for k := range p.wide {
			p.wide[k] *= cut
		}
	}
	if most := 0.6 * room; p.high > 0 && fixed > 0 && fixed < len(p.t.Columns) && p.total(first) > most { // leave room for the others
		cut := most / p.total(first)
		for _, k := range first {
			p.wide[k] *= cut
		}
	}
	at := append([]int{}, first...)
	for k := fixed; k < len(p.t.Columns); k++ {
		if more := append(at[:len(at):len(at)], k); p.high > 0 && len(at) > fixed && p.total(more) > room {
			out = append(out, at)
			at = append([]int{}, first...)
		}
		at = append(at, k)
	}
	return append(out, at)
}

// widen gives what all pages have left over to the columns whose texts are
// broken, as they lack it; and then a little to each.
func (p *tablePen) widen(bands [][]int) {
	left := math.Inf(1)
	for _, b := range bands {
		left = math.Min(left, p.w-2*p.em-p.total(b))
	}
	lacks, all := make([]float64, len(p.wide)), 0.0
	for k := range p.wide {
		if len(bands) > 1 && k >= p.t.Fixed {
			continue
		}
		need := 0.0
		for i := range p.t.Rows {
			need = math.Max(need, p.natural(&p.t.Rows[i].Cells[k]))
		}
		lacks[k] = math.Max(0, need+tableAir*p.em-p.wide[k])
		all += lacks[k]
	}
	if give := math.Min(left, all); give > 0 {
		for k := range p.wide {
			p.wide[k] += give * lacks[k] / all
		}
		left -= give
	}
	if n := float64(len(p.t.Columns)); len(bands) == 1 && n > 0 {
		for k := range p.wide {
			p.wide[k] += math.Min(left/n, tableMore*p.em)
		}
	}
}

// band draws all rows with the columns shown; first: the page begins with what
// the table says.
func (p *tablePen) band(first bool) error {
	p.page()
	if first {
		p.heading()
		if p.high > 0 { // many pages may follow
			p.key()
			p.y += 0.2 * p.em
		}
	} else {
		p.goesOn()
	}
	p.heads()
	section := ""
	for i := range p.t.Rows {
		r := &p.t.Rows[i]
		need := p.rowHigh(r)
		if r.Section != "" && r.Section != section {
			need += 2 * p.em
		}
		if p.high > 0 && p.y+need > p.high-p.em {
			if len(p.out) == MostTablePages {
				return fmt.Errorf("table: expected at most %d pages", MostTablePages)
			}
			p.page()
			p.goesOn()
			p.heads()
			section = ""
		}
		if r.Section != "" && r.Section != section {
			p.section(r.Section)
		}
		section = r.Section
		p.row(r)
	}
	return nil
}

// lines writes a text that is broken into lines.
func (p *tablePen) lines(s string, size float64, bold bool, most int, role Role) {
	lines, _ := wrap(clean(s), size, bold, p.w-2*p.em, most)
	for _, l := range lines {
		p.p.write(Text{At: Point{p.em, p.y + 0.85*size}, Str: l, Size: size, Bold: bold, Role: role})
		p.y += 1.28 * size
	}
}

func (p *tablePen) heading() {
	p.lines(p.t.Heading, 1.6*p.em, true, 3, Ink)
	p.y += 0.25 * p.em
	p.lines(p.t.Answer, 1.15*p.em, false, 4, Ink)
	p.y += 0.2 * p.em
	for _, n := range p.t.Notes {
		p.lines(n, 0.95*p.em, false, 8, Soft)
		p.y += 0.1 * p.em
	}
	p.y += 0.3 * p.em
}

// goesOn heads a page that is not the first.
func (p *tablePen) goesOn() {
	p.lines(p.t.Heading+", continued", 1.1*p.em, true, 1, Ink)
	p.y += 0.2 * p.em
}

// x is where the column at place i of the page begins, and how wide its texts
// may be.
func (p *tablePen) x(i int) (x, room float64) {
	x = p.em
	for _, k := range p.shown[:i] {
		x += p.wide[k]
	}
	return x, p.wide[p.shown[i]] - tableAir*p.em
}

// heads writes the heads of the columns.
func (p *tablePen) heads() {
	size, most := tableSize*p.em, 0
	var heads [][]string
	for i, k := range p.shown {
		_, room := p.x(i)
		lines, _ := wrap(clean(p.t.Columns[k].Head), size, true, room, tableMost)
		heads = append(heads, lines)
		most = max(most, len(lines))
	}
	foot := p.y + (float64(most)*tableLead+0.3)*size
	for i, k := range p.shown {
		x, room := p.x(i)
		at := AtStart
		if p.t.Columns[k].AtEnd {
			x, at = x+room, AtEnd
		}
		for n, l := range heads[i] {
			y := foot - (0.45+tableLead*float64(len(heads[i])-1-n))*size
			p.p.write(Text{At: Point{x, y}, Str: l, Size: size, Bold: true, Role: Ink, Anchor: at})
		}
	}
	p.p.line(p.em, foot, p.w-p.em, foot, thin, Ink)
	p.y = foot
}

// section heads some rows.
func (p *tablePen) section(name string) {
	size := p.em
	p.p.write(Text{At: Point{p.em, p.y + 1.4*p.em}, Str: fit(clean(name), size, true, p.w-2*p.em), Size: size, Bold: true, Role: Ink})
	p.y += 2 * p.em
	p.p.line(p.em, p.y, p.w-p.em, p.y, hair, Soft)
}

// broken are the lines of a cell in so much room, first those in its look.
func (p *tablePen) broken(c *TableCell, room float64) (out []string, looking int) {
	most := p.t.Lines
	if most == 0 {
		most = tableMost
	}
	for _, l := range c.Lines {
		lines, _ := wrap(clean(l), tableSize*p.em, c.Look.bold(), room-p.indent(c), most)
		out = append(out, lines...)
	}
	looking = len(out)
	for _, l := range c.More {
		lines, _ := wrap(clean(l), tableSize*p.em, false, room-p.indent(c), most)
		out = append(out, lines...)
	}
	return out, looking
}

// lead is how far two lines of a cell are apart, in sizes; pad the air over and
// under them, in ems.
func (p *tablePen) lead() float64 {
	if p.t.Tight {
		return 1.1
	}
	return tableLead
}

func (p *tablePen) pad() float64 {
	if p.t.Tight {
		return 0.25
	}
	return tablePad
}

func (p *tablePen) rowHigh(r *TableRow) float64 {
	most := 1
	for i, k := range p.shown {
		_, room := p.x(i)
		lines, _ := p.broken(&r.Cells[k], room)
		most = max(most, len(lines))
	}
	return (float64(most)*p.lead()*tableSize + 2*p.pad()) * p.em
}

func (p *tablePen) row(r *TableRow) {
	high, size := p.rowHigh(r), tableSize*p.em
	for i, k := range p.shown {
		c := &r.Cells[k]
		x, room := p.x(i)
		y := p.y + p.pad()*p.em + 0.9*size
		if c.Marked {
			p.p.mark(c.Mark, x, y-0.78*p.em, tableMark*p.em, 0.14*p.em, RoleOf(c.Mark))
		}
		lines, looking := p.broken(c, room)
		at := AtStart
		x += p.indent(c)
		if p.t.Columns[k].AtEnd {
			x, at = x-p.indent(c)+room, AtEnd
		}
		for n, l := range lines {
			base := y + float64(n)*p.lead()*size
			if n >= looking {
				p.p.write(Text{At: Point{x, base}, Str: l, Size: size, Role: Ink, Anchor: at})
				continue
			}
			p.p.write(Text{At: Point{x, base}, Str: l, Size: size, Bold: c.Look.bold(), Role: c.Look.role(), Anchor: at})
			if c.Look == UnderCell {
				p.under(x, base, TextWidth(l, size, true), at)
			}
		}
	}
	p.y += high
	p.p.line(p.em, p.y, p.w-p.em, p.y, hair, Rule)
}

// under draws a line under a text.
func (p *tablePen) under(x, base, wide float64, at Anchor) {
	if at == AtEnd {
		x -= wide
	}
	p.p.line(x, base+0.2*p.em, x+wide, base+0.2*p.em, thin, Ink)
}

// key says what the signs mean: under the last row of a picture, before the
// first of pages.
func (p *tablePen) key() {
	if len(p.t.Key) == 0 {
		return
	}
	size, side := 0.9*p.em, 0.8*p.em
	x := p.em
	p.y += 0.5 * p.em
	for i := range p.t.Key {
		k := &p.t.Key[i]
		sign := side
		if !k.Marked {
			sign = TextWidth(k.Sample, size, k.Look.bold())
		}
		w := sign + 0.5*p.em + TextWidth(k.Means, size, false)
		if x > p.em && x+w > p.w-p.em {
			x, p.y = p.em, p.y+1.6*p.em
		}
		base := p.y + 0.7*p.em + 0.36*size
		if k.Marked {
			p.p.mark(k.Mark, x, p.y+0.7*p.em-side/2, side, 0.13*p.em, RoleOf(k.Mark))
		} else {
			p.p.write(Text{At: Point{x, base}, Str: k.Sample, Size: size, Bold: k.Look.bold(), Role: k.Look.role()})
			if k.Look == UnderCell {
				p.under(x, base, sign, AtStart)
			}
		}
		p.p.write(Text{At: Point{x + sign + 0.5*p.em, base}, Str: fit(k.Means, size, false, p.w-p.em-x-sign-0.5*p.em), Size: size, Role: Ink})
		x += w + 1.8*p.em
	}
	p.y += 1.6 * p.em
}

// OnePage draws a table whose columns are all fixed on one page, in the first of
// the widths, in units, at which it has room there, each wider than the one
// before and so with smaller letters; else it is false.
func OnePage(t *Table, page Page, widths []float64) (out []*Drawing, one bool, err error) {
	for _, w := range widths {
		if out, err = DrawTable(t, w, page.Fit(w)); err != nil || len(out) == 1 {
			return out, err == nil, err
		}
	}
	return out, false, nil
}

// AtLeastAs makes a drawing as high as the shape of a page at its width, where it
// is lower.
func (d *Drawing) AtLeastAs(page Page) { d.end(math.Max(d.H, math.Ceil(page.Fit(d.W)))) }

// MarkKeys are the marks of judgements with their words, for a table's key.
func MarkKeys(of ...timeline.Judgement) (out []TableKey) {
	for _, j := range of {
		out = append(out, TableKey{Marked: true, Mark: j, Means: j.String()})
	}
	return out
}
