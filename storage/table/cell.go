package table

import (
	"fmt"
	"strings"

	"wakeline/timeline"
)

// Single cells, for others that edit moves as rows: the same grammar as a
// table's.

// MoveColumns returns the names of a move's columns, those of a table but the
// fighter, in the order of Cells.
func MoveColumns() []string { return Columns()[1:] }

// CellError is a cell that breaks a rule, by itself or with the others of its
// row.
type CellError struct {
	Column    string // its name
	Want, Got string // Got is "nothing" for an empty cell
}

// Error says where, what was expected, and what stands there.
func (e *CellError) Error() string {
	return fmt.Sprintf("%s: expected %s, got %s", e.Column, e.Want, e.Got)
}

// Cell writes one cell of a move, by its place in MoveColumns; it is empty for
// a default.
func Cell(m *timeline.Move, column int) string { return columns[1+column].field.Cell(m) }

// Cells writes all cells of a move.
func Cells(m *timeline.Move) []string {
	out := make([]string, len(columns)-1)
	for i := range out {
		out[i] = Cell(m, i)
	}
	return out
}

// CheckCell reads one cell by itself, by its place in MoveColumns, and returns
// a *CellError where it is not written as its column wants. An empty cell is a
// default.
func CheckCell(column int, cell string) error {
	if err := columns[1+column].take(newDraft(), cell); err != nil {
		return err
	}
	return nil
}

// ReadCells makes a move of its cells, in the order of MoveColumns. It asks of
// it what Read asks of a row; the error is a *CellError.
func ReadCells(cells []string, rules timeline.Ruleset) (timeline.Move, error) {
	d := newDraft()
	for i, cell := range cells {
		if err := columns[1+i].take(d, cell); err != nil {
			return timeline.Move{}, err
		}
	}
	if err := d.finish(rules); err != nil {
		return timeline.Move{}, err
	}
	return d.Move, nil
}

// ReadWhole reads a whole number as cells of every column of numbers do.
func ReadWhole(cell string) (n int, ok bool) { return timeline.ParseWhole(strings.TrimSpace(cell)) }

// ReadFlag reads yes or no as cells do: also true or false, 1 or 0.
func ReadFlag(cell string) (value, ok bool) { return timeline.ParseFlag(strings.TrimSpace(cell)) }
