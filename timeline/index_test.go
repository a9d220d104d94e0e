package timeline

import (
	"errors"
	"reflect"
	"sync"
	"testing"
)

func TestARoomHoldsNothingOfThePlanBefore(t *testing.T) {
	in := &scratch{}
	judged := 0
	for seed := range uint64(400) {
		p := randomProject(seed)
		s := p.Setups[0]
		want, err := Compile(p, s)
		got, err2 := compile(p.Ruleset, p.roster, s, in)
		if !reflect.DeepEqual(err, err2) {
			t.Fatalf("seed %d: %v, want %v", seed, err2, err)
		}
		if err != nil {
			continue
		}
		judged++
		m := got.Meetings(s.Delay, in.cells)
		in.cells = m.cells
		v := m.Verdict()
		v.Holds = got.Holds(s.Delay)
		if w := want.Verdict(s.Delay); !reflect.DeepEqual(v, w) {
			t.Fatalf("seed %d: verdict in used room:\n%+v\nwant\n%+v", seed, v, w)
		}
	}
	if judged < 300 {
		t.Errorf("judged %d setups, want most of them", judged)
	}
}

func TestIndexJudgesAsThePlanDoes(t *testing.T) {
	p := busyProject()
	ix := NewIndex(p)
	late := p.Setups[0]
	late.Delay = Width
	var group sync.WaitGroup
	for range 4 {
		group.Go(func() {
			for _, s := range p.Setups {
				for s.Delay = range 12 {
					plan, err := Compile(p, s)
					if err != nil {
						t.Error(err)
						return
					}
					if got, err := ix.Judge(s); err != nil || !reflect.DeepEqual(got, plan.Verdict(s.Delay)) {
						t.Errorf("setup %q at delay %d: %+v, %v, want what its plan says", s.Name, s.Delay, got, err)
					}
				}
			}
			if _, err := ix.Judge(late); !errors.As(err, new(*PlanError)) {
				t.Errorf("a delay past the width: %v, want a PlanError", err)
			}
		})
	}
	group.Wait()
}
