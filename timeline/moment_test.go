package timeline

import (
	"fmt"
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

// parted says where two stances differ; heights are compared as fractions, and
// the blocks must draw an active frame where there is one.
func parted(got, want Stance, blocks []Block, f int) string {
	same := got.Height.Num*want.Height.Den == want.Height.Num*got.Height.Den && got.Height.Known() == want.Height.Known()
	active := false
	for _, b := range blocks {
		for _, piece := range b.Pieces {
			active = active || b.Part != PartFiller && piece.Phase == Active && piece.Span.Has(f)
		}
	}
	drawn := active == (want.Level != "")
	got.Height, want.Height = Height{}, Height{}
	if got == want && same && drawn {
		return ""
	}
	return fmt.Sprintf("%+v, want %+v (same height %v, drawn alike %v)", got, want, same, drawn)
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
				def, _ := x.defender(rise, i-FirstReply)
				for f := range x.frames {
					m := plan.Moment(d, r, i, f)
					for _, msg := range []string{parted(m.Attacker, slowStance(att, f), m.Top, f), parted(m.Rival, slowStance(def, f), m.Bottom, f)} {
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
