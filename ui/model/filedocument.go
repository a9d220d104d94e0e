package model

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"wakeline/storage"
	"wakeline/timeline"
)

var _ Document = (*FileDocument)(nil)

// FileDocument is a project file: each edit is on disk before the next, and
// undo goes back through the file's whole history. Setups stay on disk until
// they are asked for.
type FileDocument struct {
	file     *storage.File
	data     *timeline.Project
	heads    []storage.Head
	index    map[int64]int // place in heads, by row number
	kept     setupCache
	Words    knownWords
	tried    map[int64]string // newest results, by row number; nil: not asked for
	Latest   storage.Revision // the one that edits belong to
	readOnly string
	Seen     Stamp // of the file, when it was read or written last
	undo     storage.StepNote
	redo     storage.StepNote
}

// NewFileDocument returns a document of f, which it closes when it is closed.
func NewFileDocument(f *storage.File) (*FileDocument, error) {
	d := &FileDocument{file: f}
	if err := d.Reload(); err != nil {
		return nil, err
	}
	return d, nil
}

// Reload reads anew what the document holds in memory. On an error it holds
// what it held before.
func (d *FileDocument) Reload() error {
	seen, _ := StampOf(d.file.Path())
	data := d.file.Data()
	heads, err := d.file.Heads()
	if err != nil {
		return err
	}
	undo, redo, err := d.file.Next()
	if err != nil {
		return err
	}
	revisions, err := d.file.Revisions()
	if err != nil {
		return err
	}
	d.data, d.heads, d.undo, d.redo, d.Seen = data, heads, undo, redo, seen
	for _, r := range revisions {
		if r.Latest {
			d.Latest = r
		}
	}
	d.index = make(map[int64]int, len(heads))
	for i := range heads {
		d.index[heads[i].ID] = i
	}
	d.kept, d.tried = setupCache{}, nil
	d.Words.forget()
	d.AskReadOnly()
	return nil
}

// File is the project file itself. Who edits it must Reload.
func (d *FileDocument) File() *storage.File { return d.file }

// Path implements Document.
func (d *FileDocument) Path() string { return d.file.Path() }

// AskReadOnly asks the file anew whether it can be edited.
func (d *FileDocument) AskReadOnly() { d.readOnly = d.file.ReadOnly() }

// ReadOnly implements Document.
func (d *FileDocument) ReadOnly() string { return d.readOnly }

// Data implements Document.
func (d *FileDocument) Data() *timeline.Project { return d.data }

// Len implements Document.
func (d *FileDocument) Len() int { return len(d.heads) }

// Whole implements Document.
func (d *FileDocument) Whole() (*timeline.Project, error) { return d.file.Project() }

// Close implements Document.
func (d *FileDocument) Close() error { return d.file.Close() }

// Setup implements Document.
func (d *FileDocument) Setup(i int) (timeline.Setup, error) {
	id := d.heads[i].ID
	if s, ok := d.kept.get(id); ok {
		return s, nil
	}
	s, err := d.file.Setup(id)
	if err != nil {
		return timeline.Setup{Name: d.heads[i].Name, Attacker: d.heads[i].Attacker, Rival: d.heads[i].Rival}, err
	}
	d.kept.put(id, s)
	return s, nil
}

// Head implements Document.
func (d *FileDocument) Head(i int) Head {
	h := &d.heads[i]
	return Head{h.Name, h.Attacker, h.Rival}
}

// Tags implements Document.
func (d *FileDocument) Tags() ([]string, error) { return d.file.Tags() }

// Tagged implements Document.
func (d *FileDocument) Tagged(tag string) (out []int, err error) {
	found, err := d.file.Search("", tag)
	for _, id := range found {
		if i, ok := d.index[id]; ok {
			out = append(out, i)
		}
	}
	slices.Sort(out)
	return out, err
}

// Uses implements Document.
func (d *FileDocument) Uses(fighter, name string) (int, error) { return d.file.Uses(fighter, name) }

// Each implements Document.
func (d *FileDocument) Each() func(context.Context, func(*timeline.Setup) error) error {
	return func(ctx context.Context, do func(*timeline.Setup) error) error {
		return d.file.EachSetup(ctx, func(_ int, s *timeline.Setup) error { return do(s) })
	}
}

// Search implements Document: it looks into names, fighters, enders, notes
// and tags.
func (d *FileDocument) Search(words []string) ([]int, error) {
	hits := make([]uint8, len(d.heads)) // how many of the words each has
	if len(words) > 255 {
		words = words[:255]
	}
	for _, word := range words {
		found, err := d.having(word)
		if err != nil {
			return nil, err
		}
		for _, id := range found {
			if i, ok := d.index[id]; ok {
				hits[i]++
			}
		}
	}
	var out []int
	for i, n := range hits {
		if int(n) == len(words) {
			out = append(out, i)
		}
	}
	return out, nil
}

// Put implements Document.
func (d *FileDocument) Put(i int, what string, s timeline.Setup) error {
	h := &d.heads[i]
	err := d.file.Edit(what, func(step *storage.Step) error { return step.PutSetup(h.Name, &s) })
	d.AskReadOnly()
	if err != nil {
		return err
	}
	h.Name, h.Attacker, h.Rival = s.Name, s.Attacker, s.Rival
	d.kept.put(h.ID, s)
	d.note()
	return nil
}

// Apply implements Document.
func (d *FileDocument) Apply(what string, edits ...timeline.Edit) error {
	err := d.file.Edit(what, func(step *storage.Step) error {
		for _, e := range edits {
			if err := stepOf(step, e); err != nil {
				return err
			}
		}
		return nil
	})
	d.AskReadOnly()
	if err != nil {
		return err
	}
	return d.Reload()
}

// stepOf does one edit in a step.
func stepOf(s *storage.Step, e timeline.Edit) error {
	switch e := e.(type) {
	case timeline.RulesetEdit:
		return s.SetRuleset(e.Ruleset)
	case timeline.FighterEdit:
		if e.Fighter == nil {
			return s.RemoveFighter(e.Before)
		}
		return s.PutFighter(e.Before, e.Fighter)
	case timeline.MoveEdit:
		if e.Move == nil {
			return s.RemoveMove(e.Owner, e.Before)
		}
		return s.PutMove(e.Owner, e.Before, e.Move)
	case timeline.JumpEdit:
		if e.Jump == nil {
			return s.RemoveJump(e.Owner, e.Before)
		}
		return s.PutJump(e.Owner, e.Before, e.Jump)
	case timeline.RiseEdit:
		if e.Rise == nil {
			return s.RemoveRise(e.Owner, e.Before)
		}
		return s.PutRise(e.Owner, e.Before, *e.Rise)
	case timeline.SetupEdit:
		if e.Setup == nil {
			return s.RemoveSetup(e.Before)
		}
		return s.PutSetup(e.Before, e.Setup)
	}
	return fmt.Errorf("no step is known for %T", e)
}

// note asks the file what undo and redo would do; where it can't say, they
// are still there to be tried.
func (d *FileDocument) note() {
	d.Words.forget()
	undo, redo, err := d.file.Next()
	if err != nil {
		undo, redo = storage.StepNote{EditNote: storage.EditNote{What: "the last step"}}, storage.StepNote{}
	}
	d.undo, d.redo = undo, redo
	d.Seen, _ = StampOf(d.file.Path())
}

// Undo implements Document.
func (d *FileDocument) Undo() (Touched, error) { return d.travel(d.file.Undo, d.undo) }

// Redo implements Document.
func (d *FileDocument) Redo() (Touched, error) { return d.travel(d.file.Redo, d.redo) }

func (d *FileDocument) travel(do func() (string, error), step storage.StepNote) (Touched, error) {
	_, err := do()
	d.AskReadOnly()
	if errors.Is(err, storage.ErrNoStep) {
		return Touched{At: -1}, nil
	}
	if err != nil {
		return Touched{At: -1}, err
	}
	if i, ok := d.index[step.Setup]; ok {
		d.kept.drop(step.Setup)
		if s, err := d.Setup(i); err == nil {
			d.heads[i] = storage.Head{ID: step.Setup, Name: s.Name, Attacker: s.Attacker, Rival: s.Rival}
			d.note()
			return Touched{At: i}, nil
		}
	}
	if err := d.Reload(); err != nil {
		return Touched{At: -1}, fmt.Errorf("the step was taken, but what came of it can't be read: %w", err)
	}
	return Touched{At: -1, All: true}, nil
}

// Next implements Document.
func (d *FileDocument) Next() (undo, redo NextStep) {
	if d.readOnly != "" {
		return noStep, noStep
	}
	of := func(n storage.StepNote) NextStep {
		at, ok := d.index[n.Setup]
		if !ok {
			at = -1
		}
		return NextStep{n.What, at, n.Name}
	}
	return of(d.undo), of(d.redo)
}

// TakeOver makes a read-only file editable, where it can be now.
func (d *FileDocument) TakeOver() error {
	err := d.file.TakeOver()
	d.AskReadOnly()
	if err != nil {
		return err
	}
	return d.Reload()
}
