package ui

import (
	"context"
	"slices"

	"wakeline/timeline"
	"wakeline/timeline/find"
)

// demands are the replies that a project asks of each rival of one attacker: by
// rival, every reply with a demand that a setup of the pair names, with the
// hardest demand on it.
type demands map[string][]timeline.Reply

// askedOf reads them off all setups.
func askedOf(ctx context.Context, each func(context.Context, func(*timeline.Setup) error) error, attacker string) (demands, error) {
	out := demands{}
	err := each(ctx, func(s *timeline.Setup) error {
		if s.Attacker == attacker {
			out.add(s.Rival, s.Replies)
		}
		return ctx.Err()
	})
	return out, err
}

func (a demands) add(rival string, replies []timeline.Reply) {
	list := a[rival]
	for _, r := range replies {
		if r.Demand == timeline.DemandNone {
			continue
		}
		i := slices.IndexFunc(list, func(o timeline.Reply) bool { return o.Move == r.Move && o.Late == r.Late })
		switch {
		case i < 0:
			list = append(list, r)
		case r.Demand == timeline.Beat:
			list[i].Demand = timeline.Beat
		}
	}
	a[rival] = list
}

// ask adds to the rivals of a search what is asked of them: of the setup's own
// what it asks itself, of any other what the project asks of it, else to
// survive all of its strikes and throws done on the ground. The setup's own
// comes first.
func (a demands) ask(p *timeline.Project, s *timeline.Setup, rivals []find.Target) (out []find.Target) {
	for _, t := range rivals {
		switch {
		case t.Rival == s.Rival:
			t.Replies = s.Replies
			out = append([]find.Target{t}, out...)
			continue
		case len(a[t.Rival]) > 0:
			t.Replies = a[t.Rival]
		default:
			for i, f := 0, p.Fighter(t.Rival); i < len(f.Moves); i++ {
				if m := &f.Moves[i]; !m.Air && m.Hits() {
					t.Replies = append(t.Replies, timeline.Reply{Move: m.Name, Demand: timeline.Survive})
				}
			}
		}
		out = append(out, t)
	}
	return out
}
