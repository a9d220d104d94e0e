package panel

import (
	"errors"
	"fmt"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// noRoute is what a setup does after a hit that names no route.
const noRoute = "the attack alone"

// worthRows are the rows of what a setup does after its meeting.
func (n *Inspector) worthRows(edit func(change func(s *timeline.Setup)) error) []*InspectorRow {
	m := n.model
	onHit := n.choice("Route after a hit", func() string {
		if r := m.Setup().OnHit; r != "" {
			return r
		}
		return noRoute
	}, func() []string { return append([]string{noRoute}, n.routes()...) }, func(name string) error {
		if name == noRoute {
			name = ""
		}
		return edit(func(s *timeline.Setup) { s.OnHit = name })
	})
	punish := n.text("Routes that punish", func() string { return strings.Join(m.Setup().Punish, ", ") }, func(text string) error {
		names := SplitTags(text)
		for _, name := range names {
			if n.attacker().Route(name) == nil {
				return fmt.Errorf("%s has no route %q", m.Setup().Attacker, name)
			}
		}
		return edit(func(s *timeline.Setup) { s.Punish = names })
	})
	punish.Field.(*TypedField).Entry.SetPlaceHolder("all routes")
	follow := n.text("String after a block", func() string { return timeline.FollowText(m.Setup().Follow) }, func(text string) error {
		steps, want, got := timeline.ReadFollow(n.attacker(), text)
		if want != "" {
			return fmt.Errorf("expected %s, got %s", want, got)
		}
		return edit(func(s *timeline.Setup) { s.Follow = steps })
	})
	follow.Field.(*TypedField).Entry.SetPlaceHolder("jab, wait 2 jab > sweep")
	pressure := n.whole("Points of a block", func() int { return m.Setup().Pressure },
		func(v int) error { return edit(func(s *timeline.Setup) { s.Pressure = v }) })
	costs := n.perhaps("Points the reply takes", func() timeline.Maybe {
		if i, s := m.Reply(), m.Setup(); i >= 0 && i < len(s.Replies) {
			return s.Replies[i].Costs
		}
		return timeline.Maybe{}
	}, func() string { return "its damage" }, func(v timeline.Maybe) error {
		i := m.Reply()
		if i < 0 {
			return errors.New("no reply of the setup is shown")
		}
		return edit(func(s *timeline.Setup) {
			s.Replies = append([]timeline.Reply{}, s.Replies...)
			s.Replies[i].Costs = v
		})
	})
	costs.when = func() bool { return m.Reply() >= 0 }
	return []*InspectorRow{onHit, punish, follow, pressure, costs}
}

// routes are the names of the attacker's routes.
func (n *Inspector) routes() (out []string) {
	if f := n.attacker(); f != nil {
		for i := range f.Routes {
			out = append(out, f.Routes[i].Name)
		}
	}
	return out
}

// worthFacts list what the setup is worth, as far as that is known.
func (n *Inspector) worthFacts(out []words.Fact) []words.Fact {
	w := &n.model.Worth
	if !w.Tells() {
		return out
	}
	a, _ := w.Answer()
	add := func(m timeline.Maybe, name, form string) {
		if m.Given {
			out = append(out, words.Fact{Name: name, Value: fmt.Sprintf(form, m.N)})
		}
	}
	add(a.Forgone, "points given up for the setup", "%d")
	add(a.KillsOnHit, "a hit ends the round from", "%d health")
	if s := a.String; s != nil {
		for i := range s.Steps {
			if gap := words.Gap(s.Steps[i].Gap, s.Steps[i].BeatenBy); gap != "" {
				out = append(out, words.Fact{Name: "string, " + s.Steps[i].Move, Value: gap})
			}
		}
		if turn := words.Turn(s.Advantage, s.PunishedBy); turn != "" {
			add(s.Advantage, "at the end of the string", "%+d")
			out = append(out, words.Fact{Name: "the string", Value: turn})
		}
	}
	return out
}
