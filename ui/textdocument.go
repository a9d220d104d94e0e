package ui

import (
	"slices"
	"strings"

	"wakeline/timeline"
)

var _ Document = (*TextDocument)(nil)

// TextDocument is a project in memory, from a project text or to become one:
// it is saved when it is asked to be, and undo goes back to where it was
// opened.
type TextDocument struct {
	path    string
	project timeline.Project
	sample  bool // the demo of the first start

	undo, redo []textStep
	saved      int // length of undo when last saved; -1: no longer reached
}

// textStep is one edit: the setup that it changed, before and after.
type textStep struct {
	at            int
	what          string
	before, after timeline.Setup
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

// Search implements Document: it looks into names, fighters, enders, notes
// and tags.
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
	for _, w := range words {
		w = strings.ToLower(w)
		in := func(text string) bool { return strings.Contains(strings.ToLower(text), w) }
		if !in(s.Name) && !in(s.Attacker) && !in(s.Rival) && !in(s.Ender) && !in(s.Note) && !slices.ContainsFunc(s.Tags, in) {
			return false
		}
	}
	return true
}

// Put implements Document.
func (d *TextDocument) Put(i int, what string, s timeline.Setup) error {
	if d.saved > len(d.undo) {
		d.saved = -1 // the saved state lay among the steps that are dropped now
	}
	d.undo = append(d.undo, textStep{i, what, d.project.Setups[i], s})
	d.redo = nil
	d.project.Setups[i] = s
	return nil
}

// Undo implements Document.
func (d *TextDocument) Undo() (Touched, error) {
	n := len(d.undo)
	if n == 0 {
		return Touched{At: -1}, nil
	}
	s := d.undo[n-1]
	d.undo, d.redo = d.undo[:n-1], append(d.redo, s)
	d.project.Setups[s.at] = s.before
	return Touched{At: s.at}, nil
}

// Redo implements Document.
func (d *TextDocument) Redo() (Touched, error) {
	n := len(d.redo)
	if n == 0 {
		return Touched{At: -1}, nil
	}
	s := d.redo[n-1]
	d.redo, d.undo = d.redo[:n-1], append(d.undo, s)
	d.project.Setups[s.at] = s.after
	return Touched{At: s.at}, nil
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
	return last(d.undo), last(d.redo)
}

// Edited reports whether there are edits that were not saved.
func (d *TextDocument) Edited() bool { return d.saved != len(d.undo) }

// Saved says that the project, as it is, stands in the file at path.
func (d *TextDocument) Saved(path string) {
	d.path, d.saved, d.sample = path, len(d.undo), false
}
