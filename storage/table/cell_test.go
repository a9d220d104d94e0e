package table

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"wakeline/timeline"
)

func TestCellsReadBack(t *testing.T) {
	m := timeline.Move{Name: " a b ", Kind: timeline.Strike, Level: timeline.Low, Startup: 5, Active: []int{2, 5, 1}, Recovery: 9,
		OnHit: timeline.Some(0), Reach: &timeline.Interval{Near: -2, Far: 8}, Immune: []timeline.Immunity{{Window: timeline.Window{From: 1, To: 3}, Throws: true}}}
	cells := Cells(&m)
	if len(cells) != len(MoveColumns()) {
		t.Fatalf("%d cells for %d columns", len(cells), len(MoveColumns()))
	}
	got, err := ReadCells(cells, timeline.DefaultRuleset())
	if err != nil || !reflect.DeepEqual(got, m) {
		t.Errorf("read back %+v, %v, want %+v", got, err, m)
	}
	for i, name := range MoveColumns() {
		if name == "active" && Cell(&m, i) != "2(5)1" {
			t.Errorf("active is written %q", Cell(&m, i))
		}
		if err := CheckCell(i, cells[i]); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if err := CheckCell(i, ""); err != nil {
			t.Errorf("%s, empty: %v", name, err)
		}
	}
}

func TestCellErrorsNameTheColumn(t *testing.T) {
	at := func(name string) int {
		for i, c := range MoveColumns() {
			if c == name {
				return i
			}
		}
		t.Fatalf("no column %q", name)
		return -1
	}
	for _, test := range []struct{ column, cell, want string }{
		{"startup", "six", `startup: expected a whole number, got "six"`},
		{"active", "2(5", `active: expected frames written like 3, or 2(5)1 with gaps in brackets, got "2(5"`},
		{"immune", "1-8 kick", `immune: expected windows written like 1-8 strike throw, with ; between them, got "1-8 kick"`},
		{"kind", "kick", `kind: expected strike, throw, parry, evade or dash, got "kick"`},
	} {
		if err := CheckCell(at(test.column), test.cell); err == nil || err.Error() != test.want {
			t.Errorf("%s %q: %v, want %s", test.column, test.cell, err, test.want)
		}
	}
	cells := Cells(&timeline.Move{Name: "a", Kind: timeline.Strike, Level: timeline.Mid, Startup: 5, Active: []int{2}})
	for _, test := range []struct{ column, cell, broken, got string }{
		{"startup", "600", "startup", "600"},
		{"startup", "", "startup", "nothing"},
		{"reach_near", "4", "reach_far", "nothing"},
		{"immune", "1-9", "immune", "9"},
		{"kind", "dash", "startup", "5"},
		{"name", "", "name", "an empty text"},
	} {
		row := append([]string(nil), cells...)
		row[at(test.column)] = test.cell
		_, err := ReadCells(row, timeline.DefaultRuleset())
		var broken *CellError
		if !errors.As(err, &broken) || broken.Column != test.broken || broken.Got != test.got {
			t.Errorf("%s %q: %v, want one of %s", test.column, test.cell, err, test.broken)
		}
	}
}

func TestEachSeesEveryRow(t *testing.T) {
	const text = "fighter,name,kind,startup,active,level,more\nA,a,strike,5,2,mid,\"x\ny\"\nA,b,strike,six,2,mid,\n,,,,,,\nA,c,strike,5,2,mid,\n"
	var lines []int
	var bad int
	var last Seen
	_, err := Read(strings.NewReader(text), Options{Map: map[string]string{"more": ""}, SkipBad: true, Each: func(s Seen) error {
		lines = append(lines, s.At.Line)
		if s.Bad != nil {
			bad++
		}
		last = s
		return nil
	}})
	if err != nil || !reflect.DeepEqual(lines, []int{2, 4, 6}) || bad != 1 || last.Done != last.Of || last.Of != int64(len(text)) || last.Value.Name != "c" || last.Owner != "A" {
		t.Errorf("lines %v, %d bad, the last %+v, %v", lines, bad, last, err)
	}
	stop := errors.New("enough")
	if got, err := Read(strings.NewReader(text), Options{Map: map[string]string{"more": ""}, Each: func(Seen) error { return stop }}); !errors.Is(err, stop) || got != nil {
		t.Errorf("stopped: %v, %v", got, err)
	}
}
