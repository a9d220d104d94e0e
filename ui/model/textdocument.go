package model

import (
	"context"
	"slices"
	"time"

	"wakeline/storage"
	"wakeline/timeline"
)

var _ Document = (*TextDocument)(nil)

// TextDocument is a project in memory, from a project text or to become one:
// it is saved when it is asked to be, and undo goes back to where it was
// opened.
type TextDocument struct {
	path       string
	project    timeline.Project
	Sample     bool // the demo of the first start
	DrillsKept []storage.Drill

	UndoSteps, redo []textStep
	saved           int // length of undo when last saved; -1: no longer reached
}

// textStep is one edit: the setup that it changed, before and after; or, at
// -1, the whole project, with the name of a single setup that it is about. Steps are taken back in their order alone, so a whole
// project finds its setups as it left them.
type textStep struct {
	at            int
	what          string
	date          time.Time
	before, after timeline.Setup
	wholes        [2]timeline.Project // before and after
}

// NewTextDocument returns a document of p, which it copies as far as it edits
// it. A nil p is a project without setups.
func NewTextDocument(p *timeline.Project, path string) *TextDocument {
	d := &TextDocument{path: path, project: timeline.Project{Ruleset: timeline.DefaultRuleset()}}
	if p != nil {
		d.project = *p
	}
	d.project.Setups = slices.Clone(d.project.Setups)
	return d
}

// Path implements Document.
func (d *TextDocument) Path() string { return d.path }

// ReadOnly implements Document: a text in memory can always be edited.
func (d *TextDocument) ReadOnly() string { return "" }

// Data implements Document.
func (d *TextDocument) Data() *timeline.Project { return &d.project }

// Len implements Document.
func (d *TextDocument) Len() int { return len(d.project.Setups) }

// Setup implements Document.
func (d *TextDocument) Setup(i int) (timeline.Setup, error) { return d.project.Setups[i], nil }

// Whole implements Document.
func (d *TextDocument) Whole() (*timeline.Project, error) { return &d.project, nil }

// Close implements Document.
func (d *TextDocument) Close() error { return nil }

// Head implements Document.
func (d *TextDocument) Head(i int) Head {
	s := &d.project.Setups[i]
	return Head{s.Name, s.Attacker, s.Rival}
}

// Tags implements Document.
func (d *TextDocument) Tags() ([]string, error) {
	var out []string
	for i := range d.project.Setups {
		out = append(out, d.project.Setups[i].Tags...)
	}
	slices.Sort(out)
	return slices.Compact(out), nil
}

// Tagged implements Document.
func (d *TextDocument) Tagged(tag string) (out []int, err error) {
	for i := range d.project.Setups {
		if slices.Contains(d.project.Setups[i].Tags, tag) {
			out = append(out, i)
		}
	}
	return out, nil
}

// Uses implements Document.
func (d *TextDocument) Uses(fighter, name string) (n int, err error) {
	for i := range d.project.Setups {
		if d.project.Setups[i].Uses(fighter, name) {
			n++
		}
	}
	return n, nil
}

// Each implements Document.
func (d *TextDocument) Each() func(context.Context, func(*timeline.Setup) error) error {
	setups := slices.Clone(d.project.Setups) // an edit puts another value in its place
	return func(ctx context.Context, do func(*timeline.Setup) error) error {
		for i := range setups {
			if ctx.Err() != nil {
				return ctx.Err()
			}
			if err := do(&setups[i]); err != nil {
				return err
			}
		}
		return nil
	}
}

// Search implements Document, as the project file searches.
func (d *TextDocument) Search(words []string) ([]int, error) {
	var out []int
	for i := range d.project.Setups {
		if hasWords(&d.project.Setups[i], words) {
			out = append(out, i)
		}
	}
	return out, nil
}

func hasWords(s *timeline.Setup, words []string) bool {
	return !slices.ContainsFunc(words, func(w string) bool { return !s.Holds(w) })
}

// Put implements Document.
func (d *TextDocument) Put(i int, what string, s timeline.Setup) error {
	before := d.project.Setups[i]
	if s.Name != before.Name {
		return d.Apply(what, timeline.SetupEdit{Before: before.Name, Setup: &s})
	}
	d.push(textStep{at: i, what: what, before: before, after: s})
	d.project.Setups[i] = s
	return nil
}

// Apply implements Document.
func (d *TextDocument) Apply(what string, edits ...timeline.Edit) error {
	next, err := d.project.With(edits...)
	if err != nil {
		return err
	}
	step := textStep{at: -1, what: what, wholes: [2]timeline.Project{d.project, *next}}
	if e, ok := edits[0].(timeline.SetupEdit); ok && len(edits) == 1 {
		if step.before.Name = e.Before; e.Setup != nil {
			step.before.Name = e.Setup.Name
		}
	}
	d.push(step)
	d.project = *next
	return nil
}

func (d *TextDocument) push(s textStep) {
	if d.saved > len(d.UndoSteps) {
		d.saved = -1 // the saved state lay among the steps that are dropped now
	}
	s.date = time.Now()
	d.UndoSteps, d.redo = append(d.UndoSteps, s), nil
}

// Undo implements Document.
func (d *TextDocument) Undo() (Touched, error) { return d.travel(&d.UndoSteps, &d.redo, 0), nil }

// Redo implements Document.
func (d *TextDocument) Redo() (Touched, error) { return d.travel(&d.redo, &d.UndoSteps, 1), nil }

// travel takes the last step of from, lays its before (0) or after (1), and
// puts it last of to.
func (d *TextDocument) travel(from, to *[]textStep, side int) Touched {
	n := len(*from)
	if n == 0 {
		return Touched{At: -1}
	}
	s := (*from)[n-1]
	*from, *to = (*from)[:n-1], append(*to, s)
	if s.at < 0 {
		d.project = s.wholes[side]
		return Touched{At: -1, All: true}
	}
	d.project.Setups[s.at] = [2]timeline.Setup{s.before, s.after}[side]
	return Touched{At: s.at}
}

// Next implements Document.
func (d *TextDocument) Next() (undo, redo NextStep) {
	last := func(steps []textStep) NextStep {
		if len(steps) == 0 {
			return noStep
		}
		s := &steps[len(steps)-1]
		return NextStep{s.what, s.at, s.before.Name}
	}
	return last(d.UndoSteps), last(d.redo)
}

// Edited reports whether there are edits that were not saved.
func (d *TextDocument) Edited() bool { return d.saved != len(d.UndoSteps) }

// Saved says that the project, as it is, stands in the file at path.
func (d *TextDocument) Saved(path string) {
	d.path, d.saved, d.Sample = path, len(d.UndoSteps), false
}
