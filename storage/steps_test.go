package storage

import "testing"

func TestStepsSayWhichSetupTheyChanged(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	heads, err := f.Heads()
	if err != nil {
		t.Fatal(err)
	}
	one := p.Setups[2]
	one.Delay = 3
	if err := f.Edit("delay 3", func(s *Step) error { return s.PutSetup(one.Name, &one) }); err != nil {
		t.Fatal(err)
	}
	if err := f.Edit("two at once", func(s *Step) error {
		for _, i := range []int{0, 1} {
			setup := p.Setups[i]
			setup.Note += "!"
			if err := s.PutSetup(setup.Name, &setup); err != nil {
				return err
			}
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	if err := f.Edit("another body", func(s *Step) error {
		fighter := p.Fighters[0]
		fighter.Body.N++
		return s.PutFighter(fighter.Name, &fighter)
	}); err != nil {
		t.Fatal(err)
	}
	got, err := f.Steps(10)
	if err != nil || len(got) != 3 {
		t.Fatalf("steps = %+v, %v, want 3", got, err)
	}
	for i, want := range []StepNote{
		{EditNote: EditNote{What: "another body"}},
		{EditNote: EditNote{What: "two at once"}},
		{EditNote: EditNote{What: "delay 3"}, Setup: heads[2].ID, Name: one.Name},
	} {
		if want.Date = got[i].Date; got[i] != want {
			t.Errorf("step %d = %+v, want %+v", i, got[i], want)
		}
	}

	undo, redo, err := f.Next()
	if err != nil || undo.What != "another body" || redo.What != "" {
		t.Errorf("next = %+v, %+v, %v", undo, redo, err)
	}
	for range 3 {
		if _, err := f.Undo(); err != nil {
			t.Fatal(err)
		}
	}
	if undo, redo, err = f.Next(); err != nil || undo.What != "" || redo.What != "delay 3" || redo.Setup != heads[2].ID || !redo.Undone {
		t.Errorf("next after undoing all = %+v, %+v, %v", undo, redo, err)
	}
	if got, err = f.Steps(2); err != nil || len(got) != 2 || got[1].What != "two at once" {
		t.Errorf("the last two = %+v, %v", got, err)
	}
}
