package table

import (
	"slices"
	"strings"

	"wakeline/storage/book"
)

// block is a sheet in one form: a heading a column, and a row for each move or
// route.
type block struct {
	at       Place // of the headings
	headings []heading
	columns  []string // what they stand for; empty: left out
	order    []int    // the place of each column of ours, in the order of a written table; -1: there is none
	rows     []line
	notes    []Note
	bad      []RowError // of headings
	named    int        // how many columns the headings name
	strict   bool       // a row must have as many cells as there are headings
}

// line is one row of a block.
type line struct {
	at    Place
	cells []string
	where []Place // of each cell; nil: in src
	src   *book.Row
	owner string // the fighter that a row before it names
	end   int64
}

// cellAt is where a cell of the row stands.
func (l *line) cellAt(i int) (line, column int) {
	if l.where != nil {
		return l.where[i].Line, l.where[i].Column
	}
	return l.src.At(i), i + 1
}

// lookedAt is how many rows are looked at for the headings.
const lookedAt = 40

// header is where the headings of a sheet are found.
type header struct {
	first, rows int // the row, and whether a second belongs to it
	texts       []string
	named       int // how many columns they name
}

// find looks for the row of headings: the one that names the most columns, two
// at least. Where a second row below it names more together with it, as under a
// heading over several columns, both are taken. Where no row names two, the
// first of several cells is taken, or else the first.
func (sh *shape) find(rows []book.Row, renamed map[string]string) (best header) {
	fallback := -1
	for i := 0; i < min(len(rows), lookedAt); i++ {
		filled := rows[i].Filled()
		if filled == 0 {
			continue
		}
		if fallback < 0 || filled > 1 && rows[fallback].Filled() == 1 {
			fallback = i
		}
		one := header{i, 1, bare(rows[i].Cells), 0}
		one.named = sh.count(one.texts, renamed)
		if one.named > max(best.named, 1) {
			best = one
		}
		if i+1 < len(rows) && rows[i].Filled() > 1 {
			two := header{i, 2, sh.joined(rows[i].Cells, rows[i+1].Cells, renamed), 0}
			two.named = sh.count(two.texts, renamed)
			if two.named > max(best.named, 1) && two.named > sh.count(bare(rows[i+1].Cells), renamed) {
				best = two
			}
		}
	}
	if best.named == 0 && fallback >= 0 {
		best = header{fallback, 1, bare(rows[fallback].Cells), sh.count(bare(rows[fallback].Cells), renamed)}
	}
	return best
}

// count is how many columns the headings name.
func (sh *shape) count(texts []string, renamed map[string]string) int {
	var seen []string
	for _, text := range texts {
		if name, known, _ := sh.column(text, renamed); known && text != "" && (name == "" || !slices.Contains(seen, name)) {
			seen = append(seen, name)
		}
	}
	return len(seen)
}

// joined puts the headings over several columns before those below them, where
// that names a column, or where the one below says nothing by itself.
func (sh *shape) joined(over, under []string, renamed map[string]string) []string {
	out := make([]string, max(len(over), len(under)))
	group := ""
	at := func(row []string, i int) string {
		if i < len(row) {
			return strings.TrimSpace(row[i])
		}
		return ""
	}
	for i := range out {
		if own := at(over, i); own != "" {
			group = own
		}
		own, below := at(over, i), at(under, i)
		both := strings.TrimSpace(group + " " + below)
		_, knownBoth, _ := sh.column(both, renamed)
		_, knownBelow, _ := sh.column(below, renamed)
		switch {
		case below == "":
			out[i] = own
		case knownBoth || !knownBelow:
			out[i] = both
		default:
			out[i] = below
		}
	}
	return out
}

// bare takes the spaces around each cell off.
func bare(cells []string) []string {
	out := make([]string, len(cells))
	for i := range cells {
		out[i] = strings.Clone(strings.TrimSpace(cells[i]))
	}
	return out
}

// layOut brings a sheet into one form. It is nil where the sheet is empty.
func (sh *shape) layOut(s *book.Sheet, o *common, renamed map[string]string) *block {
	rows := s.Rows
	b := &block{strict: s.Strict}
	h := sh.find(rows, renamed)
	if h.texts == nil {
		return nil
	}
	long := sh.isLong(h.texts, renamed)
	if h.named < 3 && long == nil {
		if b := sh.layTurned(s, h.named, renamed); b != nil {
			return b
		}
	}
	b.at = Place{Sheet: s.Name, Line: rows[h.first].Line}
	for i, text := range h.texts {
		where := Place{Sheet: s.Name, Line: rows[h.first].At(i), Column: i + 1}
		b.headings = append(b.headings, newHeading(where, text))
	}
	owner := ""
	for i := range rows[:h.first] {
		row := &rows[i]
		if row.Filled() == 0 || isRule(row) {
			continue
		}
		text, _ := lone(row)
		at := Place{Sheet: s.Name, Line: row.Line}
		if text != "" && i == h.first-1 && o.Fighter == "" && !sh.names1(h.texts, renamed, fighterColumn) && isName(text) {
			owner = text
			b.notes = append(b.notes, Note{at, text, "the fighter of the rows below", "it stands alone above the headings"})
			continue
		}
		b.notes = append(b.notes, Note{at, short(row), "", "it stands before the headings"})
	}
	sh.layRows(b, s, rows[h.first+h.rows:], h, owner, o, renamed)
	if b.named = h.named; long != nil {
		b = layLong(b, long)
		b.named = 3
	}
	b.nameColumns(sh, renamed)
	return b
}

// names1 reports whether one of the headings stands for the column.
func (sh *shape) names1(texts []string, renamed map[string]string, column string) bool {
	return slices.ContainsFunc(texts, func(text string) bool {
		name, _, _ := sh.column(text, renamed)
		return name == column
	})
}

// layRows puts in the rows under the headings, each with the fighter that a row
// before it names.
func (sh *shape) layRows(b *block, s *book.Sheet, rows []book.Row, h header, owner string, o *common, renamed map[string]string) {
	sections := o.Fighter == "" && !sh.names1(h.texts, renamed, fighterColumn)
	for i := range rows {
		row := &rows[i]
		at := Place{Sheet: s.Name, Line: row.Line}
		if row.Filled() == 0 || isRule(row) {
			continue
		}
		if sameTexts(row.Cells, h.texts) {
			b.notes = append(b.notes, Note{at, short(row), "", "the headings once more"})
			continue
		}
		if text, first := lone(row); text != "" {
			switch {
			case isRemark(text):
				b.notes = append(b.notes, Note{at, text, "", "a remark"})
				continue
			case isGroup(text):
				b.notes = append(b.notes, Note{at, text, "", "it names a group of rows"})
				continue
			case sections && first && len(h.texts) > 1:
				owner = text
				b.notes = append(b.notes, Note{at, text, "the fighter of the rows below", "it stands alone in its row"})
				continue
			}
		}
		b.rows = append(b.rows, line{at: at, cells: row.Cells, src: row, owner: owner, end: row.End})
	}
}

// sameTexts reports whether a row says the headings once more.
func sameTexts(cells, texts []string) bool {
	return slices.EqualFunc(cells, texts, func(a, b string) bool { return strings.TrimSpace(a) == b })
}

// short is the first cells of a row that hold something.
func short(row *book.Row) string {
	var parts []string
	for _, cell := range row.Cells {
		if cell = strings.TrimSpace(cell); cell != "" && len(parts) < 4 {
			parts = append(parts, cell)
		}
	}
	return strings.Join(parts, ", ")
}

// lone is the only cell of a row that holds something, and whether it is the
// row's first; empty where there are more.
func lone(row *book.Row) (text string, first bool) {
	for i, cell := range row.Cells {
		cell = strings.TrimSpace(cell)
		switch {
		case cell == "":
		case text != "":
			return "", false
		default:
			text, first = strings.Clone(cell), i == 0
		}
	}
	return text, first
}
