package timeline

import "strings"

// FrameKey is equal for two plans of one project only where both come to the
// same frames: the same attacker does the same from its jump on (without one,
// from its landing action on), on the same frames, against the same rival, which
// gets up in the same ways. Fillers that only use up frames may differ, and so
// may replies; where both stand is known fillers travel, and must be the same
// too.
type FrameKey struct {
	attacker, rival, jump, attack, landing, rises, fillers string

	k, from, press int
	distance, room Maybe
}

// FrameKeyOf is that of a plan at its own delay.
func FrameKeyOf(p *Plan) FrameKey {
	s := &p.Setup
	key := FrameKey{attacker: s.Attacker, rival: s.Rival, jump: s.Jump, attack: s.Attack, landing: s.Landing,
		k: p.K, from: p.jumpOn + s.Delay, press: p.press, distance: p.Distance(), room: p.room}
	var rises []string
	for i := range p.rises {
		rises = append(rises, p.rises[i].Name)
	}
	key.rises = strings.Join(rises, "\n") // no name has a line break
	if p.ground.known {
		key.fillers = strings.Join(s.Fillers, "\n")
	}
	return key
}
