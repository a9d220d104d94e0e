package ui

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"wakeline/timeline"
)

// slot is what a block is to a setup.
type slot uint8

// The slots.
const (
	asEnder slot = iota
	asFiller
	asJump
	asAttack
	asLanding
	asReply
)

// block is a move or jump in one of its slots, as it lies on the shelf. One
// without a name stands for none: no jump, no attack.
type block struct {
	as     slot
	name   string
	frames timeline.Maybe // its length; an ender's advantage
}

// title names the block.
func (b *block) title() string {
	switch {
	case b.name != "":
		return b.name
	case b.as == asJump:
		return "no jump"
	}
	return "no attack"
}

// spot is where among the fillers, or the replies, a block goes.
type spot struct {
	at   int
	over bool // in place of the one there, else before it
}

// placed is the chosen setup with b in its place: an ender, a jump, an attack
// or a landing action in the place of the present one, a filler or a reply at
// where. Whether it keeps the rules is Change's to say.
func (m *Model) placed(b *block, where spot) timeline.Setup {
	s := m.Setup()
	f := m.data.Fighter(s.Attacker)
	switch b.as {
	case asEnder:
		s.Ender = b.name
		if f != nil {
			if move := f.Move(b.name); move != nil && move.Knockdown.At(s.Position).Given {
				s.Advantage = timeline.Maybe{} // the ender's own is meant
			}
		}
	case asFiller:
		s.Fillers = put(s.Fillers, b.name, where)
	case asJump:
		s.Jump = b.name
		if b.name == "" {
			s.Attack, s.Press = "", timeline.Maybe{}
		} else if f != nil {
			if j := f.Jump(b.name); j != nil && s.Press.Given && s.Press.N >= j.Airborne {
				s.Press = timeline.Maybe{} // it has no such air frame
			}
		}
	case asAttack:
		s.Attack = b.name
		if b.name == "" {
			s.Press = timeline.Maybe{}
		}
	case asLanding:
		s.Landing = b.name
	case asReply:
		r := timeline.Reply{Move: b.name, Demand: timeline.Survive}
		if where.over && where.at < len(s.Replies) {
			r.Demand, r.Late = s.Replies[where.at].Demand, s.Replies[where.at].Late
		}
		s.Replies = put(s.Replies, r, where)
	}
	return s
}

// put returns a copy of list with v at that spot, last where there is none.
func put[T any](list []T, v T, where spot) []T {
	out := slices.Clone(list)
	switch {
	case where.at >= len(out):
		return append(out, v)
	case where.over:
		out[where.at] = v
		return out
	}
	return slices.Insert(out, where.at, v)
}

// Place puts b where it goes. A reply put there is shown.
func (m *Model) Place(b *block, where spot) error {
	if err := m.Change(m.placed(b, where)); err != nil {
		return err
	}
	if b.as == asReply && m.plan != nil {
		line := m.builtIn() + min(where.at, len(m.setup.Replies)-1)
		if rise, shown := m.Shown(); shown != line {
			m.Show(rise, line)
		}
	}
	return nil
}

// builtIn is how many lines of the plan are always judged: those before the
// setup's own replies.
func (m *Model) builtIn() int { return m.plan.Lines() - len(m.setup.Replies) }

// reply is the place among the setup's replies of the one that is shown, -1
// where that is always judged.
func (m *Model) reply() int {
	if m.plan == nil {
		return -1
	}
	return max(m.line-m.builtIn(), -1)
}

// SetLate has the shown reply done so many frames late, and stays with it.
// Where that can't be, the error says why.
func (m *Model) SetLate(n int) error {
	i := m.reply()
	if i < 0 {
		return errors.New("this reply is always judged, from the first free frame on")
	}
	s := m.Setup()
	s.Replies = slices.Clone(s.Replies)
	s.Replies[i].Late = n
	m.follow = false
	return m.Change(s)
}

// whyNot says in plain words why an edit can't be.
func whyNot(err error) string {
	var field *timeline.FieldError
	var plan *timeline.PlanError
	switch {
	case errors.As(err, &field) && field.Got != "":
		return fmt.Sprintf("Expected %s, got %s.", field.Want, field.Got)
	case errors.As(err, &field):
		return fmt.Sprintf("Expected %s.", field.Want)
	case errors.As(err, &plan):
		return fmt.Sprintf("The plan would run to frame %d; the last frame allowed is %d.", plan.End, timeline.Width)
	}
	return capital(err.Error()) + "."
}

// fillersIn reads names, one a line, and parts those that the attacker has a
// filler for from the others. Of a text with more lines than a plan has
// frames the rest is not read.
func (m *Model) fillersIn(text string) (names, lacking []string) {
	f := m.data.Fighter(m.setup.Attacker)
	if f == nil {
		return nil, nil
	}
	n := 0
	for line := range strings.Lines(text) {
		if n++; n > timeline.MaxFrames {
			break
		}
		name := strings.TrimSpace(line)
		move := f.Move(name)
		switch {
		case name == "":
		case move != nil && !move.Air, move == nil && f.Jump(name) != nil:
			names = append(names, name)
		default:
			lacking = append(lacking, name)
		}
	}
	return names, lacking
}

// possibleReplies names what the chosen setup's rival can reply with: its
// moves on the ground, then its jumps.
func (m *Model) possibleReplies() []string {
	f := m.data.Fighter(m.setup.Rival)
	if f == nil {
		return nil
	}
	var out []string
	for i := range f.Moves {
		if !f.Moves[i].Air {
			out = append(out, f.Moves[i].Name)
		}
	}
	for i := range f.Jumps {
		out = append(out, f.Jumps[i].Name)
	}
	return out
}

// missingReplies are those of them that the setup has at no lateness.
func (m *Model) missingReplies() []string {
	has := map[string]bool{}
	for _, r := range m.setup.Replies {
		has[r.Move] = true
	}
	return slices.DeleteFunc(m.possibleReplies(), func(name string) bool { return has[name] })
}

// nextReply is the reply by a name that the setup does not have yet: on the
// first lateness that is free.
func (m *Model) nextReply(name string) timeline.Reply {
	r := timeline.Reply{Move: name, Demand: timeline.Survive}
	for slices.ContainsFunc(m.setup.Replies, func(o timeline.Reply) bool { return o.Move == name && o.Late == r.Late }) {
		r.Late++
	}
	return r
}

// uses reports whether b stands in s already.
func (b *block) uses(s *timeline.Setup) bool {
	switch b.as {
	case asEnder:
		return s.Ender == b.name
	case asJump:
		return s.Jump == b.name
	case asAttack:
		return s.Attack == b.name
	case asLanding:
		return s.Landing == b.name
	case asReply:
		for _, r := range s.Replies {
			if r.Move == b.name {
				return true
			}
		}
		return false
	}
	for _, name := range s.Fillers {
		if name == b.name {
			return true
		}
	}
	return false
}
