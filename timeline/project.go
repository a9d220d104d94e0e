package timeline

import (
	"slices"
	"strings"
)

// Position is where on the stage the ender knocks down.
type Position string

// The two positions.
const (
	Midscreen Position = "midscreen"
	Wall      Position = "wall"
)

// Rise is one of the ways and times a fighter gets up.
type Rise struct {
	Name  string
	Extra int // frames after the quickest first free frame, 0 or more
	Shift int // units of distance, 0 counted at the wall
}

// DefaultRises are the rises of a fighter who is given none.
func DefaultRises() []Rise { return []Rise{{Name: "normal"}} }

// Fighter is one character with its moves, jumps and rises.
type Fighter struct {
	Name  string
	Body  Maybe // height in units, 0 or more
	Width Maybe // of the body on the ground in units, 0 or more
	Moves []Move
	Jumps []Jump
	Rises []Rise // at least one

	Replies []Reply // asked of every setup against it that gives none of its own
	Routes  []Route
}

// Own is f by itself, with its replies but without the moves, jumps, rises and
// routes that it has.
func (f *Fighter) Own() Fighter {
	out := *f
	out.Moves, out.Jumps, out.Rises, out.Routes = nil, nil, nil, nil
	return out
}

// Demand says what a setup must do to a reply.
type Demand string

// The demands of frames.md, "Verdict".
const (
	Survive    Demand = "survive"
	Beat       Demand = "beat"
	DemandNone Demand = "none" // only shown
)

// Reply names a move or a jump of the rival, done Late frames after its first
// free frame.
type Reply struct {
	Move   string
	Demand Demand
	Late   int   // 0 or more
	Costs  Maybe // points that it takes where it wins; absent: its move's damage
}

// The names that a plan may use beside the fighters' own.
const (
	GuardHigh = "guard high"
	GuardLow  = "guard low"
	Nothing   = "nothing"
	DoGuard   = "guard"
	DoParry   = "parry"
	Auto      = "auto"
)

// alwaysJudged are the replies that are always judged, in their order.
var alwaysJudged = [...]string{GuardHigh, GuardLow, Nothing}

// The lines of a plan that are always judged, before those of the setup's
// replies.
const (
	LineGuardHigh = iota
	LineGuardLow
	LineNothing
	FirstReply // the line of the setup's first reply
)

// Setup is one ender, its fillers, delay, jump, attack and landing action,
// judged against a rival. Names are those of the project's fighters.
type Setup struct {
	Name            string
	Attacker, Rival string
	Ender           string   // empty: none, and Advantage is given
	Position        Position // where the ender knocks down
	Advantage       Maybe    // overrides the ender's, 0 or more
	Distance        Maybe    // units from the attacker to the rival on frame 0; overrides the ender's
	Room            Maybe    // units from there to the wall behind the rival, 0 or more
	Fillers         []string // moves or jumps of the attacker, from frame 0 on
	Delay           int      // counted wait after the fillers, 0 or more
	Jump            string   // empty: none, the landing action starts after the delay
	Attack          string   // empty: none
	Press           Maybe    // air frame of the attack's press; absent: auto
	Landing         string   // DoGuard, DoParry or a move of the attacker
	Rises           []string // those claimed; empty: all of the rival's
	Replies         []Reply  // nil: the rival's own; see Asked
	Tags            []string
	Note            string

	OnHit    string       // the attacker's route after a hit; empty: none
	Punish   []string     // routes of the attacker; empty: all of them
	Follow   []FollowStep // the string after a guarded attack
	Pressure int          // points that a guarded attack is worth
}

// Project is everything one file holds: the rules, the fighters, the setups.
type Project struct {
	Ruleset  Ruleset
	Fighters []Fighter
	Setups   []Setup
}

// Bare is p without setups: the move data alone, shared with p.
func (p *Project) Bare() *Project { return &Project{Ruleset: p.Ruleset, Fighters: p.Fighters} }

// Fighter returns the fighter of that name, nil where there is none.
func (p *Project) Fighter(name string) *Fighter {
	for i := range p.Fighters {
		if p.Fighters[i].Name == name {
			return &p.Fighters[i]
		}
	}
	return nil
}

// Move returns the fighter's move of that name, nil where there is none.
func (f *Fighter) Move(name string) *Move {
	for i := range f.Moves {
		if f.Moves[i].Name == name {
			return &f.Moves[i]
		}
	}
	return nil
}

// Jump returns the fighter's jump of that name, nil where there is none.
func (f *Fighter) Jump(name string) *Jump {
	for i := range f.Jumps {
		if f.Jumps[i].Name == name {
			return &f.Jumps[i]
		}
	}
	return nil
}

// Claimed returns the rises that s claims, in the rival's order.
func (s *Setup) Claimed(rival *Fighter) []Rise {
	if len(s.Rises) == 0 {
		return rival.Rises
	}
	var out []Rise
	for _, r := range rival.Rises {
		for _, name := range s.Rises {
			if name == r.Name {
				out = append(out, r)
			}
		}
	}
	return out
}

// K returns the advantage that s starts from: its own, or its ender's at its
// position. It is absent where neither gives one.
func (s *Setup) K(attacker *Fighter) Maybe { return s.k(&roster{Fighter: attacker}) }

func (s *Setup) k(attacker *roster) Maybe {
	if s.Advantage.Given || s.Ender == "" {
		return s.Advantage
	}
	if m := attacker.Move(s.Ender); m != nil {
		return m.Knockdown.At(s.Position)
	}
	return Maybe{}
}

// D returns where the rival lies on frame 0, in units from the attacker: the
// distance of s, or else its ender's at its position. It is absent where
// neither gives one: then distance isn't judged.
func (s *Setup) D(attacker *Fighter) Maybe { return s.distance(&roster{Fighter: attacker}) }

func (s *Setup) distance(attacker *roster) Maybe {
	if s.Distance.Given || s.Ender == "" {
		return s.Distance
	}
	if m := attacker.Move(s.Ender); m != nil {
		return m.Distance.At(s.Position)
	}
	return Maybe{}
}

// room is how far behind the rival the wall is: absent where there is none, or
// where the distance isn't known.
func (s *Setup) room(attacker *roster) Maybe {
	switch {
	case !s.distance(attacker).Given:
		return Maybe{}
	case !s.Room.Given && s.Position == Wall:
		return Some(0)
	}
	return s.Room
}

// Holds reports whether s holds a text, in any case of letters: in its name,
// its note, its position, a tag, or the name of a fighter or of a move or jump
// of theirs: ender, filler, jump, attack, landing move or reply. The empty text
// is held by every setup.
func (s *Setup) Holds(text string) bool {
	text = strings.ToLower(text)
	in := func(name string) bool { return strings.Contains(strings.ToLower(name), text) }
	move := s.Landing != DoGuard && s.Landing != DoParry && in(s.Landing)
	return in(s.Name) || in(s.Attacker) || in(s.Rival) || in(s.Ender) || in(s.Jump) || in(s.Attack) || move ||
		in(string(s.Position)) || in(s.Note) || slices.ContainsFunc(s.Tags, in) || slices.ContainsFunc(s.Fillers, in) ||
		slices.ContainsFunc(s.Replies, func(r Reply) bool { return in(r.Move) })
}
