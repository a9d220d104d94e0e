package storage

import (
	"context"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
)

var drills = []Drill{
	{Date: "2026-03-04T10:00:00Z", Setup: "first", Picture: 16.667, Presses: []Press{{"jump", -12.25, 0}, {"attack", 40.001, 2}}},
	{Date: "2026-03-04T10:20:00Z", Setup: "first", Presses: []Press{{"jump", 0, 0}}},
}

// twoHands are drills of a hand without a name and one with.
var twoHands = []Drill{drills[0],
	{Date: "2026-03-04T10:10:00Z", Setup: "first", Hand: "Ann", Presses: []Press{{"jump", 5, 0}, {"jump", 7, 1}}}, drills[1],
	{Date: "2026-03-04T10:20:00Z", Setup: "first", Hand: "Ann", Presses: []Press{{"jump", 9, 0}}}}

func drilled(t testing.TB, f *File) {
	t.Helper()
	for _, d := range drills {
		if err := f.AddDrill(d); err != nil {
			t.Fatal(err)
		}
	}
}

func TestDrillsStay(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	name := p.Setups[0].Name
	if err := f.Edit("delay", func(s *Step) error { p.Setups[0].Delay++; return s.PutSetup(name, &p.Setups[0]) }); err != nil {
		t.Fatal(err)
	}
	before, _, err := f.Next()
	if err != nil {
		t.Fatal(err)
	}
	drilled(t, f)
	if undo, _, err := f.Next(); err != nil || undo != before {
		t.Errorf("a drill is a step: undo would take %+v back, %v, want %+v", undo, err, before)
	}
	if _, err := f.Undo(); err != nil {
		t.Fatal(err)
	}
	if err := f.Edit("delete", func(s *Step) error { return s.RemoveSetup(name) }); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	if found, err := Check(context.Background(), f.Path()); err != nil || len(found) > 0 {
		t.Errorf("check = %v, %v", found, err)
	}
	g, err := Open(f.Path())
	if err != nil {
		t.Fatal(err)
	}
	defer g.Close()
	if got, err := g.Drills(); err != nil || !reflect.DeepEqual(got, drills) {
		t.Errorf("drills = %+v, %v, want %+v", got, err, drills)
	}
}

func TestDrillsAreSalvaged(t *testing.T) {
	f := made(t, sample(t))
	drilled(t, f)
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	plainly(t, f.Path(), "PRAGMA ignore_check_constraints = ON", "UPDATE press SET what = 'else' WHERE id = 2")
	to := filepath.Join(tempDir(t), "saved"+Ext)
	saves, err := Salvage(context.Background(), f.Path(), to)
	if err != nil || len(saves.Lost) != 1 || !strings.HasPrefix(saves.Lost[0], "1 press of a drill: CHECK") {
		t.Fatalf("saved %+v, %v", saves, err)
	}
	g, err := Open(to)
	if err != nil {
		t.Fatal(err)
	}
	defer g.Close()
	got, err := g.Drills()
	if err != nil || len(got) != 2 || len(got[0].Presses) != 1 || got[0].Presses[0] != drills[0].Presses[0] {
		t.Errorf("drills = %+v, %v", got, err)
	}
}

func TestADrillThatBreaksARuleIsNotKept(t *testing.T) {
	f := made(t, sample(t))
	bad := drills[0]
	bad.Presses = append([]Press{{"jump", 1, 0}}, Press{"kick", 1, 0})
	if err := f.AddDrill(bad); err == nil {
		t.Error("a press of nothing known is kept")
	}
	if got, err := f.Drills(); err != nil || len(got) != 0 {
		t.Errorf("drills = %+v, %v, want none", got, err)
	}
	f.AddDrill(drills[1])
	if got, err := f.Drills(); err != nil || len(got) != 1 {
		t.Errorf("drills = %+v, %v, want one", got, err)
	}
}

// Each hand has a record of its own, of which the last press is discarded, or
// all.
func TestHands(t *testing.T) {
	f := made(t, sample(t))
	for _, d := range twoHands {
		if err := f.AddDrill(d); err != nil {
			t.Fatal(err)
		}
	}
	before, _, err := f.Next()
	if err != nil {
		t.Fatal(err)
	}
	is := func(want []Drill) {
		t.Helper()
		got, err := f.Drills()
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("drills = %+v, %v, want %+v", got, err, want)
		}
	}
	is(twoHands)
	if got := Hands(twoHands); !reflect.DeepEqual(got, []string{"Ann", ""}) {
		t.Errorf("hands %q", got)
	}
	if got := Late(twoHands, "Ann"); !reflect.DeepEqual(got, []float64{5, 7, 9}) {
		t.Errorf("Ann's presses %v", got)
	}
	if got := Late(twoHands, ""); !reflect.DeepEqual(got, []float64{-12.25, 40.001, 0}) {
		t.Errorf("presses without a name %v", got)
	}
	// In memory and in the file the same.
	want := twoHands
	for range 2 {
		if err := f.DiscardPress("Ann"); err != nil {
			t.Fatal(err)
		}
		want = withoutLast(want, "Ann")
		is(want)
	}
	if got := Late(want, "Ann"); !reflect.DeepEqual(got, []float64{5}) || len(Late(want, "")) != 3 {
		t.Errorf("after two discarded: %+v", want)
	}
	if err := f.DiscardPress("Bea"); err != nil {
		t.Error(err)
	}
	is(withoutLast(want, "Bea"))
	if err := f.ClearDrills(""); err != nil {
		t.Fatal(err)
	}
	want = withoutHand(want, "")
	is(want)
	if len(want) != 1 || want[0].Hand != "Ann" {
		t.Errorf("after the nameless are gone: %+v", want)
	}
	if undo, _, err := f.Next(); err != nil || undo != before {
		t.Errorf("undo would take %+v back, %v, want %+v", undo, err, before)
	}
	if err := f.AddDrill(twoHands[3]); err != nil { // it goes on
		t.Fatal(err)
	}
	is(append(want, twoHands[3]))
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	if found, err := Check(context.Background(), f.Path()); err != nil || len(found) > 0 {
		t.Errorf("check = %v, %v", found, err)
	}
}

// withoutLast is the drills without the last press of a hand.
func withoutLast(drills []Drill, hand string) []Drill {
	out := slices.Clone(drills)
	for i := len(out) - 1; i >= 0; i-- {
		if out[i].Hand != hand {
			continue
		}
		if n := len(out[i].Presses) - 1; n > 0 {
			out[i].Presses = slices.Clone(out[i].Presses[:n])
			return out
		}
		return slices.Delete(out, i, i+1)
	}
	return out
}

// withoutHand is the drills without those of a hand.
func withoutHand(drills []Drill, hand string) []Drill {
	return slices.DeleteFunc(slices.Clone(drills), func(d Drill) bool { return d.Hand == hand })
}
