package panel

import (
	"strings"

	"wakeline/timeline"
	"wakeline/ui/model"
)

// The words for what a setup does without.
const (
	noEnder  = "None (set advantage manually)"
	NoJump   = "no jump"
	NoAttack = "no attack"
)

// buildSetup makes the rows of a setup's own numbers.
func (n *Inspector) buildSetup() {
	m := n.model
	edit := func(change func(s *timeline.Setup)) error {
		s := m.Setup()
		change(&s)
		return m.Change(s)
	}
	refit := func(change func(s *timeline.Setup)) error {
		s := m.Setup()
		change(&s)
		return m.Change(model.Refitted(m.Data(), s))
	}
	place := func(as model.Slot, none string) func(string) error {
		return func(name string) error {
			if name == none {
				name = ""
			}
			return m.Place(&model.Block{As: as, Name: name}, model.Spot{})
		}
	}
	jumping := func() bool { return m.Setup().Jump != "" }
	attacking := func() bool { return m.Setup().Attack != "" }

	name := n.text("Name", func() string { return m.Setup().Name }, m.Rename)
	attacker := n.choice("Attacker", func() string { return m.Setup().Attacker }, n.fighters,
		func(v string) error { return refit(func(s *timeline.Setup) { s.Attacker = v }) })
	rival := n.choice("Rival", func() string { return m.Setup().Rival }, n.fighters,
		func(v string) error { return refit(func(s *timeline.Setup) { s.Rival = v }) })
	ender := n.choice("Ender", func() string { return model.NameOr(m.Setup().Ender, noEnder) }, n.enders, place(model.AsEnder, noEnder))
	position := n.choice("Position", func() string { return string(m.Setup().Position) }, func() []string { return model.Positions },
		func(v string) error { return edit(func(s *timeline.Setup) { s.Position = timeline.Position(v) }) })
	advantage := n.perhaps("Knockdown advantage", func() timeline.Maybe { return m.Setup().Advantage }, n.enderAdvantage,
		func(v timeline.Maybe) error { return edit(func(s *timeline.Setup) { s.Advantage = v }) })
	distance := n.perhaps("Distance", func() timeline.Maybe { return m.Setup().Distance }, n.enderDistance,
		func(v timeline.Maybe) error { return edit(func(s *timeline.Setup) { s.Distance = v }) })
	room := n.perhaps("Room to the wall", func() timeline.Maybe { return m.Setup().Room }, n.positionRoom,
		func(v timeline.Maybe) error { return edit(func(s *timeline.Setup) { s.Room = v }) })
	delay := n.whole("Delay", func() int { return m.Setup().Delay },
		func(v int) error { return edit(func(s *timeline.Setup) { s.Delay = v }) })
	jump := n.choice("Jump", func() string { return model.NameOr(m.Setup().Jump, NoJump) }, n.jumps, place(model.AsJump, NoJump))
	attack := n.choice("Attack", func() string { return model.NameOr(m.Setup().Attack, NoAttack) },
		func() []string { return append([]string{NoAttack}, n.moves(true)...) }, place(model.AsAttack, NoAttack))
	attack.when = jumping
	press := n.perhaps("Press", func() timeline.Maybe { return m.Setup().Press }, n.autoPress,
		func(v timeline.Maybe) error { return edit(func(s *timeline.Setup) { s.Press = v }) })
	press.when = attacking
	landing := n.choice("Landing", func() string { return m.Setup().Landing },
		func() []string { return append([]string{timeline.DoGuard, timeline.DoParry}, n.moves(false)...) }, place(model.AsLanding, ""))
	tags := n.text("Tags", func() string { return strings.Join(m.Setup().Tags, ", ") },
		func(v string) error { return edit(func(s *timeline.Setup) { s.Tags = SplitTags(v) }) })
	tags.Field.(*TypedField).Entry.SetPlaceHolder("tag, tag")
	note := n.note("Note", func() string { return m.Setup().Note },
		func(v string) error { return edit(func(s *timeline.Setup) { s.Note = v }) })

	fillers := n.row("Fillers", func(r *InspectorRow) rowField { return newFillerList(n, r) })
	add := n.choice("", func() string { return "" }, func() []string { return append(n.moves(false), n.jumps()[1:]...) },
		func(name string) error {
			return m.Place(&model.Block{As: model.AsFiller, Name: name}, model.Spot{At: len(m.Setup().Fillers)})
		})
	add.Field.(*Choice).PlaceHolder = "Add filler"
	rises := n.row("Rises", func(r *InspectorRow) rowField { return newRisePicks(n, r) })

	n.Rows = []*InspectorRow{name, attacker, rival, position, ender, advantage, distance, room, fillers, add, delay, jump, attack, press, landing, rises}
	n.Rows = append(append(n.Rows, n.worthRows(edit)...), tags, note)
	for _, r := range n.Rows {
		n.setup.Add(r.Box)
	}
	n.setup.Add(n.heading("Results"))
	n.setup.Add(n.Facts)
	n.setup.Add(n.heading("In-game tests"))
	n.setup.Add(n.proofs.box)
}

// SplitTags reads tags with commas between.
func SplitTags(text string) (out []string) {
	for _, t := range strings.Split(text, ",") {
		if t = strings.TrimSpace(t); t != "" {
			out = append(out, t)
		}
	}
	return out
}

func (n *Inspector) fighters() (out []string) {
	for i := range n.model.Data().Fighters {
		out = append(out, n.model.Data().Fighters[i].Name)
	}
	return out
}

func (n *Inspector) attacker() *timeline.Fighter {
	return n.model.Data().Fighter(n.model.Setup().Attacker)
}

func (n *Inspector) enders() []string {
	return append(model.Enders(n.attacker(), n.model.Setup().Position), noEnder)
}

func (n *Inspector) jumps() []string {
	out := []string{NoJump}
	for i := range n.attacker().Jumps {
		out = append(out, n.attacker().Jumps[i].Name)
	}
	return out
}

// moves are the attacker's, done in the air or on the ground.
func (n *Inspector) moves(air bool) (out []string) {
	f := n.attacker()
	for i := range f.Moves {
		if f.Moves[i].Air == air {
			out = append(out, f.Moves[i].Name)
		}
	}
	return out
}

// enderAdvantage says what the setup takes where it has no advantage of its
// own.
func (n *Inspector) enderAdvantage() string {
	s, f := n.model.Setup(), n.attacker()
	s.Advantage = timeline.Maybe{}
	if f == nil {
		return ""
	}
	if k := s.K(f); k.Given {
		return k.String() + ", the ender's"
	}
	return "the ender gives none"
}

// enderDistance says what the setup takes where it has no distance of its own.
func (n *Inspector) enderDistance() string {
	s, f := n.model.Setup(), n.attacker()
	s.Distance = timeline.Maybe{}
	if f == nil {
		return ""
	}
	if d := s.D(f); d.Given {
		return d.String() + ", the ender's"
	}
	return "unknown"
}

// positionRoom says how far the wall is where the setup doesn't.
func (n *Inspector) positionRoom() string {
	if n.model.Setup().Position == timeline.Wall {
		return "0, at the wall"
	}
	return "no wall"
}

// autoPress says where the attack is pressed that the setup leaves to the
// jump.
func (n *Inspector) autoPress() string {
	s := n.model.Setup()
	if s.Press.Given || n.model.Plan() == nil {
		return "auto"
	}
	return timeline.Some(n.model.Plan().Press()).String() + ", auto"
}
