package drill

import (
	"strings"
	"testing"

	"wakeline/timeline/odds"
	"wakeline/ui/page/pagetest"
	"wakeline/ui/sheet"
)

func TestDotsStandWhereThePressesAre(t *testing.T) {
	_, d, h := openDrill(t, pagetest.Sample())
	drillOut(d, h, 0, 0, 70, -400)
	const width = 600
	spots := d.strip.spots(width)
	if len(spots) != 4 || spots[0].x != spots[1].x || spots[1].y >= spots[0].y {
		t.Fatalf("dots %+v: equal presses don't stack", spots)
	}
	if spots[2].x <= spots[0].x || spots[3].x >= spots[0].x || spots[3].x < 0 {
		t.Errorf("dots %+v: late is right, early left, and none outside", spots)
	}
}

// A press off the scale is no dot at its end, where it would tell another time,
// but an arrow past it; and it is said.
func TestAPressOffTheScaleIsDrawnSo(t *testing.T) {
	_, d, h := openDrill(t, pagetest.Sample())
	const width = 600
	frame := 1000.0 / 60
	edge := stripReach * frame
	for late, off := range map[float64]int{-edge - 1: -1, -edge + 1: 0, 0: 0, edge - 1: 0, edge + 1: 1, 900: 1} {
		d.clock.presses = []press{{Press: odds.Press{Late: late}, what: pressOfJump}}
		s := d.strip.spots(width)[0]
		inside := s.x >= stripPad && s.x <= width-stripPad
		if s.off != off || inside != (off == 0) || s.x < stripDot/2 || s.x > width-stripDot/2 {
			t.Errorf("%v ms late: %+v, want off the scale %d", late, s, off)
		}
		if says := d.strip.offScale(); len(says) != off*off {
			t.Errorf("%v ms late: says %q", late, says)
		}
	}
	d.clock.presses = nil
	drillOut(d, h, 0, -400, 200, 300)
	if got, want := d.words.Text, "\nOff the scale: 1 press more than 9 frames early.\nOff the scale: 2 presses more than 9 frames late.\n"; !strings.Contains(got, want) {
		t.Errorf("says %q, want %q in it", got, want)
	}
}

// What the bar of bias and spread is called stands beside it, within the strip.
func TestTheNameOfTheSpreadStaysOnTheStrip(t *testing.T) {
	for _, c := range []struct {
		from, to float64
		x        float32
		a        sheet.Anchor
		ok       bool
	}{
		{180, 220, 230, sheet.AtStart, true},
		{280, 330, 270, sheet.AtEnd, true},
		{12, 388, 0, sheet.AtStart, false},
		{60, 380, 0, sheet.AtStart, false},
	} {
		if x, a, ok := besideSpan(c.from, c.to, 400, 80); x != c.x || a != c.a || ok != c.ok {
			t.Errorf("beside %v to %v: %v, %v, %v", c.from, c.to, x, a, ok)
		}
	}
}

// However many presses come alike, their dots stay on the strip, each higher
// than the one before.
func TestHighStacksStayOnTheStrip(t *testing.T) {
	_, d, _ := openDrill(t, pagetest.Sample())
	for n := 1; n <= 100; n++ {
		d.clock.presses = append(d.clock.presses, press{Press: odds.Press{Late: -400}, what: pressOfJump})
		spots := d.strip.spots(400)
		if top := spots[n-1].y - stripDot/2; top < stripTop || n > 1 && spots[n-1].y >= spots[n-2].y {
			t.Fatalf("%d presses: the last at %v", n, spots[n-1].y)
		}
	}
}
