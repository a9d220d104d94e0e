package table

import (
	"fmt"
	"slices"
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

// FilledIn is the cells with something fitting in place of what a row of its
// kind still lacks, so that one of them can be read alone.
func FilledIn(cells []string) []string {
	out := slices.Clone(cells)
	lacks := func(i int) bool { return strings.TrimSpace(cells[i]) == "" }
	at := map[string]int{}
	var m timeline.Move
	for i := range out {
		f := columns[1+i].field
		if at[f.Column] = i; lacks(i) && (f.Needed(&m) || f.Need == nil && !f.IsPart() && f.Fits != nil && f.Fits(&m)) {
			out[i] = f.StandIn
		}
		if out[i] != "" {
			f.SetText(&m, strings.TrimSpace(out[i]))
		}
	}
	for i := range timeline.MoveFields {
		if pair := &timeline.MoveFields[i]; pair.Both {
			for k := range pair.Parts {
				part, other := &pair.Parts[k], &pair.Parts[1-k]
				if lacks(at[part.Column]) && !lacks(at[other.Column]) {
					out[at[part.Column]] = part.StandIn
				}
			}
		}
	}
	return out
}
