package main

import (
	"bufio"
	"context"
	"fmt"
	"io"

	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/words"
)

const castMore = `
Every setup of the fighter is judged, at its own delay, against every fighter of
the project, the fighter itself among them. The plan stays as it is: it meets
all the rises of that rival, and the replies that every setup against that rival
is asked. Against its own rival a setup is judged as judge does.
--filter TEXT takes the setups that TEXT finds, as in the window: every word, with
or, not and parentheses, and list:NAME for a saved list of a project file; see
"filters" in README.md.
A rival without replies is not counted as one against whom a setup holds, as
only the wake-up is judged there.
Exit: 0 done; 1 a setup is unsafe against a rival; 2 invalid arguments or bad
input.

--json prints one document:
  {"attacker": "...", "rivals": ["..."], "setups": [
    {"setup": "...", "cells": [
      {"rival": "...", "verdict": "safe", "window": [{"from": 0, "to": 1}], "uncovered": [],
       "holds_startup": 4, "because": "..."}]}]}
Where a setup can't be judged against a rival, its verdict is null there, and
because says why.
`

// castSetups prints how a fighter's setups fare against every rival.
func castSetups(c *call) (int, error) {
	attacker := c.flags.String("attacker", "", "judge the setups of the fighter `NAME`")
	filter := c.flags.String("filter", "", "take the setups that `TEXT` finds")
	asJSON := c.flags.Bool("json", false, "print JSON")
	path, err := c.parse("a project text or a project file")
	if err != nil {
		return 0, err
	}
	if !given(c.flags, "attacker") {
		return 0, usageError{"--attacker: expected the name of a fighter"}
	}
	p, err := openSource(path)
	if err != nil {
		return 0, err
	}
	defer p.close()
	cast, rows, err := c.judgeCast(p, *attacker, *filter)
	if err != nil {
		return 0, err
	}
	code := exitDone
	for i := range rows {
		for k := range rows[i].Cells {
			if rows[i].Cells[k].Word == timeline.Unsafe {
				code = exitUnsafe
			}
		}
	}
	if *asJSON {
		err = (&compare.CastTable{Cast: cast, Rows: rows}).JSON(c.raw)
	} else {
		err = sayCast(c.out, cast, rows)
	}
	return code, err
}

// judgeCast judges the setups of a fighter that a filter finds against every
// rival.
func (c *call) judgeCast(p *source, attacker, filter string) (cast *compare.Cast, rows []compare.CastRow, err error) {
	if cast, err = compare.NewCast(p.data, attacker); err != nil {
		var names []string
		for i := range p.data.Fighters {
			names = append(names, p.data.Fighters[i].Name)
		}
		return nil, nil, usageError{fmt.Sprintf("--attacker: %v; there are: %s", err, some(names))}
	}
	passes, err := filterOf(p, filter)
	if err != nil {
		return nil, nil, err
	}
	each := func(ctx context.Context, do func(at int, s *timeline.Setup) error) error {
		return p.each(ctx, func(at int, s *timeline.Setup) error {
			if s.Attacker != cast.Attacker || !passes(s) {
				return nil
			}
			return do(at, s)
		})
	}
	m := c.meter()
	defer m.end()
	err = inOrder(c.ctx, each, func(_ int, s *timeline.Setup) (compare.CastRow, error) {
		return cast.Row(s), nil
	}, func(row compare.CastRow) error {
		rows = append(rows, row)
		m.tell(func() string { return fmt.Sprintf("judged %d setups", len(rows)) })
		return nil
	})
	if err != nil {
		return nil, nil, stopped(c.ctx, err, len(rows), "judged")
	}
	return cast, rows, nil
}

// sayCast writes the rows for people, and the fewest setups that hold against
// whom any does.
func sayCast(to io.Writer, cast *compare.Cast, rows []compare.CastRow) error {
	out := bufio.NewWriter(to)
	for i := range rows {
		row := &rows[i]
		fmt.Fprintf(out, "%s: holds against %d of %s\n", row.Setup, row.Covers(), words.Count(len(row.Cells), "rival"))
		for k := range row.Cells {
			fmt.Fprintf(out, "  %s: %s\n", cast.Rivals[k], row.Cells[k].Words())
		}
		fmt.Fprintln(out)
	}
	if len(rows) == 0 {
		fmt.Fprintf(out, "%s has no such setup.\n", cast.Attacker)
		return out.Flush()
	}
	fewest := compare.FewestOfCast(len(cast.Rivals), rows, compare.CoverLimit)
	for _, line := range cast.CoverWords(rows, &fewest) {
		fmt.Fprintln(out, line)
	}
	return out.Flush()
}
