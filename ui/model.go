package ui

import (
	"slices"

	"wakeline/timeline"
)

// Change says what of a model has changed; several may at once.
type Change uint8

// The changes.
const (
	ProjectChanged Change = 1 << iota // another project: everything is new
	ChoiceChanged                     // another setup is chosen
	SetupChanged                      // the chosen setup has another value, and verdict
	ShownChanged                      // another reply or rise is shown
	StateChanged                      // path, unsaved edits, what can be undone
)

// Model is the state behind a window: a project, the setup chosen of it, its
// verdict, the reply that is shown, and the edits made. A setup is a value;
// an edit puts another value in its place, and undo the one before. It is used
// from one goroutine.
type Model struct {
	path    string
	project *timeline.Project
	rows    []rowVerdict // of each setup, as far as asked for

	chosen  int // index of a setup; -1: there is none
	plan    *timeline.Plan
	planErr error
	verdict timeline.Verdict
	cells   []timeline.Cell // of the verdict, rise by rise, line by line

	rise, line int
	follow     bool // shows the deciding reply

	undo, redo []step
	saved      int // length of undo when last saved; -1: no longer reached
	gesture    *timeline.Setup

	observers []func(Change)
}

// step is one edit: the setup that it changed, before and after.
type step struct {
	at            int
	before, after timeline.Setup
}

// rowVerdict is a setup's verdict as its row shows it.
type rowVerdict struct {
	known bool
	word  timeline.Word
	err   error
}

// NewModel returns a model of p, which it copies as far as it edits it. A nil
// p is a project without setups.
func NewModel(p *timeline.Project, path string) *Model {
	m := &Model{follow: true}
	m.load(p, path)
	return m
}

// Observe has f called after each change, on the goroutine that made it.
func (m *Model) Observe(f func(Change)) { m.observers = append(m.observers, f) }

func (m *Model) tell(c Change) {
	for _, f := range m.observers {
		f(c)
	}
}

// Load puts another project in place of the present one and forgets its edits.
func (m *Model) Load(p *timeline.Project, path string) {
	m.load(p, path)
	m.tell(ProjectChanged | ChoiceChanged | SetupChanged | ShownChanged | StateChanged)
}

func (m *Model) load(p *timeline.Project, path string) {
	own := timeline.Project{Ruleset: timeline.DefaultRuleset()}
	if p != nil {
		own = *p
	}
	own.Setups = slices.Clone(own.Setups)
	m.project, m.path = &own, path
	m.rows = make([]rowVerdict, len(own.Setups))
	m.undo, m.redo, m.saved, m.gesture = nil, nil, 0, nil
	m.chosen, m.follow = -1, true
	if len(own.Setups) > 0 {
		m.chosen = 0
	}
	m.compile()
	m.aim()
}

// Project is the project as edited. It must not be changed.
func (m *Model) Project() *timeline.Project { return m.project }

// Path is the file that the project came from or was last saved to, empty
// where there is none.
func (m *Model) Path() string { return m.path }

// Edited reports whether there are edits that were not saved.
func (m *Model) Edited() bool { return m.saved != len(m.undo) }

// Saved says that the project, as it is, stands in the file at path.
func (m *Model) Saved(path string) {
	m.path, m.saved = path, len(m.undo)
	m.tell(StateChanged)
}

// Chosen is the index of the chosen setup, -1 where the project has none.
func (m *Model) Chosen() int { return m.chosen }

// Choose chooses setup i and shows its deciding reply.
func (m *Model) Choose(i int) {
	if i < 0 || i >= len(m.project.Setups) || i == m.chosen {
		return
	}
	m.Commit()
	m.chosen, m.follow = i, true
	m.compile()
	m.aim()
	m.tell(ChoiceChanged | SetupChanged | ShownChanged)
}

// Setup is the chosen setup as it stands, the zero value where there is none.
func (m *Model) Setup() timeline.Setup {
	if m.chosen < 0 {
		return timeline.Setup{}
	}
	return m.project.Setups[m.chosen]
}

// Plan is the chosen setup compiled; nil where there is none, or where Err
// says why it can't be.
func (m *Model) Plan() *timeline.Plan { return m.plan }

// Err says why the chosen setup has no verdict, nil where it has one.
func (m *Model) Err() error { return m.planErr }

// Verdict is the chosen setup's. It means nothing without a Plan.
func (m *Model) Verdict() *timeline.Verdict { return &m.verdict }

// Mark is how the exchange of that rise and line is marked.
func (m *Model) Mark(rise, line int) timeline.Judgement {
	return m.plan.Mark(m.verdict.Delay, line, &m.cells[rise*m.plan.Lines()+line])
}

// Row returns the verdict of setup i for its row, judging it when first asked.
func (m *Model) Row(i int) (timeline.Word, error) {
	r := &m.rows[i]
	if !r.known {
		s := m.project.Setups[i]
		plan, err := timeline.Compile(m.project, s)
		*r = rowVerdict{known: true, err: err}
		if err == nil {
			r.word = plan.Word(s.Delay)
		}
	}
	return r.word, r.err
}

// compile judges the chosen setup. A plan that differs in nothing but the
// delay is kept: it serves every delay.
func (m *Model) compile() {
	if m.chosen < 0 {
		m.plan, m.planErr, m.verdict = nil, nil, timeline.Verdict{}
		return
	}
	s := m.Setup()
	if m.plan == nil || !samePlan(&m.plan.Setup, &s) || s.Delay > m.plan.Fits() {
		m.plan, m.planErr = timeline.Compile(m.project, s)
	}
	row := rowVerdict{known: true, err: m.planErr}
	m.verdict = timeline.Verdict{}
	if m.plan != nil {
		m.verdict = m.plan.Verdict(s.Delay)
		if n := m.plan.Rises() * m.plan.Lines(); n != len(m.cells) {
			m.cells = make([]timeline.Cell, n)
		}
		m.plan.Fill(s.Delay, m.cells)
		row.word = m.verdict.Word
	}
	m.rows[m.chosen] = row
}

// samePlan reports whether a and b compile to one plan: all but the delay.
func samePlan(a, b *timeline.Setup) bool {
	return a.Name == b.Name && a.Attacker == b.Attacker && a.Rival == b.Rival && a.Ender == b.Ender &&
		a.Position == b.Position && a.Advantage == b.Advantage && a.Jump == b.Jump && a.Attack == b.Attack &&
		a.Press == b.Press && a.Landing == b.Landing && slices.Equal(a.Fillers, b.Fillers) &&
		slices.Equal(a.Rises, b.Rises) && slices.Equal(a.Replies, b.Replies)
}

// Shown returns the reply that is shown, as indexes of rise and line.
func (m *Model) Shown() (rise, line int) { return m.rise, m.line }

// Follows reports whether the deciding reply is shown, whichever it is.
func (m *Model) Follows() bool { return m.follow }

// Show shows that rise and line and stays with it; where it is shown and
// stayed with already, the deciding reply is followed again.
func (m *Model) Show(rise, line int) {
	if m.plan == nil || rise < 0 || rise >= m.plan.Rises() || line < 0 || line >= m.plan.Lines() {
		return
	}
	if !m.follow && rise == m.rise && line == m.line {
		m.Follow()
		return
	}
	m.rise, m.line, m.follow = rise, line, false
	m.tell(ShownChanged)
}

// Follow shows the deciding reply from now on.
func (m *Model) Follow() {
	m.follow = true
	m.aim()
	m.tell(ShownChanged)
}

// Step moves the shown reply by so many lines and rises, as far as there are.
func (m *Model) Step(rises, lines int) {
	if m.plan == nil {
		return
	}
	rise := min(max(m.rise+rises, 0), m.plan.Rises()-1)
	line := min(max(m.line+lines, 0), m.plan.Lines()-1)
	if rise != m.rise || line != m.line {
		m.Show(rise, line)
	}
}

// aim keeps the shown reply inside the plan, and on the deciding one while
// that is followed.
func (m *Model) aim() {
	switch {
	case m.plan == nil:
		m.rise, m.line = 0, 0
	case m.follow || m.rise >= m.plan.Rises() || m.line >= m.plan.Lines():
		m.rise, m.line = m.plan.Deciding(m.Setup().Delay)
	}
}
