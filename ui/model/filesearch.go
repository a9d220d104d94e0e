package model

import (
	"maps"
	"slices"

	"wakeline/timeline"
)

// knownWords are the rows of a project file that have a term, as looked up
// since its last edit.
type knownWords struct {
	Rows  map[timeline.Term][]int64
	edits int // so far
}

// MostWords is how many terms are known at most.
const MostWords = 32

// forget knows nothing any more, as after an edit.
func (k *knownWords) forget() { k.Rows, k.edits = nil, k.edits+1 }

// forgetTests forgets what a result of an in-game test may change.
func (k *knownWords) forgetTests() {
	k.edits++
	maps.DeleteFunc(k.Rows, func(t timeline.Term, _ []int64) bool { return t.Part == timeline.TestPart })
}

// keep knows a term's rows, where no edit came since it was looked up.
func (k *knownWords) keep(t timeline.Term, rows []int64, edits int) {
	if edits != k.edits {
		return
	}
	if k.Rows == nil || len(k.Rows) >= MostWords {
		k.Rows = map[timeline.Term][]int64{}
	}
	k.Rows[t] = rows
}

// Ahead is for searches to come: find looks their terms up, and may run on
// another goroutine; keep then has Search know what was found.
func (d *Document) Ahead(of ...timeline.Search) (find, keep func()) {
	edits := d.Words.edits
	asked := map[timeline.Term]func() ([]int64, error){}
	for _, one := range of {
		for _, t := range one.Terms() {
			if _, known := d.Words.Rows[t]; !known {
				asked[t] = d.asking(t)
			}
		}
	}
	found := map[timeline.Term][]int64{}
	find = func() {
		for t, ask := range asked {
			if rows, err := ask(); err == nil { // Search tells of an error
				found[t] = rows
			}
		}
	}
	keep = func() {
		for t, rows := range found {
			d.Words.keep(t, rows, edits)
		}
	}
	return find, keep
}

// asking returns what asks the file which rows have a term, and may run on
// another goroutine. Where it is known which have a shorter text, as while a
// word is typed, the file looks among those alone.
func (d *Document) asking(t timeline.Term) func() ([]int64, error) {
	file := d.file
	var among []int64
	narrow := false
	for known, rows := range d.Words.Rows {
		if t.Narrows(known) && (!narrow || len(rows) < len(among)) {
			among, narrow = rows, true
		}
	}
	if !narrow || len(among) > len(d.heads)/2 {
		return func() ([]int64, error) { return file.Search(t) }
	}
	return func() ([]int64, error) { return file.SearchAmong(among, t) }
}

// having are the rows that have a term.
func (d *Document) having(t timeline.Term) ([]int64, error) {
	if rows, known := d.Words.Rows[t]; known {
		return rows, nil
	}
	rows, err := d.asking(t)()
	if err == nil {
		d.Words.keep(t, rows, d.Words.edits)
	}
	return rows, err
}

// Search marks the setups that are found. Verdicts are in no file: verdict says
// of a setup whether it has one, as far as that is known.
func (d *Document) Search(of timeline.Search, verdict func(setup int, word timeline.Word) bool) ([]bool, error) {
	terms := of.Terms()
	has := make([][]bool, len(terms))
	for k, t := range terms {
		rows, err := d.having(t)
		if err != nil {
			return nil, err
		}
		has[k] = make([]bool, len(d.heads))
		for _, id := range rows {
			if i, ok := d.index[id]; ok {
				has[k][i] = true
			}
		}
		if word, ok := t.IsVerdict(); ok {
			for i := range has[k] {
				has[k][i] = has[k][i] || verdict(i, word)
			}
		}
	}
	out := make([]bool, len(d.heads))
	for i := range out {
		out[i] = of.Match(func(t timeline.Term) bool { return has[slices.Index(terms, t)][i] })
	}
	return out, nil
}
