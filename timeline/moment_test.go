package timeline

import (
	"fmt"
	"strings"
	"testing"
)

// slowStance is a stance read frame by frame off the slow side.
func slowStance(side *slowSide, f int) Stance {
	b := &side.body[f]
	s := Stance{
		Airborne: b.air, Height: Height{0, 1}, Strikes: b.here && !b.strikeProof, Throws: b.here && !b.throwProof,
		High: b.high, Low: b.low, Parries: b.parry,
	}
	if b.air {
		s.Height = Height{}
		if b.tall {
			s.Height = Height{b.up, b.per}
		}
	}
	for _, w := range side.armour {
		s.Armoured = s.Armoured || w.From <= b.into && b.into <= w.To
	}
	for _, sw := range side.swings {
		if sw.on[f] > 0 {
			s.Level, s.InReach = sw.m.Level, !sw.tooHigh[f]
		}
	}
	return s
}

// parted says where two stances differ; heights are compared as fractions.
func parted(got, want Stance) string {
	same := got.Height.Num*want.Height.Den == want.Height.Num*got.Height.Den && got.Height.Known() == want.Height.Known()
	drawn := strings.Contains(got.Doing, " active ") == (want.Level != "")
	name, doing := got.Name, got.Doing
	got.Name, got.Doing, got.Height, want.Height = "", "", Height{}, Height{}
	if got == want && same && drawn {
		return ""
	}
	return fmt.Sprintf("%s %q: %+v, want %+v (same height %v, drawn alike %v)", name, doing, got, want, same, drawn)
}

func TestMomentAgreesWithFrames(t *testing.T) {
	n := 1000
	if testing.Short() {
		n = 200
	}
	airborne, armoured, reach := 0, 0, 0
	for seed := range uint64(n) {
		p := randomProject(seed)
		s := p.Setups[0]
		plan, err := Compile(p, s)
		if err != nil {
			continue
		}
		x := newSlowPlan(p, &s)
		x.judge()
		d := int(seed) % min(plan.Fits()+1, 24)
		cells := x.table(d)
		att := x.attacker(d)
		for r, rise := range x.rises {
			for i := range plan.Lines() {
				def, _ := x.defender(rise, i-len(builtIn))
				for f := range x.frames {
					m := plan.Moment(d, r, i, f)
					for _, msg := range []string{parted(m.Attacker, slowStance(att, f)), parted(m.Rival, slowStance(def, f))} {
						if msg != "" {
							t.Fatalf("seed %d delay %d rise %d line %d frame %d: %s", seed, d, r, i, f, msg)
						}
					}
					if c := cells[r*plan.Lines()+i]; m.Meeting != c.Meeting || m.Meets() != (c.Meeting == Some(f)) {
						t.Fatalf("seed %d: meeting = %v, want %v", seed, m.Meeting, c.Meeting)
					}
					for _, s := range []*Stance{&m.Attacker, &m.Rival} {
						if s.Airborne && s.Height.Known() {
							airborne++
						}
						if s.Armoured {
							armoured++
						}
						if s.Level != "" && !s.InReach {
							reach++
						}
					}
				}
			}
		}
	}
	if min(airborne, armoured, reach) < 100 {
		t.Errorf("frames in the air at a known height %d, armoured %d, active too high %d: want 100 of each", airborne, armoured, reach)
	}
}

func TestMomentWords(t *testing.T) {
	_, plan := busyPlan(t, 0)
	tests := []struct {
		line, frame int
		want        string
	}{
		{2, -1, "Frame -1: Hesk: ends the combo with sweep, open to nothing. Tarn: is knocked down, open to nothing."},
		{2, 3, "Frame 3: Hesk: filler step, frame 4 of 11, open to strikes and throws. Tarn: lies on the ground, wake-up in 51, open to nothing."},
		{2, 12, "Frame 12: Hesk: waits, frame 2 of 3, open to strikes and throws. Tarn: lies on the ground, wake-up in 42, open to nothing."},
		{2, 15, "Frame 15: Hesk: prejump of hop, frame 2 of 4, open to strikes. Tarn: lies on the ground, wake-up in 39, open to nothing."},
		{2, 54, "Frame 54: Hesk: in the air, frame 37 of 39, dive active 4 of 6, overhead, at 55 units, open to strikes and air throws. Tarn: stands and does nothing, open to strikes and throws. Here they meet."},
		{0, 58, "Frame 58: Hesk: lands, 2 left, guards, open to throws. Tarn: guards high, open to lows and throws. They met on 54: what follows is only the plan."},
		{1, 60, "Frame 60: Hesk: guards, open to throws. Tarn: guards low, open to overheads and throws. They met on 54: what follows is only the plan."},
		{8, 57, "Frame 57: Hesk: lands, 3 left, guards, open to throws. Tarn: answer 5 frame 4 of 30, parries strikes, open to throws. They met on 54: what follows is only the plan."},
		{9, 80, "Frame 80: Hesk: guards, open to throws. Tarn: answer 6 between hits 7 of 8, in the air, open to strikes and air throws. They met on 54: what follows is only the plan."},
		{5, 900, "Frame 900: Hesk: guards, open to throws. Tarn: guards, open to throws. They met on 54: what follows is only the plan."},
	}
	for _, tt := range tests {
		m := plan.Moment(3, 0, tt.line, tt.frame)
		if got := m.Words(); got != tt.want {
			t.Errorf("line %d frame %d:\n got %q\nwant %q", tt.line, tt.frame, got, tt.want)
		}
	}
}

func TestMomentTellsAMirrorApart(t *testing.T) {
	p := busyProject()
	s := Setup{Name: "mirror", Attacker: "Hesk", Rival: "Hesk", Advantage: Some(20), Landing: DoGuard}
	plan, err := Compile(p, s)
	if err != nil {
		t.Fatal(err)
	}
	m := plan.Moment(0, 0, 2, 0)
	if m.Attacker.Name != "Hesk attacking" || m.Rival.Name != "Hesk rising" {
		t.Errorf("names = %q and %q, want them apart", m.Attacker.Name, m.Rival.Name)
	}
}
