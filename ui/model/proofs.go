package model

import (
	"slices"

	"wakeline/storage"
	"wakeline/timeline"
)

// Proofs lists what was tried of setup i in the game, the oldest first.
func (d *Document) Proofs(i int) ([]storage.Proof, error) {
	return d.file.Proofs(d.heads[i].Name)
}

// Tried is the newest result of setup i that was tried in the game, empty
// where it was not. All are asked for at once, and kept until an edit.
func (d *Document) Tried(i int) string {
	if d.tried == nil {
		d.tried, _ = d.file.Tried() // none where the file can't be read: a row says so
	}
	return d.tried[d.heads[i].ID]
}

// Untested are the places of the setups without an in-game test since the last
// revision.
func (d *Document) Untested() (map[int]bool, error) {
	ids, err := d.file.Search(timeline.Term{Part: timeline.TestPart, Text: "none"})
	if err != nil {
		return nil, err
	}
	untested := make(map[int64]bool, len(ids))
	for _, id := range ids {
		untested[id] = true
	}
	out := make(map[int]bool, len(ids))
	for i := range d.heads {
		if untested[d.heads[i].ID] {
			out[i] = true
		}
	}
	return out, nil
}

// Prove notes that a setup was tried in the game, as one step.
func (d *Document) Prove(p storage.Proof) error {
	err := d.file.Edit("in-game test: "+p.Result, func(s *storage.Step) error { return s.AddProof(p) })
	d.AskReadOnly()
	if err != nil {
		return err
	}
	d.noteProof(p)
	return nil
}

// noteProof takes a result that was added into what is known, so that nothing
// of it is asked for anew.
func (d *Document) noteProof(p storage.Proof) {
	at := slices.IndexFunc(d.heads, func(h storage.Head) bool { return h.Name == p.Setup })
	switch {
	case at < 0:
		d.tried = nil
	case d.tried != nil:
		d.tried[d.heads[at].ID] = p.Result
	}
	d.Words.forgetTests()
	d.noteSteps()
}

// Prove notes that a setup was tried in the game, where the document keeps
// that.
func (m *Model) Prove(p storage.Proof) error {
	m.Commit()
	d, ok := m.doc.OnDisk()
	if !ok || !m.MayEdit() {
		return ErrHeld
	}
	err := d.Prove(p)
	m.Tell(ListChanged | StateChanged)
	return err
}

// ProofsKeptIn says where what was tried is kept, for a project in memory.
const ProofsKeptIn = "In-game tests are stored in a project file. File, Save as project file… makes one of this project."
