package data

import (
	"reflect"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/timeline"
	"wakeline/ui/grid"
	"wakeline/ui/model"
	"wakeline/ui/paint"
)

// altShift presses Alt, Shift and an arrow in the table.
func altShift(d *Page, key fyne.KeyName) {
	d.grid.TypedShortcut(&desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierAlt | paint.KeyShift})
}

func TestRepliesAreMovedByKeys(t *testing.T) {
	w, d := openStanding(t)
	was := slices.Clone(standingOf(w))
	d.goTo(t, was[1].Move, "reply")
	altShift(d, fyne.KeyUp)
	if got, want := standingOf(w), append([]timeline.Reply{was[1], was[0]}, was[2:]...); !reflect.DeepEqual(got, want) || d.grid.At().Row != 0 {
		t.Fatalf("%v, cursor on %d, want %v", got, d.grid.At().Row, want)
	}
	altShift(d, fyne.KeyUp) // it is the first already
	if edits(w) != 1 {
		t.Errorf("%d edits, want 1", edits(w))
	}
	d.grid.Place(grid.Place{})
	d.grid.Stretch(grid.Place{Row: 1})
	altShift(d, fyne.KeyDown)
	if got, want := standingOf(w), append([]timeline.Reply{was[2], was[1], was[0]}, was[3:]...); !reflect.DeepEqual(got, want) {
		t.Fatalf("two rows down: %v, want %v", got, want)
	}
	if a, b := d.grid.Selection(); a.Row != 1 || b.Row != 2 || edits(w) != 2 {
		t.Errorf("selected are rows %d to %d after %d edits", a.Row, b.Row, edits(w))
	}
	w.Model().Undo()
	w.Model().Undo()
	if got := standingOf(w); !reflect.DeepEqual(got, was) {
		t.Errorf("undone: %v, want %v", got, was)
	}
}

// TestEachTableThatGrowsMovesItsRows moves the first row of each table down,
// and finds the same rows in the project, and in its text.
func TestEachTableThatGrowsMovesItsRows(t *testing.T) {
	for kind := range tables {
		p := demo(t)
		f := p.Fighter("Dovra")
		f.Rises = append(f.Rises, timeline.Rise{Name: "one more", Extra: 3})
		f.Jumps = append(f.Jumps, timeline.Jump{Name: "one more jump", Airborne: 9})
		for len(f.Routes) < 2 {
			f.Routes = append(f.Routes, timeline.Route{Name: "route " + string(rune('a'+len(f.Routes))), Steps: []timeline.RouteStep{{Move: firstGrounded(f), By: timeline.Link}}})
		}
		w, d := openData(t, p)
		d.choose("Dovra")
		d.tabs.Show(kind)
		var want []string
		for row := range d.table.len() {
			want = append(want, nameAt(d.table, row))
		}
		d.grid.Place(grid.Place{})
		altShift(d, fyne.KeyDown)
		if model.RowKind(kind) == model.RulesetRow {
			if edits(w) != 0 || !d.reason.Visible() {
				t.Errorf("the ruleset has %d edits", edits(w))
			}
			continue
		}
		if len(want) < 2 {
			t.Fatalf("%s: %d rows", tables[kind].title, len(want))
		}
		want[0], want[1] = want[1], want[0]
		var got []string
		for row := range d.table.len() {
			got = append(got, nameAt(d.table, row))
		}
		if !slices.Equal(got, want) || edits(w) != 1 {
			t.Errorf("%s: %q after %d edits, want %q (%s)", tables[kind].title, got, edits(w), want, d.reason.text)
		}
		w.Model().Undo()
		if got := d.plain(0, 0); got == "" {
			t.Errorf("%s: nothing after undo", tables[kind].title)
		}
	}
}

func firstGrounded(f *timeline.Fighter) string {
	for i := range f.Moves {
		if !f.Moves[i].Air {
			return f.Moves[i].Name
		}
	}
	return ""
}

func TestSortedRowsAreNotMoved(t *testing.T) {
	w, d := openStanding(t)
	d.grid.SortBy(0, false)
	altShift(d, fyne.KeyDown)
	if edits(w) != 0 || !d.reason.Visible() {
		t.Errorf("%d edits, reason %q", edits(w), d.reason.text)
	}
}
