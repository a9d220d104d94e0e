package table

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"wakeline/timeline"
)

// Options say how a table is read. The zero value takes our own headings, a
// fighter from each row, and the default ruleset.
type Options struct {
	Fighter string            // whose moves they are where the row doesn't say
	Map     map[string]string // their heading -> our column, "" to leave the field out; capitals are one with small letters
	SkipBad bool              // leave bad rows out
	Rules   timeline.Ruleset  // what the moves are checked by; the zero value: timeline.DefaultRuleset
	Each    func(Seen) error  // told of each row as it is read; nil: nobody. Its error ends Read with that error and no table
}

// Seen is a row while its table is read.
type Seen struct {
	Line   int           // of the file, from 1, where the row begins
	Record []string      // as the file has it; good until Each returns
	Move   timeline.Move // where Bad is nil
	Owner  string        // whose move it is
	Bad    *RowError
	Done   int64 // bytes of the table that were read
	Of     int64 // bytes of the whole table
}

// Row is one move of a table.
type Row struct {
	Line    int // of the file, from 1, where the row begins
	Fighter string
	Move    timeline.Move
}

// Table is what was read of a file.
type Table struct {
	Rows []Row      // in the file's order
	Bad  []RowError // one a bad row, in the file's order
}

// Read reads a table. With a bad row it takes nothing: the error is the first
// *RowError, and the table lists all of them and no rows. With SkipBad it
// returns the good rows, lists the bad ones, and there is no error. Bad
// headings are listed likewise, but never skipped. What is no CSV, or past a
// limit, is a *SyntaxError or another error and no table. Rows with nothing
// in any field are passed over; a header alone is a table without rows.
//
// Read checks each move by itself, and that no fighter has two moves of one
// name here; what else a project holds is left to its own check.
func Read(r io.Reader, o Options) (*Table, error) {
	if o.Rules.Equal(timeline.Ruleset{}) {
		o.Rules = timeline.DefaultRuleset()
	}
	s, err := open(r)
	if err != nil {
		return nil, err
	}
	h, bad, err := readHeader(s, o)
	if err != nil {
		return nil, err
	}
	if len(bad) > 0 {
		return &Table{Bad: bad}, &bad[0]
	}
	t := &Table{}
	seen := map[[2]string]int{} // the line of a fighter's move
	for n := 0; ; n++ {
		record, err := s.next()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, err
		}
		if n == MaxRows {
			return nil, &SyntaxError{Line: s.at(0), Character: 1, Want: fmt.Sprintf("at most %d rows", MaxRows), Got: "more"}
		}
		if blank(record) {
			continue
		}
		row, broken := h.row(s, record, o, seen)
		if o.Each != nil {
			if err := o.Each(Seen{row.Line, record, row.Move, row.Fighter, broken, s.csv.InputOffset(), s.size}); err != nil {
				return nil, err
			}
		}
		if broken != nil {
			t.Bad = append(t.Bad, *broken)
			continue
		}
		seen[[2]string{row.Fighter, row.Move.Name}] = row.Line
		t.Rows = append(t.Rows, row)
	}
	if len(t.Bad) > 0 && !o.SkipBad {
		t.Rows = nil
		return t, &t.Bad[0]
	}
	return t, nil
}

// row reads one record. seen holds the moves before it.
func (h *header) row(s *source, record []string, o Options, seen map[[2]string]int) (Row, *RowError) {
	row := Row{Line: s.at(0)}
	if len(record) != len(h.headings) {
		want := fmt.Sprintf("%d fields, as in the header", len(h.headings))
		first := min(len(record), len(h.headings)) // the first that is missing, or too many
		broken := &RowError{Line: row.Line, Column: first + 1, Want: want, Got: fmt.Sprint(len(record))}
		if first < len(h.headings) {
			broken.Heading = cut(h.headings[first])
		} else {
			broken.Line = s.at(first)
		}
		return row, broken
	}
	clear(h.given)
	d := &draft{given: h.given}
	for i, c := range h.columns {
		fail := func(want, got string) *RowError {
			return &RowError{Line: s.at(i), Column: i + 1, Heading: cut(h.headings[i]), Want: want, Got: got}
		}
		cell := record[i]
		if len(cell) > MaxField {
			return row, fail(fmt.Sprintf("at most %d KiB in a field", MaxField>>10), fmt.Sprintf("%d bytes", len(cell)))
		}
		if c == nil {
			continue
		}
		if err := c.take(d, cell); err != nil {
			return row, fail(err.Want, err.Got)
		}
	}
	row.Fighter = d.fighter
	if strings.TrimSpace(row.Fighter) == "" {
		row.Fighter = o.Fighter
	}
	f := d.finish(o.Rules)
	if f == nil && strings.TrimSpace(row.Fighter) == "" {
		f = &CellError{fighterColumn, "the name of a fighter", "nothing"}
	}
	if broken := (*timeline.FieldError)(nil); f == nil && errors.As(timeline.CheckName(nil, row.Fighter), &broken) {
		f = &CellError{fighterColumn, broken.Want, broken.Got}
	}
	if line, ok := seen[[2]string{row.Fighter, d.Name}]; ok && f == nil {
		f = &CellError{columns[1].name, "a unique name", fmt.Sprintf("%s again, as on line %d", quote(d.Name), line)}
	}
	if f == nil {
		row.Move = d.Move
		return row, nil
	}
	broken := &RowError{Line: row.Line, Heading: f.Column, Want: f.Want, Got: f.Got}
	if i, ok := h.fields[f.Column]; ok {
		broken.Line, broken.Column, broken.Heading = s.at(i), i+1, cut(h.headings[i])
	}
	return row, broken
}

// blank reports whether no field of the record holds anything.
func blank(record []string) bool {
	for _, cell := range record {
		if strings.TrimSpace(cell) != "" {
			return false
		}
	}
	return true
}
