package model

import "wakeline/storage"

// KeepDrill puts a drill into the file.
func (d *Document) KeepDrill(record storage.Drill) error {
	return d.drilled(d.file.AddDrill(record))
}

// drilled notes that the record was changed, unless err kept it from that.
func (d *Document) drilled(err error) error {
	d.AskReadOnly()
	if err == nil {
		d.note()
	}
	return err
}

// Drills reads the record off the file.
func (d *Document) Drills() ([]storage.Drill, error) { return d.file.Drills() }

// DiscardPress takes a hand's last press off the record.
func (d *Document) DiscardPress(hand string) error { return d.drilled(d.file.DiscardPress(hand)) }

// ClearDrills clears a hand's record.
func (d *Document) ClearDrills(hand string) error { return d.drilled(d.file.ClearDrills(hand)) }

// DrillsLast reports whether they are there when the project is opened again: a
// project text has no place for them.
func (d *Document) DrillsLast() bool { return !d.file.InMemory() }
