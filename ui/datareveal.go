package ui

import (
	"wakeline/ui/grid"
	"wakeline/ui/model"
)

// reveal shows a row of the move data: another table or fighter where it is not
// on screen, and else nothing, so that the cursor stays.
func (d *dataPage) reveal(t model.DataPlace) {
	if d.kind != t.Kind || dataKinds[t.Kind].owned && d.fighter != t.Fighter {
		if t.Fighter != "" {
			d.fighter = t.Fighter
		}
		d.kind = t.Kind
		d.tabs.Show(t.Kind)
		d.turned()
	} else if d.rows == nil || d.inView(d.viewNamed(t.Name)) {
		return
	}
	if t.Kind == model.RulesetTable {
		return
	}
	if view := d.viewNamed(t.Name); view >= 0 {
		d.grid.Place(grid.Place{Row: view, Col: max(d.grid.At().Col, 0)})
	}
}

// inView reports whether a row of the table is on screen.
func (d *dataPage) inView(view int) bool {
	at, size, _ := d.grid.Rect(grid.Place{Row: view, Col: grid.LabelColumn})
	return view < 0 || at.Y >= grid.HeadHeight && at.Y+size.Height <= d.grid.Size().Height
}
