package timeline

import (
	"fmt"
	"testing"
)

// inParts is a place in parts of a unit, rounded down.
func (a slowPlace) inParts() int {
	n := a.up * PerUnit
	if n >= 0 {
		return n / a.per
	}
	return -((-n + a.per - 1) / a.per)
}

// TestSideViewAgreesWithFrames holds each frame of side views against both
// fighters walked frame by frame.
func TestSideViewAgreesWithFrames(t *testing.T) {
	frames, flown, moved := 0, 0, 0
	for seed := range uint64(400) {
		p := randomProject(seed)
		s := p.Setups[0]
		plan, err := Compile(p, s)
		if err != nil || !plan.Distance().Given {
			continue
		}
		x := newSlowPlan(p, &s)
		x.seen = map[string]int{}
		d := s.Delay
		for r := range plan.Rises() {
			for i := range plan.Lines() {
				v := plan.SideView(d, r, i)
				axis := x.axis(plan.Rise(r), i-FirstReply, d)
				if i < FirstReply {
					axis = x.axis(plan.Rise(r), -1, d)
				}
				axis.walkTo(len(v.Attacker.Posts) - 1)
				where := fmt.Sprintf("seed %d, rise %d, line %d", seed, r, i)
				for f := range v.Attacker.Posts {
					frames++
					a, b := v.Attacker.At(f), v.Rival.At(f)
					if want := axis.atts[f].inParts(); a.X != want || a.Facing != axis.attFace[f] {
						t.Fatalf("%s, frame %d: the attacker at %d facing %d, want %d facing %d", where, f, a.X, a.Facing, want, axis.attFace[f])
					}
					want, faces := axis.rivs[f].inParts(), axis.rFace[f]
					if f < v.Wake { // it lies
						want, faces = v.Distance*PerUnit, -1
					}
					if b.X != want || b.Facing != faces {
						t.Fatalf("%s, frame %d: the rival at %d facing %d, want %d facing %d", where, f, b.X, b.Facing, want, faces)
					}
					if b.X != v.Rises*PerUnit && f >= v.Wake {
						moved++
					}
					if a.Height > 0 {
						flown++
					}
				}
				if m := v.Cell.Meeting; m.Given {
					units, side := v.Apart(m.N)
					if v.Frame != m.N || Some(units) != v.Cell.Apart || side != v.Cell.Side {
						t.Fatalf("%s: frame %d, %d %v apart on the meeting, want those of %+v", where, v.Frame, units, side, v.Cell)
					}
				}
			}
		}
	}
	if frames < 10000 || flown < 1000 || moved < 1000 {
		t.Errorf("%d frames, %d in the air, %d on which the rival has moved: too few to tell", frames, flown, moved)
	}
}

// TestSideViewTouches: the frames on which a blow is said to touch are those
// on which a side is near enough, of those on which it is active.
func TestSideViewTouches(t *testing.T) {
	told, out := 0, 0
	for seed := range uint64(400) {
		p := randomProject(seed)
		plan, err := Compile(p, p.Setups[0])
		if err != nil || !plan.Distance().Given {
			continue
		}
		for i := range plan.Lines() {
			v := plan.SideView(plan.Setup.Delay, 0, i)
			check := func(own, other *Figure) {
				for k := range own.Blows {
					b := &own.Blows[k]
					for _, s := range b.Touches {
						for f := s.From; f < s.To; f++ {
							gap := own.At(f).Facing * (other.At(f).X - own.At(f).X)
							if told++; gap < b.Reach.Near*PerUnit-1 || gap > b.Reach.Far*PerUnit+1 {
								t.Fatalf("seed %d, line %d: %s touches on %d, want none: %d parts away", seed, i, b.Name, f, gap)
							}
						}
					}
					for _, s := range b.Active {
						out += s.Len()
					}
				}
			}
			check(&v.Attacker, &v.Rival)
			check(&v.Rival, &v.Attacker)
		}
	}
	if told < 200 || out < 2*told {
		t.Errorf("%d frames touch, %d are active: too few to tell", told, out)
	}
}

// TestSideViewByHand: a jump over five air frames of 60 units, with an apex of
// 90, worked by hand; and the wall, which takes what is past it.
func TestSideViewByHand(t *testing.T) {
	p := &Project{Ruleset: DefaultRuleset(), Fighters: []Fighter{{Name: "a",
		Jumps: []Jump{{Name: "hop", Prejump: 2, Airborne: 5, Landing: 1, Travel: 60, Apex: Some(90)}}, Rises: []Rise{{Name: "back", Shift: 40}}}},
		Setups: []Setup{{Name: "s", Attacker: "a", Rival: "a", Advantage: Some(9), Distance: Some(35), Room: Some(15), Jump: "hop", Landing: DoGuard, Position: Midscreen, Rises: []string{"back"}}}}
	if err := p.Check(); err != nil {
		t.Fatal(err)
	}
	plan, err := Compile(p, p.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	v := plan.SideView(0, 0, 2)
	// 4 * 90 * u * (1-u) for u = 1/6 ... 5/6, and 60 * u, cut at 50.
	x := []int{0, 0, 10, 20, 30, 40, 50, 50, 50, 50}
	high := []int{0, 0, 50, 80, 90, 80, 50, 0, 0, 0}
	for f := range x {
		if q := v.Attacker.At(f); q.X != x[f]*PerUnit || q.Height != high[f]*PerUnit {
			t.Errorf("frame %d: at %d, %d high, want %d, %d", f, q.X, q.Height, x[f]*PerUnit, high[f]*PerUnit)
		}
	}
	if v.Wall != Some(50) || v.Rises != 50 || v.Rival.At(8).X != 35*PerUnit || v.Rival.At(9).X != 50*PerUnit {
		t.Errorf("wall %v, rises at %d, from %d to %d, want 50, 50, 35000, 50000", v.Wall, v.Rises, v.Rival.At(8).X, v.Rival.At(9).X)
	}
	if len(v.Path) != 7 || v.Path[0].X != 0 || v.Path[6].X != 50*PerUnit || v.Path[6].Height != 0 {
		t.Errorf("the way of the jump is %v, want 7 posts from 0 to 50 units", v.Path)
	}
	if units, side := v.Apart(9); units != 0 || side != Over {
		t.Errorf("%d apart, %v on frame 9, want 0, over", units, side)
	}
}
