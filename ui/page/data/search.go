package data

import (
	"fmt"
	"strings"

	"wakeline/ui/grid"
	"wakeline/ui/paint"
)

// search finds cells by their text.
type search struct {
	*typing
	field *cellEntry
}

func newSearch(t *typing) *search {
	s := &search{t, newCellEntry()}
	s.field.SetPlaceHolder("Find in the table")
	s.field.OnChanged = paint.GuardedOf("The move data", s.lookFor)
	s.field.done = func(down, right int) {
		switch c := s.host.Canvas(); {
		case right > 0:
			c.FocusNext()
		case right < 0:
			c.FocusPrevious()
		default:
			s.next(down)
		}
	}
	s.field.undo = func() {
		s.field.SetText("")
		s.refocus()
	}
	return s
}

// lookFor marks the cells that hold text, and goes to the first of them from
// the cursor on.
func (s *search) lookFor(text string) {
	s.needle = strings.ToLower(strings.TrimSpace(text))
	if s.needle == "" || s.table == nil {
		s.Moved()
		s.grid.Refresh()
		return
	}
	s.step(0, 1)
}

// next goes to the next cell that holds what is looked for, or the one before.
func (s *search) next(by int) {
	if s.needle != "" && s.table != nil {
		s.step(by, by)
	}
}

// step goes to the first cell that holds what is looked for, from so many
// cells past the cursor on, in that direction and around the ends.
func (s *search) step(past, by int) {
	if !s.Leave() {
		return
	}
	wide := len(s.table.columns())
	n := s.Len() * wide
	from := s.grid.At().Row*wide + max(s.grid.At().Col, 0)
	for i := range n {
		at := ((from+past+i*by)%n + n) % n
		if strings.Contains(strings.ToLower(s.plain(at/wide, at%wide)), s.needle) {
			s.grid.Place(grid.Place{Row: at / wide, Col: at % wide})
			return
		}
	}
	s.grid.Refresh()
	s.foot.say(fmt.Sprintf("No cell of this table holds %q.", s.needle))
}
