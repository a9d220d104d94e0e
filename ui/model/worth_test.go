package model

import (
	"reflect"
	"testing"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/timeline/value"
)

// backstage holds what is to run behind the window, and what hops back, until a
// test lets it.
type backstage struct{ behind, back []func() }

func (b *backstage) spawn(do func()) { b.behind = append(b.behind, do) }
func (b *backstage) later(do func()) { b.back = append(b.back, do) }

// run runs the first of what waits behind the window.
func (b *backstage) run() {
	do := b.behind[0]
	b.behind = b.behind[1:]
	do()
}

// hop does what hops back.
func (b *backstage) hop() {
	for _, do := range b.back {
		do()
	}
	b.back = nil
}

func sampleModel(t *testing.T) (*Model, *timeline.Project) {
	t.Helper()
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := InMemory(p, "")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { doc.Close() })
	return NewModel(doc), p
}

// weighed is what package value says of the model's setup.
func weighed(t *testing.T, p *timeline.Project, m *Model) value.Answer {
	t.Helper()
	plan, err := timeline.Compile(p, m.Setup())
	if err != nil {
		t.Fatal(err)
	}
	met := plan.Meetings(m.Setup().Delay, nil)
	return value.NewBook(p).Of(&met, value.Gauges{})
}

// TestWorthIsWorkedOutBehindTheWindow drags while it is worked out: what comes
// of the value before is dropped, and one run serves all steps of the drag.
func TestWorthIsWorkedOutBehindTheWindow(t *testing.T) {
	m, p := sampleModel(t)
	var b backstage
	told := 0
	m.Observe(func(c Change) {
		if c&WorthChanged != 0 {
			told++
		}
	})
	m.Worth.Start(b.spawn, b.later)
	if _, known := m.Worth.Answer(); known || len(b.behind) != 1 {
		t.Fatalf("known at once: %v, %d run", known, len(b.behind))
	}
	m.Begin()
	for d := range 4 {
		m.SetDelay(d + 1)
	}
	if len(b.behind) != 1 {
		t.Errorf("a drag began %d runs", len(b.behind))
	}
	b.run()
	b.hop()
	if _, known := m.Worth.Answer(); known || told != 0 {
		t.Errorf("the worth of the delay before was taken")
	}
	b.run()
	b.hop()
	got, known := m.Worth.Answer()
	if want := weighed(t, p, m); !known || told != 1 || !reflect.DeepEqual(*got, want) {
		t.Errorf("at delay 4: known %v, told %d times,\n%+v, want\n%+v", known, told, *got, want)
	}
	if w := m.Worth.Of(0, timeline.LineNothing); w != got.Rises[0][timeline.LineNothing] {
		t.Errorf("of the first rise: %+v", w)
	}
	if w := m.Worth.Of(0, 99); w != (value.Worth{}) {
		t.Errorf("of a line that there isn't: %+v", w)
	}
	m.Commit()
	for len(b.behind) > 0 {
		b.run()
		b.hop()
	}
}

// TestWorthFollowsTheMoveData changes the damage of a move: what was worked out
// of the move data before is given up.
func TestWorthFollowsTheMoveData(t *testing.T) {
	m, _ := sampleModel(t)
	now := func(do func()) { do() }
	m.Worth.Start(now, now)
	before, _ := m.Worth.Answer()
	was := before.KillsOnHit
	rules := m.Data().Ruleset
	rules.Scaling = []int{50}
	if err := m.Apply("scaling", timeline.RulesetEdit{Ruleset: rules}); err != nil {
		t.Fatal(err)
	}
	got, known := m.Worth.Answer()
	data := *m.Data()
	if want := weighed(t, &data, m); !known || !was.Given || got.KillsOnHit == was || got.KillsOnHit != want.KillsOnHit {
		t.Errorf("a hit does %v, %v before; known %v, want %v", got.KillsOnHit, was, known, want.KillsOnHit)
	}
}

// TestWorthOfAnotherSetup shows nothing of the setup before.
func TestWorthOfAnotherSetup(t *testing.T) {
	m, p := sampleModel(t)
	var b backstage
	m.Worth.Start(b.spawn, b.later)
	b.run()
	b.hop()
	m.Choose(1)
	if got, known := m.Worth.Answer(); known || got.Rises != nil {
		t.Errorf("the worth of the setup before is shown: %v", got)
	}
	b.run()
	b.hop()
	if got, known := m.Worth.Answer(); !known || !reflect.DeepEqual(*got, weighed(t, p, m)) {
		t.Errorf("of the second setup: known %v, %+v", known, got)
	}
}

// TestSequelFollowsTheHand drags the delay while what follows is worked out:
// until that is known, the last is shown where the meeting is now; another
// outcome or another exchange shows nothing of it.
func TestSequelFollowsTheHand(t *testing.T) {
	m, p := sampleModel(t)
	var b backstage
	told := 0
	m.Observe(func(c Change) {
		if c&WorthChanged != 0 {
			told++
		}
	})
	m.Worth.Start(b.spawn, b.later)
	settle := func() {
		for len(b.behind) > 0 {
			b.run()
			b.hop()
		}
	}
	truth := func() *timeline.Sequel {
		plan, err := timeline.Compile(p, m.Setup())
		if err != nil {
			t.Fatal(err)
		}
		met := plan.Meetings(m.Setup().Delay, nil)
		return value.NewBook(p).Sequel(&met, value.Gauges{}, m.exchange())
	}
	m.Show(0, timeline.LineNothing)
	settle()
	first := m.Worth.Sequel()
	if first == nil || first.Name != "Long tow" || !reflect.DeepEqual(first, truth()) || m.Scene().After != first {
		t.Fatalf("after a hit: %+v, want %+v", first, truth())
	}
	m.Show(0, timeline.LineGuardHigh)
	if m.Worth.Sequel() != nil || m.Scene().After != nil {
		t.Error("the route of another exchange is shown")
	}
	settle()
	m.Show(0, timeline.LineNothing)
	settle()
	before := told
	m.Begin()
	m.SetDelay(9) // its first active frame is after the wake-up
	was, is := first.Meeting.N, m.met.Cell(m.exchange()).Meeting.N
	if got := m.Worth.Sequel(); was == is || got == nil || got.From() != first.From()+is-was {
		t.Errorf("it begins on %v while the hand drags, the meeting went from %d to %d", got, was, is)
	}
	settle()
	if got := m.Worth.Sequel(); !reflect.DeepEqual(got, truth()) || told == before {
		t.Errorf("at rest: %+v, want %+v; told %d times", got, truth(), told-before)
	}
	m.Commit()
	m.Show(0, timeline.FirstReply) // its reversal, too late now
	settle()
	if got := m.Worth.Sequel(); got != nil {
		t.Errorf("after a reversal that hits: %+v", got)
	}
}
