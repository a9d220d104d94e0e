package sheet

import (
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// chain is n rounds of the first scene there is.
func chain(t *testing.T, n int) *Rounds {
	t.Helper()
	plan, err := timeline.Compile(demo(), demo().Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	c := &Rounds{Attacker: "A", Rival: "B", Health: 1000}
	for i := range n {
		rise, line := plan.Deciding(0)
		c.Of = append(c.Of, Round{Setup: "Plain crossing", What: "reply blocked, then a route", Left: "Damage 100.", Health: 1000 - 100*(i+1), Scene: words.SceneAt(plan, 0, rise, line)})
	}
	return c
}

// TestRoundsGoOnOnPages: each page as high as it is to be, each round on one of
// them, and the heading on each.
func TestRoundsGoOnOnPages(t *testing.T) {
	c := chain(t, 23)
	c.Heading, c.Answer = "A vs B: the finish", "Ends in 23 rounds. "+strings.Repeat("Something long is said. ", 20)
	c.Stopped = "The gauge doesn't pay what comes next."
	pages := DrawRoundsOn(c, 1050, 700)
	if len(pages) < 3 {
		t.Fatalf("%d pages", len(pages))
	}
	rounds := 0
	for _, d := range pages {
		if d.W != 1050 || d.H != 700 || !d.OnGround() {
			t.Errorf("a page of %g by %g", d.W, d.H)
		}
		headed := false
		for _, text := range textsApart(t, d) {
			headed = headed || text == c.Heading
			if strings.Contains(text, ". Plain crossing") {
				rounds++
			}
		}
		if !headed {
			t.Error("a page without heading")
		}
	}
	if rounds != 23 {
		t.Errorf("%d rounds are drawn", rounds)
	}
}

// TestRoundsStandInTheirPlaces: nothing lies outside the drawing, also with long
// names in a narrow one, and a wide one is lower than a narrow one.
func TestRoundsStandInTheirPlaces(t *testing.T) {
	c := chain(t, 4)
	c.Stopped = "200 points of health are left: the gauge doesn't pay what comes next."
	c.Of[1].Setup = strings.Repeat("a long name of a setup ", 20)
	c.Of[2].What = strings.Repeat("something long ", 40)
	var high float64
	for _, w := range []float64{300, 700, 1400, 2400} {
		d := DrawRounds(c, w)
		for _, s := range d.Shapes {
			if text, ok := s.(Text); ok {
				from := text.Start(TextWidth(text.Str, text.Size, text.Bold))
				if from < 0 || from+TextWidth(text.Str, text.Size, text.Bold) > d.W+0.5 || text.At.Y > d.H {
					t.Errorf("at %g: %q lies outside, at %v", w, text.Str, text.At)
				}
			}
		}
		if high > 0 && d.H > high*1.2 {
			t.Errorf("at %g it is %g high, narrower %g", w, d.H, high)
		}
		high = d.H
		if !strings.Contains(d.Desc, "4. Plain crossing") || !strings.HasSuffix(d.Desc, c.Stopped) {
			t.Errorf("described as %q", d.Desc)
		}
	}
	if d := DrawRounds(&Rounds{}, 700); d.H <= 0 || !d.OnGround() {
		t.Errorf("no rounds: %g high", d.H)
	}
}
