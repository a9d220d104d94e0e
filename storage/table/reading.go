package table

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"wakeline/storage/book"
	"wakeline/timeline"
)

// common is what is asked of tables of both shapes.
type common struct {
	Fighter string            // whose rows they are where the row doesn't say
	Map     map[string]string // their heading -> our column, "" to leave the field out; capitals are one with small letters
	SkipBad bool              // leave bad rows out
}

// reading is a table while it is read, of moves or of routes.
type reading struct {
	sh    *shape
	o     common
	bad   []RowError
	rows  int // bad ones
	notes []Note
	size  int64
}

// record is one row while it is read.
type record struct {
	*reading
	block *block
	line  *line
	owner string
	bad   []RowError
	notes []Note
}

// readBook reads all rows of a file. row is told of each, and whether it has the
// cells that it should; it says what is wrong with it by the record.
func (x *reading) readBook(r io.Reader, row func(r *record, fits bool) error) error {
	b, err := book.Read(r)
	if err != nil {
		return err
	}
	renamed, err := foldMap(x.o.Map)
	if err != nil {
		return err
	}
	x.size = b.Size
	blocks := x.sh.layAll(b, &x.o, renamed)
	if len(blocks) == 0 {
		return noHeader
	}
	rows := 0
	for _, k := range blocks {
		x.notes = append(x.notes, k.notes...)
		x.checkHeader(k, len(blocks) > 1)
		for i := range k.rows {
			if rows++; rows > MaxRows {
				return &SyntaxError{Line: k.rows[i].at.Line, Character: 1, Want: fmt.Sprintf("at most %d rows", MaxRows), Got: "more"}
			}
		}
	}
	if len(x.bad) > 0 {
		return nil
	}
	for _, k := range blocks {
		owner := ""
		for i := range k.rows {
			r := &record{reading: x, block: k, line: &k.rows[i]}
			r.whose(owner, len(blocks) > 1)
			if err := row(r, r.fits()); err != nil {
				return err
			}
			owner = r.owner
			if x.notes = append(x.notes, r.notes...); len(r.bad) > 0 {
				x.bad, x.rows = append(x.bad, r.bad...), x.rows+1
			}
		}
	}
	return nil
}

// checkHeader asks for the columns that must be there.
func (x *reading) checkHeader(k *block, sheets bool) {
	if len(k.bad) > 0 {
		x.bad = append(x.bad, k.bad...)
		return
	}
	has := func(name string) bool { return slices.Contains(k.columns, name) }
	for _, name := range x.sh.missing(has) {
		x.bad = append(x.bad, RowError{Place{k.at.Sheet, k.at.Line, 0, name, name}, "a column of that name", "none"})
	}
	owned := len(k.rows) > 0 && k.rows[0].owner != ""
	if !has(fighterColumn) && strings.TrimSpace(x.o.Fighter) == "" && !owned && !sheets {
		x.bad = append(x.bad, RowError{Place{k.at.Sheet, k.at.Line, 0, fighterColumn, fighterColumn}, "a column of that name, or a fighter to give the " + x.sh.of + " to", "neither"})
	}
}

// whose finds the fighter of the row: its own cell says, or the rows before it,
// or the reader's caller, or the sheet's name.
func (r *record) whose(before string, sheets bool) {
	if i := slices.Index(r.block.columns, fighterColumn); i >= 0 && i < len(r.line.cells) {
		r.owner = strings.Clone(r.line.cells[i])
	}
	switch {
	case strings.TrimSpace(r.owner) != "":
	case r.line.owner != "":
		r.owner = r.line.owner
	case strings.TrimSpace(r.o.Fighter) != "":
		r.owner = r.o.Fighter
	case before != "" && slices.Contains(r.block.columns, fighterColumn):
		r.owner = before
		r.notes = append(r.notes, Note{r.place(fighterColumn), "", before, "the cell is empty: the fighter of the row above"})
	case sheets:
		if r.owner = r.block.at.Sheet; r.line == &r.block.rows[0] {
			r.notes = append(r.notes, Note{Place{Sheet: r.owner, Line: r.block.at.Line}, r.owner, "the fighter of its rows", "the sheet's name, as no row names one"})
		}
	}
}

// fits asks that the row has the cells that the headings want, within the limits.
func (r *record) fits() bool {
	cells, heads := r.line.cells, r.block.headings
	n := len(cells)
	if !r.block.strict {
		for n > len(heads) && strings.TrimSpace(cells[n-1]) == "" {
			n--
		}
	}
	if n > len(heads) || r.block.strict && n < len(heads) {
		at := r.line.at
		first := min(n, len(heads)) // the first that is missing, or too many
		at.Column = first + 1
		if first < len(heads) {
			at.Heading, at.Field = heads[first].Heading, r.block.columns[first]
		} else {
			at.Line, _ = r.line.cellAt(first)
		}
		r.bad = append(r.bad, RowError{at, fmt.Sprintf("%d fields, as in the header", len(heads)), fmt.Sprint(n)})
		return false
	}
	for i, cell := range cells {
		if len(cell) > MaxField {
			r.failAt(i, fmt.Sprintf("at most %d KiB in a field", MaxField>>10), fmt.Sprintf("%d bytes", len(cell)))
			return false
		}
	}
	return true
}

// cell is what the row has in the column of ours of that number, and whether its
// table has the column at all.
func (r *record) cell(column int) (text string, there bool) {
	at := r.block.order[column]
	if at < 0 || at >= len(r.line.cells) {
		return "", at >= 0
	}
	return r.line.cells[at], true
}

// place is where the row's cell of that column of ours stands.
func (r *record) place(column string) Place {
	if i := slices.Index(r.block.columns, column); i >= 0 {
		return r.placeAt(i)
	}
	out := r.line.at.of(column)
	out.Heading = column
	return out
}

func (r *record) placeAt(i int) Place {
	out := r.line.at.of(r.block.columns[i])
	if out.Heading = r.block.headings[i].Heading; i < len(r.line.cells) {
		out.Line, out.Column = r.line.cellAt(i)
	} else {
		out.Column = r.block.headings[i].Column
	}
	return out
}

func (r *record) failAt(i int, want, got string) {
	r.bad = append(r.bad, RowError{r.placeAt(i), want, got})
}

// fail notes what is wrong in that column of ours, which the table may lack.
func (r *record) fail(column, want, got string) {
	r.bad = append(r.bad, RowError{r.place(column), want, got})
}

func (r *record) note(column, wrote, took, why string) {
	r.notes = append(r.notes, Note{r.place(column), wrote, took, why})
}

// foreign reads a cell in the writing of others. What it says for another column
// than its own goes to aside. ok is false where it isn't understood.
func (r *record) foreign(t *traits, cell string, rules timeline.Ruleset, first int, aside func(taken)) (text string, ok bool) {
	c := &foreign{t, cell, rules, first}
	got, ok := c.understand()
	if !ok {
		return "", false
	}
	for i := range got {
		took := got[i].text
		if got[i].to != "" && got[i].to != t.column {
			took = got[i].to + " " + took
			aside(got[i])
		} else {
			text = got[i].text
			if took == "" {
				took = "nothing"
			}
		}
		if got[i].why != "" {
			r.note(t.column, cell, took, got[i].why)
		}
	}
	return text, true
}

// unique asks that no row before has the name. seen holds those of a fighter.
func (r *record) unique(seen map[[2]string]int, name string) {
	if line, again := seen[[2]string{r.owner, name}]; again {
		r.fail(nameColumn, "a unique name", fmt.Sprintf("%s again, as on line %d", quote(name), line))
	} else if len(r.bad) == 0 {
		seen[[2]string{r.owner, name}] = r.line.at.Line
	}
}
