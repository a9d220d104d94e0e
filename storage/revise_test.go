package storage

import (
	"context"
	"fmt"
	"reflect"
	"testing"

	"wakeline/timeline"
)

// TestARevisionOfEditsThatAreDone edits move data by hand, and then makes the
// last of the edits a revision: the one before keeps the data without them.
func TestARevisionOfEditsThatAreDone(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	body := func(n int) {
		t.Helper()
		fighter := *f.Data().Fighter(p.Fighters[0].Name)
		fighter.Body = timeline.Some(n)
		if err := f.Edit(fmt.Sprint("body ", n), func(s *Step) error {
			return s.PutFighter(fighter.Name, &fighter)
		}); err != nil {
			t.Fatal(err)
		}
	}
	body(101)
	setup := p.Setups[0]
	setup.Note += "!"
	if err := f.Edit("a note", func(s *Step) error { return s.PutSetup(setup.Name, &setup) }); err != nil {
		t.Fatal(err)
	}
	want := f.Data().Bare()
	body(102)
	rename := func(before, after string) {
		t.Helper()
		m := *f.Data().Fighters[0].Move(before)
		m.Name = after
		if err := f.Edit("name "+after, func(s *Step) error { return s.PutMove(p.Fighters[0].Name, before, &m) }); err != nil {
			t.Fatal(err)
		}
	}
	first := p.Fighters[0].Moves[0].Name
	rename(first, "another name")
	body(103)
	if _, err := f.Undo(); err != nil {
		t.Fatal(err)
	}
	steps, err := f.DataSteps(10)
	if err != nil || len(steps) != 3 || steps[0].What != "name another name" || steps[1].What != "body 102" || steps[2].What != "body 101" {
		t.Fatalf("steps = %+v, %v", steps, err)
	}
	now := f.Data()
	got, err := f.DataBefore(context.Background(), steps[1].ID)
	if err != nil || !reflect.DeepEqual(got, want) {
		t.Fatalf("before %q: %v, %v", steps[1].What, got, err)
	}
	if !reflect.DeepEqual(f.Data(), now) || now.Fighters[0].Body.N != 102 {
		t.Error("looking back changes the move data")
	}
	if err := f.Edit("new revision", func(s *Step) error { return s.BeginRevisionAfter("1.1", "patch notes", got) }); err != nil {
		t.Fatal(err)
	}
	past, err := f.DataOf(FirstRevision)
	if err != nil || !reflect.DeepEqual(past, want) {
		t.Errorf("%s holds %+v, %v", FirstRevision, past, err)
	}
	latest, err := f.DataOf("1.1")
	if err != nil || !reflect.DeepEqual(latest, now.Bare()) {
		t.Errorf("1.1 holds %+v, %v", latest, err)
	}
	list, err := f.Revisions()
	if err != nil || len(list) != 2 || list[1].Note != "patch notes" || !list[1].Latest {
		t.Errorf("revisions %+v, %v", list, err)
	}
	if steps, err := f.DataSteps(10); err != nil || len(steps) != 0 {
		t.Errorf("after the new revision: %+v, %v", steps, err)
	}
	if found, err := Check(context.Background(), f.Path()); err != nil || len(found) > 0 {
		t.Errorf("%q, %v", found, err)
	}
	if _, err := f.Undo(); err != nil {
		t.Fatal(err)
	}
	if list, err := f.Revisions(); err != nil || len(list) != 1 || list[0].Name != FirstRevision || !list[0].Latest {
		t.Errorf("taken back: %+v, %v", list, err)
	}
}

// TestLookingBackEndsWithItsContext leaves the file as it was.
// TestEditsOfRoutesAndOfOrderAreOfTheMoveData, so that a revision can be made of
// them.
func TestEditsOfRoutesAndOfOrderAreOfTheMoveData(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	of := p.Fighters[0]
	step := timeline.RouteStep{By: timeline.Link}
	for i := range of.Moves {
		if !of.Moves[i].Air {
			step.Move = of.Moves[i].Name
		}
	}
	for _, do := range []struct {
		what string
		do   func(s *Step) error
	}{
		{"a route", func(s *Step) error {
			return s.PutRoute(of.Name, "", &timeline.Route{Name: "one more", Steps: []timeline.RouteStep{step}})
		}},
		{"a reply", func(s *Step) error {
			return s.PutReply(of.Name, "", &timeline.Reply{Move: step.Move, Demand: timeline.Survive, Late: 77})
		}},
		{"an order", func(s *Step) error {
			return s.Shift(timeline.PlaceEdit{Owner: of.Name, List: timeline.MoveList, Name: of.Moves[0].Name, By: 1})
		}},
	} {
		if err := f.Edit(do.what, do.do); err != nil {
			t.Fatal(err)
		}
		if steps, err := f.DataSteps(1); err != nil || len(steps) != 1 || steps[0].What != do.what {
			t.Errorf("after %s the last step of the move data is %+v, %v", do.what, steps, err)
		}
	}
}

func TestLookingBackEndsWithItsContext(t *testing.T) {
	f := made(t, sample(t))
	r := f.Data().Ruleset
	r.Health = 2000
	if err := f.Edit("health", func(s *Step) error { return s.SetRuleset(r) }); err != nil {
		t.Fatal(err)
	}
	steps, err := f.DataSteps(1)
	if err != nil || len(steps) != 1 {
		t.Fatal(steps, err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := f.DataBefore(ctx, steps[0].ID); err == nil {
		t.Error("it goes on")
	}
	if f.Data().Ruleset.Health != 2000 {
		t.Error("the data are others")
	}
}
