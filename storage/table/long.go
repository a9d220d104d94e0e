package table

import (
	"slices"
	"strings"
)

// A long table has a row for each number: the move, what the number is, and the
// number.

var (
	longWhat  = []string{"field", "property", "attribute", "stat", "what", "parameter"}
	longValue = []string{"value", "number", "amount", "content"}
)

// long is where the columns of a long table stand.
type long struct {
	fighter, name, what, value int // fighter: -1 where there is none
}

// isLong is the columns of a long table, nil for another one.
func (sh *shape) isLong(texts []string, renamed map[string]string) *long {
	out := long{-1, -1, -1, -1}
	for i, text := range texts {
		if _, mapped := renamed[strings.ToLower(text)]; !mapped {
			switch key := letters(text); {
			case slices.Contains(longWhat, key):
				out.what = i
				continue
			case slices.Contains(longValue, key):
				out.value = i
				continue
			}
		}
		switch name, _, _ := sh.column(text, renamed); name {
		case fighterColumn:
			out.fighter = i
		case nameColumn:
			out.name = i
		}
	}
	if out.name < 0 || out.what < 0 || out.value < 0 {
		return nil
	}
	return &out
}

// layLong brings a long table into one form: a row for each move, in the order of
// their first rows, and a heading for each word of what the numbers are.
func layLong(b *block, at *long) *block {
	out := &block{at: b.at, notes: b.notes}
	cell := func(l *line, i int) string {
		if i < 0 || i >= len(l.cells) {
			return ""
		}
		return strings.TrimSpace(l.cells[i])
	}
	add := func(h heading) int {
		out.headings = append(out.headings, h)
		return len(out.headings) - 1
	}
	fighter := -1
	if at.fighter >= 0 {
		fighter = add(b.headings[at.fighter])
	}
	name := add(b.headings[at.name])
	heads := map[string]int{}    // by what a number is
	moves := map[[2]string]int{} // by fighter and name
	put := func(l *line, i int, text string, where Place) {
		for len(l.cells) <= i {
			l.cells, l.where = append(l.cells, ""), append(l.where, l.at)
		}
		l.cells[i], l.where[i] = text, where
	}
	for i := range b.rows {
		l := &b.rows[i]
		whose, called, what := cell(l, at.fighter), cell(l, at.name), cell(l, at.what)
		place := func(column int) Place {
			p := l.at
			if column < len(l.cells) {
				p.Line, p.Column = l.cellAt(column)
			}
			return p
		}
		key := strings.ToLower(what)
		head, ok := heads[key]
		if !ok {
			head = add(newHeading(place(at.what), what))
			heads[key] = head
		}
		of := [2]string{whose + "\n" + l.owner, called}
		k, ok := moves[of]
		if !ok {
			k = len(out.rows)
			moves[of] = k
			out.rows = append(out.rows, line{at: l.at, src: l.src, owner: l.owner})
			if fighter >= 0 {
				put(&out.rows[k], fighter, whose, place(at.fighter))
			}
			put(&out.rows[k], name, called, place(at.name))
		}
		to := &out.rows[k]
		to.end = l.end
		if head < len(to.cells) && to.cells[head] != "" {
			out.bad = append(out.bad, RowError{place(at.what), "each number of a move once", quote(what) + " again"})
			continue
		}
		put(to, head, cell(l, at.value), place(at.value))
	}
	return out
}
