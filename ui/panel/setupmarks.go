package panel

import (
	"fyne.io/fyne/v2"

	"wakeline/ui/paint"
)

// Several setups of the list can be selected at once: with Ctrl one by one, with
// Shift from the chosen one on. What is done then is done with all of them.

// Selected are the places of the setups that are selected, in the order of the
// list: none where fewer than two are.
func (s *Setups) Selected() (places []int) {
	if len(s.marked) == 0 {
		return nil
	}
	for _, i := range s.Shown {
		if s.isMarked(i) {
			places = append(places, i)
		}
	}
	if len(places) < 2 {
		return nil
	}
	return places
}

func (s *Setups) isMarked(i int) bool {
	return i < s.model.Len() && s.marked[s.model.Document().Head(i).Name]
}

func (s *Setups) mark(i int, on bool) {
	if i < 0 || i >= s.model.Len() {
		return
	}
	if name := s.model.Document().Head(i).Name; on {
		if s.marked == nil {
			s.marked = map[string]bool{}
		}
		s.marked[name] = true
	} else {
		delete(s.marked, name)
	}
}

// Unmark selects none.
func (s *Setups) Unmark() {
	if len(s.marked) > 0 {
		s.marked = nil
		s.showMarks()
	}
}

// MarkAll selects all setups of the list.
func (s *Setups) MarkAll() {
	for _, i := range s.Shown {
		s.mark(i, true)
	}
	s.showMarks()
}

// toggle selects a setup beside those that are, the chosen one among them, or
// no longer.
func (s *Setups) toggle(i int) {
	if len(s.marked) == 0 {
		s.mark(s.model.Chosen(), true)
	}
	s.mark(i, !s.isMarked(i))
	s.showMarks()
}

// markTo selects the setups from the chosen one to that in a row, and no others.
func (s *Setups) markTo(row int) {
	at := s.Row()
	if at < 0 {
		at = row
	}
	s.marked = nil
	for _, i := range s.Shown[min(at, row) : max(at, row)+1] {
		s.mark(i, true)
	}
	s.markEnd = row
	s.showMarks()
}

// stretch moves the end of what Shift selects by n rows.
func (s *Setups) stretch(n int) {
	if len(s.Shown) == 0 {
		return
	}
	from := s.markEnd
	if len(s.marked) == 0 || from >= len(s.Shown) {
		from = max(s.Row(), 0)
	}
	to := min(max(from+n, 0), len(s.Shown)-1)
	s.markTo(to)
	s.List.ScrollTo(to)
}

// showMarks shows what is selected.
func (s *Setups) showMarks() {
	for _, r := range s.List.Rows {
		r.Refresh()
	}
	s.sayCount()
}

// take takes a click on row r with the keys that are held; it returns false
// where it is a plain one.
func (r *setupRow) take(keys fyne.KeyModifier) bool {
	s := r.s
	switch {
	case keys&paint.KeyCtrl != 0:
		s.toggle(r.At)
	case keys&paint.KeyShift != 0:
		for row, i := range s.Shown {
			if i == r.At {
				s.markTo(row)
			}
		}
	default:
		s.Unmark()
		return false
	}
	return true
}
