package table

import (
	"errors"

	"wakeline/timeline"
)

// draft is a move while its row is read.
type draft struct {
	timeline.Move
	fighter string
	given   map[string]bool // the columns with something in them
}

func newDraft() *draft { return &draft{given: map[string]bool{}} }

// finish makes a whole move of the cells read, as the project text's reader
// does, and asks it to keep timeline's rules.
func (d *draft) finish(rules timeline.Ruleset) *CellError {
	var broken *timeline.FieldError
	if errors.As(timeline.FinishMove(&d.Move, d.given, rules), &broken) {
		return &CellError{timeline.ColumnAt(timeline.MoveFields, broken.Path), broken.Want, broken.Got}
	}
	return nil
}
