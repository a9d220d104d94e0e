package timeline

import "slices"

// Side is which side of a scene something stands on.
type Side uint8

// The sides.
const (
	BothSides Side = iota
	AttackerSide
	RivalSide
)

// Term is one of the words in use, with the place in a scene that shows it.
type Term struct {
	Word  string // several that are told together have commas between
	Also  string // what else players call it; empty: nothing
	Means string
	Scene *Scene // nil: the word has no place in a scene
	Spot  Span   // the frames of the scene that are meant
	Side  Side
}

// shownTerm is a term and the exchange that it is shown by.
type shownTerm struct {
	word, also, means string
	setup             func(s *Setup) // what the example's setup is changed to
	line              int            // as a verdict's: 3 is the first reply of the setup
	side              Side
	spot              func(s *Scene) Span // nil: without a scene
}

// Glossary tells the words in use, the outcomes first and then in the order
// that a student meets them, each that has a place in one with a scene of an
// invented example.
func Glossary() []Term {
	p := example()
	var out []Term
	for _, t := range slices.Concat(outcomeTerms, verdictTerms, planTerms, replyTerms, dataTerms) {
		term := Term{Word: t.word, Also: t.also, Means: t.means, Side: t.side}
		if t.spot != nil {
			s := p.Setups[0]
			if t.setup != nil {
				t.setup(&s)
			}
			plan, err := Compile(p, s)
			if err != nil {
				panic("timeline: the glossary's example doesn't fit: " + err.Error())
			}
			scene := plan.Scene(s.Delay, 0, t.line)
			term.Scene, term.Spot = &scene, t.spot(&scene)
		}
		out = append(out, term)
	}
	return out
}

// example is a small invented project: a sweep, a step, a short wait and a
// jump, against a reversal.
func example() *Project {
	att := Fighter{
		Name: "Tarn",
		Moves: []Move{
			{Name: "low reap", Kind: Strike, Level: Low, Startup: 9, Active: []int{3}, Recovery: 20, Knockdown: Places{Midscreen: Some(53), Wall: Some(53)}},
			{Name: "short step", Kind: Dash, Length: 12},
			{Name: "falling heel", Kind: Strike, Air: true, Level: Overhead, Startup: 8, Active: []int{5}, Hitstun: Some(20), Guardstun: Some(16), Deep: Some(3)},
		},
		Jumps: []Jump{{Name: "long jump", Prejump: 5, Airborne: 36, Landing: 3, Apex: Some(180)}},
		Rises: DefaultRises(),
	}
	riv := Fighter{
		Name: "Osk",
		Moves: []Move{
			{Name: "upward palm", Kind: Strike, Level: Mid, Startup: 4, Active: []int{4}, Recovery: 24, OnGuard: Some(-18), Immune: []Immunity{{Window{1, 6}, true, true}}},
			{Name: "open hand", Kind: Parry, Length: 30, Parry: []Window{{1, 10}}},
			{Name: "quick elbow", Kind: Strike, Level: Mid, Startup: 4, Active: []int{2}, Recovery: 14},
			{Name: "braced shove", Kind: Strike, Level: Mid, Startup: 12, Active: []int{3}, Recovery: 20, Armour: []Armour{{Window{1, 11}, 1}}},
			{Name: "hip toss", Kind: Throw, Level: LevelThrow, Startup: 5, Active: []int{2}, Recovery: 25},
			{Name: "back slide", Kind: Evade, Length: 24, Immune: []Immunity{{Window{1, 14}, true, true}}},
		},
		Rises: DefaultRises(),
	}
	s := Setup{
		Name: "example", Attacker: "Tarn", Rival: "Osk", Ender: "low reap", Position: Midscreen, Fillers: []string{"short step"}, Delay: 2,
		Jump: "long jump", Attack: "falling heel", Landing: DoGuard, Replies: []Reply{{Move: "upward palm", Demand: Survive}},
	}
	return &Project{DefaultRuleset(), []Fighter{att, riv}, []Setup{s}}
}

// partOf finds the block of that part, and phaseOf a phase of the reply.
func partOf(part Part) func(s *Scene) Span {
	return func(s *Scene) Span {
		for _, blocks := range [][]Block{s.Top, s.Bottom} {
			for i := range blocks {
				if blocks[i].Part == part {
					return blocks[i].Span
				}
			}
		}
		return Span{}
	}
}

func phaseOf(phase Phase) func(s *Scene) Span {
	return func(s *Scene) Span {
		for _, b := range s.Bottom {
			for _, piece := range b.Pieces {
				if b.Part == PartReply && piece.Phase == phase {
					return piece.Span
				}
			}
		}
		return Span{}
	}
}

// markOf finds a window inside the reply.
func markOf(what string) func(s *Scene) Span {
	return func(s *Scene) Span {
		for _, b := range s.Bottom {
			for _, m := range b.Marks {
				if b.Part == PartReply && m.What == what {
					return m.Span
				}
			}
		}
		return Span{}
	}
}

func dimensionOf(kind DimensionKind) func(s *Scene) Span {
	return func(s *Scene) Span {
		for _, d := range s.Dimensions {
			if d.Kind == kind {
				return Span{d.From, d.To}
			}
		}
		return Span{}
	}
}

func entire(s *Scene) Span  { return Span{0, s.ActsFrom} }
func meeting(s *Scene) Span { return s.Overlap }

// laterBy starts the example so many frames later.
func laterBy(n int) func(s *Setup) { return func(s *Setup) { s.Delay += n } }

// asked puts another reply in place of the example's.
func asked(move string) func(s *Setup) {
	return func(s *Setup) { s.Replies = []Reply{{Move: move, Demand: Survive}} }
}

// also adds a reply to the example's.
func also(move string) func(s *Setup) {
	return func(s *Setup) { s.Replies = append(slices.Clone(s.Replies), Reply{Move: move, Demand: Survive}) }
}

// both makes two changes.
func both(one, two func(s *Setup)) func(s *Setup) {
	return func(s *Setup) {
		one(s)
		two(s)
	}
}

func empty(s *Setup)   { s.Attack = "" }
func parried(s *Setup) { s.Landing = DoParry }

// wakingUp is the wake-up frame, and attacking where the attack is active.
func wakingUp(s *Scene) Span { return Span{s.Wake, s.Wake + 1} }

func attacking(s *Scene) Span { return s.Arc.Active[0] }
