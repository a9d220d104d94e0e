package model

import (
	"context"
	"slices"

	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/words"
)

// Finish is how a fight ends, with a drawing's scene of each round.
type Finish struct {
	value.Finish
	Scenes []words.Scene
}

// FindFinish finds how a fight ends, and lays its rounds out.
func FindFinish(ctx context.Context, data *timeline.Project, q value.FinishQuery) (out Finish, err error) {
	index := timeline.NewIndex(data)
	if out.Finish, err = value.NewBook(data).Finish(ctx, index, q); err != nil {
		return out, err
	}
	named := map[string]*timeline.Setup{q.Begin.Name: &q.Begin}
	for i := range q.Setups {
		if s := &q.Setups[i]; named[s.Name] == nil {
			named[s.Name] = s
		}
	}
	for i := range out.Rounds {
		s, err := finishScene(index, named[out.Rounds[i].Setup], q.Reply)
		if err != nil {
			return out, err
		}
		out.Scenes = append(out.Scenes, s)
	}
	return out, nil
}

// finishScene is the exchange of a setup with a reply at its first free frame, on
// the first rise claimed.
func finishScene(index *timeline.Index, s *timeline.Setup, reply string) (words.Scene, error) {
	plan, err := index.Compile(*s)
	if err != nil {
		return words.Scene{}, err
	}
	if reply == timeline.Nothing {
		return words.SceneAt(plan, s.Delay, 0, timeline.LineNothing), nil
	}
	for i, r := range plan.Asked() {
		if r.Move == reply && r.Late == 0 {
			return words.SceneAt(plan, s.Delay, 0, timeline.FirstReply+i), nil
		}
	}
	alone := *s
	alone.Replies = []timeline.Reply{{Move: reply, Demand: timeline.DemandNone}}
	if plan, err = index.Compile(alone); err != nil {
		return words.Scene{}, err
	}
	return words.SceneAt(plan, s.Delay, 0, timeline.FirstReply), nil
}

// FinishReplies are what the rival of s can do in every round, and the one to
// begin with: the first that s lists, else nothing.
func FinishReplies(data *timeline.Project, s *timeline.Setup) (replies []string, first string) {
	replies = value.FinishReplies(data.Fighter(s.Rival))
	first = replies[0]
	if len(s.Replies) > 0 && slices.Contains(replies, s.Replies[0].Move) {
		first = s.Replies[0].Move
	}
	return replies, first
}

// After are the setups that a round may go on with which begins with s.
func (p *Pair) After(s *timeline.Setup) (out []timeline.Setup) {
	for i := range p.Setups {
		if next := &p.Setups[i]; next.Position == s.Position && next.Ender != "" {
			out = append(out, *next)
		}
	}
	return out
}

// FinishFrom finds how a fight ends from s on, with full health and gauge,
// against the reply that FinishReplies begins with.
func FinishFrom(ctx context.Context, each func(context.Context, func(*timeline.Setup) error) error, data *timeline.Project, s timeline.Setup) (Finish, value.FinishQuery, error) {
	pair, err := PairOf(ctx, each, s.Attacker, s.Rival)
	if err != nil {
		return Finish{}, value.FinishQuery{}, err
	}
	_, reply := FinishReplies(data, &s)
	q := value.FinishQuery{Begin: s, Reply: reply, Health: timeline.Some(max(1, data.Ruleset.Health)), Setups: pair.After(&s)}
	got, err := FindFinish(ctx, data, q)
	return got, q, err
}
