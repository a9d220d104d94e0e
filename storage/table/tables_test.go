package table

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"wakeline/timeline"
)

// lockGate is what each table in testdata/tables holds: an invented game's moves,
// in the forms in which people keep them.
var lockGate = []struct {
	fighter string
	moves   []timeline.Move
}{
	{"Marl", []timeline.Move{
		{Name: "Rill Jab", Kind: timeline.Strike, Level: timeline.Mid, Startup: 5, Active: []int{2}, Recovery: 9, OnHit: timeline.Some(4), OnGuard: timeline.Some(-2), Damage: 300},
		{Name: "Sluice Sweep", Kind: timeline.Strike, Level: timeline.Low, Startup: 8, Active: []int{3}, Recovery: 18, OnGuard: timeline.Some(-12), Damage: 700,
			Knockdown: timeline.Places{Midscreen: timeline.Some(31), Wall: timeline.Some(36)}},
		{Name: "Barge Grip", Kind: timeline.Throw, Level: timeline.LevelThrow, Startup: 5, Active: []int{2}, Recovery: 24, Damage: 1200, Knockdown: timeline.Places{Midscreen: timeline.Some(22)}},
	}},
	{"Orla", []timeline.Move{
		{Name: "Heron Kick", Kind: timeline.Strike, Level: timeline.Mid, Startup: 6, Active: []int{2, 5, 1}, Recovery: 14, OnHit: timeline.Some(1), OnGuard: timeline.Some(-4), Damage: 620},
		{Name: "Reed Rise", Kind: timeline.Strike, Level: timeline.Mid, Startup: 4, Active: []int{6}, Recovery: 30, OnGuard: timeline.Some(-28), Damage: 900,
			Immune: []timeline.Immunity{{Window: timeline.Window{From: 1, To: 8}, Strikes: true, Throws: true}}},
	}},
	{"Ness", []timeline.Move{
		{Name: "Mill Drop", Kind: timeline.Strike, Level: timeline.Overhead, Startup: 20, Active: []int{3}, Recovery: 16, OnHit: timeline.Some(3), OnGuard: timeline.Some(-3), Damage: 500},
		{Name: "Eddy Step", Kind: timeline.Evade, Length: 24, Immune: []timeline.Immunity{{Window: timeline.Window{From: 1, To: 10}, Strikes: true}}},
	}},
}

// rows are the moves of lockGate as a table has them, one after the other.
func lockGateRows() (out []Row) {
	for _, f := range lockGate {
		for _, m := range f.moves {
			out = append(out, Row{Fighter: f.fighter, Value: m})
		}
	}
	return out
}

func TestTablesInTheFormsPeopleUse(t *testing.T) {
	files, err := filepath.Glob("testdata/tables/*")
	if err != nil || len(files) < 20 {
		t.Fatalf("%d tables, want 20 at least: %v", len(files), err)
	}
	for _, path := range files {
		file, err := os.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		got, err := Read(file, Options{})
		file.Close()
		name := filepath.Base(path)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			if got != nil {
				for i := range got.Bad {
					t.Logf("%s: %v", name, &got.Bad[i])
				}
			}
			continue
		}
		for i := range got.Rows {
			got.Rows[i].Line = 0
		}
		if want := lockGateRows(); !reflect.DeepEqual(got.Rows, want) {
			t.Errorf("%s: read %+v\nwant %+v", name, got.Rows, want)
		}
		if testing.Verbose() {
			for i := range got.Notes {
				t.Logf("%s: %s", name, &got.Notes[i])
			}
		}
		if quiet := name == "01-own.csv"; quiet != (len(got.Notes) == 0) {
			t.Errorf("%s: %d notes", name, len(got.Notes))
		}
	}
}

// A word of a form that is missing leaves nothing guessed: where no row says
// whose the moves are, none is taken.
func TestATableThatNamesNobodyIsRefused(t *testing.T) {
	for _, text := range []string{
		"name,kind,total\nStep,dash,20\n",
		"Notes on steps, by hand.\nname,kind,total\nStep,dash,20\n",
		"name,kind,total\nNormals,,\nStep,dash,20\n",
	} {
		if got, err := Read(strings.NewReader(text), Options{}); err == nil {
			t.Errorf("%q: read %+v", text, got.Rows)
		}
	}
}
