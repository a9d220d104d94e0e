package timeline

import (
	"reflect"
	"strings"
	"testing"
)

func readPage(t *testing.T) *Project {
	t.Helper()
	p, err := ReadText([]byte(page))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestWith(t *testing.T) {
	ada := func(p *Project) *Fighter { return &p.Fighters[0] }
	move := func(p *Project, name string, change func(*Move)) *Move {
		m := *p.Fighters[0].Move(name)
		change(&m)
		return &m
	}
	tests := []struct {
		name string
		edit func(p *Project) []Edit
		want func(p *Project) // done to a copy of its own
	}{
		{"a number of a move", func(p *Project) []Edit {
			return []Edit{MoveEdit{"Ada", "Sweep", move(p, "Sweep", func(m *Move) { m.Startup, m.Recovery = 6, 11 })}}
		}, func(p *Project) { ada(p).Move("Sweep").Startup, ada(p).Move("Sweep").Recovery = 6, 11 }},
		{"a move's name", func(p *Project) []Edit {
			return []Edit{MoveEdit{"Ada", "Sweep", move(p, "Sweep", func(m *Move) { m.Name = "Low Sweep" })}}
		}, func(p *Project) {
			ada(p).Move("Sweep").Name = "Low Sweep"
			s := &p.Setups[0]
			s.Ender, s.Fillers[0], s.Fillers[2] = "Low Sweep", "Low Sweep", "Low Sweep"
		}},
		{"a reply's name", func(p *Project) []Edit {
			return []Edit{MoveEdit{"Ada", "Turn", move(p, "Turn", func(m *Move) { m.Name = "Spin" })}}
		}, func(p *Project) {
			ada(p).Move("Turn").Name = "Spin"
			p.Setups[0].Replies[0].Move, p.Setups[0].Replies[1].Move = "Spin", "Spin"
		}},
		{"a jump's name", func(p *Project) []Edit {
			j := *ada(p).Jump("forward")
			j.Name = "hop"
			return []Edit{JumpEdit{"Ada", "forward", &j}}
		}, func(p *Project) {
			ada(p).Jumps[0].Name = "hop"
			p.Setups[0].Jump, p.Setups[0].Fillers[1] = "hop", "hop"
		}},
		{"a rise's name", func(p *Project) []Edit { return []Edit{RiseEdit{"Ada", "normal", &Rise{Name: "fast", Extra: 1}}} },
			func(p *Project) { ada(p).Rises[0] = Rise{"fast", 1, 0}; p.Setups[0].Rises[0] = "fast" }},
		{"a fighter's name and body", func(p *Project) []Edit { return []Edit{FighterEdit{"Ada", &Fighter{Name: "Ida", Body: Some(7)}}} },
			func(p *Project) {
				ada(p).Name, ada(p).Body, ada(p).Width = "Ida", Some(7), Maybe{}
				p.Setups[0].Attacker, p.Setups[0].Rival = "Ida", "Ida"
			}},
		{"a setup anew, and one away", func(p *Project) []Edit {
			s := p.Setups[0]
			s.Name = "Two"
			return []Edit{SetupEdit{"", &s}, SetupEdit{"One", nil}}
		}, func(p *Project) { p.Setups[0].Name = "Two" }},
		{"a move that nothing uses, away", func(*Project) []Edit { return []Edit{MoveEdit{"Ada", "Grab", nil}} },
			func(p *Project) { ada(p).Moves = ada(p).Moves[:3] }},
		{"a setup away, and then what it used", func(*Project) []Edit {
			return []Edit{SetupEdit{"One", nil}, FighterEdit{"Ada", nil}}
		}, func(p *Project) { p.Setups, p.Fighters = []Setup{}, []Fighter{} }},
		{"a move two places later", func(*Project) []Edit { return []Edit{PlaceEdit{"Ada", MoveList, "Sweep", 2}} }, func(p *Project) {
			m := ada(p).Moves
			m[0], m[1], m[2] = m[1], m[2], m[0]
		}},
		{"a move earlier than there is room for", func(*Project) []Edit { return []Edit{PlaceEdit{"Ada", MoveList, "Grab", -9}} }, func(p *Project) {
			m := ada(p).Moves
			m[0], m[1], m[2], m[3] = m[3], m[0], m[1], m[2]
		}},
		{"a rise later", func(*Project) []Edit { return []Edit{PlaceEdit{"Ada", RiseList, "normal", 1}} }, func(p *Project) {
			r := ada(p).Rises
			r[0], r[1] = r[1], r[0]
		}},
		{"the ruleset", func(p *Project) []Edit {
			r := p.Ruleset
			r.Buffer = 7
			return []Edit{RulesetEdit{r}}
		}, func(p *Project) { p.Ruleset.Buffer = 7 }},
	}
	for _, tt := range tests {
		p, want := readPage(t), readPage(t)
		tt.want(want)
		got, err := p.With(tt.edit(p)...)
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
		} else if !reflect.DeepEqual(got, want) {
			t.Errorf("%s: got %s, want %s", tt.name, WriteText(got), WriteText(want))
		}
		if !reflect.DeepEqual(p, readPage(t)) {
			t.Errorf("%s: the project before is another", tt.name)
		}
	}
}

func TestWithRefuses(t *testing.T) {
	p := readPage(t)
	bad := p.Setups[0]
	bad.Name, bad.Ender = "Two", "Swoop"
	twin := p.Setups[0]
	slow := *p.Fighters[0].Move("Sweep")
	slow.Startup = 0
	tests := []struct {
		edit Edit
		want string
	}{
		{MoveEdit{"Ada", "Sweep", nil}, `setup "One" uses the move "Sweep"`},
		{MoveEdit{"Ada", "Turn", nil}, `setup "One" uses the move "Turn"`},
		{JumpEdit{"Ada", "forward", nil}, `setup "One" uses the jump "forward"`},
		{RiseEdit{"Ada", "normal", nil}, `setup "One" uses the rise "normal"`},
		{FighterEdit{"Ada", nil}, `setup "One" uses the fighter "Ada"`},
		{MoveEdit{"Ada", "Swoop", nil}, `expected a move of Ada, got "Swoop"`},
		{MoveEdit{"Bea", "Sweep", nil}, `expected a fighter, got "Bea"`},
		{PlaceEdit{"Bea", MoveList, "Sweep", 1}, `expected a fighter, got "Bea"`},
		{PlaceEdit{"Ada", JumpList, "Sweep", 1}, `expected a jump, got "Sweep"`},
		{PlaceEdit{"", FighterList, "Bea", 1}, `expected a fighter, got "Bea"`},
		{MoveEdit{"Ada", "Sweep", &slow}, "$.fighters[0].moves[0].startup: expected a whole number from 1"},
		{MoveEdit{"Ada", "", p.Fighters[0].Move("Turn")}, "$.fighters[0].moves[4].name: expected a unique name"},
		{SetupEdit{"", &bad}, `$.setups[1].ender: expected a move of Ada, got "Swoop"`},
		{SetupEdit{"", &twin}, `$.setups[1].name: expected a unique name`},
		{SetupEdit{"Three", nil}, `expected a setup, got "Three"`},
	}
	for _, tt := range tests {
		if _, err := p.With(tt.edit); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%+v: error %v, want %q", tt.edit, err, tt.want)
		}
	}
	one, err := p.With(RiseEdit{"Ada", "backward", nil})
	if err != nil {
		t.Fatal(err)
	}
	one.Setups = nil
	if _, err := one.With(RiseEdit{"Ada", "normal", nil}); err == nil || !strings.Contains(err.Error(), "at least one rise") {
		t.Errorf("the last rise away: %v", err)
	}
}

func TestWithLeavesEverythingItIsGiven(t *testing.T) {
	p, same := readPage(t), readPage(t)
	added := Fighter{Name: "New", Moves: []Move{{Name: "step", Kind: Dash, Length: 9}}, Rises: []Rise{{Name: "normal"}}}
	longer := Move{Name: "step", Kind: Dash, Length: 10}
	sweep := *p.Fighters[0].Move("Sweep")
	sweep.Startup++
	q, err := p.With(
		FighterEdit{Fighter: &added}, MoveEdit{"New", "step", &longer}, MoveEdit{"New", "", &Move{Name: "hop", Kind: Dash, Length: 3}},
		FighterEdit{"Ada", &Fighter{Name: "Ida"}}, MoveEdit{"Ida", "Sweep", &sweep}, RiseEdit{"Ida", "", &Rise{Name: "late", Extra: 4}})
	if err != nil {
		t.Fatal(err)
	}
	if got := q.Fighter("New"); len(got.Moves) != 2 || got.Moves[0].Length != 10 || q.Fighter("Ida").Move("Sweep").Startup != sweep.Startup {
		t.Errorf("the edits came to %+v", q.Fighters)
	}
	if added.Moves[0].Length != 9 || len(added.Moves) != 1 || !reflect.DeepEqual(p, same) {
		t.Errorf("the edit's fighter is %+v, the project before %+v", added, p)
	}
}
