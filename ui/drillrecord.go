package ui

import "wakeline/storage"

// drillKeeper is a document that keeps the record of drills.
type drillKeeper interface {
	KeepDrill(d storage.Drill) error
	Drilled() (late []float64, err error) // milliseconds, of every press
	DrillsLast() bool                     // they are there when the project is opened again
}

var (
	_ drillKeeper = (*FileDocument)(nil)
	_ drillKeeper = (*TextDocument)(nil)
)

// KeepDrill puts a drill into the file.
func (d *FileDocument) KeepDrill(record storage.Drill) error {
	err := d.file.AddDrill(record)
	d.readOnly = d.file.ReadOnly()
	if err == nil {
		d.note()
	}
	return err
}

// Drilled reads the drills' presses off the file.
func (d *FileDocument) Drilled() ([]float64, error) {
	drills, err := d.file.Drills()
	return storage.Late(drills, ""), err
}

// DrillsLast implements drillKeeper.
func (d *FileDocument) DrillsLast() bool { return true }

// KeepDrill keeps a drill until the document is closed: a project text has no
// place for it.
func (d *TextDocument) KeepDrill(record storage.Drill) error {
	d.drills = append(d.drills, record)
	return nil
}

// Drilled implements drillKeeper.
func (d *TextDocument) Drilled() ([]float64, error) { return storage.Late(d.drills, ""), nil }

// DrillsLast implements drillKeeper.
func (d *TextDocument) DrillsLast() bool { return false }
