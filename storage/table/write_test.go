package table

import (
	"bytes"
	"reflect"
	"strings"
	"testing"

	"wakeline/timeline"
)

// movesOf returns the moves of the rows, and asks that all are the fighter's.
func movesOf(t *testing.T, table *Table, fighter string) []timeline.Move {
	t.Helper()
	var out []timeline.Move
	for _, r := range table.Rows {
		if r.Fighter != fighter {
			t.Fatalf("line %d: fighter = %q, want %q", r.Line, r.Fighter, fighter)
		}
		out = append(out, r.Value)
	}
	return out
}

func TestWhatIsWrittenReadsBackEqual(t *testing.T) {
	g := newDice(1)
	for round := range 20 {
		g.rules.StartupCountsFirstActive = round%2 == 0
		moves := g.moves(100)
		for i := range moves {
			if err := timeline.CheckMove(nil, &moves[i], g.rules); err != nil {
				t.Fatalf("round %d: a drawn move breaks a rule: %v", round, err)
			}
		}
		fighter := g.text(round)
		var file, again bytes.Buffer
		if err := Write(&file, fighter, moves); err != nil {
			t.Fatalf("round %d: %v", round, err)
		}
		table, err := Read(bytes.NewReader(file.Bytes()), Options{Rules: g.rules})
		if err != nil {
			t.Fatalf("round %d: %v", round, err)
		}
		back := movesOf(t, table, fighter)
		for i := range moves {
			if i < len(back) && !reflect.DeepEqual(back[i], moves[i]) {
				t.Fatalf("round %d: read back = %+v, want %+v", round, back[i], moves[i])
			}
		}
		if len(back) != len(moves) {
			t.Fatalf("round %d: read back %d moves, want %d", round, len(back), len(moves))
		}
		if err := Write(&again, fighter, back); err != nil || !bytes.Equal(again.Bytes(), file.Bytes()) {
			t.Fatalf("round %d: written twice, the bytes differ (%v)", round, err)
		}
	}
}

func TestWriteToTheByte(t *testing.T) {
	moves := []timeline.Move{
		{Name: "Gate \"Low\", held", Kind: timeline.Strike, Level: timeline.Low, Startup: 6, Active: []int{2, 5, 1}, Recovery: 14,
			OnHit: timeline.Some(0), OnGuard: timeline.Some(-4), Knockdown: timeline.Places{Wall: timeline.Some(31)},
			Immune: []timeline.Immunity{{Window: timeline.Window{From: 1, To: 3}, Strikes: true}, {Window: timeline.Window{From: 1, To: 8}, Strikes: true, Throws: true}},
			Armour: []timeline.Armour{{Window: timeline.Window{From: 2, To: 4}, Hits: 1}, {Window: timeline.Window{From: 5, To: 6}, Hits: 2}}},
		{Name: "=Clasp", Kind: timeline.Throw, Level: timeline.LevelThrow, Startup: 5, Active: []int{3}, Reach: &timeline.Interval{Far: 70}},
		{Name: "Sift", Kind: timeline.Parry, Length: 30, Parry: []timeline.Window{{From: 1, To: 10}}, Air: true, Landing: &timeline.Landing{}},
	}
	var got strings.Builder
	if err := Write(&got, "Marl", moves); err != nil {
		t.Fatal(err)
	}
	want := "fighter,name,kind,air,level,startup,active,recovery,total,on_hit,on_guard,hitstun,guardstun,airborne_from,misses_air,deep,drop,top," +
		"reach_near,reach_far,landing_recovery,landing_guard_after,immune,armour,parry,damage,gauge_cost,gauge_gain,travel," +
		"knockdown_midscreen,knockdown_wall,distance_midscreen,distance_wall\r\n" +
		"Marl,\"Gate \"\"Low\"\", held\",strike,,low,6,2(5)1,14,,0,-4,,,,,,,,,,,,1-3 strike; 1-8,2-4; 5-6 2 hits,,,,,,,31,,\r\n" +
		"Marl,=Clasp,throw,,,5,3,,,,,,,,,,,,0,70,,,,,,,,,,,,,\r\n" +
		"Marl,Sift,parry,yes,,,,,30,,,,,,,,,,,,0,0,,,1-10,,,,,,,,\r\n"
	if got.String() != want {
		t.Errorf("written = %s, want %s", got.String(), want)
	}
}

func TestWriteNoMoves(t *testing.T) {
	var file bytes.Buffer
	if err := Write(&file, "Marl", nil); err != nil {
		t.Fatal(err)
	}
	table, err := Read(&file, Options{})
	if err != nil || len(table.Rows) != 0 {
		t.Errorf("a header alone = %+v, %v, want no rows and no error", table, err)
	}
}

func TestWriteRefusesWhatReadWould(t *testing.T) {
	dash := func(name string) []timeline.Move {
		return []timeline.Move{{Name: "Step", Kind: timeline.Dash, Length: 9}, {Name: name, Kind: timeline.Dash, Length: 9}}
	}
	for _, c := range []struct {
		what, fighter string
		moves         []timeline.Move
		want          string
	}{
		{"a NUL", "Marl", dash("a\x00b"), `moves[1], name: expected text, got a NUL in "a\x00b"`},
		{"no UTF-8", "Marl", dash("a\xff"), `moves[1], name: expected text in UTF-8, got "a\xff"`},
		{"a long name", "Marl", dash(strings.Repeat("a", MaxField+1)), "moves[1], name: expected at most 64 KiB in a field, got 65537 bytes"},
		{"no fighter", " ", dash("a"), `expected the name of a fighter, got " "`},
		{"many rows", "Marl", make([]timeline.Move, MaxRows+1), "expected at most 200000 moves, got 200001"},
	} {
		var out bytes.Buffer
		err := Write(&out, c.fighter, c.moves)
		if err == nil || err.Error() != c.want {
			t.Errorf("%s: error = %v, want %s", c.what, err, c.want)
		}
		if out.Len() > 0 {
			t.Errorf("%s: wrote %d bytes, want none", c.what, out.Len())
		}
	}
	long := strings.Repeat("a", MaxField)
	many := make([]timeline.Move, 1025)
	for i := range many {
		many[i] = timeline.Move{Name: long, Kind: timeline.Dash, Length: 1}
	}
	if err := Write(&bytes.Buffer{}, "Marl", many); err == nil || err.Error() != "expected at most 64 MiB of table, got more" {
		t.Errorf("a large table: error = %v", err)
	}
}
