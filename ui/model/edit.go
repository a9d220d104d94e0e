package model

import (
	"errors"
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
	if !SameSetup(&before, &m.setup) {
		m.keep(before)
	}
}

// keep puts the chosen setup, which was before, into the document. Where that
// fails it is taken back.
func (m *Model) keep(before timeline.Setup) error {
	err := m.doc.Put(m.chosen, editName(&before, &m.setup), m.setup)
	if err != nil {
		m.replace(before)
	}
	m.Tell(StateChanged)
	if err != nil && m.OnFail != nil {
		m.OnFail(err)
	}
	return err
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

// SameSetup reports whether a and b are equal.
func SameSetup(a, b *timeline.Setup) bool {
	return a.Delay == b.Delay && SamePlan(a, b) && a.Note == b.Note && slices.Equal(a.Tags, b.Tags)
}

// Edit is Change for what may fail in silence, as a drag past an end does. It
// reports whether next stands.
func (m *Model) Edit(next timeline.Setup) bool { return m.Change(next) == nil }

// ErrHeld is why an edit was not done where nothing may be edited; who asked
// for it was told already.
var ErrHeld = errors.New("nothing can be edited now")

// Change puts next in place of the chosen setup: at once on screen, and as
// one step where no gesture runs. Where it breaks a rule, or can't be judged
// while the present one can, everything stays as it is, and the error says
// why.
func (m *Model) Change(next timeline.Setup) error {
	if m.chosen < 0 {
		return errors.New("expected a selected setup")
	}
	if m.setup.Replies == nil && (m.setup.Rival != next.Rival || slices.Equal(next.Replies, m.replies())) {
		next.Replies = nil // still the rival's
	}
	return m.change(next)
}

// change is Change with the replies of next taken as they are.
func (m *Model) change(next timeline.Setup) error {
	if m.chosen < 0 {
		return errors.New("expected a selected setup")
	}
	before := m.setup
	if SameSetup(&before, &next) {
		return nil
	}
	if !m.MayEdit() {
		return ErrHeld
	}
	plan, err := m.May(&next)
	if err != nil {
		return err
	}
	if m.plan = plan; plan != nil {
		m.planErr = nil
	}
	m.replace(next)
	if m.gesture == nil {
		return m.keep(before)
	}
	return nil
}

// May returns what next compiles to, nil where it can't be judged and the
// chosen setup can't either; the error says why next can't stand in its place.
func (m *Model) May(next *timeline.Setup) (*timeline.Plan, error) {
	if m.plan != nil && SamePlan(&m.plan.Setup, next) && next.Delay >= 0 && next.Delay <= m.plan.Fits() {
		return m.plan, nil
	}
	if err := m.data.CheckSetup(nil, next); err != nil {
		return nil, err
	}
	plan, err := timeline.Compile(m.data, *next)
	if err != nil && m.plan != nil {
		return nil, err
	}
	return plan, nil
}

// Apply does edits of the project as one step, and chooses the setup that the
// last of them put, where there is one. Where they can't be done everything
// stays as it is, and the error says why.
func (m *Model) Apply(what string, edits ...timeline.Edit) error {
	m.Commit()
	if !m.MayEdit() {
		return ErrHeld
	}
	name := m.setup.Name
	for _, e := range edits {
		if e, ok := e.(timeline.SetupEdit); ok && e.Setup != nil {
			name = e.Setup.Name
		}
	}
	return m.applyTo(what, name, edits)
}

// applyTo does edits as one step, and then chooses the setup of that name.
func (m *Model) applyTo(what, name string, edits []timeline.Edit) error {
	if err := m.doc.Apply(what, edits...); err != nil {
		m.Tell(StateChanged)
		return err
	}
	c := ListChanged | SetupChanged | ShownChanged | StateChanged
	m.Named = m.Named[:0]
	for _, e := range edits {
		if e, ok := e.(timeline.SetupEdit); !ok {
			c |= DataChanged
		} else if m.Named = append(m.Named, e.Before); e.Setup != nil {
			m.Named = append(m.Named, e.Setup.Name)
		}
	}
	old := m.setup.Name
	m.rereadAs(name)
	if m.setup.Name != old {
		c |= ChoiceChanged
	}
	m.Tell(c)
	return nil
}

// MayEdit reports whether anything may be edited now; where the document is
// read-only it tells so.
func (m *Model) MayEdit() bool {
	why := m.doc.ReadOnly()
	if why != "" && m.OnRefuse != nil {
		m.OnRefuse(why)
	}
	return why == "" && !m.Held
}

// replace puts s in place of the chosen setup, judges it and tells.
func (m *Model) replace(s timeline.Setup) {
	m.setup = s
	rise, line := m.Rise, m.Line
	m.compile()
	m.aim()
	c := SetupChanged
	if rise != m.Rise || line != m.Line {
		c |= ShownChanged
	}
	m.Tell(c)
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
// It reports whether there was one that could be.
func (m *Model) Undo() bool {
	m.Commit()
	undo, _ := m.doc.Next()
	return m.travel(m.doc.Undo, undo)
}

// Redo does the last step taken back again. It reports whether there was one
// that could be.
func (m *Model) Redo() bool {
	m.Commit()
	_, redo := m.doc.Next()
	return m.travel(m.doc.Redo, redo)
}

func (m *Model) travel(do func() (Touched, error), step NextStep) bool {
	if !m.MayEdit() {
		return false
	}
	touched, err := do()
	switch {
	case err != nil:
		m.Tell(StateChanged)
		if m.OnFail != nil {
			m.OnFail(err)
		}
	case touched.All:
		m.Reread()
		m.ChooseNamed(step.Setup)
	case touched.At >= 0:
		c := SetupChanged | ShownChanged | StateChanged
		if touched.At != m.chosen {
			m.chosen, m.follow = touched.At, true
			c |= ChoiceChanged
		}
		m.take()
		m.Tell(c)
	}
	return err == nil && (touched.All || touched.At >= 0)
}

// ChooseNamed chooses the setup of that name, where there is one.
func (m *Model) ChooseNamed(name string) {
	if i := m.Find(name); name != "" && i >= 0 {
		m.Choose(i)
	}
}

// SetDelay sets the delay to d, or to the nearest that fits the width.
func (m *Model) SetDelay(d int) {
	if m.plan == nil {
		return
	}
	s := m.Setup()
	s.Delay = min(max(d, 0), m.plan.Fits())
	m.Edit(s)
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
	m.Edit(s)
}

// PressAuto leaves the press of the attack to the jump.
func (m *Model) PressAuto() {
	s := m.Setup()
	s.Press = timeline.Maybe{}
	m.Edit(s)
}

// SetAdvantage gives the setup an advantage of its own, or the nearest that
// the width has.
func (m *Model) SetAdvantage(k int) {
	s := m.Setup()
	s.Advantage = timeline.Some(min(max(k, 0), timeline.Width-1))
	m.Edit(s)
}

// EnderAdvantage takes the setup's own advantage away, where its ender brings
// one.
func (m *Model) EnderAdvantage() {
	s := m.Setup()
	s.Advantage = timeline.Maybe{}
	if m.plan != nil && s.Ender != "" && s.K(m.data.Fighter(s.Attacker)).Given {
		m.Edit(s)
	}
}

// SetFillers puts others in place of the fillers. It reports whether they fit.
func (m *Model) SetFillers(names []string) bool {
	s := m.Setup()
	s.Fillers = names
	return m.Edit(s)
}
