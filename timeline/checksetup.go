package timeline

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// setup checks that every name in s is one of the right kind for its place, and
// that the numbers are in range.
func (c *checker) setup(path *Path, find finder, s *Setup) {
	if c.err != nil {
		return
	}
	attacker, rival := find(s.Attacker), find(s.Rival)
	if attacker == nil {
		c.fail(path.At("attacker"), "the name of a fighter", quote(s.Attacker))
		return
	}
	if rival == nil {
		c.fail(path.At("rival"), "the name of a fighter", quote(s.Rival))
		return
	}
	c.ender(path, attacker, s)
	c.wall(path, attacker, s)
	for i, name := range s.Fillers {
		if attacker.Jump(name) == nil {
			c.grounded(path.At("fillers").Item(i), "a move or jump", attacker, name)
		}
	}
	c.within(path.At("delay"), s.Delay, 0, MaxFrames)
	c.air(path, attacker, s)
	if s.Landing != DoGuard && s.Landing != DoParry {
		c.grounded(path.At("landing"), "guard, parry or a move", attacker, s.Landing)
	}
	claimed := names{}
	for i, name := range s.Rises {
		at := path.At("rises").Item(i)
		if !rival.hasRise(name) {
			c.fail(at, "a rise of "+rival.Name, quote(name))
		}
		if claimed[name] {
			c.fail(at, "each rise once", quote(name)+" again")
		}
		claimed[name] = true
	}
	c.replies(path, rival, s.Replies)
	c.after(path, attacker, s)
	for i, tag := range s.Tags {
		c.label(path.At("tags").Item(i), tag)
	}
	c.plain(path.At("note"), s.Note)
}

func (c *checker) ender(path *Path, attacker *roster, s *Setup) {
	if s.Position != Midscreen && s.Position != Wall {
		c.fail(path.At("position"), "midscreen or wall", quote(string(s.Position)))
	}
	c.maybe(path.At("advantage"), s.Advantage, 0, MaxFrames-1)
	c.maybe(path.At("distance"), s.Distance, -MaxUnits, MaxUnits)
	c.maybe(path.At("room"), s.Room, 0, MaxUnits)
	if s.Ender == "" {
		if !s.Advantage.Given {
			c.fail(path.At("ender"), "an ender or an advantage", "")
		}
		return
	}
	if attacker.Move(s.Ender) == nil {
		c.failName(path.At("ender"), "a move of "+attacker.Name, s.Ender, "")
		return
	}
	if !s.k(attacker).Given {
		c.failName(path.At("ender"), "an ender with an advantage at the "+string(s.Position)+", or an advantage of the setup's own", s.Ender, " without one")
	}
}

// wall asks that a wall of the setup's own numbers is behind both on frame 0:
// where the rival lies behind the attacker, it may be between the two.
func (c *checker) wall(path *Path, attacker *roster, s *Setup) {
	d, room := s.distance(attacker), s.room(attacker)
	if !room.Given || d.N+room.N >= 0 {
		return
	}
	switch {
	case s.Room.Given:
		path = path.At("room")
	case s.Distance.Given:
		path = path.At("distance")
	default:
		return
	}
	c.fail(path, "a wall behind both fighters on frame 0", fmt.Sprintf("one between them, at %d: the rival lies at %d, the attacker stands at 0", d.N+room.N, d.N))
}

// grounded asks for a move of f that is not an air move.
func (c *checker) grounded(path *Path, what string, f *roster, name string) {
	m := f.Move(name)
	if m == nil {
		c.failName(path, what+" of "+f.Name, name, "")
	} else if m.Air {
		c.failName(path, what+" done on the ground", name, ", an air move")
	}
}

// air checks the jump, its attack and the press.
func (c *checker) air(path *Path, attacker *roster, s *Setup) {
	if s.Jump == "" {
		if s.Attack != "" {
			c.failName(path.At("attack"), "a jump to carry the attack, or no attack", s.Attack, "")
		}
		c.maybe(path.At("press"), s.Press, 0, MaxFrames)
		return
	}
	j := attacker.Jump(s.Jump)
	if j == nil {
		c.failName(path.At("jump"), "a jump of "+attacker.Name, s.Jump, "")
		return
	}
	if s.Attack != "" {
		if m := attacker.Move(s.Attack); m == nil {
			c.failName(path.At("attack"), "an air move of "+attacker.Name, s.Attack, "")
		} else if !m.Air {
			c.failName(path.At("attack"), "an air move", s.Attack, ", done on the ground")
		}
	}
	if s.Press.Given && (s.Press.N < 0 || s.Press.N >= j.Airborne) {
		c.fail(path.At("press"), fmt.Sprintf("auto or an air frame of the jump, 0 to %d", j.Airborne-1), s.Press.String())
	}
}

// after asks that what follows the meeting is the attacker's.
func (c *checker) after(path *Path, attacker *roster, s *Setup) {
	route := func(at *Path, name string) {
		if attacker.Route(name) == nil {
			c.failName(at, "a route of "+attacker.Name, name, "")
		}
	}
	if s.OnHit != "" {
		route(path.At("on_hit"), s.OnHit)
	}
	seen := names{}
	for i, name := range s.Punish {
		at := path.At("punish").Item(i)
		route(at, name)
		if seen[name] {
			c.fail(at, "each route once", quote(name)+" again")
		}
		seen[name] = true
	}
	for i := range s.Follow {
		at := path.At("follow").Item(i)
		c.grounded(at.At("move"), "a move", attacker, s.Follow[i].Move)
		checkFields(c, at, FollowFields, &s.Follow[i])
	}
	c.within(path.At("pressure"), s.Pressure, -MaxPoints, MaxPoints)
}

func (c *checker) replies(path *Path, rival *roster, replies []Reply) {
	again := repeats(replies)
	for i, r := range replies {
		if sound(rival, r) && !again[i] {
			continue
		}
		at := path.At("replies").Item(i)
		if r.Move == GuardHigh || r.Move == GuardLow || r.Move == Nothing {
			c.failName(at.At("move"), "a move or jump: "+r.Move+" is always judged", r.Move, "")
		}
		if rival.Jump(r.Move) == nil {
			c.grounded(at.At("move"), "a move or jump", rival, r.Move)
		}
		if r.Demand != Survive && r.Demand != Beat && r.Demand != DemandNone {
			c.fail(at.At("demand"), "survive, beat or none", quote(string(r.Demand)))
		}
		c.within(at.At("late"), r.Late, 0, MaxFrames)
		c.maybe(at.At("costs"), r.Costs, 0, MaxPoints)
		if again[i] {
			c.failName(at, "each reply once at each lateness", r.Title(), " again")
		}
	}
}

// sound reports whether reply r is valid by itself. It is quick, so that the
// slower check, which finds the words for an error, runs only where one is.
func sound(rival *roster, r Reply) bool {
	if r.Costs.Given && (r.Costs.N < 0 || r.Costs.N > MaxPoints) {
		return false
	}
	if r.Late < 0 || r.Late > MaxFrames || r.Demand != Survive && r.Demand != Beat && r.Demand != DemandNone {
		return false
	}
	if m := rival.Move(r.Move); m != nil {
		return !m.Air
	}
	return rival.Jump(r.Move) != nil
}

// repeats returns the indexes of replies that are in the list already, with the
// same lateness; nil where there are none.
func repeats(replies []Reply) map[int]bool {
	order := make([]int, len(replies))
	for i := range order {
		order[i] = i
	}
	compare := func(a, b int) int {
		return cmp.Or(cmp.Compare(replies[a].Late, replies[b].Late), strings.Compare(replies[a].Move, replies[b].Move))
	}
	slices.SortStableFunc(order, compare)
	var out map[int]bool
	for k := 1; k < len(order); k++ {
		if compare(order[k-1], order[k]) == 0 {
			if out == nil {
				out = map[int]bool{}
			}
			out[order[k]] = true
		}
	}
	return out
}

// Title is the reply's name as verdicts write it: "name", or "name late 2".
func (r Reply) Title() string {
	if r.Late == 0 {
		return r.Move
	}
	return r.Move + " late " + strconv.Itoa(r.Late)
}

// Title is the judged reply's name, as that of a Reply.
func (r *ReplyVerdict) Title() string { return Reply{Move: r.Reply, Late: r.Late}.Title() }

func (f *Fighter) hasRise(name string) bool {
	for _, r := range f.Rises {
		if r.Name == name {
			return true
		}
	}
	return false
}
