package model

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"wakeline/storage"
	"wakeline/timeline"
)

// Document is an open project: it hands out what is shown and keeps what was
// edited. Setups are named by their place, from 0; what it hands out must not
// be changed. Of a project file each edit is on disk before the next; a project
// text lies in memory, as a project file of its own, until it is saved. Undo
// goes back through the whole history. Setups stay in the file until they are
// asked for.
type Document struct {
	Sample bool // the demo of the first start

	file     *storage.File
	data     *timeline.Project
	heads    []storage.Head
	index    map[int64]int // place in heads, by row number
	kept     setupCache
	lists    []timeline.SavedList
	Words    knownWords
	tried    map[int64]string // newest results, by row number; nil: not asked for
	Latest   storage.Revision // the one that edits belong to
	readOnly string
	checking bool  // the file is checked whole before anything is edited
	Seen     Stamp // of the file, when it was read or written last
	undo     storage.StepNote
	redo     storage.StepNote
}

// NewDocument returns a document of f, which it closes when it is closed.
func NewDocument(f *storage.File) (*Document, error) {
	d := &Document{file: f, checking: f.Checking()}
	if err := d.Reload(); err != nil {
		return nil, err
	}
	return d, nil
}

// InMemory returns a document of p, which came from the project text at path,
// or from nowhere. A nil p is a project without setups.
func InMemory(p *timeline.Project, path string) (*Document, error) {
	f, err := storage.InMemory(path, p)
	if err != nil {
		return nil, err
	}
	return NewDocument(f)
}

// OnDisk is the document where each edit is saved as it is made; ok is false of
// a project text in memory.
func (d *Document) OnDisk() (on *Document, ok bool) { return d, !d.file.InMemory() }

// Edited reports whether there are edits that were not saved.
func (d *Document) Edited() bool { return d.file.Unsaved() }

// Saved says that the project, as it is, stands in the project text at path.
func (d *Document) Saved(path string) {
	d.file.Saved(path)
	d.Sample = false
}

// Reload reads anew what the document holds in memory. On an error it holds
// what it held before.
func (d *Document) Reload() error {
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
	lists, err := d.file.Lists()
	if err != nil {
		return err
	}
	d.data, d.heads, d.lists, d.undo, d.redo, d.Seen = data, heads, lists, undo, redo, seen
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
func (d *Document) File() *storage.File { return d.file }

// Path is where the document lies; empty where no file holds it yet.
func (d *Document) Path() string { return d.file.Path() }

// AskReadOnly asks the file anew whether it can be edited.
func (d *Document) AskReadOnly() { d.readOnly = d.file.ReadOnly() }

// ReadOnly says why nothing can be edited; empty where it can.
func (d *Document) ReadOnly() string {
	if d.checking && d.readOnly == "" {
		return "the file is being checked; it can be edited in a few seconds"
	}
	return d.readOnly
}

// Checking reports whether the file is being checked as a whole. Who opened the
// document waits for the end behind the window, and says EndCheck.
func (d *Document) Checking() bool { return d.checking }

// EndCheck says that the check has ended.
func (d *Document) EndCheck() {
	d.checking = false
	d.AskReadOnly()
}

// Data is the ruleset and the fighters.
func (d *Document) Data() *timeline.Project { return d.data }

// Len is how many setups there are.
func (d *Document) Len() int { return len(d.heads) }

// Whole is everything, for a project text.
func (d *Document) Whole() (*timeline.Project, error) { return d.file.Project() }

// Close ends the document.
func (d *Document) Close() error { return d.file.Close() }

// Setup is setup i.
func (d *Document) Setup(i int) (timeline.Setup, error) {
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

// Head is what is known of setup i without reading it whole.
func (d *Document) Head(i int) Head {
	h := &d.heads[i]
	return Head{h.Name, h.Attacker, h.Rival}
}

// Tags are those that setups bear, each once, by name.
func (d *Document) Tags() ([]string, error) { return d.file.Tags() }

// Tagged are the setups that bear a tag.
func (d *Document) Tagged(tag string) (out []int, err error) {
	found, err := d.file.Tagged(tag)
	for _, id := range found {
		if i, ok := d.index[id]; ok {
			out = append(out, i)
		}
	}
	slices.Sort(out)
	return out, err
}

// Uses is how many setups use that move or jump.
func (d *Document) Uses(fighter, name string) (int, error) { return d.file.Uses(fighter, name) }

// Each returns what calls its argument with every setup as they are now. It may run
// on another goroutine, and ends early when its context does.
func (d *Document) Each() func(context.Context, func(*timeline.Setup) error) error {
	return func(ctx context.Context, do func(*timeline.Setup) error) error {
		return d.file.EachSetup(ctx, func(_ int, s *timeline.Setup) error { return do(s) })
	}
}

// Put makes setup i another, as one step.
func (d *Document) Put(i int, what string, s timeline.Setup) error {
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

// Apply does the edits, all or none, as one step. The setups may have other places
// after it.
func (d *Document) Apply(what string, edits ...timeline.Edit) error {
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
		return s.PutMove(e.Owner, e.Before, e.To)
	case timeline.JumpEdit:
		return s.PutJump(e.Owner, e.Before, e.To)
	case timeline.RiseEdit:
		return s.PutRise(e.Owner, e.Before, e.To)
	case timeline.RouteEdit:
		return s.PutRoute(e.Owner, e.Before, e.To)
	case timeline.ReplyEdit:
		return s.PutReply(e.Owner, e.Before, e.To)
	case timeline.PlaceEdit:
		return s.Shift(e)
	case timeline.SetupEdit:
		if e.Setup == nil {
			return s.RemoveSetup(e.Before)
		}
		return s.PutSetup(e.Before, e.Setup)
	}
	return fmt.Errorf("no step is known for %T", e)
}

// note forgets what an edit may have changed of what was looked up, and asks
// for the steps.
func (d *Document) note() {
	d.Words.forget()
	d.noteSteps()
}

// noteSteps asks the file what undo and redo would do; where it can't say, they
// are still there to be tried.
func (d *Document) noteSteps() {
	undo, redo, err := d.file.Next()
	if err != nil {
		undo, redo = storage.StepNote{EditNote: storage.EditNote{What: "the last step"}}, storage.StepNote{}
	}
	d.undo, d.redo = undo, redo
	d.Seen, _ = StampOf(d.file.Path())
}

// Undo takes the last step back.
func (d *Document) Undo() (Touched, error) { return d.travel(d.file.Undo, d.undo) }

// Redo does it again.
func (d *Document) Redo() (Touched, error) { return d.travel(d.file.Redo, d.redo) }

func (d *Document) travel(do func() (string, error), step storage.StepNote) (Touched, error) {
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

// Next is what undo and redo would do.
func (d *Document) Next() (undo, redo NextStep) {
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
func (d *Document) TakeOver() error {
	err := d.file.TakeOver()
	d.AskReadOnly()
	if err != nil {
		return err
	}
	return d.Reload()
}
