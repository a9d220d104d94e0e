package ui

import (
	"slices"

	"wakeline/timeline"
)

// Begin starts a gesture: the edits up to Commit make one step for undo.
func (m *Model) Begin() {
	m.Commit()
	if m.chosen >= 0 {
		s := m.Setup()
		m.gesture = &s
	}
}

// Commit ends a gesture, where one runs, and keeps what it did.
func (m *Model) Commit() {
	if m.gesture == nil {
		return
	}
	before := *m.gesture
	m.gesture = nil
	if !sameSetup(&before, &m.project.Setups[m.chosen]) {
		m.push(before, m.Setup())
		m.tell(StateChanged)
	}
}

// Cancel ends a gesture, where one runs, and takes back what it did.
func (m *Model) Cancel() {
	if m.gesture == nil {
		return
	}
	before := *m.gesture
	m.gesture = nil
	m.replace(before)
}

// Gesture reports whether a gesture runs, and the setup it started from.
func (m *Model) Gesture() (start timeline.Setup, ok bool) {
	if m.gesture == nil {
		return timeline.Setup{}, false
	}
	return *m.gesture, true
}

// push notes an edit of the chosen setup.
func (m *Model) push(before, after timeline.Setup) {
	if m.saved > len(m.undo) {
		m.saved = -1 // the saved state lay among the steps that are dropped now
	}
	m.undo = append(m.undo, step{m.chosen, before, after})
	m.redo = nil
}

// sameSetup reports whether a and b have the same plan and the same delay.
func sameSetup(a, b *timeline.Setup) bool { return a.Delay == b.Delay && samePlan(a, b) }

// edit puts next in place of the chosen setup, unless it doesn't compile: then
// everything stays as it is. It reports whether next stands.
func (m *Model) edit(next timeline.Setup) bool {
	if m.chosen < 0 || m.plan == nil {
		return false
	}
	before := m.Setup()
	if sameSetup(&before, &next) {
		return true
	}
	if !samePlan(&m.plan.Setup, &next) {
		plan, err := timeline.Compile(m.project, next)
		if err != nil {
			return false
		}
		m.plan = plan
	}
	if m.gesture == nil {
		m.push(before, next)
		defer m.tell(StateChanged)
	}
	m.replace(next)
	return true
}

// replace puts s in place of the chosen setup, judges it and tells.
func (m *Model) replace(s timeline.Setup) {
	m.project.Setups[m.chosen] = s
	rise, line := m.rise, m.line
	m.compile()
	m.aim()
	c := SetupChanged
	if rise != m.rise || line != m.line {
		c |= ShownChanged
	}
	m.tell(c)
}

// CanUndo and CanRedo report whether there is a step to take back, or to do
// again.
func (m *Model) CanUndo() bool { return len(m.undo) > 0 }

// CanRedo: see CanUndo.
func (m *Model) CanRedo() bool { return len(m.redo) > 0 }

// Undo takes the last step back, and chooses the setup that it had changed.
func (m *Model) Undo() {
	m.Commit()
	if n := len(m.undo); n > 0 {
		s := m.undo[n-1]
		m.undo, m.redo = m.undo[:n-1], append(m.redo, s)
		m.restore(s.at, s.before)
	}
}

// Redo does the last step taken back again.
func (m *Model) Redo() {
	m.Commit()
	if n := len(m.redo); n > 0 {
		s := m.redo[n-1]
		m.redo, m.undo = m.redo[:n-1], append(m.undo, s)
		m.restore(s.at, s.after)
	}
}

func (m *Model) restore(at int, s timeline.Setup) {
	m.project.Setups[at] = s
	c := SetupChanged | ShownChanged | StateChanged
	if at != m.chosen {
		m.chosen, m.follow = at, true
		c |= ChoiceChanged
	}
	m.compile()
	m.aim()
	m.tell(c)
}

// SetDelay sets the delay to d, or to the nearest that fits the width.
func (m *Model) SetDelay(d int) {
	if m.plan == nil {
		return
	}
	s := m.Setup()
	s.Delay = min(max(d, 0), m.plan.Fits())
	m.edit(s)
}

// SetPress presses the attack on air frame n of the jump, or on the nearest
// there is. It does nothing without an attack.
func (m *Model) SetPress(n int) {
	s := m.Setup()
	if m.plan == nil || s.Attack == "" {
		return
	}
	j := m.project.Fighter(s.Attacker).Jump(s.Jump)
	s.Press = timeline.Some(min(max(n, 0), j.Airborne-1))
	m.edit(s)
}

// PressAuto leaves the press of the attack to the jump.
func (m *Model) PressAuto() {
	s := m.Setup()
	s.Press = timeline.Maybe{}
	m.edit(s)
}

// SetAdvantage gives the setup an advantage of its own, or the nearest that
// the width has.
func (m *Model) SetAdvantage(k int) {
	s := m.Setup()
	s.Advantage = timeline.Some(min(max(k, 0), timeline.Width-1))
	m.edit(s)
}

// EnderAdvantage takes the setup's own advantage away, where its ender brings
// one.
func (m *Model) EnderAdvantage() {
	s := m.Setup()
	s.Advantage = timeline.Maybe{}
	if m.plan != nil && s.Ender != "" && s.K(m.project.Fighter(s.Attacker)).Given {
		m.edit(s)
	}
}

// SetFillers puts others in place of the fillers. It reports whether they fit.
func (m *Model) SetFillers(names []string) bool {
	s := m.Setup()
	s.Fillers = names
	return m.edit(s)
}

// moved returns a copy of list with the element at from put at place to.
func moved(list []string, from, to int) []string {
	out := slices.Delete(slices.Clone(list), from, from+1)
	return slices.Insert(out, to, list[from])
}

// without returns a copy of list less the element at i.
func without(list []string, i int) []string { return slices.Delete(slices.Clone(list), i, i+1) }
