package find

import (
	"fmt"

	"wakeline/timeline"
)

// Limits of a query.
const (
	MaxFillers = 32   // in one sequence
	MaxList    = 1000 // answers listed
	maxGauges  = 128  // different sums of gauge
	maxTable   = 1 << 20
)

// Hand says how likely a person times a setup. The zero Query has none: then
// every counted wait has chance 0.
type Hand interface {
	// Link is the chance of doing one thing on the first frame after another.
	Link() float64
	// Wait is the chance that a jump set to start on frame aim starts on one of
	// good, where the person can act from frame first on. aim is first where no
	// wait is counted.
	Wait(good timeline.Set, first, aim int) float64
}

// Target is a rival that an answer must be good against.
type Target struct {
	Rival   string
	Rises   []string // those claimed; empty: all of the rival's
	Replies []timeline.Reply
}

// Query is what is looked for, and what limits it.
type Query struct {
	// Setup gives what stands fast: the attacker, its ender, position and
	// advantage, the landing action, and the first target: rival, rises and
	// replies. Its fillers, delay, jump, attack and press are not read; every
	// attack is pressed by itself, as "auto".
	Setup timeline.Setup
	Also  []Target // further targets; an answer is good against all at once

	// What may be used, as names of the attacker's; an empty list allows
	// every jump, every air move that hits, and as fillers every move done on
	// the ground and every jump. None is taken twice.
	Jumps, Attacks, Fillers []string
	Not                     []string // fillers left out all the same

	Most  int            // fillers in a sequence, 0 to MaxFillers
	Wait  timeline.Maybe // the longest counted wait, frames; absent: any
	Gauge int            // the gauge that fillers and attack may cost together, segments

	// Limited lets answers through that are safe but for replies that no
	// start of the jump covers, with fillers or without.
	Limited bool
	// Ordered makes an answer of each order of the same fillers; else they
	// are one, whose orders are counted.
	Ordered bool

	List int // how many answers are listed, 0 to MaxList
	Hand Hand
}

// targets are all rivals, the setup's first.
func (q *Query) targets() []Target {
	return append([]Target{{q.Setup.Rival, q.Setup.Rises, q.Setup.Replies}}, q.Also...)
}

// against returns the query's setup against target t, without fillers.
func (q *Query) against(t Target, jump, attack string) timeline.Setup {
	s := q.Setup
	s.Rival, s.Rises, s.Replies = t.Rival, t.Rises, t.Replies
	s.Fillers, s.Delay, s.Jump, s.Attack, s.Press = nil, 0, jump, attack, timeline.Maybe{}
	return s
}

// QueryError is a part of a query that can't be meant.
type QueryError struct {
	Field string // of Query, in lower case
	Want  string
	Got   string
}

// Error says which part, what was expected, and what stands there.
func (e *QueryError) Error() string {
	return fmt.Sprintf("%s: expected %s, got %s", e.Field, e.Want, e.Got)
}

// check returns a *QueryError, or the setup's *timeline.FieldError.
func (q *Query) check(ix *timeline.Index, attacker *timeline.Fighter) error {
	for _, t := range q.targets() {
		s := q.against(t, "", "")
		if s.Name == "" {
			s.Name = "search"
		}
		if err := ix.CheckSetup((*timeline.Path)(nil).At("setup"), &s); err != nil {
			return err
		}
	}
	within := func(field string, n, hi int) error {
		if n < 0 || n > hi {
			return &QueryError{field, fmt.Sprintf("a whole number from 0 to %d", hi), fmt.Sprint(n)}
		}
		return nil
	}
	if d := q.Setup.D(attacker); d.Given && d.N < 0 {
		return &QueryError{"setup", "a distance of 0 units or more, the rival in front of the attacker", fmt.Sprint(d.N)}
	}
	for _, err := range []error{
		within("most", q.Most, MaxFillers), within("wait", q.Wait.Or(0), timeline.MaxFrames),
		within("gauge", q.Gauge, timeline.MaxPoints), within("list", q.List, MaxList),
	} {
		if err != nil {
			return err
		}
	}
	for _, of := range []struct {
		field, want string
		names       []string
		fits        func(name string) bool
	}{
		{"jumps", "a jump", q.Jumps, func(name string) bool { return attacker.Jump(name) != nil }},
		{"attacks", "an air move that hits", q.Attacks, func(name string) bool { return isAttack(attacker.Move(name)) }},
		{"fillers", "a move done on the ground or a jump", q.Fillers, func(name string) bool { return isFiller(attacker, name) }},
		{"not", "a move done on the ground or a jump", q.Not, func(name string) bool { return isFiller(attacker, name) }},
	} {
		for _, name := range of.names {
			if !of.fits(name) {
				return &QueryError{of.field, of.want + " of " + attacker.Name, fmt.Sprintf("%q", name)}
			}
		}
	}
	return nil
}

func isAttack(m *timeline.Move) bool { return m != nil && m.Air && m.Hits() }

func isFiller(f *timeline.Fighter, name string) bool {
	if m := f.Move(name); m != nil {
		return !m.Air
	}
	return f.Jump(name) != nil
}
