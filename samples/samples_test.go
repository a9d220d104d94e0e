package samples

import (
	"bytes"
	"reflect"
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

func project(t *testing.T) *timeline.Project {
	t.Helper()
	p, err := timeline.ReadText(Text)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestTextIsWhatIsWritten(t *testing.T) {
	if got := timeline.WriteText(project(t)); !bytes.Equal(got, Text) {
		t.Errorf("WriteText(ReadText(sample.json)) differs from sample.json; it is\n%s", got)
	}
}

// The demo keeps its size, so that every page has something to show.
func TestThereIsEnough(t *testing.T) {
	p := project(t)
	if len(p.Fighters) < 3 || len(p.Setups) < 12 {
		t.Errorf("%d fighters and %d setups, want at least 3 and 12", len(p.Fighters), len(p.Setups))
	}
	for _, f := range p.Fighters {
		if len(f.Moves) < 12 || len(f.Jumps) < 2 || len(f.Rises) < 2 {
			t.Errorf("%s has %d moves, %d jumps and %d rises, want at least 12, 2 and 2", f.Name, len(f.Moves), len(f.Jumps), len(f.Rises))
		}
	}
	for _, s := range p.Setups {
		if n := len(s.Replies); n < 4 || n > 9 || s.Note == "" || len(s.Tags) == 0 {
			t.Errorf("%s has %d replies, note %q, tags %v, want 4 to 9 replies, a note and a tag", s.Name, n, s.Note, s.Tags)
		}
	}
}

// exchange is one reply of a verdict, on the first rise claimed.
type exchange struct {
	reply   string // as verdicts title it
	outcome timeline.Outcome
	meeting timeline.Maybe
	spare   timeline.Maybe
}

// Shorthand of the table: a run of delays, a given frame, and no frame.
func run(from, to int) []timeline.Bounds { return []timeline.Bounds{{From: from, To: to}} }

var (
	on   = timeline.Some
	none = timeline.Maybe{}
)

// cases holds what each setup comes to, worked out by hand from frames.md.
//
// Brenno's forward jump: P 5, N 40, so L = J+45; landing 4, G 0. Its apex is
// 180, so on air frame i it is 720 (i+1)(40-i)/1681 high: 17, 33, 48, 63, 77,
// 89, 101 on 39, 38, ... 33. Leeboard, startup 8, active 6, drop 10: a = 7,
// pressed on 40-13 = 27, active on 34-39. Against Ishka (body 70) a height of
// 80 reaches: 35-39, five frames; against Dovra (body 90) one of 100: 34-39,
// six.
var cases = []struct {
	setup  string
	word   timeline.Word
	window []timeline.Bounds
	never  []string
	tells  exchange
}{
	// K 44; L = 45+d, touching on 40+d to 44+d: meaty for d 0 to 4. Millrace,
	// a = 2, immune 1-6, bites on 46; guards from 45+d: good for d 0 and 1,
	// 46-45 = 1 spare.
	{"Plain crossing", timeline.Safe, run(0, 1), nil, exchange{"Millrace", timeline.ReplyBlocked, on(46), on(1)}},
	// The same at d 2: L = 47, Millrace on 46 is a frame early for the guard.
	{"One frame over", timeline.Unsafe, run(0, 1), nil, exchange{"Millrace", timeline.ReplyHits, on(46), on(-1)}},
	// K 45: meaty for d 1 to 5; Millrace on 47 against 45+d: d 2 at most. At
	// d 0 the last touch would be on 44, one frame before the wake-up.
	{"One frame under", timeline.Unsafe, run(1, 2), nil, exchange{"nothing", timeline.AttackWhiffs, none, none}},
	// The same at d 1: L = 46, 47-46 = 1 spare.
	{"Counted crossing", timeline.Safe, run(1, 2), nil, exchange{"Millrace", timeline.ReplyBlocked, on(47), on(1)}},
	// K 77; Pole Step 18 + Thole 4+3+8 = 15 make J 33, L = 78+d, touching on
	// 72+d to 77+d: meaty for d 0 to 5. Overflow, a = 8, immune 1-12, bites on
	// 85: even at d 5 the guard is up on 83. 85-78 = 7.
	{"Step and prod", timeline.Safe, run(0, 5), nil, exchange{"Overflow", timeline.ReplyBlocked, on(85), on(7)}},
	// Dovra's forward jump: P 6, N 38; Keystone, a = 8, active 5, deep 5: the
	// last five air frames; landing 6, G 1. K at the wall 61; Sill 5+3+10 = 18
	// makes J 18, L = 62+d, touching on 57+d to 61+d: meaty for d 0 to 4.
	// Spring Flood, a = 5, immune 1-8, bites on 66; guards from 63+d: d 3 at
	// most. 66-63 = 3.
	{"Against the gate", timeline.Safe, run(0, 3), nil, exchange{"Spring Flood", timeline.ReplyBlocked, on(66), on(3)}},
	// The same from K 55: touching on 57+d at the earliest, never on 55.
	{"Out in the yard", timeline.Unsafe, nil, nil, exchange{"nothing", timeline.AttackHits, on(57), none}},
	// K 44, no filler: touching on 39+d to 44+d: meaty for d 0 to 5. Overflow
	// bites on 52, guards from 45+d: d 7 at most. 52-45 = 7.
	{"Normal rise only", timeline.Safe, run(0, 5), nil, exchange{"Overflow", timeline.ReplyBlocked, on(52), on(7)}},
	// Wakes on 44 and 44+12 = 56: d 0 to 5 for the one, 56 in 39+d to 44+d,
	// so 12 to 17, for the other: no delay is meaty, so never is empty.
	{"Slow riser", timeline.Unsafe, nil, nil, exchange{"nothing", timeline.AttackHits, on(44), none}},
	// Ishka's forward jump: P 4, N 42, L = 46+d; height 760 (i+1)(42-i)/1849,
	// 17, 33, 49, 64, 78, 91 on 41, 40, ... 36. Windshaft, a = 6, active 5,
	// pressed on 31, active on 37-41, drop 8: against body 76 a height of 84
	// reaches: all five, on 41+d to 45+d. K 42, wakes on 42 and 42+3 = 45:
	// d 0 or 1, and d 0 to 4. Spring Flood on 47 and 50 against 46+d: d 1 at
	// most, 47-46 = 1 spare.
	{"Both banks", timeline.Safe, run(0, 1), nil, exchange{"Spring Flood", timeline.ReplyBlocked, on(47), on(1)}},
	// As Plain crossing; Waterwheel parries on 44-52, and every meaty delay
	// touches on 44.
	{"Into the wheel", timeline.Limited, run(0, 1), []string{"Waterwheel"}, exchange{"Waterwheel", timeline.AttackParried, on(44), none}},
	// As Normal rise only; Paddle Gear's armour takes one span on 44-58, and
	// Leeboard has only one.
	{"Into the gear", timeline.Limited, run(0, 5), []string{"Paddle Gear"}, exchange{"Paddle Gear", timeline.AttackAbsorbed, on(44), none}},
	// Rowlock, a = 5, spans of 2 and 3 with a gap of 3, pressed on 40-13 = 27:
	// air frames 32, 33 and 37-39, all in the last 8; so frames 37+d, 38+d and
	// 42+d to 44+d. Meaty where 44 is one of them: d 0 to 2, 6 and 7. Armour
	// takes the first span; for d 0 to 2 that one has passed before she is up,
	// and only the second touches. At d 6 the second comes on 48, before Paddle
	// Gear's own 44+15 = 59: 59-1-48 = 10 spare.
	// Overflow on 52 against 45+d: d 7 at most. Step Ashore, immune 1-5, is
	// met on 49, at d 6 and 7 but not at 0 to 2 (whose last frame is 46).
	{"Double knock", timeline.Safe, run(6, 7), nil, exchange{"Paddle Gear", timeline.AttackHits, on(48), on(10)}},
	// Gate Grip, a = 5, active 2, immune to strikes 1-7, grabs on 49 and 50
	// whoever stands. In the air until 44+d, and throw-proof for one frame
	// after touchdown, 45+d: safe from d 5 on. Meaty to d 5. Overflow on 52
	// against 50.
	{"Over the grip", timeline.Safe, run(5, 5), nil, exchange{"Gate Grip", timeline.NoContact, none, none}},
	// Short jump: P 4, N 28, landing 3: L = 32+d, acts from 35+d; Sounding,
	// a = 5, active 2, touches on 40+d and 41+d: meaty, for K 44, at d 3 and
	// 4. Both of Ishka's rises wake on 44. Chaff, a = 3, would touch on 47:
	// 47-1-44 = 2 spare.
	{"Low water", timeline.Safe, run(3, 4), nil, exchange{"Chaff", timeline.AttackHits, on(44), on(2)}},
	// K 40; Crank 9+4+17 = 30 makes J 30, Crank again touches on 39+d to
	// 42+d: meaty at d 0 and 1. Spring Flood is immune on 40-47 and bites on
	// 45, in Crank's recovery.
	{"Standing watch", timeline.Limited, run(0, 1), []string{"Spring Flood"}, exchange{"Spring Flood", timeline.ReplyHits, on(45), none}},
	// A bait: meaty at every delay. Millrace on 46 and Chaff on 47 must find
	// the guard of 45+d: d 1 at most. 46-45 = 1.
	{"Idle oars", timeline.Safe, run(0, 1), nil, exchange{"Millrace", timeline.ReplyBlocked, on(46), on(1)}},
	// K 45; Windshaft as in Both banks, against body 90 a height of 98: all
	// five, 41+d to 45+d: meaty for d 0 to 4. Overflow on 53 against a parry
	// held from 46+d. 53-46 = 7. Gate Grip, not demanded, throws.
	{"Open hands", timeline.Safe, run(0, 4), nil, exchange{"Overflow", timeline.ReplyParried, on(53), on(7)}},
	// Dovra's high jump: P 6, N 47, L = 53+d, G 1; height 840 (i+1)(47-i)/2304,
	// 17, 33, 49 on 46, 45, 44. Drawbar, a = 6, active 3, drop 20: against
	// body 70 a height of 90: 44-46, on 50+d to 52+d. K 52: meaty for d 0 to
	// 2. Millrace on 54 against 54+d: d 0 alone, with nothing to spare.
	{"Nothing to spare", timeline.Safe, run(0, 0), nil, exchange{"Millrace", timeline.ReplyBlocked, on(54), on(0)}},
	// Dovra's forward jump goes 140 in 39 parts; Drawbar, pressed on 38-9 = 29,
	// is active on air frames 35-37, on 41+d to 43+d: meaty, for K 43, at d 0
	// to 2, from 136.4, 132.8 and 129.2, and reaches 10 to 95. From 220: 83.6,
	// 87.2 and 90.8 away. Millrace on 45 against a guard from 45+d.
	{"Over the lock", timeline.Safe, run(0, 0), nil, exchange{"Millrace", timeline.ReplyBlocked, on(45), on(0)}},
	// At the wall, from 140: 3.6, 7.2 and 10.8 away: in reach at d 2 alone,
	// where the guard is up on 47, two frames after Millrace.
	{"Over the lock, walled", timeline.Unsafe, run(2, 2), []string{"Millrace"}, exchange{"nothing", timeline.AttackWhiffs, none, none}},
	// From 130: 6.4 and 2.8 behind, 0.8 in front.
	{"Too near the lock", timeline.Unsafe, nil, nil, exchange{"nothing", timeline.AttackWhiffs, none, none}},
	// The rise back makes it 290: 153.6 away.
	{"Both gates", timeline.Unsafe, nil, nil, exchange{"nothing", timeline.AttackHits, on(43), none}},
	// Ishka's forward jump goes 200 in 43 parts, L = 46+d. Sailcloth, pressed
	// on 42-17 = 25, reaches a rival on the ground in the last six air frames,
	// on 36, 37, 40 and 41: 40+d, 41+d, 44+d and 45+d. K 45: meaty at d 0, 1, 4
	// and 5, from 195.3, 190.7, 176.7 and 172.1; all within 45 past 160. Spring
	// Flood bites on 50 against 46+d: d 4 at most. 50-46 = 4.
	{"Behind the sail", timeline.Safe, []timeline.Bounds{{From: 0, To: 1}, {From: 4, To: 4}}, nil, exchange{"Spring Flood", timeline.ReplyBlocked, on(50), on(4)}},
	// L = 32+d, on 110. Chain Hitch is active on 49-51 and reaches 55: the
	// rival at 200 is 90 away. Bollard on 50 against 32+d.
	{"Short of the hitch", timeline.Safe, run(0, 18), nil, exchange{"Chain Hitch", timeline.NoContact, none, none}},
	// L = 32+d, acts from 35+d; Tow Rope, a = 4, active 2, grabs on 39+d and
	// 40+d, and she can be thrown from 44+2 on: d 6 and 7. Chaff would touch on
	// 47: 47-1-46 = 0 spare. Waterwheel takes no throw, and a Hopper that waits 3
	// grabs on 51.
	{"Rope to the rail", timeline.Safe, run(6, 7), nil, exchange{"Chaff", timeline.AttackHits, on(46), on(0)}},
}

// What the setups with a distance are there for.
func TestDistances(t *testing.T) {
	p := project(t)
	for _, c := range []struct {
		setup string
		say   string
	}{
		{"Over the lock", "Holds from 147 to 231 units."},
		{"Over the lock, walled", "Drawbar is 7 units too near on frame 43"},
		{"Too near the lock", "Drawbar passes over: it has passed its reach by 17 units on frame 43"},
		{"Both gates", "Drawbar is 59 units short on frame 43"},
		{"Behind the sail", "is hit from behind on 45"},
		{"Short of the hitch", "Answered only because it is out of reach: Chain Hitch"},
	} {
		for _, s := range p.Setups {
			if s.Name != c.setup {
				continue
			}
			v := verdict(t, p, s, s.Delay)
			if got := v.Because + " " + strings.Join(words.Holds(&v.Verdict), " "); !strings.Contains(got, c.say) {
				t.Errorf("%s: %q, want %q in it", c.setup, got, c.say)
			}
		}
	}
}

func TestVerdicts(t *testing.T) {
	p := project(t)
	if len(cases) != len(p.Setups) {
		t.Errorf("%d cases, want one for each of %d setups", len(cases), len(p.Setups))
	}
	for i, c := range cases {
		t.Run(c.setup, func(t *testing.T) {
			s := p.Setups[i]
			if s.Name != c.setup {
				t.Fatalf("setup %d is %q, want %q", i, s.Name, c.setup)
			}
			v := verdict(t, p, s, s.Delay)
			if v.Word != c.word {
				t.Errorf("verdict = %v (%s), want %v", v.Word, v.Because, c.word)
			}
			if len(v.Window)+len(c.window) > 0 && !reflect.DeepEqual(v.Window, c.window) {
				t.Errorf("window = %v, want %v", v.Window, c.window)
			}
			if len(v.Uncovered)+len(c.never) > 0 && !reflect.DeepEqual(v.Uncovered, c.never) {
				t.Errorf("never = %v, want %v", v.Uncovered, c.never)
			}
			if got := told(v, c.tells.reply); got != c.tells {
				t.Errorf("exchange = %+v, want %+v", got, c.tells)
			}
		})
	}
}

// told returns the exchange of that reply on the first rise claimed.
func told(v words.Verdict, reply string) exchange {
	for _, r := range v.Rises[0].Replies {
		if r.Reply == reply && r.Late == 0 {
			return exchange{r.Reply, r.Outcome, r.Meeting, r.Spare}
		}
	}
	return exchange{}
}

// What a newcomer drags first: the setup on top is safe, still safe a frame
// later, and broken by the reversal a frame after that.
func TestTheFirstBreaksWhereItSays(t *testing.T) {
	p := project(t)
	for d, want := range []timeline.Word{timeline.Safe, timeline.Safe, timeline.Unsafe} {
		if v := verdict(t, p, p.Setups[0], d); v.Word != want {
			t.Errorf("delay %d = %v, want %v", d, v.Word, want)
		}
	}
	const want = "Millrace hits on 46; the attacker guards only from 47: 1 frame too late. Distance was not judged."
	if got := verdict(t, p, p.Setups[0], 2).Because; got != want {
		t.Errorf("at delay 2 because = %q, want %q", got, want)
	}
}

func verdict(t *testing.T, p *timeline.Project, s timeline.Setup, d int) words.Verdict {
	t.Helper()
	plan, err := timeline.Compile(p, s)
	if err != nil {
		t.Fatal(err)
	}
	return words.VerdictAt(plan, d)
}
