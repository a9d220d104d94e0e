package model

import (
	"slices"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// Change says what of a model has changed; several may at once.
type Change uint8

// The changes.
const (
	ProjectChanged Change = 1 << iota // another document: everything is new
	ListChanged                       // other setups, or their values, in the same document
	ChoiceChanged                     // another setup is chosen
	SetupChanged                      // the chosen setup has another value, and verdict
	ShownChanged                      // another reply or rise is shown
	StateChanged                      // path, unsaved edits, read-only, what can be undone
	DataChanged                       // the ruleset or the fighters, and so any verdict
	WorthChanged                      // what the chosen setup is worth is known now, or anew
)

// Model is the state behind a window: a document, the setup chosen of it, its
// verdict, and the reply that is shown. A setup is a value; an edit puts
// another value in its place, at once on screen, and in the document when the
// gesture ends. It is used from one goroutine.
type Model struct {
	doc  *Document
	data *timeline.Project // the document's ruleset and fighters
	Rows map[int]Row       // as far as asked for, and not too many

	chosen  int // place of a setup; -1: there is none
	setup   timeline.Setup
	plan    *timeline.Plan
	planErr error
	verdict words.Verdict
	met     timeline.Meetings // of the plan, at the set delay

	Rise, Line int
	follow     bool // shows the deciding reply
	Worth      Worth

	gesture   *timeline.Setup
	Named     []string // the setups that the last Apply was about
	observers []func(Change)

	student  bool             // see SetStudent
	Held     bool             // nothing is edited now: the document is at work
	OnRefuse func(why string) // an edit was asked for of what is read-only
	OnFail   func(err error)  // an edit could not be kept, and was taken back
}

// Row is what the list shows of a setup.
type Row struct {
	Name, Rival string
	Position    timeline.Position
	Word        timeline.Word
	Read        bool  // the document could hand the setup out
	Err         error // why there is no verdict
}

// mostRows is how many rows are kept.
const mostRows = 4096

// NewModel returns a model of a document.
func NewModel(doc *Document) *Model {
	m := &Model{}
	m.Worth.model = m
	m.load(doc)
	return m
}

// Observe has f called after each change, on the goroutine that made it.
func (m *Model) Observe(f func(Change)) { m.observers = append(m.observers, f) }

func (m *Model) Tell(c Change) {
	m.Worth.forget(c)
	for _, f := range m.observers {
		f(c)
	}
	m.Worth.begin()
}

// Open shows another document from now on and closes the present one.
func (m *Model) Open(doc *Document) {
	old := m.doc
	m.load(doc)
	if old != nil {
		old.Close() // everything of it is on disk already, or was given up
	}
	m.Tell(Everything)
}

const Everything = ProjectChanged | ChoiceChanged | SetupChanged | ShownChanged | StateChanged | DataChanged

func (m *Model) load(doc *Document) {
	m.doc, m.gesture = doc, nil
	doc.file.TakeAnswersOnly(m.student)
	doc.AskReadOnly()
	m.chosen, m.follow = -1, true
	if doc.Len() > 0 {
		m.chosen = 0
	}
	m.reread()
}

// Reread takes everything anew from the document, and keeps the setup of the
// chosen one's name chosen. A gesture that runs is taken back.
func (m *Model) Reread() {
	m.rereadAs(m.setup.Name)
	m.Tell(Everything&^ProjectChanged | ListChanged)
}

// rereadAs takes everything anew, and chooses the setup of that name.
func (m *Model) rereadAs(name string) {
	m.gesture = nil
	m.chosen = min(m.chosen, m.doc.Len()-1)
	if m.chosen < 0 && m.doc.Len() > 0 {
		m.chosen = 0
	}
	if m.chosen >= 0 {
		if s, _ := m.doc.Setup(m.chosen); s.Name != name {
			if found := m.Find(name); found >= 0 {
				m.chosen = found
			}
		}
	}
	m.reread()
}

// Find is the place of the setup of that name, -1 where there is none.
func (m *Model) Find(name string) int {
	for i := range m.doc.Len() {
		if m.doc.Head(i).Name == name {
			return i
		}
	}
	return -1
}

func (m *Model) reread() {
	m.data = m.doc.Data()
	m.Rows = map[int]Row{}
	m.take()
}

// take takes the chosen setup from the document.
func (m *Model) take() {
	m.setup, m.plan, m.planErr = timeline.Setup{}, nil, nil
	if m.chosen >= 0 {
		m.setup, m.planErr = m.doc.Setup(m.chosen)
	}
	if m.planErr != nil {
		m.verdict = words.Verdict{}
		m.Rows[m.chosen] = rowOf(&m.setup, false, "", m.planErr)
	} else {
		m.compile()
	}
	m.aim()
}

// Document is what the model shows.
func (m *Model) Document() *Document { return m.doc }

// Data is the ruleset and the fighters. It must not be changed.
func (m *Model) Data() *timeline.Project { return m.data }

// Len is how many setups there are.
func (m *Model) Len() int { return m.doc.Len() }

// Path is the file that the document came from or was last saved to, empty
// where there is none.
func (m *Model) Path() string { return m.doc.Path() }

// ReadOnly says why nothing can be edited, empty where it can.
func (m *Model) ReadOnly() string { return m.doc.ReadOnly() }

// Student reports whether nothing but answers of exercises is taken.
func (m *Model) Student() bool { return m.student }

// SetStudent has nothing but answers of exercises taken, of every project that is
// opened, or ends that.
func (m *Model) SetStudent(on bool) {
	m.Cancel()
	m.student = on
	m.doc.file.TakeAnswersOnly(on)
	m.doc.AskReadOnly()
	m.Tell(StateChanged)
}

// Edited reports whether there are edits that were not saved.
func (m *Model) Edited() bool { return m.doc.Edited() }

// Saved says that the project in memory, as it is, stands in the file at path.
func (m *Model) Saved(path string) {
	m.doc.Saved(path)
	m.Tell(StateChanged)
}

// Chosen is the index of the chosen setup, -1 where the project has none.
func (m *Model) Chosen() int { return m.chosen }

// Choose chooses setup i and shows its deciding reply.
func (m *Model) Choose(i int) {
	if i < 0 || i >= m.doc.Len() || i == m.chosen {
		return
	}
	m.Commit()
	m.chosen, m.follow = i, true
	m.take()
	m.Tell(ChoiceChanged | SetupChanged | ShownChanged)
}

// Setup is the chosen setup as it stands, the zero value where there is none.
func (m *Model) Setup() timeline.Setup {
	s := m.setup
	s.Replies = m.replies()
	return s
}

// replies are those asked of the chosen setup: its own or its rival's. Change
// knows the latter again.
func (m *Model) replies() []timeline.Reply {
	if rival := m.data.Fighter(m.setup.Rival); rival != nil {
		return m.setup.Asked(rival)
	}
	return m.setup.Replies
}

// Plan is the chosen setup compiled; nil where there is none, or where Err
// says why it can't be.
func (m *Model) Plan() *timeline.Plan { return m.plan }

// Err says why the chosen setup has no verdict, nil where it has one.
func (m *Model) Err() error { return m.planErr }

// Verdict is the chosen setup's. It means nothing without a Plan.
func (m *Model) Verdict() *words.Verdict { return &m.verdict }

// Scene is the exchange that is shown, laid out. It means nothing without a
// Plan.
func (m *Model) Scene() words.Scene {
	s := words.SceneOf(&m.met, &m.verdict, m.exchange())
	s.Follow(m.Worth.Sequel())
	return s
}

// exchange is the one that is shown.
func (m *Model) exchange() timeline.Exchange { return timeline.Exchange{Rise: m.Rise, Line: m.Line} }

// Mark is how the exchange of that rise and line is marked.
func (m *Model) Mark(rise, line int) timeline.Judgement {
	return m.plan.Mark(line, m.met.Cell(timeline.Exchange{Rise: rise, Line: line}))
}

// Row returns setup i for its row, judging it when first asked.
func (m *Model) Row(i int) Row {
	if r, ok := m.Rows[i]; ok {
		return r
	}
	s, err := m.doc.Setup(i)
	if err != nil {
		return m.keepRow(i, rowOf(&s, false, "", err))
	}
	plan, err := timeline.Compile(m.data, s)
	if err != nil {
		return m.keepRow(i, rowOf(&s, true, "", err))
	}
	return m.keepRow(i, rowOf(&s, true, plan.Called(s.Delay), nil))
}

func rowOf(s *timeline.Setup, read bool, word timeline.Word, err error) Row {
	return Row{s.Name, s.Rival, s.Position, word, read, err}
}

func (m *Model) keepRow(i int, r Row) Row {
	if len(m.Rows) >= mostRows {
		clear(m.Rows)
	}
	m.Rows[i] = r
	return r
}

// compile judges the chosen setup. A plan that differs in nothing but the
// delay is kept: it serves every delay.
func (m *Model) compile() {
	if m.chosen < 0 {
		m.plan, m.planErr, m.verdict = nil, nil, words.Verdict{}
		return
	}
	s := &m.setup
	if m.plan == nil || !SamePlan(&m.plan.Setup, s) || s.Delay > m.plan.Fits() {
		m.plan, m.planErr = timeline.Compile(m.data, *s)
	}
	m.verdict = words.Verdict{}
	if m.plan != nil {
		m.met = m.plan.Meetings(s.Delay, nil)
		m.verdict = words.VerdictOf(&m.met)
	}
	m.keepRow(m.chosen, rowOf(s, true, m.verdict.Called, m.planErr))
}

// SamePlan reports whether a and b compile to one plan: all but the delay.
func SamePlan(a, b *timeline.Setup) bool {
	return a.Name == b.Name && a.Attacker == b.Attacker && a.Rival == b.Rival && a.Ender == b.Ender &&
		a.Position == b.Position && a.Advantage == b.Advantage && a.Distance == b.Distance && a.Room == b.Room && a.Jump == b.Jump && a.Attack == b.Attack &&
		a.Press == b.Press && a.Landing == b.Landing && slices.Equal(a.Fillers, b.Fillers) &&
		slices.Equal(a.Rises, b.Rises) && slices.Equal(a.Replies, b.Replies) && (a.Replies == nil) == (b.Replies == nil) &&
		a.OnHit == b.OnHit && a.Pressure == b.Pressure && slices.Equal(a.Punish, b.Punish) && slices.Equal(a.Follow, b.Follow)
}

// Shown returns the reply that is shown, as indexes of rise and line.
func (m *Model) Shown() (rise, line int) { return m.Rise, m.Line }

// Follows reports whether the deciding reply is shown, whichever it is.
func (m *Model) Follows() bool { return m.follow }

// Show shows that rise and line and stays with it; where it is shown and
// stayed with already, the deciding reply is followed again.
func (m *Model) Show(rise, line int) {
	if m.plan == nil || rise < 0 || rise >= m.plan.Rises() || line < 0 || line >= m.plan.Lines() {
		return
	}
	if !m.follow && rise == m.Rise && line == m.Line {
		m.Follow()
		return
	}
	m.Rise, m.Line, m.follow = rise, line, false
	m.Tell(ShownChanged)
}

// Follow shows the deciding reply from now on.
func (m *Model) Follow() {
	m.follow = true
	m.aim()
	m.Tell(ShownChanged)
}

// Step moves the shown reply by so many lines and rises, as far as there are.
func (m *Model) Step(rises, lines int) {
	if m.plan == nil {
		return
	}
	rise := min(max(m.Rise+rises, 0), m.plan.Rises()-1)
	line := min(max(m.Line+lines, 0), m.plan.Lines()-1)
	if rise != m.Rise || line != m.Line {
		m.Show(rise, line)
	}
}

// aim keeps the shown reply inside the plan, and on the deciding one while
// that is followed.
func (m *Model) aim() {
	switch {
	case m.plan == nil:
		m.Rise, m.Line = 0, 0
	case m.follow || m.Rise >= m.plan.Rises() || m.Line >= m.plan.Lines():
		e := m.met.Deciding()
		m.Rise, m.Line = e.Rise, e.Line
	}
}
