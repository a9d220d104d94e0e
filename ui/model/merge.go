package model

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/merge"
)

// ReadSide reads a project text or a project file as one side of a merge. tell is
// told how many setups of a file are read.
func ReadSide(ctx context.Context, path string, tell func(done, of int)) (merge.Side, error) {
	if filepath.Ext(path) != storage.Ext {
		p, err := storage.ReadText(path)
		return merge.Side{Project: p}, err
	}
	f, err := storage.OpenToRead(path)
	if err != nil {
		return merge.Side{}, err
	}
	defer f.Close()
	return sideOf(ctx, f, tell)
}

// toldEvery is after how many setups, or edits, it is told how far the work is.
const toldEvery = 200

func sideOf(ctx context.Context, f *storage.File, tell func(done, of int)) (out merge.Side, err error) {
	heads, err := f.Heads()
	if err != nil {
		return out, err
	}
	if out.Lists, err = f.Lists(); err != nil {
		return out, err
	}
	out.Project = f.Data()
	out.Project.Setups = make([]timeline.Setup, 0, len(heads))
	err = f.EachSetup(ctx, func(at int, s *timeline.Setup) error {
		if at%toldEvery == 0 {
			tell(at, len(heads))
		}
		out.Project.Setups = append(out.Project.Setups, *s)
		return nil
	})
	return out, err
}

// Side is the whole document as one side of a merge. It may run on another
// goroutine. tell is told how many setups are read.
func (d *Document) Side(ctx context.Context, tell func(done, of int)) (merge.Side, error) {
	return sideOf(ctx, d.file, tell)
}

// KeepsLists reports whether saved lists can be put into the document.
func (d *Document) KeepsLists() bool {
	_, ok := d.OnDisk()
	return ok
}

// StoreMerge makes the document what came of a merge, as one step: all of it, or
// nothing. It may run on another goroutine; who calls it reloads the document
// after. tell is told how many edits are done.
func (d *Document) StoreMerge(ctx context.Context, what string, r *merge.Result, tell func(done, of int)) error {
	all := len(r.Edits) + len(r.ListEdits)
	done := 0
	next := func() {
		if done++; done%toldEvery == 0 || done == all {
			tell(done, all)
		}
	}
	return d.file.EditContext(ctx, what, func(s *storage.Step) error {
		for _, e := range r.Edits {
			if err := stepOf(s, e); err != nil {
				return err
			}
			next()
		}
		for _, l := range r.ListEdits {
			if err := s.PutList(l.Before, l.List); err != nil {
				return err
			}
			next()
		}
		return nil
	})
}

// MergeCounts are how many items a merge has in each state.
type MergeCounts struct{ New, Different, Equal, Alone, Clash int }

// CountMerge counts the items of a comparison.
func CountMerge(c *merge.Comparison) (n MergeCounts) {
	for i := range c.Items {
		switch c.Items[i].State {
		case merge.New:
			n.New++
		case merge.Different:
			n.Different++
		case merge.Equal:
			n.Equal++
		case merge.OursAlone:
			n.Alone++
		case merge.Clash:
			n.Clash++
		}
	}
	return n
}

// ProblemWords put a problem of a merge into words.
func ProblemWords(err error) string {
	if errors.As(err, new(*timeline.FieldError)) {
		return ErrorWords(&timeline.Project{}, err)
	}
	return Sentence(err.Error())
}

// MergeWords say what a merge does to the project, in a line each.
func MergeWords(c *merge.Comparison, choices []merge.Choice) (out []string) {
	type done struct{ added, replaced, beside int }
	var n [merge.Kinds]done
	for i, it := range c.Items {
		switch {
		case choices[i] == merge.Both:
			n[it.Kind].beside++
		case choices[i] == merge.Theirs && it.State == merge.New:
			n[it.Kind].added++
		case choices[i] == merge.Theirs:
			n[it.Kind].replaced++
		}
	}
	for k := range n {
		thing := KindWord(merge.Kind(k))
		if n[k].added > 0 {
			out = append(out, "Adds "+CountOf(n[k].added, thing))
		}
		if n[k].replaced > 0 {
			out = append(out, "Replaces "+CountOf(n[k].replaced, thing))
		}
		if n[k].beside > 0 {
			out = append(out, fmt.Sprintf("Adds %s beside those of this project, under new names", CountOf(n[k].beside, thing)))
		}
	}
	return out
}

// KindWord is what an item of a merge is called.
func KindWord(k merge.Kind) string {
	return [merge.Kinds]string{"ruleset field", "fighter", "move", "jump", "rise", "route", "standing reply", "setup", "list"}[k]
}
