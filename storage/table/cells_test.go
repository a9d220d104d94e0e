package table

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"wakeline/timeline"
)

// base is a sound move of each sort, which a test adds one cell to.
var base = map[string]map[string]string{
	"strike": {"name": "Gate", "kind": "strike", "level": "mid", "startup": "6", "active": "3", "recovery": "12"},
	"throw":  {"name": "Clasp", "kind": "throw", "startup": "5", "active": "3"},
	"dash":   {"name": "Step", "kind": "dash", "total": "20"},
}

// readCell reads a table of one row, base's with the cell put in, on line 2.
// The columns stand in their written order.
func readCell(sort, column, cell string) (timeline.Move, error) {
	var heads, cells []string
	for _, name := range Columns() {
		value, ok := base[sort][name]
		if name == column {
			value, ok = cell, true
		}
		if ok {
			heads = append(heads, name)
			cells = append(cells, `"`+strings.ReplaceAll(value, `"`, `""`)+`"`)
		}
	}
	t, err := Read(strings.NewReader(strings.Join(heads, ",")+"\n"+strings.Join(cells, ",")+"\n"), Options{Fighter: "Marl"})
	if err != nil {
		return timeline.Move{}, err
	}
	return t.Rows[0].Value, nil
}

func TestCells(t *testing.T) {
	type move = timeline.Move
	window := func(from, to int) timeline.Window { return timeline.Window{From: from, To: to} }
	some := timeline.Some
	for _, c := range []struct {
		sort, column, cell string
		want               func(m *move)
	}{
		{"dash", "name", "=1+1", func(m *move) { m.Name = "=1+1" }},
		{"dash", "kind", " Evade ", func(m *move) { m.Kind = timeline.Evade }},
		{"dash", "kind", "PARRY", func(m *move) { m.Kind = timeline.Parry }},
		{"strike", "level", "Low", func(m *move) { m.Level = timeline.Low }},
		{"throw", "level", "", func(m *move) {}},
		{"throw", "level", "throw", func(m *move) {}},
		{"throw", "level", "air throw", func(m *move) { m.Level = timeline.LevelAirThr }},
		{"strike", "air", "true", func(m *move) { m.Air = true }},
		{"strike", "air", "Yes", func(m *move) { m.Air = true }},
		{"strike", "air", "1", func(m *move) { m.Air = true }},
		{"strike", "air", "no", func(m *move) {}},
		{"strike", "air", "FALSE", func(m *move) {}},
		{"strike", "misses_air", "1", func(m *move) { m.MissesAir = true }},
		{"strike", "misses_air", "0", func(m *move) {}},
		{"strike", "misses_air", " ", func(m *move) {}},
		{"strike", "startup", "+7", func(m *move) { m.Startup = 7 }},
		{"strike", "active", "2(5)1", func(m *move) { m.Active = []int{2, 5, 1} }},
		{"strike", "active", " 2 ( 5 ) 1(1)4 ", func(m *move) { m.Active = []int{2, 5, 1, 1, 4} }},
		{"strike", "recovery", "", func(m *move) { m.Recovery = 0 }},
		{"strike", "total", "20", func(m *move) {}},
		{"strike", "on_hit", "+4", func(m *move) { m.OnHit = some(4) }},
		{"strike", "on_guard", "\u22122", func(m *move) { m.OnGuard = some(-2) }},
		{"strike", "on_guard", "0", func(m *move) { m.OnGuard = some(0) }},
		{"strike", "hitstun", "20", func(m *move) { m.Hitstun = some(20) }},
		{"strike", "guardstun", "16", func(m *move) { m.Guardstun = some(16) }},
		{"dash", "airborne_from", "3", func(m *move) { m.AirborneFrom = some(3) }},
		{"strike", "deep", "0", func(m *move) { m.Deep = some(0) }},
		{"strike", "drop", "-60", func(m *move) { m.Drop = some(-60) }},
		{"strike", "top", "10", func(m *move) { m.Top = some(10) }},
		{"dash", "immune", "1-8 strike throw", func(m *move) { m.Immune = []timeline.Immunity{{Window: window(1, 8), Strikes: true, Throws: true}} }},
		{"dash", "immune", "1-8", func(m *move) { m.Immune = []timeline.Immunity{{Window: window(1, 8), Strikes: true, Throws: true}} }},
		{"dash", "immune", "1–8 THROW;9 strike", func(m *move) {
			m.Immune = []timeline.Immunity{{Window: window(1, 8), Throws: true}, {Window: window(9, 9), Strikes: true}}
		}},
		{"strike", "armour", "1-8 2 hits; 9-10; 11 1 hit", func(m *move) {
			m.Armour = []timeline.Armour{{Window: window(1, 8), Hits: 2}, {Window: window(9, 10), Hits: 1}, {Window: window(11, 11), Hits: 1}}
		}},
		{"dash", "parry", "1-10;12-20", func(m *move) { m.Parry = []timeline.Window{window(1, 10), window(12, 20)} }},
		{"strike", "damage", "600", func(m *move) { m.Damage = 600 }},
		{"strike", "gauge_cost", "2", func(m *move) { m.GaugeCost = 2 }},
		{"strike", "gauge_gain", "3", func(m *move) { m.GaugeGain = 3 }},
		{"dash", "travel", "-40", func(m *move) { m.Travel = -40 }},
		{"strike", "knockdown_midscreen", "42", func(m *move) { m.Knockdown.Midscreen = some(42) }},
		{"strike", "knockdown_wall", "0", func(m *move) { m.Knockdown.Wall = some(0) }},
		{"strike", "distance_midscreen", "120", func(m *move) { m.Distance.Midscreen = some(120) }},
		{"strike", "distance_wall", "80", func(m *move) { m.Distance.Wall = some(80) }},
	} {
		want, err := readCell(c.sort, "", "")
		if err != nil {
			t.Fatal(err)
		}
		c.want(&want)
		if got, err := readCell(c.sort, c.column, c.cell); err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s with %s %q = %+v, %v, want %+v", c.sort, c.column, c.cell, got, err, want)
		}
	}
}

func TestBadCells(t *testing.T) {
	const flags, numbers = ": expected yes or no, got ", ": expected a whole number, got "
	const (
		wantActive = "frames written like 3, or 2(5)1 with gaps in brackets"
		immune     = "(immune): expected windows written like 1-8 strike throw, with ; between them"
		armour     = "(armour): expected windows written like 1-8 2 hits, with ; between them"
		parry      = "(parry): expected windows written like 1-10, with ; between them"
	)
	for _, c := range []struct{ sort, column, cell, want string }{
		{"dash", "name", "", "column 1 (name): expected a name, got an empty text"},
		{"dash", "name", "auto", `column 1 (name): expected a name that isn't reserved, got "auto"`},
		{"dash", "kind", "hop", `column 2 (kind): expected strike, throw, parry, evade or dash, got "hop"`},
		{"dash", "kind", "", "column 2 (kind): expected strike, throw, parry, evade or dash, got nothing"},
		{"strike", "kind", "dash", "column 4 (startup): expected nothing: a dash has a total alone, got 6"},
		{"dash", "active", "3", "column 3 (active): expected nothing: a dash has a total alone, got 3"},
		{"dash", "recovery", "4", "column 3 (recovery): expected nothing: a dash has a total alone, got 4"},
		{"dash", "level", "mid", `column 3 (level): expected no level: only strikes and throws have one, got "mid"`},
		{"strike", "level", "", "column 3 (level): expected mid, low or overhead for a strike, got nothing"},
		{"strike", "level", "throw", `column 3 (level): expected mid, low or overhead for a strike, got "throw"`},
		{"throw", "level", "higher", `column 3 (level): expected mid, low, overhead, throw or air throw, got "higher"`},
		{"throw", "level", "high", `column 3 (level): expected throw or air throw for a throw, got "mid"`},
		{"throw", "level", "mid", `column 3 (level): expected throw or air throw for a throw, got "mid"`},
		{"strike", "air", "maybe", "column 3 (air)" + flags + `"maybe"`},
		{"strike", "misses_air", "2", "column 7 (misses_air)" + flags + `"2"`},
		{"strike", "startup", "", "column 4 (startup): expected the startup of a strike, got nothing"},
		{"strike", "startup", "0", "column 4 (startup): expected a whole number from 1 to 512, got 0"},
		{"strike", "startup", "6g", "column 4 (startup)" + numbers + `"6g"`},
		{"strike", "startup", "99999999999999999999", "column 4 (startup)" + numbers + `"99999999999999999999"`},
		{"strike", "startup", "1.0.0", "column 4 (startup)" + numbers + `"1.0.0"`},
		{"strike", "active", "", "column 5 (active): expected the active frames of a strike, got nothing"},
		{"strike", "active", "2(5)", "column 5 (active): expected " + wantActive + `, got "2(5)"`},
		{"strike", "active", "2(5", "column 5 (active): expected " + wantActive + `, got "2(5"`},
		{"strike", "active", "2,5", "column 5 (active): expected " + wantActive + `, got "2,5"`},
		{"strike", "active", "-2", "column 5 (active): expected " + wantActive + `, got "-2"`},
		{"strike", "active", "2(0)1", "column 5 (active): expected a whole number from 1 to 512, got 0"},
		{"strike", "recovery", "-1", "column 6 (recovery): expected a whole number from 0 to 512, got -1"},
		{"strike", "total", "21", "column 7 (total): expected no total, or what startup, active and recovery come to, 20, got 21"},
		{"strike", "total", "0", "column 7 (total): expected no total, or what startup, active and recovery come to, 20, got 0"},
		{"dash", "total", "", "column 3 (total): expected the total of a dash, got nothing"},
		{"dash", "total", "0", "column 3 (total): expected a whole number from 1 to 512, got 0"},
		{"strike", "on_hit", "KO", "column 7 (on_hit)" + numbers + `"KO"`},
		{"strike", "on_guard", "-513", "column 7 (on_guard): expected a whole number from -512 to 512, got -513"},
		{"strike", "hitstun", "-1", "column 7 (hitstun): expected a whole number from 0 to 512, got -1"},
		{"dash", "airborne_from", "21", "column 4 (airborne_from): expected a frame of the move, 1 to 20, got 21"},
		{"strike", "deep", "-1", "column 7 (deep): expected a whole number from 0 to 512, got -1"},
		{"strike", "drop", "x", "column 7 (drop)" + numbers + `"x"`},
		{"strike", "top", "-1", "column 7 (top): expected a whole number from 0 to 1000000, got -1"},
		{"strike", "reach_near", "4", "line 2 (reach_far): expected a number beside reach_near, got nothing"},
		{"strike", "landing_guard_after", "4", "line 2 (landing_recovery): expected a number beside landing_guard_after, got nothing"},
		{"dash", "immune", "1-8 hit", "column 4 " + immune + `, got "1-8 hit"`},
		{"dash", "immune", "8-Jan", "column 4 " + immune + ` (a spreadsheet has made a date of it: type it there as text), got "8-Jan"`},
		{"dash", "immune", "1-8;", "column 4 " + immune + `, got "1-8;"`},
		{"dash", "immune", "1-8-9", "column 4 " + immune + `, got "1-8-9"`},
		{"dash", "immune", "0-8", "column 4 (immune): expected a frame of the move, 1 to 20, got 0"},
		{"dash", "immune", "1-2;8-7", "column 4 (immune): expected a frame from 8 to the move's last, 20, got 7"},
		{"dash", "armour", "1-8 2", "column 4 " + armour + `, got "1-8 2"`},
		{"dash", "armour", "1-8 two hits", "column 4 " + armour + `, got "1-8 two hits"`},
		{"dash", "armour", "1-8 0 hits", "column 4 (armour): expected a whole number from 1 to 512, got 0"},
		{"dash", "armour", strings.Repeat("1-2;", 16) + "1-2", "column 4 (armour): expected at most 16 windows, got 17"},
		{"dash", "parry", "1-10 strike", "column 4 " + parry + `, got "1-10 strike"`},
		{"dash", "parry", "1-21", "column 4 (parry): expected a frame from 1 to the move's last, 20, got 21"},
		{"strike", "damage", "-1", "column 7 (damage): expected a whole number from 0 to 1000000000, got -1"},
		{"strike", "gauge_cost", "-1", "column 7 (gauge_cost): expected a whole number from 0 to 1000000000, got -1"},
		{"strike", "gauge_gain", "-1", "column 7 (gauge_gain): expected a whole number from 0 to 1000000000, got -1"},
		{"dash", "travel", "1000001", "column 4 (travel): expected a whole number from -1000000 to 1000000, got 1000001"},
		{"dash", "knockdown_midscreen", "512", "column 4 (knockdown_midscreen): expected a whole number from 0 to 511, got 512"},
		{"dash", "knockdown_wall", "-1", "column 4 (knockdown_wall): expected a whole number from 0 to 511, got -1"},
		{"dash", "distance_midscreen", "1000001", "column 4 (distance_midscreen): expected a whole number from -1000000 to 1000000, got 1000001"},
		{"dash", "distance_wall", "1000001", "column 4 (distance_wall): expected a whole number from -1000000 to 1000000, got 1000001"},
		{"dash", "travel", strings.Repeat("9", 70), "column 4 (travel)" + numbers + `"` + strings.Repeat("9", 60) + `"...`},
		{"dash", "travel", strings.Repeat(" ", MaxField) + "9", "column 4 (travel): expected at most 64 KiB in a field, got 65537 bytes"},
	} {
		want := c.want
		if !strings.HasPrefix(want, "line") {
			want = "line 2, " + want
		}
		_, err := readCell(c.sort, c.column, c.cell)
		var row *RowError
		if !errors.As(err, &row) || row.Line != 2 || err.Error() != want {
			t.Errorf("%s with %s %.80q: error = %v, want %s", c.sort, c.column, c.cell, err, want)
		}
	}
}

// What belongs to two cells at once.
func TestPairsOfCells(t *testing.T) {
	for _, c := range []struct{ heads, cells, want string }{
		{"reach_near,reach_far", "80,-20", "line 2, column 5 (reach_far): expected a whole number from 80 to 1000000, got -20"},
		{"reach_near,reach_far", "-1000001,5", "line 2, column 4 (reach_near): expected a whole number from -1000000 to 1000000, got -1000001"},
		{"landing_recovery,landing_guard_after", "-4,0", "line 2, column 4 (landing_recovery): expected a whole number from 0 to 512, got -4"},
		{"landing_recovery,landing_guard_after", "4,5", "line 2, column 5 (landing_guard_after): expected a whole number from 0 to the landing recovery, 4, got 5"},
		{"landing_recovery,landing_guard_after", "4,", "line 2, column 5 (landing_guard_after): expected a number beside landing_recovery, got nothing"},
		{"reach_near,reach_far", ",4", "line 2, column 4 (reach_near): expected a number beside reach_far, got nothing"},
		{"on_hit,hitstun", "4,5", "line 2, column 5 (hitstun): expected on_hit or hitstun, not both, got 5"},
		{"guardstun,on_guard", "4,5", "line 2, column 4 (guardstun): expected on_guard or guardstun, not both, got 4"},
	} {
		_, err := Read(strings.NewReader("name,kind,total,"+c.heads+"\nStep,dash,20,"+c.cells), Options{Fighter: "Marl"})
		if err == nil || err.Error() != c.want {
			t.Errorf("%s %s: error = %v, want %s", c.heads, c.cells, err, c.want)
		}
	}
}
