package find

import (
	"context"
	"slices"

	"wakeline/timeline"
)

// Demands are the replies that a project asks of each rival of one attacker: by
// rival, every reply with a demand that a setup of the pair names, with the
// hardest demand on it.
type Demands map[string][]timeline.Reply

// DemandsOf reads the attacker's demands off all setups, which each calls its
// function with. Errors are those of each, and ctx's.
func DemandsOf(ctx context.Context, each func(context.Context, func(*timeline.Setup) error) error, attacker string) (Demands, error) {
	out := Demands{}
	err := each(ctx, func(s *timeline.Setup) error {
		if s.Attacker == attacker {
			out.add(s.Rival, s.Replies)
		}
		return ctx.Err()
	})
	return out, err
}

func (d Demands) add(rival string, replies []timeline.Reply) {
	list := d[rival]
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
	d[rival] = list
}

// Targets adds to the rivals of a search what is asked of them: of the rival of
// s what s asks itself, of any other what the project asks of it, else what
// every setup against it is asked, else to survive all of its strikes and
// throws done on the ground. The rival of s
// comes first. Rises that a rival lacks are those of Claims.
func (d Demands) Targets(p *timeline.Project, s *timeline.Setup, rivals []Target) (out []Target) {
	for _, t := range rivals {
		if len(t.Rises) == 0 {
			t.Rises = Claims(p, s, t.Rival)
		}
		switch {
		case t.Rival == s.Rival:
			t.Replies = s.Replies
			out = append([]Target{t}, out...)
			continue
		case len(d[t.Rival]) > 0:
			t.Replies = d[t.Rival]
		case len(p.Fighter(t.Rival).Replies) > 0:
			t.Replies = nil
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

// Claims are the rises of a rival that a search claims unless it's told others:
// of the rival of s those that s claims, of any other its first.
func Claims(p *timeline.Project, s *timeline.Setup, rival string) (out []string) {
	f := p.Fighter(rival)
	if rival == s.Rival {
		for _, r := range s.Claimed(f) {
			out = append(out, r.Name)
		}
		return out
	}
	return []string{f.Rises[0].Name}
}
