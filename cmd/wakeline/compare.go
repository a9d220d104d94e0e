package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/words"
)

const compareMore = `
Every setup is judged, as it stands now and at its own delay, with the move data
of both revisions. It has changed where its verdict, its window or its uncovered
replies differ. The moves, jumps, rises or rules named as the cause make that
change when one of them alone is put into the earlier revision; where none does
so alone, those are named that do so together. Only fields that matter are
listed.
Exit: 0 nothing changed, 1 something did, 2 invalid arguments or bad input.

--json prints one document:
  {"from": "1.0", "to": "1.1", "changed": [
    {"setup": "...",
     "before": {"verdict": "safe", "window": [{"from": 0, "to": 2}], "uncovered": [], "reason": null},
     "after": {"verdict": "unsafe", "window": [], "uncovered": [], "reason": null},
     "because": "...", "together": false,
     "moves": [{"kind": "move", "fighter": "...", "name": "...", "state": "changed",
       "fields": [{"field": "startup", "before": "4", "after": "3"}]}]}],
   "unchanged": 18}
A setup that can't be judged under a revision has the verdict null there, and a
reason. Kinds: ruleset, fighter, body, move, jump, rise; fighter and name
are null where there is none. States: changed, new, gone.
`

// compareRevisions lists the setups that two revisions judge otherwise.
func compareRevisions(c *call) (int, error) {
	asJSON := c.flags.Bool("json", false, "print JSON")
	args, err := c.arguments()
	if err != nil {
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
	both := compare.New(states[0], states[1])
	out := changeList{out: bufio.NewWriterSize(c.out, heldBack), asJSON: *asJSON, from: args[1], to: args[2]}
	m := c.meter()
	defer m.end()
	err = inOrder(c.ctx, f.EachSetup, func(_ int, s *timeline.Setup) (compare.Change, error) {
		if !both.Touches(s) {
			return compare.Change{}, nil
		}
		return both.Of(s), nil
	}, func(ch compare.Change) error {
		m.tell(func() string { return fmt.Sprintf("compared %d setups", out.changed+out.unchanged) })
		return out.add(&ch)
	})
	if err != nil {
		return 0, stopped(c.ctx, err, out.changed+out.unchanged, "compared")
	}
	if err := out.end(); err != nil {
		return 0, err
	}
	if out.changed > 0 {
		return exitChanged, nil
	}
	return exitDone, nil
}

// changeList prints the setups that changed, and counts the others.
type changeList struct {
	out                *bufio.Writer
	asJSON             bool
	from, to           string
	changed, unchanged int
}

func (l *changeList) add(c *compare.Change) error {
	if !c.Changed() {
		l.unchanged++
		return nil
	}
	l.changed++
	if l.asJSON {
		between := ",\n  "
		if l.changed == 1 {
			between = l.begin() + "\n  "
		}
		l.out.WriteString(between)
		var b bytes.Buffer
		enc := json.NewEncoder(&b)
		enc.SetEscapeHTML(false)
		enc.SetIndent("  ", " ")
		if err := enc.Encode(changeJSON(c)); err != nil {
			return err
		}
		_, err := l.out.Write(bytes.TrimSuffix(b.Bytes(), []byte("\n")))
		return err
	}
	_, err := fmt.Fprintf(l.out, "%s: %s\n  before, %s\n  now, %s\n\n", c.Setup, c.Because, stateWords(&c.Before), stateWords(&c.After))
	return err
}

func (l *changeList) begin() string {
	return fmt.Sprintf("{\n \"from\": %s,\n \"to\": %s,\n \"changed\": [", quoted(l.from), quoted(l.to))
}

func (l *changeList) end() error {
	switch {
	case l.asJSON && l.changed == 0:
		fmt.Fprintf(l.out, "%s],\n \"unchanged\": %d\n}\n", l.begin(), l.unchanged)
	case l.asJSON:
		fmt.Fprintf(l.out, "\n ],\n \"unchanged\": %d\n}\n", l.unchanged)
	default:
		fmt.Fprintf(l.out, "From %q to %q: %s changed, %d did not.\n", l.from, l.to, words.Count(l.changed, "setup"), l.unchanged)
	}
	return l.out.Flush()
}

// stateWords says how a setup fares under one revision, on one line.
func stateWords(s *compare.State) string {
	if !s.Judged() {
		return "can't be judged: " + s.Reason
	}
	return fmt.Sprintf("%s: %s", s.Word, words.Window(s.Window, s.Uncovered))
}

// The JSON of compare; what it means stands in compareMore.
type (
	changeText struct {
		Setup    string      `json:"setup"`
		Before   stateText   `json:"before"`
		After    stateText   `json:"after"`
		Because  string      `json:"because"`
		Together bool        `json:"together"`
		Moves    []causeText `json:"moves"`
	}
	stateText struct {
		Verdict   *timeline.Word    `json:"verdict"`
		Window    []timeline.Bounds `json:"window"`
		Uncovered []string          `json:"uncovered"`
		Reason    *string           `json:"reason"`
	}
	causeText struct {
		Kind    string      `json:"kind"`
		Fighter *string     `json:"fighter"`
		Name    *string     `json:"name"`
		State   string      `json:"state"`
		Fields  []fieldText `json:"fields"`
	}
	fieldText struct {
		Field  string `json:"field"`
		Before string `json:"before"`
		After  string `json:"after"`
	}
)

func changeJSON(c *compare.Change) changeText {
	out := changeText{Setup: c.Setup, Before: stateJSON(&c.Before), After: stateJSON(&c.After), Because: c.Because, Together: c.Together, Moves: []causeText{}}
	for _, by := range c.By {
		text := causeText{Kind: string(by.Kind), Fighter: orNull(by.Fighter), Name: orNull(by.Name), State: "changed", Fields: []fieldText{}}
		if by.Jump {
			text.Kind = "jump"
		}
		switch {
		case by.New:
			text.State = "new"
		case by.Gone:
			text.State = "gone"
		}
		for _, f := range by.Fields {
			text.Fields = append(text.Fields, fieldText{f.Field, f.Before, f.After})
		}
		out.Moves = append(out.Moves, text)
	}
	return out
}

func stateJSON(s *compare.State) stateText {
	if !s.Judged() {
		return stateText{Window: []timeline.Bounds{}, Uncovered: []string{}, Reason: &s.Reason}
	}
	return stateText{Verdict: &s.Word, Window: s.Window, Uncovered: s.Uncovered}
}

func orNull(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}
