package model

import "wakeline/timeline"

// SetDistance lays the rival n units from the attacker, or as near that as it
// can lie: a wall of the setup's own stays where it is.
func (m *Model) SetDistance(n int) {
	s := m.Setup()
	if m.plan == nil {
		return
	}
	n = min(max(n, 0), timeline.MaxUnits)
	if d := m.plan.Distance(); d.Given && s.Room.Given {
		wall := d.N + s.Room.N
		n = min(n, wall)
		s.Room = timeline.Some(min(wall-n, timeline.MaxUnits))
	}
	s.Distance = timeline.Some(n)
	m.Edit(s)
}

// SetRoom puts the wall n units behind the rival, or as near as it can be.
func (m *Model) SetRoom(n int) {
	s := m.Setup()
	s.Room = timeline.Some(min(max(n, 0), timeline.MaxUnits))
	m.Edit(s)
}

// JumpTo takes the jump of the attacker that goes nearest to that many units;
// of two as near, the setup's own stays, or there is no choice.
func (m *Model) JumpTo(travel int) {
	f := m.data.Fighter(m.setup.Attacker)
	if m.plan == nil || m.setup.Jump == "" || f == nil {
		return
	}
	far := func(j *timeline.Jump) int { return max(j.Travel-travel, travel-j.Travel) }
	best := f.Jump(m.setup.Jump)
	alone := true
	for i := range f.Jumps {
		switch j := &f.Jumps[i]; {
		case far(j) < far(best):
			best, alone = j, true
		case far(j) == far(best) && j.Name != best.Name && best.Name != m.setup.Jump:
			alone = false
		}
	}
	if alone && best.Name != m.setup.Jump {
		m.Edit(m.With(&Block{As: AsJump, Name: best.Name}, Spot{}))
	}
}
