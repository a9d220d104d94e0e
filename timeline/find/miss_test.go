package find

import (
	"slices"
	"strings"
	"testing"

	"wakeline/timeline"
)

// A frame over is a frame over: where the one sequence is a frame too long,
// nothing is found, and the nearest miss says so.
func TestNearestMiss(t *testing.T) {
	for _, c := range []struct {
		name      string
		advantage int
		lengths   []int
		change    func(q *Query)
		want      []string
	}{
		{"too many", 84, []int{12, 15, 28, 29}, func(q *Query) { q.Most = 2 }, []string{
			"Without a counted wait there is no answer; one of 1 frame would do.",
			"Sequences of at most 2 fillers leave no answer; 3 would do.",
			"43: 1 frame too many; a filler of 13, 14, 27 or 30 would do, you have 12, 15, 28 and 29."}},
		{"short", 70, []int{12, 15}, func(q *Query) { q.Most = 2 }, []string{
			"Without a counted wait there is no answer; one of 1 frame would do.",
			"27: 1 frame short; a filler of 13 or 16 would do, you have 12 and 15."}},
		{"no filler", 60, nil, func(q *Query) { q.Fillers, q.Not = []string{"hop"}, []string{"hop"} }, []string{
			"No filler is left: all are ruled out by name.",
			"Without a counted wait there is no answer; one of 18 frames would do.",
			"0: 18 frames short; a filler of 18 would do."}},
		{"a short wait", 60, []int{7}, func(q *Query) { q.Most, q.Wait = 2, timeline.Some(2) }, []string{
			"Counted waits of at most 2 frames leave no answer; one of 4 frames would do.",
			"14: 2 frames short; a filler of 9 would do, you have 7."}},
		{"ruled out", 60, []int{18, 5}, func(q *Query) { q.Not, q.Most = []string{"step 0"}, 1 }, []string{
			"Without a counted wait there is no answer; one of 13 frames would do.",
			"The fillers ruled out by name leave no answer; step 0 would do.",
			"5: 13 frames short; a filler of 18 would do, you have 5."}},
		{"gauge", 60, []int{18}, func(q *Query) { q.Attacks = []string{"drop"} }, []string{
			"Without gauge there is no answer; 1 would do."}},
	} {
		t.Run(c.name, func(t *testing.T) {
			// A reversal of two frames leaves the first start alone.
			p := yard(c.advantage, c.lengths, []int{0}, reversal(2))
			q := query(p)
			c.change(&q)
			r := look(t, p, q)
			if r.Count.Sign() != 0 || len(r.Answers) != 0 {
				t.Fatalf("%v answers: %+v", r.Count, r.Answers)
			}
			if !slices.Equal(r.Because, c.want) {
				t.Errorf("because:\n%s\nwant:\n%s\nstarts %v", strings.Join(r.Because, "\n"), strings.Join(c.want, "\n"), r.Ways[0].Starts)
			}
		})
	}
}

func TestEmptyWindows(t *testing.T) {
	parry := timeline.Move{Name: "sway", Kind: timeline.Parry, Length: 30, Parry: []timeline.Window{{From: 1, To: 9}}}
	parted := yard(60, []int{18}, []int{0}, reversal(3),
		timeline.Move{Name: "roll", Kind: timeline.Evade, Length: 20, Immune: []timeline.Immunity{{Window: timeline.Window{From: 1, To: 3}, Strikes: true}}})
	parted.Setups[0].Replies[1].Demand = timeline.Beat
	// Active on 37 to 42, the last air frames: one frame before the wake-up.
	grab, grabs := yard(43, []int{18}, []int{0}), yard(43, []int{18}, []int{0, 2})
	for _, p := range []*timeline.Project{grab, grabs} {
		dive := p.Fighters[0].Move("dive")
		dive.Kind, dive.Level, dive.Hitstun, dive.Guardstun = timeline.Throw, timeline.LevelAirThr, timeline.Maybe{}, timeline.Maybe{}
	}
	for _, c := range []struct {
		name    string
		p       *timeline.Project
		limited bool
		also    []Target
		want    string
	}{
		{"a parry from the first frame", yard(60, []int{18}, []int{0}, reversal(4), parry), false, nil, "hop dive: No timing covers sway; without that demand the jump may start on 18 to 20."},
		{"nothing else demanded", yard(60, []int{18}, []int{0}, parry), true, nil, "hop dive: No timing covers sway, which is all that is demanded."},
		{"too little advantage", yard(30, []int{18}, []int{0}), false, nil, "hop dive: No delay meets the wake-up: the nearest, delay 0, misses it by 7 frames (the attack touches on 37, 7 frames after the wake-up on 30)."},
		{"too little advantage for the first rise", yard(30, []int{18}, []int{0, 30}), false, nil, "hop dive: On the rise 0 rise: no delay meets the wake-up: the nearest, delay 0, misses it by 7 frames (the attack touches on 37, 7 frames after the wake-up on 30)."},
		{"an air throw", grab, false, nil, "hop dive: No delay meets the wake-up: an air throw can't touch a body on the ground."},
		{"an air throw on two rises", grabs, false, nil, "hop dive: No delay meets the wake-up: an air throw can't touch a body on the ground."},
		{"rises apart", yard(60, []int{18}, []int{0, 8}), false, nil, "hop dive: Each rise alone is met, rise 0 by a start on 18 to 23 and rise 1 by a start on 26 to 31, but no start meets all of them."},
		{"demands apart", parted, false, nil, "hop dive: The wake-up is met by a start on 18 to 23, but no start there meets every demand: reversal 3 asks for 18 to 19 and roll asks for 21 to 23."},
	} {
		t.Run(c.name, func(t *testing.T) {
			q := query(c.p)
			q.Limited, q.Also = c.limited, c.also
			r := look(t, c.p, q)
			if len(r.Because) != 1 || r.Because[0] != c.want {
				t.Errorf("because:\n%s\nwant:\n%s", strings.Join(r.Because, "\n"), c.want)
			}
			if len(r.Ways) != 1 || len(r.Ways[0].Starts) != 0 || "hop dive: "+r.Ways[0].Because != c.want {
				t.Errorf("ways: %+v", r.Ways)
			}
		})
	}
	p := yard(60, []int{18}, []int{0}, reversal(3), parry)
	q := query(p)
	q.Limited = true
	r := look(t, p, q)
	if r.Count.Int64() != 1 || r.Answers[0].Word != timeline.Limited || r.Limited.Sign() != 0 {
		t.Errorf("limited: %v answers, %v would be limited, %+v", r.Count, r.Limited, r.Answers)
	}
	// Where nothing is found, it's counted what would be.
	q.Limited = false
	if r := look(t, p, q); r.Count.Sign() != 0 || r.Limited.Int64() != 1 {
		t.Errorf("%v answers, %v limited ones, want 0 and 1", r.Count, r.Limited)
	}
	rows := endersOf(t, p, q)
	if c := rows[0].Cells[0]; c.Shortest != nil || !c.Limited {
		t.Errorf("by ender: %+v, want a limited one to be known of", c)
	}
	// Nothing is, either way: a reply that is all that is demanded, and a filler too long.
	q.Setup.Replies = q.Setup.Replies[1:]
	if r := look(t, p, q); r.Count.Sign() != 0 || r.Limited.Sign() != 0 {
		t.Errorf("%v answers, %v limited ones, want none", r.Count, r.Limited)
	}
	p = yard(60, []int{30}, []int{0}, reversal(3), parry)
	q = query(p)
	if r := look(t, p, q); r.Count.Sign() != 0 || r.Limited.Sign() != 0 {
		t.Errorf("%v answers, %v limited ones, want none", r.Count, r.Limited)
	}
}

// endersOf is the table of one ender, a sweep with the advantage of q's setup.
func endersOf(t *testing.T, p *timeline.Project, q Query) []Row {
	t.Helper()
	p.Fighters[0].Moves = append(p.Fighters[0].Moves, timeline.Move{Name: "sweep", Kind: timeline.Strike, Level: timeline.Low, Startup: 8, Active: []int{3}, Recovery: 20,
		Knockdown: timeline.Places{Midscreen: q.Setup.Advantage}})
	rows, err := Enders(t.Context(), p, q, []timeline.Position{timeline.Midscreen}, nil)
	if err != nil || len(rows) != 1 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	return rows
}

// Where it takes more than one limit to rule the answers out, that is said, and
// the nearest miss is told as if the gauge were there.
func TestLimitsThatTogetherRuleOut(t *testing.T) {
	p := yard(60, []int{30}, []int{0}, reversal(3))
	q := query(p)
	q.Attacks = []string{"drop"} // costs one segment
	r := look(t, p, q)
	want := []string{
		"More than one limit rules the answers out: lifting any one alone leaves none.",
		"hop drop costs 1 segment of gauge, more than the 0 allowed.",
		"30: 11 frames too many; a filler of 19 would do, you have 30.",
	}
	if r.Count.Sign() != 0 || !slices.Equal(r.Because, want) {
		t.Errorf("because %q, want %q", r.Because, want)
	}
	if rows := endersOf(t, p, q); rows[0].Cells[0].Shortest != nil || rows[0].Cells[0].Because == "" {
		t.Errorf("by ender: %+v", rows)
	}
}

func TestNoJumpNoAttack(t *testing.T) {
	p := yard(60, []int{18}, []int{0})
	q := query(p)
	p.Fighters[0].Moves = p.Fighters[0].Moves[2:]
	q.Attacks = nil
	if r := look(t, p, q); !slices.Equal(r.Because, []string{"Hesk has no attack to do in a jump."}) {
		t.Errorf("because %q", r.Because)
	}
	p.Fighters[0].Jumps = nil
	if r := look(t, p, q); !slices.Equal(r.Because, []string{"Hesk has no jump."}) {
		t.Errorf("because %q", r.Because)
	}
}
