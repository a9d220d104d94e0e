package model

import (
	"context"
	"slices"

	"wakeline/timeline"
)

// OwnReplies reports whether the chosen setup has replies of its own, and is
// not asked its rival's standing ones.
func (m *Model) OwnReplies() bool { return m.setup.Replies != nil }

// Kept is the chosen setup as the document keeps it: without replies where it
// is asked its rival's.
func (m *Model) Kept() timeline.Setup { return m.setup }

// TakeReplies makes the rival's standing replies the chosen setup's own.
func (m *Model) TakeReplies() error {
	next := m.setup
	next.Replies = append([]timeline.Reply{}, m.replies()...)
	return m.change(next)
}

// GiveReplies drops the chosen setup's own replies: it is asked its rival's.
func (m *Model) GiveReplies() error {
	next := m.setup
	next.Replies = nil
	return m.change(next)
}

// ShareReplies makes the chosen setup's own replies the standing ones of its
// rival, who has none.
func (m *Model) ShareReplies() error {
	m.Commit()
	merge := ReplyMerge{Rival: m.setup.Rival, Replies: m.setup.Replies, New: true, Setups: []timeline.Setup{m.setup}}
	return m.Apply("standing replies of "+m.setup.Rival, merge.Edits()...)
}

// ReplyMerge is setups against one rival that all have the same replies of
// their own, which are to be its standing ones.
type ReplyMerge struct {
	Rival   string
	Replies []timeline.Reply
	New     bool             // the rival has no standing replies yet
	Setups  []timeline.Setup // that have them as their own
	Others  int              // setups that have none of their own, and are asked these too from then on, where they are new
}

// ReplyMerges finds, rival by rival, the setups whose own replies are the
// rival's standing ones; of a rival without any, those with the list that most
// setups have, where two or more do.
func ReplyMerges(ctx context.Context, p *timeline.Project, each func(context.Context, func(*timeline.Setup) error) error) (out []ReplyMerge, err error) {
	lists := map[string][]ReplyMerge{} // of each rival, in the order of the setups
	others := map[string]int{}
	err = each(ctx, func(s *timeline.Setup) error {
		rival := p.Fighter(s.Rival)
		switch {
		case rival == nil:
		case s.Replies == nil:
			others[s.Rival]++
		case rival.Replies == nil && len(s.Replies) > 0, rival.Replies != nil && slices.Equal(s.Replies, rival.Replies):
			of := lists[s.Rival]
			at := slices.IndexFunc(of, func(l ReplyMerge) bool { return slices.Equal(l.Replies, s.Replies) })
			if at < 0 {
				at = len(of)
				of = append(of, ReplyMerge{Rival: s.Rival, Replies: s.Replies, New: rival.Replies == nil})
			}
			of[at].Setups = append(of[at].Setups, *s)
			lists[s.Rival] = of
		}
		return nil
	})
	for i := range p.Fighters {
		best := -1
		of := lists[p.Fighters[i].Name]
		for k := range of {
			if best < 0 || len(of[k].Setups) > len(of[best].Setups) {
				best = k
			}
		}
		if best < 0 || of[best].New && len(of[best].Setups) < 2 {
			continue
		}
		merge := of[best]
		if merge.New {
			merge.Others = others[merge.Rival]
		}
		out = append(out, merge)
	}
	return out, err
}

// Edits are what makes the replies the rival's.
func (r *ReplyMerge) Edits() (out []timeline.Edit) {
	if r.New {
		for i := range r.Replies {
			out = append(out, timeline.ReplyEdit{Owner: r.Rival, To: &r.Replies[i]})
		}
	}
	for i := range r.Setups {
		next := r.Setups[i]
		next.Replies = nil
		out = append(out, timeline.SetupEdit{Before: next.Name, Setup: &next})
	}
	return out
}
