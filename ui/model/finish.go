package model

import (
	"context"

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
