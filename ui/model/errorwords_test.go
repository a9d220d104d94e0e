package model

import (
	"testing"

	"wakeline/timeline"
)

func TestAnErrorOfAnEditIsToldInWords(t *testing.T) {
	whole := (*timeline.Path)(nil)
	p := &timeline.Project{
		Fighters: []timeline.Fighter{{Name: "Ishka", Moves: []timeline.Move{{Name: "Thole"}}, Routes: []timeline.Route{{Name: "Long ladder"}}}},
		Setups:   []timeline.Setup{{Name: "Step and prod"}},
	}
	ishka, setup := whole.At("fighters").Item(0), whole.At("setups").Item(0)
	for _, c := range []struct {
		err  timeline.FieldError
		want string
	}{
		{timeline.FieldError{Path: ishka.At("moves").Item(0).At("immune").Item(0).At("from"), Want: "a frame", Got: "0"}, "Ishka's Thole, immune 1, from: expected a frame, got 0"},
		{timeline.FieldError{Path: ishka.At("moves").Item(0).At("landing").At("guard_after"), Want: "a number"}, "Ishka's Thole, landing guard after: expected a number"},
		{timeline.FieldError{Path: ishka.At("routes").Item(0).At("steps").Item(1).At("move"), Want: "a move"}, "Ishka's route Long ladder, step 2, move: expected a move"},
		{timeline.FieldError{Path: ishka.At("moves").Item(7).At("startup"), Want: "a number"}, "Ishka, move 8, startup: expected a number"},
		{timeline.FieldError{Path: setup.At("fillers").Item(0), Want: "a move done on the ground", Got: `"Thole", an air move`, Name: "Thole"}, "“Step and prod” uses Thole as a filler: expected a move done on the ground"},
		{timeline.FieldError{Path: timeline.SetupPath("Other").At("replies").Item(3).At("move"), Want: "a move of Ishka", Got: `"Thole"`, Name: "Thole"}, "“Other” uses Thole as a reply: expected a move of Ishka"},
		{timeline.FieldError{Path: setup.At("delay"), Want: "a number", Got: "600"}, "setup Step and prod, delay: expected a number, got 600"},
		{timeline.FieldError{Path: setup.At("advantage"), Want: "a number"}, "setup Step and prod, knockdown advantage: expected a number"},
		{timeline.FieldError{Path: whole.At("ruleset").At("throw_grace_rise"), Want: "a number"}, "Throw immunity after wake-up: expected a number"},
		{timeline.FieldError{Path: whole.At("setups").Item(4).At("delay"), Want: "a number"}, "setup 5, delay: expected a number"},
		{timeline.FieldError{Path: whole, Want: "a project text"}, "expected a project text"},
	} {
		if got := ErrorWords(p, &c.err); got != c.want {
			t.Errorf("%v: %q, want %q", c.err.Path, got, c.want)
		}
	}
}
