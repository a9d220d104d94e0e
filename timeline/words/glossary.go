package words

import (
	"slices"

	"wakeline/timeline"
)

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
	Scene *Scene        // nil: the word has no place in a scene
	Spot  timeline.Span // the frames of the scene that are meant
	Side  Side
}

// shownTerm is a term and the exchange that it is shown by.
type shownTerm struct {
	word, also, means string
	setup             func(s *timeline.Setup) // what the example's setup is changed to
	line              int                     // as a verdict's: 3 is the first reply of the setup
	side              Side
	spot              func(s *Scene) timeline.Span // nil: without a scene
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
			plan, err := timeline.Compile(p, s)
			if err != nil {
				panic("words: the glossary's example doesn't fit: " + err.Error())
			}
			scene := SceneAt(plan, s.Delay, 0, t.line)
			term.Scene, term.Spot = &scene, t.spot(&scene)
		}
		out = append(out, term)
	}
	return out
}

// example is a small invented project: a sweep, a step, a short wait and a
// jump, against a reversal.
func example() *timeline.Project {
	att := timeline.Fighter{
		Name: "Tarn",
		Moves: []timeline.Move{
			{Name: "low reap", Kind: timeline.Strike, Level: timeline.Low, Startup: 9, Active: []int{3}, Recovery: 20, Knockdown: timeline.Places{Midscreen: timeline.Some(53), Wall: timeline.Some(53)}},
			{Name: "short step", Kind: timeline.Dash, Length: 12},
			{Name: "falling heel", Kind: timeline.Strike, Air: true, Level: timeline.Overhead, Startup: 8, Active: []int{5}, Hitstun: timeline.Some(20), Guardstun: timeline.Some(16), Deep: timeline.Some(3)},
		},
		Jumps: []timeline.Jump{{Name: "long jump", Prejump: 5, Airborne: 36, Landing: 3, Apex: timeline.Some(180)}},
		Rises: timeline.DefaultRises(),
	}
	riv := timeline.Fighter{
		Name: "Osk",
		Moves: []timeline.Move{
			{Name: "upward palm", Kind: timeline.Strike, Level: timeline.Mid, Startup: 4, Active: []int{4}, Recovery: 24, OnGuard: timeline.Some(-18), Immune: []timeline.Immunity{{Window: timeline.Window{From: 1, To: 6}, Strikes: true, Throws: true}}},
			{Name: "open hand", Kind: timeline.Parry, Length: 30, Parry: []timeline.Window{{From: 1, To: 10}}},
			{Name: "quick elbow", Kind: timeline.Strike, Level: timeline.Mid, Startup: 4, Active: []int{2}, Recovery: 14},
			{Name: "braced shove", Kind: timeline.Strike, Level: timeline.Mid, Startup: 12, Active: []int{3}, Recovery: 20, Armour: []timeline.Armour{{Window: timeline.Window{From: 1, To: 11}, Hits: 1}}},
			{Name: "hip toss", Kind: timeline.Throw, Level: timeline.LevelThrow, Startup: 5, Active: []int{2}, Recovery: 25},
			{Name: "back slide", Kind: timeline.Evade, Length: 24, Immune: []timeline.Immunity{{Window: timeline.Window{From: 1, To: 14}, Strikes: true, Throws: true}}},
		},
		Rises: timeline.DefaultRises(),
	}
	s := timeline.Setup{
		Name: "example", Attacker: "Tarn", Rival: "Osk", Ender: "low reap", Position: timeline.Midscreen, Fillers: []string{"short step"}, Delay: 2,
		Jump: "long jump", Attack: "falling heel", Landing: timeline.DoGuard, Replies: []timeline.Reply{{Move: "upward palm", Demand: timeline.Survive}},
	}
	return &timeline.Project{Ruleset: timeline.DefaultRuleset(), Fighters: []timeline.Fighter{att, riv}, Setups: []timeline.Setup{s}}
}

// partOf finds the block of that part, and phaseOf a phase of the reply.
func partOf(part timeline.Part) func(s *Scene) timeline.Span {
	return func(s *Scene) timeline.Span {
		for _, blocks := range [][]timeline.Block{s.Top, s.Bottom} {
			for i := range blocks {
				if blocks[i].Part == part {
					return blocks[i].Span
				}
			}
		}
		return timeline.Span{}
	}
}

func phaseOf(phase timeline.Phase) func(s *Scene) timeline.Span {
	return func(s *Scene) timeline.Span {
		for _, b := range s.Bottom {
			for _, piece := range b.Pieces {
				if b.Part == timeline.PartReply && piece.Phase == phase {
					return piece.Span
				}
			}
		}
		return timeline.Span{}
	}
}

// markOf finds a window inside the reply.
func markOf(what string) func(s *Scene) timeline.Span {
	return func(s *Scene) timeline.Span {
		for _, b := range s.Bottom {
			for _, m := range b.Marks {
				if b.Part == timeline.PartReply && m.What == what {
					return m.Span
				}
			}
		}
		return timeline.Span{}
	}
}

func dimensionOf(kind timeline.DimensionKind) func(s *Scene) timeline.Span {
	return func(s *Scene) timeline.Span {
		for _, d := range s.Dimensions {
			if d.Kind == kind {
				return span(d.From, d.To)
			}
		}
		return timeline.Span{}
	}
}

func span(from, to int) timeline.Span { return timeline.Span{From: from, To: to} }

func entire(s *Scene) timeline.Span  { return span(0, s.ActsFrom) }
func meeting(s *Scene) timeline.Span { return s.Overlap }

// laterBy starts the example so many frames later.
func laterBy(n int) func(s *timeline.Setup) { return func(s *timeline.Setup) { s.Delay += n } }

// asked puts another reply in place of the example's.
func asked(move string) func(s *timeline.Setup) {
	return func(s *timeline.Setup) { s.Replies = []timeline.Reply{{Move: move, Demand: timeline.Survive}} }
}

// also adds a reply to the example's.
func also(move string) func(s *timeline.Setup) {
	return func(s *timeline.Setup) {
		s.Replies = append(slices.Clone(s.Replies), timeline.Reply{Move: move, Demand: timeline.Survive})
	}
}

// both makes two changes.
func both(one, two func(s *timeline.Setup)) func(s *timeline.Setup) {
	return func(s *timeline.Setup) {
		one(s)
		two(s)
	}
}

func empty(s *timeline.Setup)   { s.Attack = "" }
func parried(s *timeline.Setup) { s.Landing = timeline.DoParry }

// wakingUp is the wake-up frame, and attacking where the attack is active.
func wakingUp(s *Scene) timeline.Span { return span(s.Wake, s.Wake+1) }

func attacking(s *Scene) timeline.Span { return s.Arc.Active[0] }
