package storage

import (
	"reflect"
	"slices"
	"testing"
)

func TestTags(t *testing.T) {
	p := sample(t)
	for i := range p.Setups {
		p.Setups[i].Tags = nil
	}
	p.Setups[0].Tags = []string{"wall", "a bait"}
	p.Setups[1].Tags = []string{"wall"}
	got, err := made(t, p).Tags()
	if want := []string{"a bait", "wall"}; err != nil || !slices.Equal(got, want) {
		t.Errorf("tags %q, %v, want %q", got, err, want)
	}
}

func TestTried(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	heads, err := f.Heads()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		at     int
		result string
	}{{0, "worked"}, {1, "unclear"}, {0, "failed"}} {
		if err := f.Edit("tried", func(s *Step) error {
			return s.AddProof(Proof{Setup: heads[c.at].Name, Revision: FirstRevision, Date: "2026-03-04", Result: c.result})
		}); err != nil {
			t.Fatal(err)
		}
	}
	got, err := f.Tried()
	if want := map[int64]string{heads[0].ID: "failed", heads[1].ID: "unclear"}; err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("tried %v, %v, want %v", got, err, want)
	}
}

func TestUses(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	most := 0
	for _, owner := range p.Fighters {
		var names []string
		for _, m := range owner.Moves {
			names = append(names, m.Name)
		}
		for _, j := range owner.Jumps {
			names = append(names, j.Name)
		}
		for _, name := range names {
			want := 0
			for i := range p.Setups {
				if p.Setups[i].Uses(owner.Name, name) {
					want++
				}
			}
			most = max(most, want)
			if got, err := f.Uses(owner.Name, name); err != nil || got != want {
				t.Errorf("%s's %s: %d setups use it, %v, want %d", owner.Name, name, got, err, want)
			}
		}
	}
	if most == 0 {
		t.Error("no setup uses anything")
	}
}
