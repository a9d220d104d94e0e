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
	Word, Means string
	Scene       Scene
	Spot        Span // the frames of the scene that are meant
	Side        Side
}

// shownTerm is a term and the exchange that it is shown by.
type shownTerm struct {
	word, means string
	setup       func(s *Setup) // what the example's setup is changed to
	line        int            // as a verdict's: 3 is the reversal
	side        Side
	spot        func(s *Scene) Span
}

// Glossary tells the words in use, in the order that a student meets them,
// each with a scene of an invented example.
func Glossary() []Term {
	p := example()
	var out []Term
	for _, t := range terms() {
		s := p.Setups[0]
		if t.setup != nil {
			t.setup(&s)
		}
		plan, err := Compile(p, s)
		if err != nil {
			panic("timeline: the glossary's example doesn't fit: " + err.Error())
		}
		scene := plan.Scene(s.Delay, 0, t.line)
		out = append(out, Term{t.word, t.means, scene, t.spot(&scene), t.side})
	}
	return out
}

// example is a small invented project: a sweep, a step, a short wait and a
// jump, against a reversal.
func example() *Project {
	att := Fighter{
		Name: "Tarn",
		Moves: []Move{
			{Name: "low reap", Kind: Strike, Level: Low, Startup: 9, Active: []int{3}, Recovery: 20, Knockdown: Places{Midscreen: Some(55), Wall: Some(55)}},
			{Name: "short step", Kind: Dash, Length: 12},
			{Name: "falling heel", Kind: Strike, Air: true, Level: Overhead, Startup: 8, Active: []int{5}, Hitstun: Some(20), Guardstun: Some(16), Deep: Some(3)},
		},
		Jumps: []Jump{{Name: "long jump", Prejump: 4, Airborne: 39, Landing: 4, Apex: Some(180)}},
		Rises: DefaultRises(),
	}
	riv := Fighter{
		Name: "Osk",
		Moves: []Move{{
			Name: "upward palm", Kind: Strike, Level: Mid, Startup: 4, Active: []int{4}, Recovery: 24, OnGuard: Some(-18),
			Immune: []Immunity{{Window{1, 6}, true, true}},
		}, {Name: "open hand", Kind: Parry, Length: 30, Parry: []Window{{1, 10}}}},
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

// asked adds a reply to the example's.
func asked(move string) func(s *Setup) {
	return func(s *Setup) { s.Replies = append(slices.Clone(s.Replies), Reply{Move: move, Demand: Survive}) }
}

func terms() []shownTerm {
	return []shownTerm{
		{"frame", "One tick of the game's clock: at 60 a second, a sixtieth of a second. Frames are counted from 0, the first on which the attacker may act after the ender.",
			nil, 3, BothSides, func(*Scene) Span { return Span{0, 1} }},
		{"setup", "One ender, its fillers, delay, jump, jump attack and landing action, judged against a rival.", nil, 3, AttackerSide, entire},
		{"ender", "The last hit of the combo, which knocks the rival down.", nil, 3, AttackerSide, partOf(PartEnder)},
		{"advantage", "How many frames pass from frame 0 until the rival is free when it gets up as quickly as it can.", nil, 3, RivalSide, dimensionOf(DimAdvantage)},
		{"filler", "A move, dash or walk of known length that touches nothing: it burns frames, exactly as many every time.", nil, 3, AttackerSide, partOf(PartFiller)},
		{"delay", "A wait that is counted by hand, in frames.", nil, 3, AttackerSide, partOf(PartDelay)},
		{"jump arc", "The attacker's way through the air. Its thick part is the jump attack, the heaviest where it can hit.", nil, 3, AttackerSide, func(s *Scene) Span { return s.Arc.Air }},
		{"touchdown", "The frame on which the jump lands.", nil, 3, AttackerSide, func(s *Scene) Span { return Span{s.Touchdown.N, s.Touchdown.N + 1} }},
		{"landing", "The frames after touchdown on which the attacker can't act yet. It may guard before they are over.", nil, 3, AttackerSide, func(s *Scene) Span { return Span{s.Touchdown.N, s.ActsFrom} }},
		{"rise", "One of the ways and times the rival gets up; until then nothing touches it.", nil, 3, RivalSide, partOf(PartRise)},
		{"wake-up", "The rival's first free frame: from here on it acts, and can be touched.", nil, 3, RivalSide, func(s *Scene) Span { return Span{s.Wake, s.Wake + 1} }},
		{"reply", "One thing the rival does from its first free frame.", nil, 3, RivalSide, partOf(PartReply)},
		{"startup", "The frames of a move before it can hit.", nil, 3, RivalSide, phaseOf(Startup)},
		{"active", "The frames on which a move hits what is in its way.", nil, 3, RivalSide, phaseOf(Active)},
		{"recovery", "The frames of a move after it could hit, before its owner acts again.", nil, 3, RivalSide, phaseOf(Recovery)},
		{"meeting", "The frame on which the two sides touch, or the reply finds a guard.", nil, 3, BothSides, meeting},
		{"meaty", "An attack that touches the rival on the wake-up itself: it was there first.", nil, 2, BothSides, func(s *Scene) Span { return Span{s.Wake, s.Wake + 1} }},
		{"after wake-up", "How many frames after the wake-up the attack touches. On them the rival is free; 0 is meaty.",
			laterBy(6), 2, BothSides, dimensionOf(DimAfterWake)},
		{"spare", "How many frames could still be lost before the reply wins.", nil, 3, BothSides, dimensionOf(DimSpare)},
		{"window", "The delays at which the setup is good.", nil, 3, AttackerSide, func(s *Scene) Span {
			w := s.Window[0]
			return Span{s.Delay.From + w.From, s.Delay.From + w.To + 1}
		}},
		{"neighbour", "The same setup one frame earlier or later. Here one frame later than the last that is safe: the guard comes too late.", laterBy(2), 3, BothSides, meeting},
		{"safe", "Every reply that is asked about is covered, on each rise that is claimed.", nil, 3, BothSides, meeting},
		{"limited", "Safe but for a reply that no delay covers, such as one that parries whatever touches it.", asked("open hand"), 3, BothSides, meeting},
		{"unsafe", "A reply that could be covered is not, or nothing meets the wake-up. Here the guard comes three frames too late.", laterBy(4), 3, BothSides, meeting},
		{"to punish", "After a reply was guarded: how many frames the attacker acts before the rival. A move quicker than that punishes.", nil, 3, BothSides, func(s *Scene) Span {
			return Span{s.ActsFrom, phaseOf(Recovery)(s).To}
		}},
		{"bait", "A plan with nothing in it that strikes or throws: it jumps, lands and guards, and waits for the reply.",
			func(s *Setup) { s.Attack = "" }, 3, AttackerSide, entire},
		{"safe jump", "A jump attack so low that its owner lands and guards before the reply that it didn't stop is active.", nil, 3, BothSides, func(s *Scene) Span { return Span{s.Wake, s.Cell.Meeting.Or(s.Wake) + 1} }},
		{"lesson", "The page that teaches one setup: it and its neighbours, one over the other, with a sentence each.", nil, 3, BothSides, entire},
		{"drill", "A timing exercise: press the jump on its frame, again and again. It measures how far off your presses are.", nil, 3, AttackerSide, func(s *Scene) Span {
			return Span{s.JumpOn.N, s.JumpOn.N + 1}
		}},
		{"mix", "The weighing of several plans after one knockdown, such as this jump with its attack, without it, or with a throw: how often to choose each.", nil, 3, AttackerSide, func(s *Scene) Span {
			return Span{s.JumpOn.N, s.ActsFrom}
		}},
		{"revision", "A dated state of the move data: a patch of the game. One frame more or less, as of this startup, can turn a verdict.", nil, 3, RivalSide, phaseOf(Startup)},
	}
}
