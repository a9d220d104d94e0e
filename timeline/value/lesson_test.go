package value

import (
	"testing"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/timeline/words"
)

// TestALessonSaysWhatEachStepIsWorth: at its own delay, and nothing where moves
// have no damage.
func TestALessonSaysWhatEachStepIsWorth(t *testing.T) {
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	plan, err := timeline.Compile(p, p.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	const rise, line = 0, timeline.FirstReply
	l := words.LessonAt(plan, plan.Setup.Delay, 2, rise, line)
	TellLesson(&l, plan)
	b := NewBook(p)
	seen := map[string]bool{}
	for i := range l.Steps {
		s := &l.Steps[i]
		m := plan.Meetings(s.Delay, nil)
		if want := words.WorthSentence(b.Of(&m, Gauges{}).Rises[rise][line]) + "."; s.Worth != want {
			t.Errorf("delay %d: %q, want %q", s.Delay, s.Worth, want)
		}
		seen[s.Worth] = true
	}
	if len(seen) < 2 {
		t.Errorf("all %d steps are worth the same: %v", len(l.Steps), seen)
	}
	for i := range p.Fighters {
		for k := range p.Fighters[i].Moves {
			p.Fighters[i].Moves[k].Damage = 0
		}
		p.Fighters[i].Routes = nil
	}
	s := p.Setups[0]
	s.OnHit, s.Punish, s.Pressure, p.Ruleset.GaugeWorth = "", nil, 0, 0
	if plan, err = timeline.Compile(p, s); err != nil {
		t.Fatal(err)
	}
	l = words.LessonAt(plan, plan.Setup.Delay, 2, rise, line)
	TellLesson(&l, plan)
	for i := range l.Steps {
		if l.Steps[i].Worth != "" {
			t.Errorf("without damage: %q", l.Steps[i].Worth)
		}
	}
}
