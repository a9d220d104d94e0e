package model

import (
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// ShelfLine is one line of the shelf: a block, or the head of a group.
type ShelfLine struct {
	Head, Unit string // of a group: its name, and what its numbers count
	Block      Block
	low        string // the block's name in small letters
	About      string // its frames, in words
}

// ShelfLines are the blocks that the chosen setup can be built of, group by
// group: the attacker's, then the rival's.
func ShelfLines(data *timeline.Project, s *timeline.Setup) []ShelfLine {
	var out []ShelfLine
	attacker, rival := data.Fighter(s.Attacker), data.Fighter(s.Rival)
	add := func(b Block, about string) {
		out = append(out, ShelfLine{Block: b, low: strings.ToLower(b.Title()), About: about})
	}
	head := func(name, unit string) { out = append(out, ShelfLine{Head: name, Unit: unit}) }
	move := func(as Slot, m *timeline.Move) {
		add(Block{as, m.Name, timeline.Some(m.Total(data.Ruleset))}, words.MovePhases(m, data.Ruleset))
	}
	moves := func(as Slot, f *timeline.Fighter, air bool) {
		for i := range f.Moves {
			if m := &f.Moves[i]; m.Air == air {
				move(as, m)
			}
		}
	}
	jumps := func(as Slot, f *timeline.Fighter) {
		for i := range f.Jumps {
			j := &f.Jumps[i]
			add(Block{as, j.Name, timeline.Some(j.Total())}, words.JumpPhases(j))
		}
	}
	if attacker != nil {
		head("Enders of "+s.Attacker, "knockdown")
		for i := range attacker.Moves {
			if m := &attacker.Moves[i]; m.Knockdown != (timeline.Places{}) {
				add(Block{AsEnder, m.Name, m.Knockdown.At(s.Position)}, words.MovePhases(m, data.Ruleset))
			}
		}
		head("Fillers", "frames")
		moves(AsFiller, attacker, false)
		jumps(AsFiller, attacker)
		head("Jumps", "frames")
		add(Block{As: AsJump}, "the landing action begins after the delay")
		jumps(AsJump, attacker)
		head("Air attacks", "frames")
		add(Block{As: AsAttack}, "an empty jump")
		moves(AsAttack, attacker, true)
		head("On landing", "frames")
		add(Block{As: AsLanding, Name: timeline.DoGuard}, "guards, at the right level")
		add(Block{As: AsLanding, Name: timeline.DoParry}, "holds the common parry")
		moves(AsLanding, attacker, false)
	}
	if rival != nil {
		head("Replies of "+s.Rival, "frames")
		moves(AsReply, rival, false)
		jumps(AsReply, rival)
	}
	return out
}

// Matching are the places of the lines that have every word in their name or
// in that of their group, with the heads of the groups that have any.
func Matching(lines []ShelfLine, words []string) []int {
	for i := range words {
		words[i] = strings.ToLower(words[i])
	}
	var out []int
	group, low := -1, ""
	for i := range lines {
		l := &lines[i]
		if l.Head != "" {
			group, low = i, strings.ToLower(l.Head)
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
