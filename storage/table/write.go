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
	if len(moves) > MaxRows {
		return fmt.Errorf("expected at most %d moves, got %d", MaxRows, len(moves))
	}
	if strings.TrimSpace(fighter) == "" {
		return fmt.Errorf("expected the name of a fighter, got %s", quote(fighter))
	}
	var out bytes.Buffer
	rows := newRows(&out)
	row := func(record []string) error {
		if err := rows.write(record); err != nil {
			return err
		}
		if out.Len() > MaxSize {
			return fmt.Errorf("expected at most %d MiB of table, got more", MaxSize>>20)
		}
		return nil
	}
	if err := row(Columns()); err != nil {
		return err
	}
	record := make([]string, len(columns))
	for i := range moves {
		for j, c := range columns {
			if c.field == nil {
				record[j] = fighter
			} else {
				record[j] = c.field.Cell(&moves[i])
			}
			if err := writable(record[j]); err != nil {
				return fmt.Errorf("moves[%d], %s: %w", i, c.name, err)
			}
		}
		if err := row(record); err != nil {
			return err
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
