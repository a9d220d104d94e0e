package timeline_test

import (
	"context"
	"fmt"
	"math/big"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	. "wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/patch"
	"wakeline/timeline/value"
)

// dayOf is all that changed for the setups of before.
func dayOf(t testing.TB, before, after *Project) *patch.Day {
	t.Helper()
	p := patch.New(before, after)
	d := &patch.Day{Parts: p.Parts, Routes: p.Routes, Weighed: true}
	for i := range before.Setups {
		if c := p.Setups.Of(&before.Setups[i]); c.Changed() {
			d.Setups = append(d.Setups, c)
		} else {
			d.Unchanged++
		}
	}
	pairs := map[string][]Setup{}
	var order []string
	for _, s := range before.Setups {
		key := fmt.Sprintf("%q %q %s", s.Attacker, s.Rival, s.Position)
		if pairs[key] == nil {
			order = append(order, key)
		}
		pairs[key] = append(pairs[key], s)
	}
	for _, key := range order {
		if err := p.Mixes(context.Background(), pairs[key], func(m patch.Mix) {
			if m.Changed() {
				d.Mixes = append(d.Mixes, m)
			}
		}); err != nil {
			t.Fatal(err)
		}
	}
	return d
}

// TestPatchDay makes one change of each kind of a project of one setup, and
// reads what is told of it.
func TestPatchDay(t *testing.T) {
	for _, c := range []struct {
		name                         string
		change                       func(p *Project)
		answer, parts, routes, mixes string
	}{
		{"nothing", func(*Project) {}, "The move data are the same.", "", "", ""},
		{"a move that nothing uses", func(p *Project) { p.Fighters[0].Move("jab").Recovery = 20 },
			"No setup, route or mix changed. 1 part of the move data changed.", "Hesk's jab: recovery from 12 to 20", "", ""},
		{"a quicker reversal", func(p *Project) { p.Fighters[1].Move("reversal").Startup = 1 },
			"1 setup turned: 1 safe to limited. 1 mix moved. 1 part of the move data changed.", "Tarn's reversal: startup from 4 to 1", "",
			"Hesk vs Tarn after sweep (midscreen): -90 points a round, it was 0"},
		{"a window that shrank", func(p *Project) { p.Fighters[1].Move("reversal").Startup = 3 },
			"1 window shrank. 1 part of the move data changed.", "Tarn's reversal: startup from 4 to 3", "", ""},
		{"a window that closed, with its cause", func(p *Project) { p.Fighters[0].Jumps[0].Airborne = 60 },
			"1 setup turned: 1 safe to unsafe. 1 mix moved. 1 part of the move data changed.", "Hesk's hop: airborne time from 39 to 60", "",
			"Hesk vs Tarn after sweep (midscreen): -90 points a round, it was 0"},
		{"a link that is too slow", func(p *Project) { p.Fighters[0].Move("poke").Startup = 7 },
			"1 route no longer links. 1 part of the move data changed.", "Hesk's poke: startup from 6 to 7",
			"Hesk's ladder: poke 1 too slow, it was 0 to spare; not used until it is confirmed", ""},
		{"the same, confirmed", func(p *Project) {
			p.Fighters[0].Move("poke").Startup = 9
			p.Fighters[0].Route("ladder").Confirmed = true
		}, "1 route no longer links. 2 parts of the move data changed.", "Hesk's poke: startup from 6 to 9\nHesk's route ladder: confirmed from no to yes",
			"Hesk's ladder: poke 3 too slow, it was 0 to spare; still used, as it is confirmed: try it again in the game", ""},
		{"a route of other steps", func(p *Project) { p.Fighters[0].Route("ladder").Steps[1].Move = "sweep" },
			"1 route no longer links. 1 part of the move data changed.", "Hesk's route ladder: steps from flick, poke to flick, sweep", "Hesk's ladder: steps from flick, poke to flick, sweep; damage from 0 to 700; not used until it is confirmed", ""},
		{"damage", func(p *Project) { p.Fighters[0].Move("poke").Damage = 80 },
			"1 route changed. 1 part of the move data changed.", "Hesk's poke: damage from 0 to 80", "Hesk's ladder: damage from 0 to 80", ""},
		{"a route that is gone, and another", func(p *Project) { p.Fighters[0].Routes[0].Name = "steps" },
			"2 routes changed. 2 parts of the move data changed.", "Hesk's route steps: new\nHesk's route ladder: gone",
			"Hesk's steps: new: flick, poke; poke links with nothing to spare; 0 points.\nHesk's ladder: gone; it was flick, poke; poke links with nothing to spare; 0 points.", ""},
		{"a rise, a jump and a rule", func(p *Project) {
			p.Ruleset.Health = 900
			p.Fighters[0].Jumps = append(p.Fighters[0].Jumps, Jump{Name: "vault", Prejump: 4, Airborne: 30, Landing: 3})
			p.Fighters[1].Rises[1].Extra = 3
			slices.Reverse(p.Fighters[1].Rises)
		}, "No setup, route or mix changed. 4 parts of the move data changed.",
			"the ruleset: health from 1000 to 900\nHesk's vault: new\nTarn's backward rise: extra frames from 1 to 3\nTarn: order of rises from normal, backward to backward, normal", "", ""},
		{"standing replies", func(p *Project) {
			p.Fighters[1].Replies = []Reply{{Move: "jab", Demand: Beat, Costs: Some(90)}, {Move: "reversal", Demand: Survive, Late: 2}}
		}, "No setup, route or mix changed. 2 parts of the move data changed.",
			"Tarn's standing reply jab: demand from survive to beat; costs from none to 90\nTarn's standing reply reversal late 2: new", "", ""},
		{"a fighter", func(p *Project) { p.Fighters = append(p.Fighters, Fighter{Name: "Orla", Rises: DefaultRises()}) },
			"No setup, route or mix changed. 1 part of the move data changed.", "the fighter Orla: new", "", ""},
		{"a rival that is gone", func(p *Project) { p.Fighters = p.Fighters[:1] },
			"1 setup turned: 1 safe to not judged. 1 mix moved. 1 part of the move data changed.", "the fighter Tarn: gone", "",
			"Hesk vs Tarn after sweep (midscreen): not weighed (rival: expected the name of a fighter, got \"Tarn\"), it was 0"},
	} {
		t.Run(c.name, func(t *testing.T) {
			before, after := patched(t, func(p *Project) { c.change(withRoute(p)) })
			withRoute(before)
			d := dayOf(t, before, after)
			if got := d.Answer(); got != c.answer {
				t.Errorf("it answers %q\nwant       %q", got, c.answer)
			}
			var parts, routes, mixes []string
			for i := range d.Parts {
				parts = append(parts, d.Parts[i].Title()+": "+d.Parts[i].Became())
			}
			for i := range d.Routes {
				routes = append(routes, d.Routes[i].Title()+": "+d.Routes[i].Became())
			}
			for i := range d.Mixes {
				mixes = append(mixes, d.Mixes[i].Title()+": "+d.Mixes[i].Became())
			}
			for what, pair := range map[string][2]string{"parts": {strings.Join(parts, "\n"), c.parts}, "routes": {strings.Join(routes, "\n"), c.routes}, "mixes": {strings.Join(mixes, "\n"), c.mixes}} {
				if pair[0] != pair[1] {
					t.Errorf("%s:\n%s\nwant\n%s", what, pair[0], pair[1])
				}
			}
		})
	}
}

// withRoute gives the attacker of patched a route that links with nothing to
// spare, and its rival a standing reply that no setup asks.
func withRoute(p *Project) *Project {
	f := &p.Fighters[0]
	f.Moves = append(f.Moves,
		Move{Name: "flick", Kind: Strike, Level: Mid, Startup: 4, Active: []int{2}, Recovery: 9, OnHit: Some(6)},
		Move{Name: "poke", Kind: Strike, Level: Mid, Startup: 6, Active: []int{2}, Recovery: 12, OnHit: Some(1)})
	f.Routes = []Route{{Name: "ladder", Steps: []RouteStep{{"flick", Link}, {"poke", Link}}}}
	p.Fighters[1].Replies = []Reply{{Move: "jab", Demand: Survive}}
	p.Fighters[1].Move("reversal").Damage = 90
	p.Setups[0].Pressure = 0
	return p
}

// change changes move data at random.
func change(g *rand.Rand, after, other *Project) {
	to := func(lo, hi int) int { return lo + g.IntN(hi-lo+1) }
	for range to(0, 3) {
		i := g.IntN(2)
		f, from := &after.Fighters[i], &other.Fighters[i]
		switch g.IntN(12) {
		case 0:
			after.Ruleset = other.Ruleset
		case 1:
			f.Rises[g.IntN(3)].Extra += to(0, 2)
		case 2:
			f.Jumps[g.IntN(2)].Airborne += to(-1, 1)
		case 3:
			f.Body = from.Body
		case 4:
			f.Routes = from.Routes
		case 5:
			r := &f.Routes[g.IntN(len(f.Routes))]
			r.Confirmed = !r.Confirmed
		case 6:
			f.Replies = from.Replies
		case 7:
			m := &f.Moves[3+g.IntN(9)]
			if m.OnHit.Given {
				m.OnHit.N += to(-3, 3)
			}
		case 8:
			f.Moves[3+g.IntN(9)].Damage += to(0, 40)
		case 9:
			i := g.IntN(len(f.Rises))
			f.Rises[0], f.Rises[i] = f.Rises[i], f.Rises[0]
		default:
			i := g.IntN(len(f.Moves))
			m := from.Moves[min(i, len(from.Moves)-1)]
			m.Name = f.Moves[i].Name
			f.Moves[i] = m
		}
	}
}

// inOneOrder is p's move data as a text, with what may stand in any order in
// one.
func inOneOrder(p *Project) string {
	q := &Project{Ruleset: p.Ruleset}
	for _, f := range p.Fighters {
		f.Moves, f.Jumps, f.Routes = slices.Clone(f.Moves), slices.Clone(f.Jumps), slices.Clone(f.Routes)
		slices.SortFunc(f.Moves, func(a, b Move) int { return strings.Compare(a.Name, b.Name) })
		slices.SortFunc(f.Jumps, func(a, b Jump) int { return strings.Compare(a.Name, b.Name) })
		slices.SortFunc(f.Routes, func(a, b Route) int { return strings.Compare(a.Name, b.Name) })
		q.Fighters = append(q.Fighters, f)
	}
	slices.SortFunc(q.Fighters, func(a, b Fighter) int { return strings.Compare(a.Name, b.Name) })
	return string(WriteText(q))
}

// TestAPatchTellsWhatChangedAndNoMore holds, on random projects that are
// changed at random, the parts against the project text, the routes against the
// slow reading, and the mixes against weighing each project by itself.
func TestAPatchTellsWhatChangedAndNoMore(t *testing.T) {
	seen := map[string]int{}
	for seed := range uint64(1500) {
		before, _, _ := RandomValue(seed)
		after, _, _ := RandomValue(seed)
		other, _, _ := RandomValue(seed + 1e6)
		g := rand.New(rand.NewPCG(seed, 17))
		change(g, after, other)
		s := before.Setups[0]
		s.Ender, s.Name = "ender", "set"
		if s.Advantage == (Maybe{}) {
			s.Advantage = Some(40)
		}
		before.Setups = nil
		for i := range 3 {
			s.Name, s.Delay = fmt.Sprint("set ", i), s.Delay+i
			before.Setups = append(before.Setups, s)
		}
		if before.Check() != nil || after.CheckData() != nil {
			continue
		}
		seen["compared"]++
		d := dayOf(t, before, after)
		if same := inOneOrder(before.Bare()) == inOneOrder(after.Bare()); same != (len(d.Parts) == 0) {
			t.Fatalf("seed %d: equal is %v, but %d parts differ", seed, same, len(d.Parts))
		} else if same {
			seen["nothing differs"]++
			if d.Answers() {
				t.Fatalf("seed %d: nothing differs, but %s", seed, d.Answer())
			}
		}
		for _, c := range d.Parts {
			for _, f := range c.Fields {
				if f.Before == f.After {
					t.Fatalf("seed %d: %s: %s from %q to %q", seed, c.Title(), f.Noun, f.Before, f.After)
				}
			}
		}
		if back := compare.Parts(after, before); len(back) != len(d.Parts) {
			t.Fatalf("seed %d: %d parts differ, back %d", seed, len(d.Parts), len(back))
		}
		sectioned := 0
		for _, n := range d.Counts() {
			sectioned += n
		}
		if sectioned != len(d.Parts)+len(d.Setups)+len(d.Routes)+len(d.Mixes) {
			t.Fatalf("seed %d: the sections hold %d", seed, sectioned)
		}
		routesAgree(t, seed, d, before, after, seen)
		mixesAgree(t, seed, d, before, after, seen)
	}
	for _, what := range []string{"nothing differs", "a route broke", "a route mended", "a route changed", "a route stays", "a mix moved", "a mix stays", "a mix of one state"} {
		if seen[what] < 15 {
			t.Errorf("%q happened %d times of %d", what, seen[what], seen["compared"])
		}
	}
}

func routesAgree(t *testing.T, seed uint64, d *patch.Day, before, after *Project, seen map[string]int) {
	t.Helper()
	listed := map[string]*patch.Route{}
	for i := range d.Routes {
		listed[d.Routes[i].Title()] = &d.Routes[i]
	}
	for i := range after.Fighters {
		f, was := &after.Fighters[i], before.Fighter(after.Fighters[i].Name)
		slow := map[string][2]*SlowRoute{}
		for side, p := range []*Project{before, after} {
			of := p.Fighter(f.Name)
			for _, r := range SlowRoutes(p, of) {
				if r.Named {
					both := slow[r.Name]
					both[side] = &r
					slow[r.Name] = both
				}
			}
		}
		for name, both := range slow {
			r := listed[f.Name+"'s "+name]
			b, a := both[0], both[1]
			delete(listed, f.Name+"'s "+name)
			if b == nil || a == nil {
				if r == nil {
					t.Fatalf("seed %d: %s is not listed", seed, name)
				}
				continue
			}
			b.Ends, a.Ends = "", ""
			same := reflect.DeepEqual(b, a) && slices.Equal(was.Route(name).Steps, f.Route(name).Steps)
			if (r != nil) == same && !(r != nil && r.Kind != patch.RouteChanged) {
				t.Fatalf("seed %d: %s: listed %v, %+v and %+v", seed, name, r, b, a)
			}
			tooSlow := func(p *Project, r *Route) bool {
				bare := *r
				bare.Confirmed = false
				return !value.RouteOf(p.Ruleset, p.Fighter(f.Name), &bare).Counts
			}
			slowBefore, slowAfter := tooSlow(before, was.Route(name)), tooSlow(after, f.Route(name))
			broke := b.Counts && !a.Counts || !slowBefore && slowAfter
			mended := !broke && (a.Counts && !b.Counts || slowBefore && !slowAfter)
			switch {
			case (r != nil && r.Kind == patch.Broke) != broke, (r != nil && r.Kind == patch.Mended) != mended:
				t.Fatalf("seed %d: %s: %+v; broke %v, mended %v", seed, name, r, broke, mended)
			case broke:
				seen["a route broke"]++
			case mended:
				seen["a route mended"]++
			case r != nil:
				seen["a route changed"]++
			default:
				seen["a route stays"]++
			}
			if r != nil && r.Became() == "" {
				t.Fatalf("seed %d: %s changed, and nothing is said of it: %+v", seed, name, r)
			}
		}
	}
	if len(listed) > 0 {
		t.Fatalf("seed %d: %v are listed", seed, listed)
	}
}

func mixesAgree(t *testing.T, seed uint64, d *patch.Day, before, after *Project, seen map[string]int) {
	t.Helper()
	// Each state by itself, with those of the setups that fit it.
	var values [2]*big.Rat
	for i, of := range []*Project{before, after} {
		p := of.Bare()
		for j := range before.Setups {
			if p.CheckSetup(nil, &before.Setups[j]) == nil {
				p.Setups = append(p.Setups, before.Setups[j])
			}
		}
		if len(p.Setups) == 0 {
			continue
		}
		if m, err := value.NewBook(p).Mix(context.Background(), NewIndex(p), p.Setups, value.MixOptions{}); err == nil {
			values[i] = m.Value
		}
	}
	moved := (values[0] == nil) != (values[1] == nil) || values[0] != nil && values[1] != nil && values[0].Cmp(values[1]) != 0
	if moved != (len(d.Mixes) == 1) {
		t.Fatalf("seed %d: %d mixes moved, the values are %v and %v", seed, len(d.Mixes), values[0], values[1])
	}
	if !moved {
		seen["a mix stays"]++
		return
	}
	s := &before.Setups[0]
	if !patch.New(before, after).Touches(s.Attacker, s.Rival) {
		t.Fatalf("seed %d: a mix moved of fighters that nothing touches", seed)
	}
	for i, state := range []*patch.MixState{&d.Mixes[0].Before, &d.Mixes[0].After} {
		switch {
		case (state.Mix == nil) != (values[i] == nil), state.Mix == nil && state.Because == "":
			t.Fatalf("seed %d: state %d is %+v, its value %v", seed, i, state, values[i])
		case state.Mix == nil:
			seen["a mix of one state"]++
		case state.Mix.Value.Cmp(values[i]) != 0:
			t.Fatalf("seed %d: state %d is worth %v, want %v", seed, i, state.Mix.Value, values[i])
		default:
			if err := state.Mix.Check(); err != nil {
				t.Fatalf("seed %d: %v", seed, err)
			}
		}
	}
	seen["a mix moved"]++
}

// BenchmarkPatchDay: a patch of one reversal and one move of the attacker, for
// 3,000 setups of 40 replies on 3 rises, all compared, and as many in mixes of
// 10.
func BenchmarkPatchDay(b *testing.B) {
	before, after := BusyProject(), BusyProject()
	after.Fighters[1].Moves[0].Startup++
	after.Fighters[0].Moves[0].Damage = 40
	s := before.Setups[0]
	before.Setups = nil
	for i := range 3000 {
		s.Name, s.Delay = fmt.Sprint("set ", i), i%10
		before.Setups = append(before.Setups, s)
	}
	p := patch.New(before, after)
	b.Run("setups", func(b *testing.B) {
		for b.Loop() {
			for i := range before.Setups {
				p.Setups.Of(&before.Setups[i])
			}
		}
	})
	b.Run("mixes", func(b *testing.B) {
		for b.Loop() {
			for i := 0; i < len(before.Setups); i += 10 {
				if err := p.Mixes(context.Background(), before.Setups[i:i+10], func(patch.Mix) {}); err != nil {
					b.Fatal(err)
				}
			}
		}
	})
}
