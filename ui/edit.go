package ui

import (
	"slices"

	"wakeline/timeline"
)

// Begin starts a gesture: the edits up to Commit make one step for undo.
func (m *Model) Begin() {
	m.Commit()
	if m.chosen >= 0 {
		s := m.setup
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
	if !sameSetup(&before, &m.setup) {
		m.keep(before)
	}
}

// keep puts the chosen setup, which was before, into the document. Where that
// fails it is taken back.
func (m *Model) keep(before timeline.Setup) {
	err := m.doc.Put(m.chosen, editName(&before, &m.setup), m.setup)
	if err != nil {
		m.replace(before)
	}
	m.tell(StateChanged)
	if err != nil && m.OnFail != nil {
		m.OnFail(err)
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

// sameSetup reports whether a and b have the same plan and the same delay.
func sameSetup(a, b *timeline.Setup) bool { return a.Delay == b.Delay && samePlan(a, b) }

// edit puts next in place of the chosen setup, unless it doesn't compile or
// nothing may be edited: then everything stays as it is. It reports whether
// next stands.
func (m *Model) edit(next timeline.Setup) bool {
	if m.chosen < 0 || m.plan == nil {
		return false
	}
	before := m.setup
	if sameSetup(&before, &next) {
		return true
	}
	if !m.mayEdit() {
		return false
	}
	if !samePlan(&m.plan.Setup, &next) {
		plan, err := timeline.Compile(m.data, next)
		if err != nil {
			return false
		}
		m.plan = plan
	}
	m.replace(next)
	if m.gesture == nil {
		m.keep(before)
	}
	return sameSetup(&m.setup, &next)
}

// mayEdit reports whether anything may be edited now; where the document is
// read-only it tells so.
func (m *Model) mayEdit() bool {
	why := m.doc.ReadOnly()
	if why != "" && m.OnRefuse != nil {
		m.OnRefuse(why)
	}
	return why == "" && !m.Held
}

// replace puts s in place of the chosen setup, judges it and tells.
func (m *Model) replace(s timeline.Setup) {
	m.setup = s
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
func (m *Model) CanUndo() bool {
	undo, _ := m.doc.Next()
	return undo.What != ""
}

// CanRedo: see CanUndo.
func (m *Model) CanRedo() bool {
	_, redo := m.doc.Next()
	return redo.What != ""
}

// Undo takes the last step back, and chooses the setup that it had changed.
func (m *Model) Undo() {
	m.Commit()
	m.travel(m.doc.Undo)
}

// Redo does the last step taken back again.
func (m *Model) Redo() {
	m.Commit()
	m.travel(m.doc.Redo)
}

func (m *Model) travel(do func() (Touched, error)) {
	if !m.mayEdit() {
		return
	}
	touched, err := do()
	switch {
	case err != nil:
		m.tell(StateChanged)
		if m.OnFail != nil {
			m.OnFail(err)
		}
	case touched.All:
		m.Reread()
	case touched.At >= 0:
		c := SetupChanged | ShownChanged | StateChanged
		if touched.At != m.chosen {
			m.chosen, m.follow = touched.At, true
			c |= ChoiceChanged
		}
		m.take()
		m.tell(c)
	}
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
	j := m.data.Fighter(s.Attacker).Jump(s.Jump)
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
	if m.plan != nil && s.Ender != "" && s.K(m.data.Fighter(s.Attacker)).Given {
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
