package model

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"wakeline/timeline"
)

// Slot is what a block is to a setup.
type Slot uint8

// The slots.
const (
	AsEnder Slot = iota
	AsFiller
	AsJump
	AsAttack
	AsLanding
	AsReply
)

// Block is a move or jump in one of its slots, as it lies on the shelf. One
// without a name stands for none: no jump, no attack.
type Block struct {
	As     Slot
	Name   string
	Frames timeline.Maybe // its length; an ender's advantage
}

// Title names the block.
func (b *Block) Title() string {
	switch {
	case b.Name != "":
		return b.Name
	case b.As == AsJump:
		return "no jump"
	}
	return "no attack"
}

// Spot is where among the fillers, or the replies, a block goes.
type Spot struct {
	At   int
	Over bool // in place of the one there, else before it
}

// With is the chosen setup with b in its place: an ender, a jump, an attack
// or a landing action in the place of the present one, a filler or a reply at
// where. Whether it keeps the rules is Change's to say.
func (m *Model) With(b *Block, where Spot) timeline.Setup {
	s := m.Setup()
	f := m.data.Fighter(s.Attacker)
	switch b.As {
	case AsEnder:
		s.Ender = b.Name
		if f != nil {
			if move := f.Move(b.Name); move != nil && move.Knockdown.At(s.Position).Given {
				s.Advantage = timeline.Maybe{} // the ender's own is meant
			}
		}
	case AsFiller:
		s.Fillers = inserted(s.Fillers, b.Name, where)
	case AsJump:
		s.Jump = b.Name
		if b.Name == "" {
			s.Attack, s.Press = "", timeline.Maybe{}
		} else if f != nil {
			if j := f.Jump(b.Name); j != nil && s.Press.Given && s.Press.N >= j.Airborne {
				s.Press = timeline.Maybe{} // it has no such air frame
			}
		}
	case AsAttack:
		s.Attack = b.Name
		if b.Name == "" {
			s.Press = timeline.Maybe{}
		}
	case AsLanding:
		s.Landing = b.Name
	case AsReply:
		r := timeline.Reply{Move: b.Name, Demand: timeline.Survive}
		if where.Over && where.At < len(s.Replies) {
			r.Demand, r.Late = s.Replies[where.At].Demand, s.Replies[where.At].Late
		}
		s.Replies = inserted(s.Replies, r, where)
	}
	return s
}

// inserted returns a copy of list with v at that spot, last where there is none.
func inserted[T any](list []T, v T, where Spot) []T {
	out := slices.Clone(list)
	switch {
	case where.At >= len(out):
		return append(out, v)
	case where.Over:
		out[where.At] = v
		return out
	}
	return slices.Insert(out, where.At, v)
}

// Place puts b where it goes. A reply put there is shown.
func (m *Model) Place(b *Block, where Spot) error {
	if err := m.Change(m.With(b, where)); err != nil {
		return err
	}
	if b.As == AsReply && m.plan != nil {
		line := m.BuiltIn() + min(where.At, len(m.replies())-1)
		if rise, shown := m.Shown(); shown != line {
			m.Show(rise, line)
		}
	}
	return nil
}

// BuiltIn is how many lines of the plan are always judged: those before the
// setup's own replies.
func (m *Model) BuiltIn() int { return timeline.FirstReply }

// Reply is the place among the setup's replies of the one that is shown, -1
// where that is always judged.
func (m *Model) Reply() int {
	if m.plan == nil {
		return -1
	}
	return max(m.Line-m.BuiltIn(), -1)
}

// SetLate has the shown reply done so many frames late, and stays with it.
// Where that can't be, the error says why.
func (m *Model) SetLate(n int) error {
	i := m.Reply()
	if i < 0 {
		return errors.New("this reply is always judged, from the first free frame on")
	}
	s := m.Setup()
	s.Replies = slices.Clone(s.Replies)
	s.Replies[i].Late = n
	m.follow = false
	return m.Change(s)
}

// WhyNot says in plain words why an edit can't be.
func WhyNot(err error) string {
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
	return Capital(err.Error()) + "."
}

// FillersIn reads names, one a line, and parts those that the attacker has a
// filler for from the others. Of a text with more lines than a plan has
// frames the rest is not read.
func (m *Model) FillersIn(text string) (names, lacking []string) {
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

// PossibleReplies names what the chosen setup's rival can reply with: its
// moves on the ground, then its jumps.
func (m *Model) PossibleReplies() []string {
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

// MissingReplies are those of them that the setup has at no lateness.
func (m *Model) MissingReplies() []string {
	has := map[string]bool{}
	for _, r := range m.replies() {
		has[r.Move] = true
	}
	return slices.DeleteFunc(m.PossibleReplies(), func(name string) bool { return has[name] })
}

// NextReply is the reply by a name that the setup does not have yet: on the
// first lateness that is free.
func (m *Model) NextReply(name string) timeline.Reply {
	r := timeline.Reply{Move: name, Demand: timeline.Survive}
	for slices.ContainsFunc(m.replies(), func(o timeline.Reply) bool { return o.Move == name && o.Late == r.Late }) {
		r.Late++
	}
	return r
}

// Uses reports whether b stands in s already.
func (b *Block) Uses(s *timeline.Setup) bool {
	switch b.As {
	case AsEnder:
		return s.Ender == b.Name
	case AsJump:
		return s.Jump == b.Name
	case AsAttack:
		return s.Attack == b.Name
	case AsLanding:
		return s.Landing == b.Name
	case AsReply:
		for _, r := range s.Replies {
			if r.Move == b.Name {
				return true
			}
		}
		return false
	}
	for _, name := range s.Fillers {
		if name == b.Name {
			return true
		}
	}
	return false
}
