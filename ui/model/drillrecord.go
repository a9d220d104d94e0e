package model

import "wakeline/storage"

// DrillKeeper is a document that keeps the record of drills.
type DrillKeeper interface {
	KeepDrill(d storage.Drill) error
	Drills() ([]storage.Drill, error)
	DiscardPress(hand string) error // the last one
	ClearDrills(hand string) error
	DrillsLast() bool // they are there when the project is opened again
}

var (
	_ DrillKeeper = (*FileDocument)(nil)
	_ DrillKeeper = (*TextDocument)(nil)
)

// KeepDrill puts a drill into the file.
func (d *FileDocument) KeepDrill(record storage.Drill) error {
	return d.drilled(d.file.AddDrill(record))
}

// drilled notes that the record was changed, unless err kept it from that.
func (d *FileDocument) drilled(err error) error {
	d.AskReadOnly()
	if err == nil {
		d.note()
	}
	return err
}

// Drills reads the record off the file.
func (d *FileDocument) Drills() ([]storage.Drill, error) { return d.file.Drills() }

// DiscardPress implements drillKeeper.
func (d *FileDocument) DiscardPress(hand string) error { return d.drilled(d.file.DiscardPress(hand)) }

// ClearDrills implements drillKeeper.
func (d *FileDocument) ClearDrills(hand string) error { return d.drilled(d.file.ClearDrills(hand)) }

// DrillsLast implements drillKeeper.
func (d *FileDocument) DrillsLast() bool { return true }

// KeepDrill keeps a drill until the document is closed: a project text has no
// place for it.
func (d *TextDocument) KeepDrill(record storage.Drill) error {
	d.DrillsKept = append(d.DrillsKept, record)
	return nil
}

// Drills implements drillKeeper.
func (d *TextDocument) Drills() ([]storage.Drill, error) { return d.DrillsKept, nil }

// DiscardPress implements drillKeeper.
func (d *TextDocument) DiscardPress(hand string) error {
	d.DrillsKept = storage.WithoutLast(d.DrillsKept, hand)
	return nil
}

// ClearDrills implements drillKeeper.
func (d *TextDocument) ClearDrills(hand string) error {
	d.DrillsKept = storage.WithoutHand(d.DrillsKept, hand)
	return nil
}

// DrillsLast implements drillKeeper.
func (d *TextDocument) DrillsLast() bool { return false }
