package merge

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"wakeline/timeline"
)

func drawn(seed uint64) dice { return dice{rand.New(rand.NewPCG(seed, 21))} }

// merged merges by the defaults.
func merged(t *testing.T, ours, theirs Side) *Result {
	t.Helper()
	c := Compare(ours, theirs)
	r, err := c.Merge(t.Context(), c.Defaults(), nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// text is all of a side.
func text(s Side) string {
	return string(timeline.WriteText(s.Project)) + fmt.Sprint(s.Lists)
}

// Where nothing conflicts, it doesn't matter in which order three projects are
// merged: (a + b) + c is a + (b + c).
func TestMergeIsAssociativeWhereNothingConflicts(t *testing.T) {
	several := 0
	for seed := range uint64(300) {
		g := drawn(seed)
		world := g.world(8)
		if err := world.Project.Check(); err != nil {
			t.Fatal(err)
		}
		var of [3]Side
		for i := range of {
			if of[i] = g.part(world); of[i].Project.Check() != nil {
				t.Fatalf("seed %d: a part breaks a rule: %v", seed, of[i].Project.Check())
			}
			if g.one(12) {
				of[i] = Side{Project: &timeline.Project{Ruleset: timeline.DefaultRuleset()}}
			}
		}
		first := merged(t, merged(t, of[0], of[1]).Side, of[2])
		second := merged(t, of[0], merged(t, of[1], of[2]).Side)
		if a, b := text(first.Side), text(second.Side); a != b {
			t.Fatalf("seed %d: (a + b) + c:\n%s\na + (b + c):\n%s", seed, a, b)
		}
		for _, one := range of {
			several += len(one.Project.Setups)
			for _, s := range one.Project.Setups {
				if !slices.ContainsFunc(first.Project.Setups, func(o timeline.Setup) bool { return reflect.DeepEqual(o, s) }) {
					t.Fatalf("seed %d: %q is lost", seed, s.Name)
				}
			}
		}
	}
	if several < 1000 {
		t.Errorf("only %d setups were drawn", several)
	}
}

func TestMergeWithItselfAndWithNothing(t *testing.T) {
	for seed := range uint64(100) {
		g := drawn(seed)
		p := g.world(6)
		again := Side{Project: reread(t, p.Project), Lists: slices.Clone(p.Lists)}
		c := Compare(p, again)
		for i, it := range c.Items {
			if it.State != Equal || len(c.Details(i)) > 0 {
				t.Fatalf("seed %d: %s %s differs from itself: %v", seed, it.Owner, it.Name, c.Details(i))
			}
		}
		if r := merged(t, p, again); len(r.Edits)+len(r.ListEdits) > 0 || text(r.Side) != text(p) {
			t.Errorf("seed %d: with itself: %d edits", seed, len(r.Edits))
		}
		none := Side{Project: &timeline.Project{Ruleset: timeline.DefaultRuleset()}}
		if r := merged(t, p, none); len(r.Edits)+len(r.ListEdits) > 0 || text(r.Side) != text(p) {
			t.Errorf("seed %d: with an empty project: %d edits", seed, len(r.Edits))
		}
		if r := merged(t, none, p); text(r.Side) != text(p) {
			t.Errorf("seed %d: an empty project with it:\n%s", seed, text(r.Side))
		}
	}
}

func reread(t *testing.T, p *timeline.Project) *timeline.Project {
	t.Helper()
	out, err := timeline.ReadText(timeline.WriteText(p))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// tryMerge merges two random projects by random choices, and asks that what
// comes of it keeps all rules, that nothing is lost, and that the edits lead to
// it. It reports whether the merge could be done.
func tryMerge(t *testing.T, seed uint64, defaults bool) bool {
	g := drawn(seed)
	ours := g.world(6)
	theirs := g.changed(ours)
	if theirs.Project.Check() != nil {
		return false
	}
	if _, err := timeline.CheckLists(theirs.Lists); err != nil {
		return false
	}
	was := text(ours) + text(theirs)
	c := Compare(ours, theirs)
	choices := c.Defaults()
	for i := range choices {
		if !defaults && g.one(2) {
			choices[i] = pick(g, c.Items[i].Choices())
		}
		if details := c.Details(i); (len(details) == 0) != (c.Items[i].State == Equal) && c.Items[i].State == Different {
			t.Fatalf("seed %d: %s differs in %v", seed, c.Items[i].Name, details)
		}
	}
	r, err := c.Merge(t.Context(), choices, nil)
	if text(ours)+text(theirs) != was {
		t.Fatalf("seed %d: the merge has changed a side", seed)
	}
	if problems := (*ProblemsError)(nil); errors.As(err, &problems) && len(problems.Problems) > 0 {
		return false
	} else if err != nil {
		t.Fatalf("seed %d: %v", seed, err)
	}
	if err := r.Project.Check(); err != nil {
		t.Fatalf("seed %d: the result breaks a rule: %v", seed, err)
	}
	if _, err := timeline.CheckLists(r.Lists); err != nil {
		t.Fatalf("seed %d: a list of the result: %v", seed, err)
	}
	by, err := ours.Project.With(r.Edits...)
	if err != nil {
		t.Fatalf("seed %d: the edits: %v", seed, err)
	}
	if a, b := string(timeline.WriteText(by)), string(timeline.WriteText(r.Project)); a != b {
		t.Fatalf("seed %d: the edits lead to\n%s\nnot to\n%s", seed, a, b)
	}
	back := Compare(ours, r.Side) // nothing of ours is gone
	for _, it := range back.Items {
		if it.State == OursAlone {
			t.Fatalf("seed %d: %s %s is lost", seed, it.Owner, it.Name)
		}
	}
	from := Compare(theirs, r.Side)
	state := map[string]State{}
	for _, it := range from.Items {
		state[fmt.Sprint(it.Kind, it.Owner, "/", strings.ToLower(it.Name))] = it.State
	}
	for i, it := range c.Items {
		got, there := state[fmt.Sprint(it.Kind, it.Owner, "/", strings.ToLower(it.Name))]
		switch {
		case it.State == New && choices[i] == Theirs && got != Equal && it.Kind != ListKind, // lists may name renamed ones
			it.State == Different && choices[i] == Theirs && got != Equal && it.Kind != ListKind && it.Kind != FighterKind,
			it.State == Different && choices[i] == Ours && got != Different,
			it.State == New && choices[i] == Ours && there && got != OursAlone:
			t.Fatalf("seed %d: %d %s %s, %d chosen %d, is %d in the result", seed, it.Kind, it.Owner, it.Name, it.State, choices[i], got)
		}
		if choices[i] == Both && it.Kind == SetupKind {
			s := theirs.Project.Setups[it.their]
			if !slices.ContainsFunc(r.Project.Setups, func(o timeline.Setup) bool {
				return strings.HasPrefix(o.Name, s.Name+" ") && sameSetup(&o, &s)
			}) {
				t.Fatalf("seed %d: %q isn't there beside ours", seed, s.Name)
			}
		}
	}
	if defaults {
		for _, e := range r.Edits {
			if s, ok := e.(timeline.SetupEdit); ok && s.Before != "" {
				t.Fatalf("seed %d: by default the setup %q is replaced", seed, s.Before)
			}
		}
	}
	return true
}

func TestWhatComesOfAMergeKeepsAllRules(t *testing.T) {
	n := 600
	if testing.Short() {
		n = 120
	}
	for _, defaults := range []bool{true, false} {
		done := 0
		for seed := range uint64(n) {
			if tryMerge(t, seed, defaults) {
				done++
			}
		}
		if done < n/3 {
			t.Errorf("defaults %v: only %d merges could be done", defaults, done)
		}
	}
}

func FuzzMerge(f *testing.F) {
	f.Add(uint64(1), true)
	f.Add(uint64(2), false)
	f.Fuzz(func(t *testing.T, seed uint64, defaults bool) { tryMerge(t, seed, defaults) })
}

// Each field of a setup is compared, and told where it differs.
func TestEveryFieldOfASetupIsCompared(t *testing.T) {
	whole := timeline.Setup{Name: "a", Attacker: "b", Rival: "c", Replies: []timeline.Reply{}}
	of := reflect.TypeFor[timeline.Setup]()
	for i := range of.NumField() {
		if of.Field(i).Name == "Name" {
			continue
		}
		next := whole
		if of.Field(i).Name == "Press" {
			whole.Attack, next.Attack = "x", "x"
		}
		v := reflect.ValueOf(&next).Elem().Field(i)
		switch v.Kind() {
		case reflect.String:
			v.SetString("other")
		case reflect.Int:
			v.SetInt(7)
		case reflect.Slice:
			v.Set(reflect.MakeSlice(v.Type(), 1, 1))
			switch one := v.Index(0); one.Kind() {
			case reflect.String:
				one.SetString("other")
			default:
				one.FieldByName("Move").SetString("other")
			}
		default:
			v.Set(reflect.ValueOf(timeline.Some(7)))
		}
		if sameSetup(&whole, &next) || len(only(setupDetails(&whole, &next))) == 0 {
			t.Errorf("%s is not compared", of.Field(i).Name)
		}
		whole.Attack = ""
	}
	next := whole
	if next.Replies = nil; sameSetup(&whole, &next) || len(only(setupDetails(&whole, &next))) != 1 {
		t.Error("whose replies they are is not compared")
	}
}

// A setup whose move is left out is told before anything is done, and so is
// what a choice turns.
func TestProblemsAndTurnsAreTold(t *testing.T) {
	g := drawn(3)
	ours := g.world(0)
	theirs := Side{Project: reread(t, ours.Project)}
	hesk := theirs.Project.Fighter("Hesk")
	hesk.Moves = append(hesk.Moves, timeline.Move{Name: "glide", Kind: timeline.Dash, Length: 20})
	theirs.Project.Setups = []timeline.Setup{{Name: "glides", Attacker: "Hesk", Rival: "Tarn", Ender: "move 0", Position: timeline.Midscreen, Fillers: []string{"glide"}, Jump: "hop 0", Attack: "dive 0", Landing: timeline.DoGuard}}
	c := Compare(ours, theirs)
	choices := c.Defaults()
	move := slices.IndexFunc(c.Items, func(it Item) bool { return it.Name == "glide" })
	setup := slices.IndexFunc(c.Items, func(it Item) bool { return it.Name == "glides" })
	if c.Items[move].State != New || c.Items[setup].State != New {
		t.Fatalf("%+v, %+v", c.Items[move], c.Items[setup])
	}
	choices[move] = Ours
	_, err := c.Merge(t.Context(), choices, nil)
	if problems := (*ProblemsError)(nil); !errors.As(err, &problems) || len(problems.Problems) != 1 || problems.Problems[0].Item != setup || !strings.Contains(err.Error(), "glide") {
		t.Errorf("without the move: %v", err)
	}
	choices[setup] = Ours
	if r, err := c.Merge(t.Context(), choices, nil); err != nil || len(r.Edits) != 0 {
		t.Errorf("without both: %v", err)
	}

	// A wake-up that comes later turns a setup that was safe.
	both := Side{Project: reread(t, theirs.Project)}
	both.Project.Fighter("Hesk").Move("move 0").Knockdown.Midscreen = timeline.Some(80)
	delay := -1
	for d := range 60 {
		both.Project.Setups[0].Delay, both.Project.Setups[0].Replies = d, []timeline.Reply{}
		if plan, err := timeline.Compile(both.Project, both.Project.Setups[0]); err == nil && plan.Word(d) == timeline.Safe {
			delay = d
			break
		}
	}
	if delay < 0 {
		t.Fatal("the setup is safe at no delay")
	}
	other := Side{Project: reread(t, both.Project)}
	other.Project.Setups = nil
	other.Project.Fighter("Hesk").Move("move 0").Knockdown.Midscreen.N += 9
	c = Compare(both, other)
	choices = c.Defaults()
	turned := func() []Turned {
		r, err := c.Merge(t.Context(), choices, nil)
		if err != nil {
			t.Fatal(err)
		}
		out, err := c.Turned(t.Context(), r, nil)
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	if got := turned(); len(got) != 0 {
		t.Errorf("by default %v turn", got)
	}
	choices[slices.IndexFunc(c.Items, func(it Item) bool { return it.Owner == "Hesk" && it.Name == "move 0" })] = Theirs
	if got := turned(); !reflect.DeepEqual(got, []Turned{{"glides", false, timeline.Safe, timeline.Unsafe}}) {
		t.Errorf("with their ender %v turn", got)
	}
	c = Compare(other, both) // the setup comes in, and ours has the other ender
	choices = c.Defaults()
	if got := turned(); !reflect.DeepEqual(got, []Turned{{"glides", true, timeline.Safe, timeline.Unsafe}}) {
		t.Errorf("of theirs %v turn", got)
	}
}
