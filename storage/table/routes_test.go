package table

import (
	"bytes"
	"reflect"
	"strings"
	"testing"

	"wakeline/timeline"
)

// swimmer has the moves that the routes of these tests are of.
var swimmer = &timeline.Fighter{Name: "Marl", Moves: []timeline.Move{
	{Name: "jab", Kind: timeline.Strike}, {Name: "jab, low", Kind: timeline.Strike}, {Name: "=sweep", Kind: timeline.Strike}, {Name: "dive", Kind: timeline.Strike, Air: true},
}}

func find(name string) *timeline.Fighter {
	if name == swimmer.Name {
		return swimmer
	}
	return nil
}

func TestRoutesReadBackAsTheyWereWritten(t *testing.T) {
	step := func(move string, by timeline.By) timeline.RouteStep { return timeline.RouteStep{Move: move, By: by} }
	routes := []timeline.Route{
		{Name: "two, \"quoted\"", Steps: []timeline.RouteStep{step("jab", timeline.Link), step("jab, low", timeline.Link)}},
		{Name: " spaces ", Confirmed: true, Damage: timeline.Some(0), GaugeCost: timeline.Some(2), GaugeGain: timeline.Some(1), Steps: []timeline.RouteStep{step("=sweep", timeline.Cancel), step("jab", timeline.Cancel)}},
	}
	var file, again bytes.Buffer
	if err := WriteRoutes(&file, "Marl", routes); err != nil {
		t.Fatal(err)
	}
	if want := "fighter,name,steps,damage,gauge_cost,gauge_gain,confirmed\r\n"; !strings.HasPrefix(file.String(), want) {
		t.Errorf("it begins %q, want %q", file.String(), want)
	}
	got, err := ReadRoutes(bytes.NewReader(file.Bytes()), RouteOptions{Of: find})
	if err != nil {
		t.Fatal(err)
	}
	var back []timeline.Route
	for _, r := range got.Rows {
		back = append(back, r.Value)
	}
	if !reflect.DeepEqual(back, routes) {
		t.Errorf("read back %+v, want %+v", back, routes)
	}
	if err := WriteRoutes(&again, "Marl", back); err != nil || again.String() != file.String() {
		t.Errorf("written again it differs: %v", err)
	}
}

func TestBadRoutesAreToldWhereTheyStand(t *testing.T) {
	const head = "fighter,name,steps,damage,confirmed\n"
	for _, c := range []struct{ name, text, want string }{
		{"no steps", "fighter,name\nMarl,a\n", "line 1 (steps): expected a column of that name, got none"},
		{"no fighter", "name,steps\na,jab\n", "line 1 (fighter): expected a column of that name, or a fighter to give the routes to, got neither"},
		{"another heading", "fighter,name,steps,startup\nMarl,a,jab,3\n", "line 1, column 4 (startup): expected a heading that is the name of a column of routes, or mapped to one, got \"startup\""},
		{"a heading twice", "fighter,name,steps,name\nMarl,a,jab,b\n", "line 1, column 4 (name): expected each column once, got name again, as in column 2"},
		{"a stranger's move", head + "Marl,a,\"jab, hook\",,\n", "line 2, column 3 (steps): expected a move of Marl, got \"hook\""},
		{"an air move", head + "Marl,a,jab > dive,,\n", "line 2, column 3 (steps): expected a move done on the ground, got \"dive\", an air move"},
		{"no move", head + "Marl,a,,,\n", "line 2, column 3 (steps): expected moves done on the ground, such as jab, jab > sweep: a comma before a link, > before a cancel, got nothing"},
		{"a stranger", head + "Nobody,a,jab,,\n", "line 2, column 1 (fighter): expected a fighter that there is, or that is imported too, got \"Nobody\""},
		{"no name", head + "Marl,,jab,,\n", "line 2, column 2 (name): expected a name, got nothing"},
		{"a name twice", head + "Marl,a,jab,,\n\nMarl,a,jab,,\n", "line 4, column 2 (name): expected a unique name, got \"a\" again, as on line 2"},
		{"damage below 0", head + "Marl,a,jab,-1,\n", "line 2, column 4 (damage): expected a whole number from 0 to 1000000000, got -1"},
		{"perhaps", head + "Marl,a,jab,,perhaps\n", "line 2, column 5 (confirmed): expected yes or no, got \"perhaps\""},
		{"a field too many", head + "Marl,a,jab,,,x\n", "line 2, column 6: expected 5 fields, as in the header, got 6"},
		{"no CSV", head + "Marl,\"a,jab\n", "line 2, character"},
	} {
		got, err := ReadRoutes(strings.NewReader(c.text), RouteOptions{Of: find})
		if err == nil || !strings.HasPrefix(err.Error(), c.want) || got != nil && len(got.Rows) > 0 {
			t.Errorf("%s: error = %v, want %s", c.name, err, c.want)
		}
	}
	got, err := ReadRoutes(strings.NewReader(head+"Marl,a,jab,-1,\nMarl,b,jab,,\n"), RouteOptions{Of: find, SkipBad: true})
	if err != nil || len(got.Rows) != 1 || got.Rows[0].Value.Name != "b" || len(got.Bad) != 1 {
		t.Errorf("bad rows skipped: %+v, %v", got, err)
	}
}

func TestTablesOfRoutesAreToldFromTablesOfMoves(t *testing.T) {
	for _, c := range []struct {
		headings string
		mapped   map[string]string
		want     bool
	}{
		{"name,steps", nil, true}, {"Fighter, Steps ,name", nil, true}, {"name,kind,steps", nil, false}, {"name,combo", nil, true}, {"name,rhyme", nil, false}, {"name,combo,startup", nil, false},
		{"name,rhyme", map[string]string{"Rhyme": "steps"}, true}, {"name,steps", map[string]string{"steps": ""}, false},
	} {
		if got := OfRoutes(strings.Split(c.headings, ","), c.mapped); got != c.want {
			t.Errorf("%s with %v: %v, want %v", c.headings, c.mapped, got, c.want)
		}
	}
}
