package ui

import (
	"reflect"
	"slices"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/model"
)

func TestGestureIsOneStep(t *testing.T) {
	m := model.NewModel(inMemory(t, sample()))
	m.Begin()
	for d := range 9 {
		m.SetDelay(d)
	}
	m.Commit()
	if got := edits(m); got != 1 {
		t.Errorf("%d steps, want 1", got)
	}
	m.Begin()
	m.SetDelay(1)
	m.SetDelay(8)
	m.Commit()
	if got := edits(m); got != 1 {
		t.Errorf("%d steps after there and back, want 1", got)
	}
	m.Begin()
	m.SetDelay(1)
	m.Cancel()
	if got := m.Setup().Delay; got != 8 || edits(m) != 1 {
		t.Errorf("after Cancel: delay %d, %d steps", got, edits(m))
	}
	m.Undo()
	if got := m.Setup().Delay; got != 3 || m.Edited() {
		t.Errorf("after Undo: delay %d, edited %v", got, m.Edited())
	}
	m.Begin()
	m.SetDelay(5)
	m.Choose(1) // lets go
	m.Choose(0)
	if got := m.Setup().Delay; got != 5 || edits(m) != 1 || m.CanRedo() {
		t.Errorf("after another choice: delay %d, %d steps, redo %v", got, edits(m), m.CanRedo())
	}
}

func TestTheProjectGivenStaysAsItWas(t *testing.T) {
	p := sample()
	m := model.NewModel(inMemory(t, p))
	m.SetDelay(7)
	m.SetFillers(nil)
	if !reflect.DeepEqual(p, sample()) {
		t.Error("an edit reached the project that the model was made of")
	}
}

func TestEditsThatDoNotFitAreRefused(t *testing.T) {
	m := model.NewModel(inMemory(t, sample()))
	before := m.Setup()
	m.SetAdvantage(timeline.Width + 100) // the replies would end past the width
	if got := m.Setup(); !reflect.DeepEqual(got, before) || m.CanUndo() || m.Plan() == nil {
		t.Errorf("the setup is %+v", got)
	}
	m.SetFillers(slices.Repeat([]string{"short step"}, 60))
	if got := m.Setup(); !reflect.DeepEqual(got, before) {
		t.Errorf("the setup is %+v", got)
	}
}

func TestVerdictIsThePlans(t *testing.T) {
	m := model.NewModel(inMemory(t, sample()))
	for d := range 12 {
		m.SetDelay(d)
		plan, err := timeline.Compile(m.Data(), m.Setup())
		if err != nil {
			t.Fatal(err)
		}
		want := words.VerdictAt(plan, d)
		want.Holds = timeline.Holds{} // told by a Holding
		if got := *m.Verdict(); !reflect.DeepEqual(got, want) {
			t.Errorf("at delay %d the model says %+v, want %+v", d, got, want)
		}
		if got := m.Row(0).Word; got != plan.Word(d) {
			t.Errorf("at delay %d the row says %s, want %s", d, got, plan.Word(d))
		}
		rise, line := plan.Deciding(d)
		if r, l := m.Shown(); r != rise || l != line {
			t.Errorf("at delay %d it shows %d, %d, want %d, %d", d, r, l, rise, line)
		}
	}
}

// TestSamePlanSeesEveryField changes each field of a setup in turn: a plan
// may be kept only when nothing that it was compiled from has changed.
func TestSamePlanSeesEveryField(t *testing.T) {
	kept := []string{"Delay", "Tags", "Note"}
	of := reflect.TypeFor[timeline.Setup]()
	for i := range of.NumField() {
		a, b := sample().Setups[0], sample().Setups[0]
		f := reflect.ValueOf(&b).Elem().Field(i)
		switch f.Kind() {
		case reflect.String:
			f.SetString(f.String() + "x")
		case reflect.Int:
			f.SetInt(f.Int() + 1)
		case reflect.Slice:
			f.Set(reflect.Append(f, reflect.Zero(f.Type().Elem())))
		case reflect.Struct:
			f.Set(reflect.ValueOf(timeline.Some(17)))
		default:
			t.Fatalf("%s is a %s", of.Field(i).Name, f.Kind())
		}
		name := of.Field(i).Name
		if got, want := model.SamePlan(&a, &b), slices.Contains(kept, name); got != want {
			t.Errorf("another %s: the same plan %v, want %v", name, got, want)
		}
	}
}

func TestObserversHearWhatChanged(t *testing.T) {
	m := model.NewModel(inMemory(t, sample()))
	var heard model.Change
	m.Observe(func(c model.Change) { heard |= c })
	for _, tt := range []struct {
		name string
		do   func()
		want model.Change
	}{
		{"an edit", func() { m.SetDelay(4) }, model.SetupChanged | model.StateChanged},
		{"the same again", func() { m.SetDelay(4) }, 0},
		{"another reply", func() { m.Show(0, 0) }, model.ShownChanged},
		{"another setup", func() { m.Choose(1) }, model.ChoiceChanged | model.SetupChanged | model.ShownChanged},
		{"undo", func() { m.Undo() }, model.ChoiceChanged | model.SetupChanged | model.ShownChanged | model.StateChanged},
		{"a save", func() { m.Saved("x.json") }, model.StateChanged},
	} {
		heard = 0
		tt.do()
		if heard&tt.want != tt.want || tt.want == 0 && heard != 0 {
			t.Errorf("%s: heard %b, want %b", tt.name, heard, tt.want)
		}
	}
}
