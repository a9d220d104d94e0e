package main

import (
	"bufio"
	"context"
	"fmt"
	"io"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/patch"
	"wakeline/timeline/words"
	"wakeline/ui/output"
)

const compareMore = `
The answer comes first, then what differs in the move data, and what follows
from it for the setups as they stand now, each at its own delay, for the named
routes and for the mixes.
A setup has changed where its verdict, its window or its uncovered replies
differ. The moves, jumps, rises or rules named as the cause make that change
when one of them alone is put into the earlier revision; where none does so
alone, those are named that do so together. Only fields that matter are listed.
A route no longer links where a link of it is too slow now, or where it isn't
confirmed any more. A mix is that of all setups of one attacker, rival, ender
and position, as mix weighs them with full gauges, under each revision; those
whose value differs are listed.
Exit: 0 no setup, route or mix changed, 1 one did, 2 invalid arguments or bad
input.

--json prints one document:
  {"from": "1.0", "to": "1.1", "changed": [
    {"setup": "...",
     "before": {"verdict": "safe", "window": [{"from": 0, "to": 2}], "uncovered": [], "reason": null},
     "after": {"verdict": "unsafe", "window": [], "uncovered": [], "reason": null},
     "because": "...", "together": false,
     "moves": [{"kind": "move", "fighter": "...", "name": "...", "state": "changed",
       "fields": [{"field": "startup", "before": "4", "after": "3"}]}]}],
   "unchanged": 18, "answer": "1 setup turned: 1 safe to unsafe.",
   "data": [{"kind": "move", ..., as in "moves"}],
   "routes": [{"fighter": "...", "name": "...", "state": "broke",
     "before": {"steps": "...", "links": true, "counts": true, "margins": [0], "damage": 120,
       "cost": 0, "gain": 1, "needs": 0}, "after": {...}}],
   "mixes": [{"attacker": "...", "rival": "...", "ender": "...", "position": "midscreen",
     "before": {"value": "57/25", "exact": true, "reason": null, "rows": [{"setup": "...", "share": "1/3"}]},
     "after": {...}}]}
A setup that can't be judged under a revision has the verdict null there, and a
reason; so has a mix that can't be weighed. Kinds: ruleset, fighter, body, move,
jump, rise, reply (a standing one), route; fighter and name are null where there
is none. States: changed, new, gone; of a route also broke, mended; a route that
a revision lacks is null there.
` + answerMore

// compareRevisions tells what changed from one revision to another.
func compareRevisions(c *call) (int, error) {
	asJSON := c.flags.Bool("json", false, "print JSON")
	file := answerFlags(c)
	args, err := c.arguments()
	if err != nil {
		return 0, err
	}
	if err := file.check(output.Compared, *asJSON); err != nil {
		return 0, err
	}
	if len(args) != 3 {
		return 0, usageError{fmt.Sprintf("expected three arguments, a project file and two of its revisions, got %q", args)}
	}
	f, err := openFile(args[0], storage.OpenToRead)
	if err != nil {
		return 0, err
	}
	defer f.Close()
	var states [2]*timeline.Project
	for i, name := range args[1:] {
		if states[i], err = f.DataOf(name); err != nil {
			return 0, fmt.Errorf("%s: %w", args[0], err)
		}
	}
	d, err := c.dayOf(f, patch.New(states[0], states[1]))
	if err != nil {
		return 0, err
	}
	switch {
	case file.out != "":
		err = file.write(file.order.MakeCompared(d, args[1], args[2], file.format()))
	case *asJSON:
		err = d.JSON(c.raw, args[1], args[2])
	default:
		err = writeDay(c.out, args[1], args[2], d)
	}
	if err != nil {
		return 0, err
	}
	if d.Answers() {
		return exitChanged, nil
	}
	return exitDone, nil
}

// dayOf works out all that changed for the setups of a file.
func (c *call) dayOf(f *storage.File, p *patch.Patch) (*patch.Day, error) {
	d := &patch.Day{Parts: p.Parts, Routes: p.Routes, Weighed: true}
	pairs, done := p.NewPairs(), 0
	m := c.meter()
	defer m.end()
	err := inOrder(c.ctx, func(ctx context.Context, do func(at int, s *timeline.Setup) error) error {
		return f.EachSetup(ctx, func(at int, s *timeline.Setup) error {
			pairs.Add(s)
			return do(at, s)
		})
	}, func(_ int, s *timeline.Setup) (compare.Change, error) {
		if !p.Setups.Touches(s) {
			return compare.Change{}, nil
		}
		return p.Setups.Of(s), nil
	}, func(ch compare.Change) error {
		if done++; ch.Changed() {
			d.Setups = append(d.Setups, ch)
		}
		m.tell(func() string { return fmt.Sprintf("compared %d setups", done) })
		return nil
	})
	if err != nil {
		return nil, stopped(c.ctx, err, done, "compared")
	}
	d.Unchanged = done - len(d.Setups)
	read, err := f.ByName()
	if err != nil {
		return nil, err
	}
	weighed := 0
	d.Mixes, err = pairs.Weigh(c.ctx, read, func(done int) {
		weighed = done
		m.tell(func() string { return fmt.Sprintf("weighed %d of %d setups in their mixes", done, pairs.Len()) })
	})
	if err != nil {
		return nil, stopped(c.ctx, err, weighed, "weighed")
	}
	return d, nil
}

// writeDay writes what changed for people: the answer, then section by section.
func writeDay(to io.Writer, from, until string, d *patch.Day) error {
	out := bufio.NewWriter(to)
	if len(d.Parts) > 0 || d.Answers() {
		fmt.Fprintf(out, "%s\n\n", d.Answer())
	}
	counts := d.Counts()
	for _, section := range patch.Sections() {
		if counts[section] == 0 {
			continue
		}
		fmt.Fprintf(out, "%s (%d)\n\n", section, counts[section])
		for _, i := range d.In(section) {
			switch section {
			case patch.MoveData:
				fmt.Fprintf(out, "%s: %s\n", d.Parts[i].Title(), d.Parts[i].Became())
			case patch.RoutesBroke, patch.RoutesMended, patch.RoutesChanged:
				fmt.Fprintf(out, "%s: %s\n", d.Routes[i].Title(), d.Routes[i].Became())
			case patch.Mixes:
				fmt.Fprintf(out, "%s: %s\n", d.Mixes[i].Title(), d.Mixes[i].Became())
			default:
				c := &d.Setups[i]
				fmt.Fprintf(out, "%s: %s\n  before, %s\n  now, %s\n", c.Setup, c.Because, c.Before.Words(), c.After.Words())
			}
		}
		fmt.Fprintln(out)
	}
	fmt.Fprintf(out, "From %q to %q: %s changed, %d did not.\n", from, until, words.Count(len(d.Setups), "setup"), d.Unchanged)
	return out.Flush()
}
