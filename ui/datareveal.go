package ui

// reveal shows a row of the move data: another table or fighter where it is not
// on screen, and else nothing, so that the cursor stays.
func (d *dataPage) reveal(t dataThing) {
	if d.kind != t.kind || dataKinds[t.kind].owned && d.fighter != t.fighter {
		if t.fighter != "" {
			d.fighter = t.fighter
		}
		d.kind = t.kind
		d.tabs.show(t.kind)
		d.turned()
	} else if d.rows == nil || d.inView(d.viewNamed(t.name)) {
		return
	}
	if t.kind == rulesetTable {
		return
	}
	if view := d.viewNamed(t.name); view >= 0 {
		d.grid.place(dataPlace{view, max(d.grid.cur.col, 0)})
	}
}

// inView reports whether a row of the table is on screen.
func (d *dataPage) inView(view int) bool {
	y := d.grid.top(view)
	return view < 0 || y >= dataHead && y+dataRow <= d.grid.Size().Height
}
