package samples

import (
	"slices"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/value"
)

func answer(t *testing.T, p *timeline.Project, name string) (timeline.Setup, value.Answer) {
	t.Helper()
	i := slices.IndexFunc(p.Setups, func(s timeline.Setup) bool { return s.Name == name })
	if i < 0 {
		t.Fatalf("no setup %q", name)
	}
	plan, err := timeline.Compile(p, p.Setups[i])
	if err != nil {
		t.Fatal(err)
	}
	m := plan.Meetings(p.Setups[i].Delay, nil)
	return p.Setups[i], value.NewBook(p).Of(&m, value.Gauges{})
}

// The routes of the demo, worked out by hand: scaling 100, 90, 80, 70, 60.
func TestRoutes(t *testing.T) {
	p := project(t)
	got := map[string]value.Route{}
	for i := range p.Fighters {
		for _, r := range value.Routes(p.Ruleset, &p.Fighters[i]) {
			got[p.Fighters[i].Name+" "+r.Name] = r
		}
	}
	for _, c := range []struct {
		name    string
		damage  int
		cost    int
		counts  bool
		margins []timeline.Maybe
		ends    string
	}{
		// 850 + 270 + 480 + 560; Quant's +6 against a + 1 = 5.
		{"Brenno Long tow", 2160, 0, true, []timeline.Maybe{on(1), none, none}, "Keel Scrape"},
		// 850 + 270 + 880 + 980.
		{"Brenno High water", 2980, 1, true, []timeline.Maybe{on(1), none, none}, "Spring Flood"},
		// +5 against 6: it doesn't link.
		{"Brenno Sounding line", 300 + 252 + 640, 0, false, []timeline.Maybe{on(-1), none}, "Keel Scrape"},
		// Measured, and done in the game: it counts for all that.
		{"Brenno Over the gunwale", 1450, 0, true, []timeline.Maybe{on(-1), none}, "Keel Scrape"},
		// Rynd stands on its 4th place: 520 at 80 of 100.
		{"Ishka Coarse flour", 700 + 225 + 416 + 525, 0, true, []timeline.Maybe{on(1), none, none}, "Tailrace"},
		{"Dovra Crank and sill", 800 + 288 + 680, 0, false, []timeline.Maybe{on(-1), none}, "Culvert"},
	} {
		r, ok := got[c.name]
		if !ok || r.Damage != c.damage || r.Cost != c.cost || r.Counts != c.counts || !slices.Equal(r.Margins, c.margins) || r.Ends().Name != c.ends {
			t.Errorf("%s = %+v, ends %v, want %+v", c.name, r, ok, c)
		}
	}
	for i := range p.Fighters {
		if f := &p.Fighters[i]; len(f.Routes) < 4 {
			t.Errorf("%s has %d routes, want at least 4", f.Name, len(f.Routes))
		}
	}
}

// Two rounds end the game from half health: Millrace is blocked and Long tow
// leads to the same setup again, where the second Millrace costs her High water.
// High water alone, twice, would do too, but it leads to no setup.
func TestTwoRoundsFromHalfHealth(t *testing.T) {
	p := project(t)
	s, a := answer(t, p, "Plain crossing")
	line := timeline.FirstReply // Millrace
	if got := a.Rises[0][line]; s.Replies[0].Move != "Millrace" || got.Route != "High water" || got.Points != on(2980) {
		t.Errorf("against %s: %+v, want High water, 2980 points", s.Replies[0].Move, got)
	}
	if 2160+2980 < p.Ruleset.Health/2 || 2*2160 >= p.Ruleset.Health/2 {
		t.Errorf("half health is %d, want it within two rounds that end with High water, and not with two of Long tow", p.Ruleset.Health/2)
	}
	if a.Forgone != on(2980-2160) {
		t.Errorf("forgone = %v, want 820", a.Forgone)
	}
}

// A true string, and one with a gap: Leeboard leaves +9 on guard, Thole touches
// on 5; it leaves +2, and the next one 3 frames in which Millrace gets out.
func TestStrings(t *testing.T) {
	p := project(t)
	_, a := answer(t, p, "Plain crossing")
	if s := a.String; s == nil || s.Steps[0].Gap != on(0) || s.Steps[1].Gap != on(3) || s.Steps[1].BeatenBy != "Millrace" || s.Advantage != on(2) {
		t.Errorf("string = %+v, want a true string, a gap of 3 that Millrace beats, +2", s)
	}
	if _, a = answer(t, p, "Into the wheel"); a.String == nil || a.String.Advantage != on(-11) || a.String.PunishedBy != "Millrace" {
		t.Errorf("string = %+v, want -11, punished by Millrace", a.String)
	}
}

// The mix is not trivial: no setup does best against everything. Of the four
// that the ender's mix is made of, each is the only best one somewhere.
func TestEachPaysMostSomewhere(t *testing.T) {
	p := project(t)
	for _, c := range []struct {
		setup, reply string
		points       int
	}{
		{"Plain crossing", "guard high", 150},
		{"Plain crossing", "guard low", 2605},
		{"Low water", "guard high", 1460},
		{"Low water", "guard low", 0},
		{"Rope to the rail", "guard high", 1200},
		{"Rope to the rail", "guard low", 1200},
		{"Rope to the rail", "Millrace", -2000},
		{"Into the wheel", "Waterwheel", -1000},
		{"Idle oars", "Waterwheel", 2980},
		{"Idle oars", "Hopper", -1800},
	} {
		s, a := answer(t, p, c.setup)
		line := map[string]int{timeline.GuardHigh: timeline.LineGuardHigh, timeline.GuardLow: timeline.LineGuardLow}[c.reply]
		if i := slices.IndexFunc(s.Replies, func(r timeline.Reply) bool { return r.Move == c.reply }); i >= 0 {
			line = timeline.FirstReply + i
		}
		if got := a.Rises[0][line].Points; got != on(c.points) {
			t.Errorf("%s against %s = %v, want %d", c.setup, c.reply, got, c.points)
		}
	}
}
