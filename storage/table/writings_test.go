package table

import (
	"strings"
	"testing"

	"wakeline/timeline"
)

// traitsNamed are those of a move's column.
func traitsNamed(t *testing.T, column string) *traits {
	t.Helper()
	c := columnNamed(column)
	if c == nil {
		t.Fatalf("no column %s", column)
	}
	return c.traits
}

// Each way of writing means what the table of them says, and no field reads it
// without help.
func TestTheExamplesOfWritings(t *testing.T) {
	for _, w := range writings() {
		f := traitsNamed(t, w.column)
		if f.try(w.example) == "" {
			t.Errorf("%s: %s reads %q itself", w.name, w.column, w.example)
		}
		c := &foreign{f, w.example, timeline.DefaultRuleset(), 5}
		if !w.fits(f) {
			t.Errorf("%s: not for %s", w.name, w.column)
			continue
		}
		if got, ok := w.read(c); !ok || got[0].text != w.means {
			t.Errorf("%s: %q = %+v, %v, want %q", w.name, w.example, got, ok, w.means)
		}
		if got, ok := c.understand(); !ok || got[0].text != w.means {
			t.Errorf("%s: %q is taken for %+v, %v, want %q", w.name, w.example, got, ok, w.means)
		}
	}
}

func TestWritingsOfOthers(t *testing.T) {
	const kd = "knockdown_midscreen"
	for _, c := range []struct {
		column, text string
		first        int
		want         string // what is taken; ! before a note; none: it is not understood
		to           string
	}{
		{"startup", "12+3", 0, "!15", ""}, {"startup", "5 + 10 f", 0, "!15", ""}, {"active", "3+3", 0, "!6", ""}, {"on_hit", "4+2", 0, "none", ""},
		{"startup", "3~5", 0, "!3", ""}, {"startup", "20-24", 0, "!20", ""}, {"recovery", "20-24", 0, "!24", ""}, {"total", "20 to 24", 0, "!24", ""},
		{"on_guard", "-4~-2", 0, "!-4", ""}, {"on_guard", "-2~-4", 0, "!-4", ""}, {"on_guard", "−4–−2", 0, "!-4", ""}, {"on_guard", "-3/-5", 0, "!-5", ""},
		{"on_guard", "-4-2", 0, "none", ""}, {"on_hit", "+1~+3", 0, "!1", ""}, {"on_hit", "+4", 0, "4", ""}, {"on_hit", "±0", 0, "0", ""}, {"on_hit", "(4)", 0, "none", ""},
		{"active", "5-7", 5, "!3", ""}, {"active", "5-7", 6, "!5", ""}, {"active", "2~3", 5, "!2", ""}, {"active", "7-5", 5, "!3", ""},
		{"on_hit", "KD +31", 0, "!31", kd}, {"on_hit", "kd31", 0, "!31", kd}, {"on_hit", "HKD +31", 0, "!31", kd}, {"on_hit", "+31 KD", 0, "!31", kd},
		{"on_hit", "+31 (hard knockdown)", 0, "!31", kd}, {"on_hit", "D", 0, "!", ""}, {"on_hit", "KD", 0, "!", ""}, {"on_hit", "KD +31~35", 0, "!31", kd},
		{"on_hit", "D +31", 0, "!31", kd}, {"on_hit", "Dash", 0, "none", ""}, {"on_guard", "KD", 0, "none", ""}, {kd, "KD +31", 0, "!31", kd}, {kd, "x", 0, "!", ""},
		{"knockdown_wall", "+40 KD", 0, "!40", "knockdown_wall"},
		{"damage", "1.200", 0, "!1200", ""}, {"damage", "1,200", 0, "!1200", ""}, {"damage", "1 200 000", 0, "!1200000", ""}, {"damage", "1'200", 0, "!1200", ""},
		{"damage", "1.200,50", 0, "!1200", ""}, {"damage", "1.200.50", 0, "none", ""}, {"damage", "1,200.000.000", 0, "none", ""}, {"damage", "600 pts", 0, "600", ""},
		{"damage", "0,500", 0, "!0", ""}, {"damage", "62.5", 0, "!62", ""}, {"gauge_cost", "0,5", 0, "!1", ""}, {"gauge_gain", "0.5", 0, "!0", ""}, {"gauge_gain", "2.0", 0, "2", ""},
		{"startup", "1.200", 0, "!1", ""}, {"startup", "12,0", 0, "12", ""}, {"on_hit", "-1,5", 0, "!-2", ""}, {"travel", "1,5", 0, "none", ""}, {"travel", "1,500", 0, "!1500", ""},
		{"damage", "12.5%", 0, "!125", ""}, {"damage", "12,55 %", 0, "!125", ""}, {"gauge_cost", "30%", 0, "!2", ""}, {"gauge_gain", "30 %", 0, "!1", ""}, {"startup", "5%", 0, "none", ""},
		{"damage", "300+200", 0, "!500", ""}, {"damage", "30×3", 0, "!90", ""}, {"startup", "3x3", 0, "none", ""},
		{"level", "M", 0, "!mid", ""}, {"level", "oh", 0, "!overhead", ""}, {"level", "High", 0, "!mid", ""}, {"level", "H/L", 0, "!mid", ""}, {"level", "M, L", 0, "!mid", ""},
		{"level", "T", 0, "!throw", ""}, {"level", "air grab", 0, "!air throw", ""}, {"level", "sky", 0, "none", ""},
		{"kind", "special", 0, "!strike", ""}, {"kind", "grab", 0, "!throw", ""}, {"kind", "T", 0, "!throw", ""}, {"kind", "L", 0, "!strike", ""}, {"kind", "mid", 0, "!strike", ""}, {"kind", "hop", 0, "none", ""},
		{"air", "x", 0, "yes", ""}, {"air", "N", 0, "no", ""}, {"air", "-", 0, "", ""}, {"air", "perhaps", 0, "none", ""},
		{"on_guard", "—", 0, "", ""}, {"on_guard", "n/a", 0, "", ""}, {"on_guard", "?", 0, "!", ""}, {"on_guard", "-2*", 0, "!-2", ""}, {"on_guard", "-4~-2 [1]", 0, "!-4", ""}, {"on_guard", "*", 0, "none", ""},
		{"immune", "f1-8 full", 0, "!1-8", ""}, {"immune", "1~8 strikes", 0, "!1-8 strike", ""}, {"immune", "1-8 throws, 9-12", 0, "!1-8 throw; 9-12", ""}, {"immune", "3 to 8 (strike)", 0, "!3-8 strike", ""},
		{"armour", "1-8 x2", 0, "!1-8 2 hits", ""}, {"armour", "1-8 (2 hits)", 0, "!1-8 2 hits", ""}, {"parry", "frames 3-8", 0, "!3-8", ""}, {"immune", "1-8 shots", 0, "none", ""}, {"immune", "full", 0, "none", ""},
		{"name", "-", 0, "none", ""},
		{"startup", strings.Repeat("9", 30), 0, "none", ""}, {"startup", "1+" + strings.Repeat("9", 30), 0, "none", ""}, {"damage", "9999999999x9", 0, "none", ""},
	} {
		f := traitsNamed(t, c.column)
		got, ok := (&foreign{f, c.text, timeline.DefaultRuleset(), c.first}).understand()
		text := "none"
		to := ""
		if ok {
			text, to = got[0].text, got[0].to
			if got[0].why != "" {
				text = "!" + text
			}
		}
		if text != c.want || to != c.to {
			t.Errorf("%s %q = %q to %q, want %q to %q", c.column, c.text, text, to, c.want, c.to)
		}
	}
}

// A heading says where its knockdown is in either order.
func TestHeadingsOfKnockdowns(t *testing.T) {
	for heading, want := range map[string]string{
		"KD": "knockdown_midscreen", "KD midscreen": "knockdown_midscreen", "Midscreen KD": "knockdown_midscreen", "KD (mid)": "knockdown_midscreen",
		"KD wall": "knockdown_wall", "Corner KD (f)": "knockdown_wall", "Distance midscreen": "distance_midscreen", "Wall distance": "distance_wall",
	} {
		if got := Guess(heading); got != want {
			t.Errorf("%q is guessed as %q, want %q", heading, got, want)
		}
	}
}

// What is written in another way alone, or already fits, needs no note; what
// counts for less than it says has one with its place.
func TestNotesSayWhereAndWhat(t *testing.T) {
	const text = "Move;Type;Start-up (f);Active;Recovery;On hit;Block;KD wall;Damage (%)\n" +
		"hook;M;6f;2(5)1;12.0;+4;-;-;5\n" +
		"sweep;L;7+2;3;20-24;KD +31;-12~-10;KD +40;62,5\n" +
		"scoop;T;5;2;30;D;;;12\n"
	got, err := Read(strings.NewReader(text), Options{Fighter: "Marl"})
	if err != nil {
		t.Fatal(err)
	}
	var notes []string
	for i := range got.Notes {
		notes = append(notes, got.Notes[i].String())
	}
	want := `line 1, column 1 (Move): "Move" taken as name: the heading seems to mean that
line 1, column 2 (Type): "Type" taken as kind: the heading seems to mean that
line 1, column 7 (Block): "Block" taken as on_guard: the heading seems to mean that
line 1, column 8 (KD wall): "KD wall" taken as knockdown_wall: the heading seems to mean that
line 2, column 2 (Type): "M" taken as strike: it says the level
line 2, column 2 (Type): "M" taken as level mid: short for it
line 2, column 9 (Damage (%)): "5 %" taken as 50: a part of the full health, 1000
line 3, column 2 (Type): "L" taken as strike: it says the level
line 3, column 2 (Type): "L" taken as level low: short for it
line 3, column 3 (Start-up (f)): "7+2" taken as 9: frames before and after an effect: added up
line 3, column 5 (Recovery): "20-24" taken as 24: a range: the end at which its owner is free the latest
line 3, column 6 (On hit): "KD +31" taken as knockdown_midscreen 31: a knockdown with that advantage
line 3, column 7 (Block): "-12~-10" taken as -12: a range: the end at which it leaves the least
line 3, column 9 (Damage (%)): "62,5 %" taken as 625: a part of the full health, 1000
line 3, column 8 (KD wall): "KD +40" taken as 40: a knockdown with that advantage
line 4, column 2 (Type): "T" taken as throw: short for it
line 4, column 6 (On hit): "D" taken as nothing: a knockdown that says no advantage: left empty
line 4, column 9 (Damage (%)): "12 %" taken as 120: a part of the full health, 1000`
	if got := strings.Join(notes, "\n"); got != want {
		t.Errorf("notes\n%s\nwant\n%s", got, want)
	}
	if m := got.Rows[1].Value; m.Knockdown != (timeline.Places{Midscreen: timeline.Some(31), Wall: timeline.Some(40)}) || m.OnHit.Given || m.Level != timeline.Low || m.Startup != 9 {
		t.Errorf("the sweep is %+v", m)
	}
	if m := got.Rows[2].Value; m.Kind != timeline.Throw || m.Knockdown != (timeline.Places{}) || m.OnHit.Given {
		t.Errorf("the scoop is %+v", m)
	}
}

// A cell that says something for a column that says another thing is bad, and so
// is each cell that is not understood.
func TestEveryCellThatIsNotUnderstoodIsListed(t *testing.T) {
	const text = "name,kind,startup,active,level,on_hit,knockdown_midscreen\n" +
		"a,strike,soon,3,middling,KD +31,30\n" +
		"b,strike,6,3,mid,KD +31,30\n" +
		"c,strike,6,3,mid,KD +31,31\n"
	got, err := Read(strings.NewReader(text), Options{Fighter: "Marl", SkipBad: true})
	if err != nil || len(got.Rows) != 1 || got.BadRows != 2 {
		t.Fatalf("%d rows, %d bad: %v", len(got.Rows), got.BadRows, err)
	}
	want := []string{
		`line 2, column 5 (level): expected mid, low, overhead, throw or air throw, got "middling"`,
		`line 2, column 3 (startup): expected a whole number, got "soon"`,
		`line 2, column 6 (on_hit): expected what knockdown_midscreen says too, 30, got "KD +31"`,
		`line 3, column 6 (on_hit): expected what knockdown_midscreen says too, 30, got "KD +31"`,
	}
	for i := range got.Bad {
		if i >= len(want) || got.Bad[i].Error() != want[i] {
			t.Errorf("bad cell %d: %v", i, &got.Bad[i])
		}
	}
	if len(got.Bad) != len(want) {
		t.Errorf("%d bad cells, want %d", len(got.Bad), len(want))
	}
}
