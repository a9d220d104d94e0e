package storage

import (
	"path/filepath"
	"reflect"
	"testing"

	"wakeline/timeline"
)

// TestRowsArePutAtOtherPlacesAsTheCoreDoes does random edits of order in a file
// and in the values, opens the file again, and takes all of them back.
func TestRowsArePutAtOtherPlacesAsTheCoreDoes(t *testing.T) {
	moved := 0
	for seed := range uint64(60) {
		g := newDice(seed)
		p := g.project()
		path := filepath.Join(tempDir(t), "order.wakeline")
		f, err := Create(path, p)
		if err != nil {
			t.Fatal(err)
		}
		want, steps := f.Data(), 0
		first := want
		for range 12 {
			e := g.placeEdit(want)
			next, err := want.With(e)
			if err != nil {
				t.Fatalf("seed %d: %+v: %v", seed, e, err)
			}
			if err := f.Edit("order", func(s *Step) error { return s.Shift(e) }); err != nil {
				t.Fatalf("seed %d: %+v: %v", seed, e, err)
			}
			if !reflect.DeepEqual(next.Fighters, want.Fighters) {
				steps++
			}
			want = next
			if got := f.Data(); !reflect.DeepEqual(got.Fighters, want.Fighters) {
				t.Fatalf("seed %d: after %+v the file has %v, want %v", seed, e, got.Fighters, want.Fighters)
			}
		}
		moved += steps
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
		if f, err = Open(path); err != nil {
			t.Fatal(err)
		}
		if got := f.Data(); !reflect.DeepEqual(got.Fighters, want.Fighters) {
			t.Fatalf("seed %d: opened again %v, want %v", seed, got.Fighters, want.Fighters)
		}
		for range steps {
			if _, err := f.Undo(); err != nil {
				t.Fatal(err)
			}
		}
		if got := f.Data(); !reflect.DeepEqual(got.Fighters, first.Fighters) {
			t.Fatalf("seed %d: undone %v, want %v", seed, got.Fighters, first.Fighters)
		}
		f.Close()
	}
	if moved == 0 {
		t.Error("no row was moved")
	}
}

// placeEdit draws an edit of the order of one list of p.
func (g dice) placeEdit(p *timeline.Project) timeline.PlaceEdit {
	f := &p.Fighters[g.IntN(len(p.Fighters))]
	e := timeline.PlaceEdit{Owner: f.Name, By: g.to(-4, 4)}
	switch i := g.IntN(6); {
	case i == 0:
		e.Owner, e.List, e.Name = "", timeline.FighterList, f.Name
	case i == 1 && len(f.Routes) > 0:
		e.List, e.Name = timeline.RouteList, f.Routes[g.IntN(len(f.Routes))].Name
	case i == 2 && len(f.Replies) > 0:
		r := f.Replies[g.IntN(len(f.Replies))]
		e.List, e.Name = timeline.ReplyList, r.Title()
	case i == 3:
		e.List, e.Name = timeline.RiseList, f.Rises[g.IntN(len(f.Rises))].Name
	case i == 4:
		e.List, e.Name = timeline.JumpList, f.Jumps[g.IntN(len(f.Jumps))].Name
	default:
		e.List, e.Name = timeline.MoveList, f.Moves[g.IntN(len(f.Moves))].Name
	}
	return e
}
