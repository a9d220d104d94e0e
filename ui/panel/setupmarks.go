package panel

import (
	"slices"

	"fyne.io/fyne/v2"

	"wakeline/ui/paint"
)

// SetupMarks are the setups of the list that are selected beside the chosen one:
// with Ctrl one by one, with Shift from the chosen one on. What is done then is
// done with all of them.
type SetupMarks struct {
	s     *Setups
	names map[string]bool // the chosen one's among them
	end   int             // the row where a selection by Shift ends
}

// Places are the places of the setups that are selected, in the order of the
// list: none where fewer than two are.
func (m *SetupMarks) Places() (places []int) {
	if len(m.names) == 0 {
		return nil
	}
	for _, i := range m.s.Shown {
		if m.has(i) {
			places = append(places, i)
		}
	}
	if len(places) < 2 {
		return nil
	}
	return places
}

func (m *SetupMarks) has(i int) bool {
	return i < m.s.model.Len() && m.names[m.s.model.Document().Head(i).Name]
}

func (m *SetupMarks) set(i int, on bool) {
	if i < 0 || i >= m.s.model.Len() {
		return
	}
	if name := m.s.model.Document().Head(i).Name; on {
		if m.names == nil {
			m.names = map[string]bool{}
		}
		m.names[name] = true
	} else {
		delete(m.names, name)
	}
}

// Clear selects none.
func (m *SetupMarks) Clear() {
	if len(m.names) > 0 {
		m.names = nil
		m.show()
	}
}

// All selects all setups of the list.
func (m *SetupMarks) All() {
	for _, i := range m.s.Shown {
		m.set(i, true)
	}
	m.show()
}

// toggle selects a setup beside those that are, the chosen one among them, or
// no longer.
func (m *SetupMarks) toggle(i int) {
	if len(m.names) == 0 {
		m.set(m.s.model.Chosen(), true)
	}
	m.set(i, !m.has(i))
	m.show()
}

// to selects the setups from the chosen one to that in a row, and no others.
func (m *SetupMarks) to(row int) {
	at := m.s.Row()
	if at < 0 {
		at = row
	}
	m.names = nil
	for _, i := range m.s.Shown[min(at, row) : max(at, row)+1] {
		m.set(i, true)
	}
	m.end = row
	m.show()
}

// stretch moves the end of what Shift selects by n rows.
func (m *SetupMarks) stretch(n int) {
	if len(m.s.Shown) == 0 {
		return
	}
	from := m.end
	if len(m.names) == 0 || from >= len(m.s.Shown) {
		from = max(m.s.Row(), 0)
	}
	to := min(max(from+n, 0), len(m.s.Shown)-1)
	m.to(to)
	m.s.List.ScrollTo(to)
}

// show shows what is selected.
func (m *SetupMarks) show() {
	for _, r := range m.s.List.Rows {
		r.Refresh()
	}
	m.s.sayCount()
}

// take takes a click on row r with the keys that are held; it returns false
// where it is a plain one.
func (r *setupRow) take(keys fyne.KeyModifier) bool {
	m := &r.s.Marks
	switch {
	case keys&paint.KeyCtrl != 0:
		m.toggle(r.At)
	case keys&paint.KeyShift != 0:
		if row := slices.Index(r.s.Shown, r.At); row >= 0 {
			m.to(row)
		}
	default:
		m.Clear()
		return false
	}
	return true
}
