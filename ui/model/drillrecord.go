package model

import (
	"wakeline/storage"
	"wakeline/timeline/exercise"
)

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

// KeepAnswer puts the result of a question into the file.
func (d *Document) KeepAnswer(r exercise.Record) error {
	return d.drilled(d.file.AddAnswer(storage.Answer{Date: r.Date, Student: r.Student, Setup: r.Setup, Kind: string(r.Kind), Right: r.Right, Tries: r.Tries, Hints: r.Hints, Points: r.Points}))
}

// Answers reads the results of all students off the file, the oldest first.
func (d *Document) Answers() (out []exercise.Record, err error) {
	got, err := d.file.Answers()
	for _, a := range got {
		out = append(out, exercise.Record{Date: a.Date, Student: a.Student, Setup: a.Setup, Kind: exercise.Kind(a.Kind), Right: a.Right, Tries: a.Tries, Hints: a.Hints, Points: a.Points})
	}
	return out, err
}

// ClearAnswers removes the results of a student.
func (d *Document) ClearAnswers(student string) error {
	return d.drilled(d.file.ClearAnswers(student))
}
