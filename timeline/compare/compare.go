package compare

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"wakeline/timeline"
)

// State is how a setup fares under one state of the move data, at its own
// delay.
type State struct {
	Word      timeline.Word     // empty where it can't be judged
	Window    []timeline.Bounds // delays, both ends in it
	Uncovered []string          // replies that no delay covers, by title
	Reason    string            // why it can't be judged, empty where it can
}

// Judged reports whether the setup can be judged there.
func (s *State) Judged() bool { return s.Reason == "" }

// same reports whether both are one result. What can't be judged is one
// result, whatever stands in the way.
func (s *State) same(t *State) bool {
	if !s.Judged() || !t.Judged() {
		return s.Judged() == t.Judged()
	}
	return s.Word == t.Word && slices.Equal(s.Window, t.Window) && slices.Equal(s.Uncovered, t.Uncovered)
}

// Shift is what became of a window.
type Shift string

// What a window does from one state to another. All but Kept and Moved say
// that one is a part of the other, or empty.
const (
	Kept   Shift = ""
	Shrank Shift = "shrank"
	Grew   Shift = "grew"
	Moved  Shift = "moved" // each has a delay that the other lacks
	Opened Shift = "opened"
	Closed Shift = "closed"
)

// Change is one setup under two states of the move data.
type Change struct {
	Setup         string
	Before, After State
	Shift         Shift    // of the window; Kept where one can't be judged
	Lost, Won     []string // replies that became uncovered, or covered
	By            []Cause  // what changed the result, in the order the setup uses it
	Together      bool     // only all of By together change it; else each does alone
	Because       string   // one sentence, empty where nothing changed
}

// Changed reports whether the verdict, the window, or the replies that no
// delay covers are others.
func (c *Change) Changed() bool { return !c.Before.same(&c.After) }

// Turned reports whether the verdict's word is another.
func (c *Change) Turned() bool { return c.Before.Word != c.After.Word }

// Comparison holds two states of the move data, the earlier one and the later
// one, side by side. It is not changed after New; its methods may be
// called from several goroutines at once.
type Comparison struct {
	parts    map[DataPart]*part
	rises    map[string][]DataPart // of each fighter, those of either state
	fighters map[string]bool       // those of both states
	lost     map[string]bool       // those of one state alone
}

// New lays two states side by side, for many setups. Only the ruleset and the
// fighters are looked at, and both must keep the rules of CheckData; a setup
// need not fit either.
func New(before, after *timeline.Project) *Comparison {
	c := &Comparison{map[DataPart]*part{}, map[string][]DataPart{}, map[string]bool{}, map[string]bool{}}
	c.add(DataPart{Kind: RulesetPart}, &before.Ruleset, true)
	c.add(DataPart{Kind: RulesetPart}, &after.Ruleset, false)
	for i := range before.Fighters {
		name := before.Fighters[i].Name
		c.fighters[name] = after.Fighter(name) != nil
		c.lost[name] = !c.fighters[name]
		c.addFighter(&before.Fighters[i], true)
	}
	for i := range after.Fighters {
		name := after.Fighters[i].Name
		c.lost[name] = !c.fighters[name]
		c.addFighter(&after.Fighters[i], false)
	}
	for _, p := range c.parts {
		p.differs = !equal(p.before, p.after)
	}
	return c
}

func (c *Comparison) addFighter(f *timeline.Fighter, before bool) {
	c.add(DataPart{BodyPart, f.Name, ""}, f, before)
	for i := range f.Moves {
		c.add(DataPart{MovePart, f.Name, f.Moves[i].Name}, &f.Moves[i], before)
	}
	for i := range f.Jumps {
		c.add(DataPart{MovePart, f.Name, f.Jumps[i].Name}, &f.Jumps[i], before)
	}
	for i := range f.Rises {
		at := DataPart{RisePart, f.Name, f.Rises[i].Name}
		if c.parts[at] == nil {
			c.rises[f.Name] = append(c.rises[f.Name], at)
		}
		c.add(at, &f.Rises[i], before)
	}
}

func (c *Comparison) add(at DataPart, value any, before bool) {
	p := c.parts[at]
	if p == nil {
		p = &part{DataPart: at}
		c.parts[at] = p
	}
	if before {
		p.before = value
	} else {
		p.after = value
	}
}

// Touches reports whether anything that the setup uses differs between the
// two states. Where nothing does, nothing has changed, unjudged.
func (c *Comparison) Touches(s *timeline.Setup) bool {
	return c.lost[s.Attacker] || c.lost[s.Rival] ||
		slices.ContainsFunc(c.used(s), func(p *part) bool { return p.differs })
}

// Of compares one setup.
func (c *Comparison) Of(s *timeline.Setup) Change {
	t := &trial{setup: s, parts: c.used(s)}
	out := Change{Setup: s.Name}
	var gone []DataPart
	for _, name := range []string{s.Attacker, s.Rival} {
		if c.lost[name] {
			gone = append(gone, DataPart{FighterPart, name, ""})
		}
	}
	before, after := make([]any, len(t.parts)), make([]any, len(t.parts))
	for i, p := range t.parts {
		before[i], after[i] = p.before, p.after
	}
	out.Before, out.After = t.judge(before), t.judge(after)
	if !out.Changed() {
		return out
	}
	if out.Before.Judged() && out.After.Judged() {
		out.Shift = shift(out.Before.Window, out.After.Window)
		out.Lost, out.Won = without(out.After.Uncovered, out.Before.Uncovered), without(out.Before.Uncovered, out.After.Uncovered)
	}
	if len(gone) > 0 {
		for _, at := range slices.Compact(gone) {
			out.By = append(out.By, Cause{DataPart: at, Gone: !out.After.Judged(), New: !out.Before.Judged()})
		}
	} else {
		out.By, out.Together = t.causes(before, after, &out)
	}
	out.Because = out.sentence()
	return out
}

// used lists what the setup uses, each thing once, in the order: the ruleset,
// the attacker's, the rival's. A name that neither state has is left out.
func (c *Comparison) used(s *timeline.Setup) []*part {
	out := make([]*part, 0, 8+len(s.Fillers)+len(s.Replies))
	add := func(at DataPart) {
		if p := c.parts[at]; p != nil && !slices.Contains(out, p) {
			out = append(out, p)
		}
	}
	add(DataPart{Kind: RulesetPart})
	for _, name := range append([]string{s.Ender, s.Jump, s.Attack, s.Landing}, s.Fillers...) {
		add(DataPart{MovePart, s.Attacker, name})
	}
	add(DataPart{BodyPart, s.Attacker, ""})
	add(DataPart{BodyPart, s.Rival, ""})
	for _, at := range c.rises[s.Rival] {
		if len(s.Rises) == 0 || slices.Contains(s.Rises, at.Name) {
			add(at)
		}
	}
	for _, r := range c.asked(s) {
		add(DataPart{MovePart, s.Rival, r.Move})
	}
	return out
}

// asked are the replies that either state asks of the setup's rival.
func (c *Comparison) asked(s *timeline.Setup) []timeline.Reply {
	p := c.parts[DataPart{BodyPart, s.Rival, ""}]
	if s.Replies != nil || p == nil {
		return s.Replies
	}
	var out []timeline.Reply
	for _, state := range []any{p.before, p.after} {
		if f, ok := state.(*timeline.Fighter); ok && f != nil {
			out = append(out, f.Replies...)
		}
	}
	return out
}

// trial judges one setup under mixtures of the two states.
type trial struct {
	setup *timeline.Setup
	parts []*part
}

// judge says how the setup fares where each part has that value, nil for a
// part that isn't there.
func (t *trial) judge(values []any) State {
	p := t.project(values)
	s := *t.setup
	s.OnHit, s.Punish, s.Follow = "", nil, nil // what follows changes no verdict
	if f := p.Fighter(s.Rival); f != nil && s.Replies == nil {
		s.Replies = append([]timeline.Reply{}, f.Replies...)
	}
	if broken := (*timeline.FieldError)(nil); errors.As(p.CheckSetup(nil, &s), &broken) {
		return State{Reason: strings.TrimPrefix(broken.Error(), "$.")}
	}
	plan, err := timeline.Compile(p, s)
	if wide := (*timeline.PlanError)(nil); errors.As(err, &wide) {
		return State{Reason: fmt.Sprintf("%s: expected a plan that ends by frame %d, got one that ends on %d", wide.Field, timeline.Width, wide.End)}
	}
	out := State{Word: plan.Word(t.setup.Delay), Window: timeline.Runs(plan.WindowSet()), Uncovered: plan.Uncovered()}
	return out
}

// project is the least project that holds the values.
func (t *trial) project(values []any) *timeline.Project {
	p := &timeline.Project{}
	fighter := func(name string) *timeline.Fighter {
		if f := p.Fighter(name); f != nil {
			return f
		}
		p.Fighters = append(p.Fighters, timeline.Fighter{Name: name})
		return &p.Fighters[len(p.Fighters)-1]
	}
	for i, at := range t.parts {
		switch v := values[i].(type) {
		case *timeline.Ruleset:
			p.Ruleset = *v
		case *timeline.Fighter:
			f := fighter(at.Fighter)
			for i := range timeline.FighterFields {
				timeline.FighterFields[i].Copy(f, v)
			}
			f.Replies = v.Replies
		case *timeline.Move:
			f := fighter(at.Fighter)
			f.Moves = append(f.Moves, *v)
		case *timeline.Jump:
			f := fighter(at.Fighter)
			f.Jumps = append(f.Jumps, *v)
		case *timeline.Rise:
			f := fighter(at.Fighter)
			f.Rises = append(f.Rises, *v)
		}
	}
	return p
}

// shift says what became of a window.
func shift(before, after []timeline.Bounds) Shift {
	b, a := setOf(before), setOf(after)
	switch {
	case b == a:
		return Kept
	case a.Empty():
		return Closed
	case b.Empty():
		return Opened
	case a.Minus(b).Empty():
		return Shrank
	case b.Minus(a).Empty():
		return Grew
	}
	return Moved
}

func setOf(of []timeline.Bounds) (out timeline.Set) {
	for _, b := range of {
		run, _ := timeline.Range(b.From, b.To+1) // delays fit the width
		out = out.Or(run)
	}
	return out
}

// without returns what a has and b lacks, in a's order.
func without(a, b []string) (out []string) {
	for _, s := range a {
		if !slices.Contains(b, s) {
			out = append(out, s)
		}
	}
	return out
}
