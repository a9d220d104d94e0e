package table

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"wakeline/timeline"
)

// Write writes the moves of one fighter as a table that Read takes back to
// equal moves: every column in the order of Columns, CRLF after each row,
// quotes where RFC 4180 needs them, an empty cell for a default. Names are
// written as they are, also where a spreadsheet would take them for a formula.
// The moves must keep the rules of timeline.CheckMove. What Read would refuse
// for its length or its letters is an error, and nothing is written.
func Write(w io.Writer, fighter string, moves []timeline.Move) error {
	return write(w, "moves", fighter, Columns(), len(moves), func(i, k int) string {
		if columns[k].field == nil {
			return fighter
		}
		return columns[k].field.Cell(&moves[i])
	})
}

// write writes a table of n moves, or of n routes, of one fighter.
func write(w io.Writer, what, fighter string, heads []string, n int, cell func(i, k int) string) error {
	if n > MaxRows {
		return fmt.Errorf("expected at most %d %s, got %d", MaxRows, what, n)
	}
	if strings.TrimSpace(fighter) == "" {
		return fmt.Errorf("expected the name of a fighter, got %s", quote(fighter))
	}
	var out bytes.Buffer
	rows := newRows(&out)
	if err := rows.write(heads); err != nil {
		return err
	}
	record := make([]string, len(heads))
	for i := range n {
		for k := range record {
			record[k] = cell(i, k)
			if err := writable(record[k]); err != nil {
				return fmt.Errorf("%s[%d], %s: %w", what, i, heads[k], err)
			}
		}
		if err := rows.write(record); err != nil {
			return err
		}
		if out.Len() > MaxSize {
			return fmt.Errorf("expected at most %d MiB of table, got more", MaxSize>>20)
		}
	}
	_, err := w.Write(out.Bytes())
	return err
}

// rows writes records as RFC 4180 has them, CRLF after each. The csv writer's
// own CRLF would change the line breaks inside names too, so each row ends
// with LF first.
type rows struct {
	out *bytes.Buffer
	csv *csv.Writer
}

func newRows(out *bytes.Buffer) rows { return rows{out, csv.NewWriter(out)} }

func (r rows) write(record []string) error {
	if err := r.csv.Write(record); err != nil {
		return err
	}
	r.csv.Flush()
	r.out.Truncate(r.out.Len() - 1)
	r.out.WriteString("\r\n")
	return nil
}

func writable(cell string) error {
	switch {
	case len(cell) > MaxField:
		return fmt.Errorf("expected at most %d KiB in a field, got %d bytes", MaxField>>10, len(cell))
	case !utf8.ValidString(cell):
		return fmt.Errorf("expected text in UTF-8, got %s", quote(cell))
	case strings.ContainsRune(cell, 0):
		return fmt.Errorf("expected text, got a NUL in %s", quote(cell))
	}
	return nil
}
