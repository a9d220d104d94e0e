package timeline

import (
	"reflect"
	"slices"
	"testing"
)

// Plans of one key meet each reply alike: of random projects, each setup beside
// one whose first filler is a counted wait of the same length, and beside others
// of the project that happen to have its key.
func TestPlansOfOneKeyMeetAlike(t *testing.T) {
	same, other := 0, 0
	for seed := range uint64(1500) {
		p := randomProject(seed)
		for i := range p.Setups {
			a := p.Setups[i]
			first, err := Compile(p, a)
			if err != nil {
				continue
			}
			candidates := slices.Clone(p.Setups)
			if len(a.Fillers) > 0 {
				b := a
				b.Fillers, b.Delay = a.Fillers[1:], a.Delay+p.roster(a.Attacker).length(a.Fillers[0], p.Ruleset)
				candidates = append(candidates, b)
			}
			for _, b := range candidates {
				b.Replies = a.Replies
				if b.Rival != a.Rival {
					continue
				}
				second, err := Compile(p, b)
				if err != nil {
					continue
				}
				if FrameKeyOf(first) != FrameKeyOf(second) {
					other++
					continue
				}
				same++
				x, y := first.Meetings(a.Delay, nil), second.Meetings(b.Delay, nil)
				if !reflect.DeepEqual(x.cells, y.cells) {
					t.Fatalf("seed %d: %+v and %+v have one key, and meet otherwise", seed, a, b)
				}
			}
		}
	}
	if same < 1000 || other < 50 {
		t.Errorf("%d pairs of one key, %d of two: too few to tell", same, other)
	}
}

func TestWhatMovesAFrameHasAnotherKey(t *testing.T) {
	p := dropIn(42)
	key := func(change func(s *Setup)) FrameKey {
		s := p.Setups[0]
		change(&s)
		plan, err := Compile(p, s)
		if err != nil {
			t.Fatal(err)
		}
		return FrameKeyOf(plan)
	}
	own := key(func(*Setup) {})
	if own != key(func(s *Setup) { s.Name, s.Note, s.Tags, s.Replies = "x", "y", []string{"z"}, nil }) {
		t.Error("a name, a note, a tag and replies move no frame")
	}
	for name, change := range map[string]func(s *Setup){
		"delay":     func(s *Setup) { s.Delay++ },
		"press":     func(s *Setup) { s.Press = Some(0) },
		"landing":   func(s *Setup) { s.Landing = DoParry },
		"advantage": func(s *Setup) { s.Advantage = Some(41) },
		"distance":  func(s *Setup) { s.Distance = Some(10) },
	} {
		if key(change) == own {
			t.Errorf("another %s has the same key", name)
		}
	}
}
