package storage

import (
	"context"
	"errors"
	"fmt"
	"unicode/utf8"

	"wakeline/timeline"
)

// mostFound is how many lines of one kind Check returns.
const mostFound = 100

// Check looks the whole file at path over, as it stands at one moment, and
// returns what it finds wrong, a line each: pages, references, the rules of the
// project, and the history. The error says why it can't be looked at, or that
// ctx ended.
func Check(ctx context.Context, path string) ([]string, error) {
	f, err := openToRead(path, true)
	if err != nil {
		if err = describe(err); errors.Is(err, ErrDamaged) {
			return []string{err.Error()}, nil
		}
		return nil, fmt.Errorf("check %s: %w", path, err)
	}
	defer f.Close()
	f.mu.Lock()
	defer f.mu.Unlock()
	var found []string
	err = f.snapshot(func(q querier) error {
		found = wrongIn(ctx, q)
		return ctx.Err()
	})
	if err != nil {
		return nil, fmt.Errorf("check %s: %w", path, describe(err))
	}
	return found, nil
}

// wrongIn is what is wrong with a database of the newest schema.
func wrongIn(ctx context.Context, q querier) (found []string) {
	note := func(err error) {
		if err != nil {
			found = append(found, describe(err).Error())
		}
	}
	lines, err := brokenPages(ctx, q, mostFound)
	found = append(found, lines...)
	note(err)
	lines, err = lostReferences(ctx, q, 1<<40)
	found = append(found, lines...)
	note(err)
	note(checkRows(q))
	var s state
	if err := s.load(q); err != nil {
		note(err)
	} else {
		note(s.eachSetup(q, "", func(_ int64, _ int, setup *timeline.Setup) error {
			if err := ctx.Err(); err != nil {
				return err
			}
			return s.index.CheckSetup(timeline.SetupPath(setup.Name), setup)
		}))
	}
	note(checkRevisions(q))
	if lists, err := readLists(q); err != nil {
		note(err)
	} else if _, err := timeline.CheckLists(lists); err != nil {
		note(fmt.Errorf("%w: %w", ErrDamaged, err))
	}
	note(checkHistory(ctx, q))
	for _, table := range []string{"proof", "press", "answer"} {
		note(each(q, table, "id", func(int64, row) error { return ctx.Err() }))
	}
	return found
}

// checkRevisions asks that the revisions can be told and their move data read.
func checkRevisions(q querier) error {
	return each(q, "revision", "id", func(_ int64, r row) error {
		if err := timeline.CheckName(timeline.LabelPath("revision"), r.text("name")); err != nil {
			return fmt.Errorf("%w: %w", ErrDamaged, err)
		}
		if r["data"] == nil {
			return nil
		}
		if _, err := timeline.ReadText([]byte(r.text("data"))); err != nil {
			return fmt.Errorf("%w: revision %q: %w", ErrDamaged, r.text("name"), err)
		}
		return nil
	})
}

// plainTexts asks that texts from a file are UTF-8.
func plainTexts(what string, texts ...string) error {
	for _, text := range texts {
		if !utf8.ValidString(text) {
			return fmt.Errorf("%w: %s: expected text in UTF-8, got other bytes", ErrDamaged, what)
		}
	}
	return nil
}
