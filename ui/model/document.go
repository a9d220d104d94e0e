package model

import (
	"slices"
	"strconv"
	"strings"

	"wakeline/timeline"
)

// Head is what is known of a setup without reading it whole.
type Head struct{ Name, Attacker, Rival string }

// Touched says what a step back or forward has changed.
type Touched struct {
	At  int  // the one setup that has another value; -1: none
	All bool // everything may be other than it was
}

// NextStep is what undo or redo would do next.
type NextStep struct {
	What  string // empty: there is nothing to do
	At    int    // the setup that it changes, -1 where it is no single one
	Setup string // that setup's name
}

// noStep is the lack of one.
var noStep = NextStep{At: -1}

// editName says in a few words what made after out of before.
func editName(before, after *timeline.Setup) string {
	switch {
	case before.Delay != after.Delay:
		return "delay " + strconv.Itoa(after.Delay)
	case before.Press != after.Press && after.Press.Given:
		return "press on air frame " + strconv.Itoa(after.Press.N)
	case before.Press != after.Press:
		return "press auto"
	case before.Advantage != after.Advantage && after.Advantage.Given:
		return "knockdown advantage " + strconv.Itoa(after.Advantage.N)
	case before.Advantage != after.Advantage:
		return "knockdown advantage of the ender"
	case before.Distance != after.Distance && after.Distance.Given:
		return "distance " + strconv.Itoa(after.Distance.N)
	case before.Distance != after.Distance:
		return "distance of the ender"
	case before.Room != after.Room && after.Room.Given:
		return "room " + strconv.Itoa(after.Room.N)
	case before.Room != after.Room:
		return "room of the position"
	case before.Name != after.Name:
		return "name " + after.Name
	case before.Position != after.Position:
		return string(after.Position)
	case before.Ender != after.Ender:
		return NameOr(after.Ender, "no ender")
	case before.Jump != after.Jump:
		return NameOr(after.Jump, "no jump")
	case before.Attack != after.Attack:
		return NameOr(after.Attack, "no attack")
	case before.Landing != after.Landing:
		return after.Landing + " on landing"
	case before.Rival != after.Rival:
		return "against " + after.Rival
	case before.Attacker != after.Attacker:
		return "as " + after.Attacker
	case !slices.Equal(before.Rises, after.Rises):
		return NameOr(strings.Join(after.Rises, ", "), "all rises")
	case before.Replies != nil && after.Replies == nil:
		return "standing replies of " + after.Rival
	case !slices.Equal(before.Replies, after.Replies):
		return repliesName(before.Replies, after.Replies)
	case before.OnHit != after.OnHit:
		return NameOr(after.OnHit, "no route") + " after a hit"
	case !slices.Equal(before.Punish, after.Punish):
		return "punish with " + NameOr(strings.Join(after.Punish, ", "), "any route")
	case !slices.Equal(before.Follow, after.Follow):
		return NameOr(timeline.FollowText(after.Follow), "no string") + " after a block"
	case before.Pressure != after.Pressure:
		return strconv.Itoa(after.Pressure) + " points for a block"
	case !slices.Equal(before.Tags, after.Tags):
		return "tags " + NameOr(strings.Join(after.Tags, ", "), "none")
	case before.Note != after.Note:
		return "note"
	case len(after.Fillers) < len(before.Fillers):
		for i, name := range before.Fillers {
			if i == len(after.Fillers) || after.Fillers[i] != name {
				return "without " + name
			}
		}
	case !slices.Equal(before.Fillers, after.Fillers):
		return strings.Join(after.Fillers, ", ")
	}
	return "edit"
}

// repliesName says in a few words what made one list of replies of another.
func repliesName(before, after []timeline.Reply) string {
	if before == nil {
		return "own replies"
	}
	at := 0 // the first that differs
	for at < len(before) && at < len(after) && before[at] == after[at] {
		at++
	}
	switch {
	case len(after) == len(before)+1 && slices.Equal(before[at:], after[at+1:]):
		return "reply " + after[at].Title()
	case len(after) == len(before)-1 && slices.Equal(before[at+1:], after[at:]):
		return "without " + before[at].Title()
	case len(after) != len(before) || !slices.Equal(before[at+1:], after[at+1:]):
		return "replies"
	}
	was, is := before[at], after[at]
	switch {
	case was.Move != is.Move:
		return "reply " + is.Title()
	case was.Late != is.Late:
		return was.Move + " late " + strconv.Itoa(is.Late)
	case was.Demand != is.Demand:
		return "demand " + string(is.Demand) + " of " + is.Title()
	case is.Costs.Given:
		return strconv.Itoa(is.Costs.N) + " points for " + is.Title()
	}
	return "its damage for " + is.Title()
}
