package timeline_test

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	. "wakeline/timeline"
	"wakeline/timeline/compare"
)

// patched is a drop in from an ender against a reversal and a jab of the
// rival, and the same after change.
func patched(t *testing.T, change func(p *Project)) (before, after *Project) {
	t.Helper()
	jab := Move{Name: "jab", Kind: Strike, Level: Mid, Startup: 4, Active: []int{2}, Recovery: 9, OnGuard: Some(1)}
	made := func() *Project {
		p := DropIn(42, Reversal(4), jab)
		p.Fighters[0].Moves = append(p.Fighters[0].Moves, Move{Name: "sweep", Kind: Strike, Level: Low, Startup: 8, Active: []int{3}, Recovery: 20, Knockdown: Places{Some(42), Some(44)}, Damage: 700})
		p.Fighters[1].Rises = append(p.Fighters[1].Rises, Rise{"backward", 1, 40})
		s := &p.Setups[0]
		s.Ender, s.Advantage, s.Rises = "sweep", Maybe{}, []string{"normal"}
		return p
	}
	before, after = made(), made()
	change(after)
	for _, p := range []*Project{before, after} {
		if err := p.CheckData(); err != nil {
			t.Fatal(err)
		}
	}
	return before, after
}

func TestCompare(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(p *Project)
		setup  func(s *Setup)
		want   string
		by     []string // kind, fighter and name, then the fields
	}{
		{"nothing", func(*Project) {}, nil, "", nil},
		{"what the setup doesn't use", func(p *Project) { p.Fighters[0].Move("jab").Startup = 9 }, nil, "", nil},
		{"what no verdict reads", func(p *Project) { p.Fighters[0].Move("sweep").Damage = 800 }, nil, "", nil},
		{"a quicker reversal", func(p *Project) { p.Fighters[1].Move("reversal").Startup = 1 }, nil,
			"Safe turned limited, no delay covers reversal any more, the window grew (0 to 5, it was 0 to 2): reversal's startup went from 4 to 1.",
			[]string{"move Tarn reversal: startup"}},
		{"a reversal one frame quicker", func(p *Project) { *p.Fighters[1].Move("reversal") = Reversal(3) }, nil,
			"The window shrank (0 to 1, it was 0 to 2): reversal's startup went from 4 to 3.",
			[]string{"move Tarn reversal: startup"}},
		{"the same, at a delay that it takes away", func(p *Project) {
			p.Fighters[1].Move("reversal").Startup = 3
			p.Fighters[1].Move("reversal").Damage = 5
		}, func(s *Setup) { s.Delay = 2 },
			"Safe turned unsafe, the window shrank (0 to 1, it was 0 to 2): reversal's startup went from 4 to 3.",
			[]string{"move Tarn reversal: startup"}},
		{"more advantage", func(p *Project) { p.Fighters[0].Move("sweep").Knockdown.Midscreen = Some(45) }, nil,
			"Safe turned unsafe, the window moved (3 to 5, it was 0 to 2): sweep's midscreen knockdown went from 42 to 45.",
			[]string{"move Hesk sweep: knockdown.midscreen"}},
		{"a slower jump", func(p *Project) { p.Fighters[0].Jumps[0].Airborne = 40 }, nil,
			"The window shrank (0 to 1, it was 0 to 2): airborne time of Hesk's jump \"hop\" went from 39 to 40.",
			[]string{"move Hesk hop: airborne"}},
		{"two that each do", func(p *Project) {
			p.Fighters[1].Move("reversal").Startup = 3
			p.Fighters[0].Jumps[0].Airborne = 40
		}, nil,
			"The window shrank (0, it was 0 to 2): each alone, airborne time of Hesk's jump \"hop\" went from 39 to 40; reversal's startup went from 4 to 3.",
			[]string{"move Hesk hop: airborne", "move Tarn reversal: startup"}},
		{"a new immunity, needed with the startup", func(p *Project) {
			m := p.Fighters[1].Move("jab")
			m.Startup, m.Active, m.OnGuard, m.Immune = 3, []int{4}, Some(-2), []Immunity{{Window{1, 6}, true, true}}
		}, nil,
			"The window shrank (0 to 1, it was 0 to 2): jab's startup went from 4 to 3 and its immunity went from none to 1-6.",
			[]string{"move Tarn jab: startup immune"}},
		{"a rise that is claimed", func(p *Project) { p.Fighters[1].Rises[1].Extra = 5 }, func(s *Setup) { s.Rises = nil },
			"No delay covers reversal any more, the window moved (5, it was 1 to 2): extra frames of Tarn's rise \"backward\" went from 1 to 5.", nil},
		{"a new rise, all claimed", func(p *Project) { p.Fighters[1].Rises = append(p.Fighters[1].Rises, Rise{"slow", 12, 0}) }, func(s *Setup) { s.Rises = nil },
			"The window closed (it was 1 to 2): Tarn's rise \"slow\" is new.", []string{"rise Tarn slow:"}},
		{"a rule of the game", func(p *Project) { p.Ruleset.StartupCountsFirstActive = false; p.Ruleset.Health = 9 }, nil,
			"The window grew (0 to 3, it was 0 to 2): counting of startup of the ruleset went from yes to no.",
			[]string{"ruleset  : startup_counts_first_active"}},
		{"a reply that became a jump", func(p *Project) {
			p.Fighters[1].Moves = p.Fighters[1].Moves[1:]
			p.Fighters[1].Jumps = []Jump{{Name: "reversal", Prejump: 4, Airborne: 30, Landing: 3}}
		}, nil,
			"The window grew (0 to 5, it was 0 to 2): reversal is a jump in one revision and a move in the other.", nil},
		{"a rise that is not", func(p *Project) { p.Fighters[1].Rises[1].Extra = 5 }, nil, "", nil},
		{"a move gone", func(p *Project) { p.Fighters[1].Moves = p.Fighters[1].Moves[:1] }, nil,
			"Safe before, and now it can't be judged (replies[1].move: expected a move or jump of Tarn, got \"jab\"): jab is gone.",
			[]string{"move Tarn jab:"}},
		{"a jump too short for the press", func(p *Project) { p.Fighters[0].Jumps[0].Airborne = 30 }, func(s *Setup) { s.Press = Some(30) },
			"Safe before, and now it can't be judged (press: expected auto or an air frame of the jump, 0 to 29, got 30): airborne time of Hesk's jump \"hop\" went from 39 to 30.",
			[]string{"move Hesk hop: airborne"}},
		{"past the width", func(p *Project) { p.Fighters[1].Move("reversal").Recovery = 500 }, nil,
			"Safe before, and now it can't be judged (replies[0]: expected a plan that ends by frame 512, got one that ends on 548): reversal's recovery went from 30 to 500.",
			[]string{"move Tarn reversal: recovery"}},
		{"a fighter gone", func(p *Project) { p.Fighters = p.Fighters[:1] }, nil,
			"Safe before, and now it can't be judged (rival: expected the name of a fighter, got \"Tarn\"): the fighter Tarn is gone.",
			[]string{"fighter Tarn :"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			before, after := patched(t, c.change)
			s := before.Setups[0]
			if c.setup != nil {
				c.setup(&s)
			}
			got := compare.New(before, after).Of(&s)
			if got.Because != c.want {
				t.Errorf("because = %q\nwant      %q", got.Because, c.want)
			}
			if got.Changed() != (c.want != "") {
				t.Errorf("changed = %v", got.Changed())
			}
			if c.by != nil && !slices.Equal(causesOf(&got), c.by) {
				t.Errorf("by = %q, want %q", causesOf(&got), c.by)
			}
			// Back again, before and after have changed places.
			back := compare.New(after, before).Of(&s)
			if !reflect.DeepEqual(back.Before, got.After) || !reflect.DeepEqual(back.After, got.Before) || len(back.By) != len(got.By) {
				t.Errorf("back = %+v, want the mirror of %+v", back, got)
			}
		})
	}
}

func causesOf(c *compare.Change) (out []string) {
	for _, by := range c.By {
		words := []string{string(by.Kind), by.Fighter, by.Name + ":"}
		for _, f := range by.Fields {
			words = append(words, f.Field)
		}
		out = append(out, strings.Join(words, " "))
	}
	return out
}

// Two reversals bound the window alike: only when both get slower it grows,
// and either one alone shrinks it again.
func TestCompareOnlyTogether(t *testing.T) {
	before, after := patched(t, func(p *Project) { p.Fighters[1].Move("reversal").Startup = 5 })
	for _, p := range []*Project{before, after} {
		twin := p.Fighters[1].Moves[0]
		twin.Name = "twin"
		p.Fighters[1].Moves = append(p.Fighters[1].Moves, twin)
	}
	after.Fighters[0].Move("sweep").Damage = 9
	s := before.Setups[0]
	s.Replies = append(s.Replies, Reply{Move: "twin", Demand: Survive})
	got := compare.New(before, after).Of(&s)
	want := "The window grew (0 to 3, it was 0 to 2): only together, reversal's startup went from 4 to 5; twin's startup went from 4 to 5."
	if got.Because != want || !got.Together {
		t.Errorf("because = %q, %v; want %q", got.Because, got.Together, want)
	}
	if back := compare.New(after, before).Of(&s); len(back.By) != 2 || back.Together {
		t.Errorf("back = %q, want each alone", back.Because)
	}
}

// The states that Compare gives are those of the whole projects; what it calls
// untouched has not changed; and a cause that acts alone does so in the whole
// project too.
func TestCompareAgreesWithJudgingBoth(t *testing.T) {
	changed, alone, lost := 0, 0, 0
	for seed := range uint64(3000) {
		before := RandomProject(seed)
		after := RandomProject(seed)
		other := RandomProject(seed + 1e6)
		g := rand.New(rand.NewPCG(seed, 11))
		to := func(lo, hi int) int { return lo + g.IntN(hi-lo+1) }
		for range to(1, 4) {
			f, from := &after.Fighters[g.IntN(2)], &other.Fighters[g.IntN(2)]
			switch g.IntN(7) {
			case 0:
				after.Ruleset = other.Ruleset
			case 1:
				f.Rises[g.IntN(3)].Extra += to(-2, 2)
			case 2:
				f.Jumps[g.IntN(2)].Airborne += to(-1, 1)
			case 3:
				f.Body = from.Body
			case 4:
				i := g.IntN(len(f.Moves))
				f.Moves = slices.Delete(f.Moves, i, i+1)
			default:
				i := g.IntN(len(f.Moves))
				m := from.Moves[min(i, len(from.Moves)-1)]
				m.Name = f.Moves[i].Name
				f.Moves[i] = m
			}
		}
		if before.CheckData() != nil || after.CheckData() != nil {
			continue
		}
		s := &before.Setups[0]
		got := compare.New(before, after).Of(s)
		for i, p := range []*Project{before, after} {
			want, have := wholeState(p, s), []compare.State{got.Before, got.After}[i]
			if want.Judged() != have.Judged() || want.Judged() && !sameState(&want, &have) {
				t.Fatalf("seed %d: state = %+v, want %+v", seed, have, want)
			}
		}
		if !got.Changed() {
			if got.Because != "" || len(got.By) > 0 {
				t.Fatalf("seed %d: unchanged, but %q", seed, got.Because)
			}
			continue
		}
		changed++
		if !compare.New(before, after).Touches(s) {
			t.Fatalf("seed %d: untouched, but %+v", seed, got)
		}
		if len(got.By) == 0 || got.Because == "" {
			t.Fatalf("seed %d: changed by nothing: %+v", seed, got)
		}
		if !got.Before.Judged() || !got.After.Judged() {
			lost++
		}
		if got.Together {
			continue
		}
		for _, by := range got.By {
			p := RandomProject(seed)
			putPart(p, after, by.DataPart)
			if p.CheckData() != nil {
				continue // only the part that the setup uses fits
			}
			alone++
			if now := wholeState(p, s); sameState(&now, &got.Before) {
				t.Fatalf("seed %d: %+v changes nothing alone", seed, by)
			}
		}
	}
	if changed < 300 || alone < 300 || lost < 50 {
		t.Errorf("changed %d, alone %d, can't be judged %d: too few to tell", changed, alone, lost)
	}
}

// sameState reports whether both states are one result.
func sameState(a, b *compare.State) bool {
	if !a.Judged() || !b.Judged() {
		return a.Judged() == b.Judged()
	}
	return a.Word == b.Word && slices.Equal(a.Window, b.Window) && slices.Equal(a.Uncovered, b.Uncovered)
}

// wholeState judges s in all of p.
func wholeState(p *Project, s *Setup) compare.State {
	if err := p.CheckSetup(nil, s); err != nil {
		return compare.State{Reason: err.Error()}
	}
	plan, err := Compile(p, *s)
	if err != nil {
		return compare.State{Reason: err.Error()}
	}
	v := plan.Verdict(s.Delay)
	return compare.State{Word: v.Word, Window: v.Window, Uncovered: v.Uncovered}
}

// putPart puts one part of from into p.
func putPart(p, from *Project, at compare.DataPart) {
	if at.Kind == compare.RulesetPart {
		p.Ruleset = from.Ruleset
		return
	}
	f, g := p.Fighter(at.Fighter), from.Fighter(at.Fighter)
	switch at.Kind {
	case compare.BodyPart:
		f.Body = g.Body
	case compare.RisePart:
		for i := range f.Rises {
			if f.Rises[i].Name == at.Name {
				f.Rises[i] = g.Rises[i]
			}
		}
	case compare.MovePart:
		if j := f.Jump(at.Name); j != nil {
			*j = *g.Jump(at.Name)
			return
		}
		f.Moves = slices.DeleteFunc(f.Moves, func(m Move) bool { return m.Name == at.Name })
		if m := g.Move(at.Name); m != nil {
			f.Moves = append(f.Moves, *m)
		}
	}
}
