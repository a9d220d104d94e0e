package ui

import (
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// shelfLine is one line of the shelf: a block, or the head of a group.
type shelfLine struct {
	head, unit string // of a group: its name, and what its numbers count
	block      block
	low        string // the block's name in small letters
	about      string // its frames, in words
}

// shelfLines are the blocks that the chosen setup can be built of, group by
// group: the attacker's, then the rival's.
func shelfLines(data *timeline.Project, s *timeline.Setup) []shelfLine {
	var out []shelfLine
	attacker, rival := data.Fighter(s.Attacker), data.Fighter(s.Rival)
	add := func(b block, about string) {
		out = append(out, shelfLine{block: b, low: strings.ToLower(b.title()), about: about})
	}
	head := func(name, unit string) { out = append(out, shelfLine{head: name, unit: unit}) }
	move := func(as slot, m *timeline.Move) {
		add(block{as, m.Name, timeline.Some(m.Total(data.Ruleset))}, words.MovePhases(m, data.Ruleset))
	}
	moves := func(as slot, f *timeline.Fighter, air bool) {
		for i := range f.Moves {
			if m := &f.Moves[i]; m.Air == air {
				move(as, m)
			}
		}
	}
	jumps := func(as slot, f *timeline.Fighter) {
		for i := range f.Jumps {
			j := &f.Jumps[i]
			add(block{as, j.Name, timeline.Some(j.Total())}, words.JumpPhases(j))
		}
	}
	if attacker != nil {
		head("Enders of "+s.Attacker, "knockdown")
		for i := range attacker.Moves {
			if m := &attacker.Moves[i]; m.Knockdown != (timeline.Places{}) {
				add(block{asEnder, m.Name, m.Knockdown.At(s.Position)}, words.MovePhases(m, data.Ruleset))
			}
		}
		head("Fillers", "frames")
		moves(asFiller, attacker, false)
		jumps(asFiller, attacker)
		head("Jumps", "frames")
		add(block{as: asJump}, "the landing action begins after the delay")
		jumps(asJump, attacker)
		head("Air attacks", "frames")
		add(block{as: asAttack}, "an empty jump")
		moves(asAttack, attacker, true)
		head("On landing", "frames")
		add(block{as: asLanding, name: timeline.DoGuard}, "guards, at the right level")
		add(block{as: asLanding, name: timeline.DoParry}, "holds the common parry")
		moves(asLanding, attacker, false)
	}
	if rival != nil {
		head("Replies of "+s.Rival, "frames")
		moves(asReply, rival, false)
		jumps(asReply, rival)
	}
	return out
}

// matching are the places of the lines that have every word in their name or
// in that of their group, with the heads of the groups that have any.
func matching(lines []shelfLine, words []string) []int {
	for i := range words {
		words[i] = strings.ToLower(words[i])
	}
	var out []int
	group, low := -1, ""
	for i := range lines {
		l := &lines[i]
		if l.head != "" {
			group, low = i, strings.ToLower(l.head)
			continue
		}
		has := true
		for _, w := range words {
			has = has && (strings.Contains(l.low, w) || strings.Contains(low, w))
		}
		if !has {
			continue
		}
		if group >= 0 {
			out, group = append(out, group), -1
		}
		out = append(out, i)
	}
	return out
}
