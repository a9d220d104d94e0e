package model

import (
	"context"
	"slices"
	"strings"

	"wakeline/timeline"
)

// SameSetups are setups that come to the same frames, the oldest first: the first
// can stand for all of them.
type SameSetups struct {
	Setups []timeline.Setup
	Merged timeline.Setup // the first with what the others have besides
}

// Edits put the merged setup in place of all.
func (s *SameSetups) Edits() (edits []timeline.Edit) {
	merged := s.Merged
	edits = append(edits, timeline.SetupEdit{Before: merged.Name, Setup: &merged})
	for i := range s.Setups[1:] {
		edits = append(edits, timeline.SetupEdit{Before: s.Setups[i+1].Name})
	}
	return edits
}

// FindSame finds the setups that come to the same frames, against one rival. Such
// setups that ask the same reply otherwise, or of which another thing follows a
// touch, aren't put together.
func FindSame(ctx context.Context, p *timeline.Project, each func(context.Context, func(*timeline.Setup) error) error) (found []SameSetups, err error) {
	index := timeline.NewIndex(p)
	groups, order := map[timeline.FrameKey][]SameSetups{}, []timeline.FrameKey(nil)
	err = each(ctx, func(s *timeline.Setup) error {
		var key timeline.FrameKey
		if index.With(*s, func(plan *timeline.Plan, _ []timeline.Cell) { key = timeline.FrameKeyOf(plan) }) != nil {
			return ctx.Err() // what can't be judged is like nothing
		}
		if groups[key] == nil {
			order = append(order, key)
		}
		for i := range groups[key] {
			if groups[key][i].add(p.Fighter(s.Rival), s) {
				return ctx.Err()
			}
		}
		groups[key] = append(groups[key], SameSetups{[]timeline.Setup{*s}, *s})
		return ctx.Err()
	})
	for _, key := range order {
		for _, g := range groups[key] {
			if len(g.Setups) > 1 {
				found = append(found, g)
			}
		}
	}
	return found, err
}

// add merges s too, unless the two can't be one.
func (g *SameSetups) add(rival *timeline.Fighter, s *timeline.Setup) bool {
	m := g.Merged
	if m.Ender != s.Ender || m.Position != s.Position || m.OnHit != s.OnHit || m.Pressure != s.Pressure || !slices.Equal(m.Punish, s.Punish) || !slices.Equal(m.Follow, s.Follow) {
		return false
	}
	if m.Replies != nil || s.Replies != nil {
		replies := slices.Clone(m.Asked(rival))
		for _, r := range s.Asked(rival) {
			at := slices.IndexFunc(replies, func(o timeline.Reply) bool { return o.Move == r.Move && o.Late == r.Late })
			switch {
			case at < 0:
				replies = append(replies, r)
			case replies[at] != r:
				return false
			}
		}
		m.Replies = replies
	}
	m.Tags = slices.Clone(m.Tags)
	for _, tag := range s.Tags {
		if !slices.Contains(m.Tags, tag) {
			m.Tags = append(m.Tags, tag)
		}
	}
	if note := strings.TrimSpace(s.Note); note != "" && !strings.Contains(m.Note, note) {
		m.Note = strings.TrimSpace(m.Note + "\n" + note)
	}
	g.Setups, g.Merged = append(g.Setups, *s), m
	return true
}
