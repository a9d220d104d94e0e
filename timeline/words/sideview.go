package words

import (
	"fmt"

	"wakeline/timeline"
)

// SideView is where both stand in one exchange, with what is said of it.
type SideView struct {
	timeline.SideView
	Missing string // why there is nothing to see; empty where there is
	Why     string // by how much the attack is out of reach where nothing meets for it; else empty
}

// SideViewAt lays the exchange of that rise and line (indexes of the verdict)
// out in space at delay d, 0 to Fits().
func SideViewAt(p *timeline.Plan, d, rise, line int) SideView {
	v := SideView{SideView: p.SideView(d, rise, line)}
	switch {
	case v.Known && !v.Cell.Meeting.Given:
		var m timeline.Meetings
		m.Plan = p
		m.To(d)
		if gap, ok := m.AttackGap(timeline.Exchange{Rise: rise, Line: line}); ok {
			v.Why = outOfReach(gap)
		}
	case v.Known:
	case p.Setup.Ender == "":
		v.Missing = "Where both stand isn't known: the setup has no distance."
	default:
		v.Missing = fmt.Sprintf("Where both stand isn't known: neither the setup nor %s has a distance.", p.Setup.Ender)
	}
	return v
}

// Gap says how far apart both are on frame f, and where the rival is by the
// attacker's facing unless it is in front.
func (v *SideView) Gap(f int) string {
	units, side := v.Apart(f)
	switch side {
	case timeline.Over:
		return "on one spot"
	case timeline.Behind:
		return fmt.Sprintf("%d apart, rival behind", max(units, -units))
	}
	return fmt.Sprintf("%d apart", max(units, -units))
}

// Tells reports whether frame f is the one on which the exchange is decided: the
// meeting, or where an attack that breaks the setup should have been one.
func (v *SideView) Tells(f int) bool {
	if v.Cell.Meeting.Given {
		return f == v.Cell.Meeting.N
	}
	return f == v.Frame && v.Judgement == timeline.JudgedUnsafe
}

// On says in a sentence where both are on frame f.
func (v *SideView) On(f int) string {
	if !v.Known {
		return v.Missing
	}
	return fmt.Sprintf("On frame %d %s is at %s and %s at %s: %s.", f,
		v.Attacker.Name, place(&v.Attacker, f), v.Rival.Name, place(&v.Rival, f), v.Gap(f))
}

// place is where a figure is on frame f, in whole units.
func place(g *timeline.Figure, f int) string {
	x := g.At(f).X
	if x < 0 {
		return fmt.Sprint((x - timeline.PerUnit/2) / timeline.PerUnit)
	}
	return fmt.Sprint((x + timeline.PerUnit/2) / timeline.PerUnit)
}
