package sheet

import (
	"bufio"
	"fmt"
	"image/color"
	"math"
	"os"
	"strings"
	"testing"
)

// linear is an sRGB channel as light (IEC 61966-2-1).
func linear(c uint8) float64 {
	v := float64(c) / 255
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

// contrast is WCAG 2.2's contrast ratio of two opaque colours (definitions
// "relative luminance" and "contrast ratio").
func contrast(a, b color.NRGBA) float64 {
	lum := func(c color.NRGBA) float64 { return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B) }
	x, y := lum(a), lum(b)
	return (math.Max(x, y) + 0.05) / (math.Min(x, y) + 0.05)
}

// The matrices of Machado, Oliveira and Fernandes, "A physiologically-based
// model for simulation of color vision deficiency", 2009, severity 1.0; for
// linear RGB.
var deficiencies = map[string][3][3]float64{
	"none":   {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"protan": {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"deutan": {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	"tritan": {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
}

// seen is c as linear RGB under a deficiency, held to 0..1.
func seen(c color.NRGBA, m [3][3]float64) (out [3]float64) {
	in := [3]float64{linear(c.R), linear(c.G), linear(c.B)}
	for i := range 3 {
		for k := range 3 {
			out[i] += m[i][k] * in[k]
		}
		out[i] = math.Max(0, math.Min(1, out[i]))
	}
	return out
}

// lab is linear sRGB in CIELAB, white point D65.
func lab(rgb [3]float64) (l, a, b float64) {
	x := (0.4124564*rgb[0] + 0.3575761*rgb[1] + 0.1804375*rgb[2]) / 0.95047
	y := 0.2126729*rgb[0] + 0.7151522*rgb[1] + 0.0721750*rgb[2]
	z := (0.0193339*rgb[0] + 0.1191920*rgb[1] + 0.9503041*rgb[2]) / 1.08883
	f := func(t float64) float64 {
		if t > 216.0/24389 {
			return math.Cbrt(t)
		}
		return (24389.0/27*t + 16) / 116
	}
	return 116*f(y) - 16, 500 * (f(x) - f(y)), 200 * (f(y) - f(z))
}

// ciede2000 is the colour difference of Sharma, Wu and Dalal, Color Research
// and Application 30(1), 2005, with all weights 1.
func ciede2000(l1, a1, b1, l2, a2, b2 float64) float64 {
	const deg = math.Pi / 180
	pow7 := func(c float64) float64 { return math.Sqrt(math.Pow(c, 7) / (math.Pow(c, 7) + math.Pow(25, 7))) }
	g := 0.5 * (1 - pow7((math.Hypot(a1, b1)+math.Hypot(a2, b2))/2))
	a1, a2 = a1*(1+g), a2*(1+g)
	c1, c2 := math.Hypot(a1, b1), math.Hypot(a2, b2)
	hue := func(b, a float64) float64 {
		if a == 0 && b == 0 {
			return 0
		}
		return math.Mod(math.Atan2(b, a)/deg+360, 360)
	}
	h1, h2 := hue(b1, a1), hue(b2, a2)
	dh, hm := h2-h1, h1+h2
	switch {
	case c1*c2 == 0:
		dh = 0
	case math.Abs(h2-h1) <= 180:
		hm /= 2
	case h1+h2 < 360:
		hm = (hm + 360) / 2
	default:
		hm = (hm - 360) / 2
	}
	if c1*c2 != 0 && dh > 180 {
		dh -= 360
	} else if c1*c2 != 0 && dh < -180 {
		dh += 360
	}
	dH := 2 * math.Sqrt(c1*c2) * math.Sin(dh/2*deg)
	lm, cm := (l1+l2)/2, (c1+c2)/2
	t := 1 - 0.17*math.Cos((hm-30)*deg) + 0.24*math.Cos(2*hm*deg) + 0.32*math.Cos((3*hm+6)*deg) - 0.20*math.Cos((4*hm-63)*deg)
	sl := 1 + 0.015*(lm-50)*(lm-50)/math.Sqrt(20+(lm-50)*(lm-50))
	sc, sh := 1+0.045*cm, 1+0.015*cm*t
	rt := -math.Sin(60*math.Exp(-math.Pow((hm-275)/25, 2))*deg) * 2 * pow7(cm)
	x, y, z := (l2-l1)/sl, (c2-c1)/sc, dH/sh
	return math.Sqrt(x*x + y*y + z*z + rt*y*z)
}

// TestCIEDE2000 reproduces the 34 pairs that the authors published as a
// supplement to the paper, to their four decimals, both ways round.
func TestCIEDE2000(t *testing.T) {
	f, err := os.Open("testdata/ciede2000.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	n := 0
	for lines := bufio.NewScanner(f); lines.Scan(); {
		if line := lines.Text(); line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		var v [7]float64
		if _, err := fmt.Sscan(lines.Text(), &v[0], &v[1], &v[2], &v[3], &v[4], &v[5], &v[6]); err != nil {
			t.Fatalf("%q: %v", lines.Text(), err)
		}
		n++
		for _, got := range []float64{ciede2000(v[0], v[1], v[2], v[3], v[4], v[5]), ciede2000(v[3], v[4], v[5], v[0], v[1], v[2])} {
			if math.Abs(got-v[6]) > 0.00005 {
				t.Errorf("pair %d: %.4f, published %.4f", n, got, v[6])
			}
		}
	}
	if n != 34 {
		t.Errorf("%d pairs, want 34", n)
	}
}

// TestContrastFormula: values of WCAG's own formula for well-known pairs.
func TestContrastFormula(t *testing.T) {
	for _, v := range []struct {
		a, b uint32
		want float64
	}{
		{0x000000, 0xffffff, 21}, {0xff0000, 0x000000, 5.252}, {0x00ff00, 0x000000, 15.304}, {0xff0000, 0xffffff, 3.998477},
		{0x0000ff, 0xffffff, 8.592471}, {0x777777, 0xffffff, 4.478089}, {0x767676, 0xffffff, 4.542225}, {0x949494, 0xffffff, 3.033470},
		{0x595959, 0xffffff, 7.004729}, {0xe69f00, 0xffffff, 2.252288}, {0x0072b2, 0x000000, 4.049796},
	} {
		if got := contrast(hex(v.a), hex(v.b)); math.Abs(got-v.want) > 0.0005 {
			t.Errorf("contrast of %06x and %06x = %v, want %v", v.a, v.b, got, v.want)
		}
	}
}

// TestGreysAreSeenAlike: every row of a matrix sums to 1, so greys stay put.
func TestGreysAreSeenAlike(t *testing.T) {
	for name, m := range deficiencies {
		for i, row := range m {
			if sum := row[0] + row[1] + row[2]; math.Abs(sum-1) > 2e-6 {
				t.Errorf("%s: row %d sums to %v", name, i, sum)
			}
		}
	}
}
