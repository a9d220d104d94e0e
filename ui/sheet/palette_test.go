package sheet

import (
	"image/color"
	"math"
	"testing"
)

var themes = []Theme{PaperTheme, NightTheme}

// TestTextContrast holds all text to WCAG 2.2, success criterion 1.4.3 (AA):
// 4.5 to 1, on paper, on every judgement's wash, and on stamps.
func TestTextContrast(t *testing.T) {
	const aa = 4.5
	judged := []Role{Safe, Limited, Unsafe, Even}
	for _, th := range themes {
		least := math.Inf(1)
		check := func(what string, a, b color.NRGBA) {
			got := contrast(a, b)
			if least = math.Min(least, got); got < aa {
				t.Errorf("%s: %s: contrast %.2f, want %v", th.Name, what, got, aa)
			}
		}
		grounds := map[string]color.NRGBA{"paper": th.Colour(Paper)}
		for _, j := range judged {
			grounds["wash of "+judgements[j-Safe].word] = th.Wash(j)
			check("text on a stamp", th.Colour(OnMark), th.Colour(j))
		}
		for name, ground := range grounds {
			for _, r := range append([]Role{Ink, Soft}, judged...) {
				check(name, th.Colour(r), ground)
			}
		}
		t.Logf("%s: least contrast of text %.2f", th.Name, least)
	}
}

// How far two judgements must lie from each other, and a judgement from the
// ink, for every eye: in CIEDE2000, of which 1 is about what can be told side
// by side. Their shapes and words differ as well.
const (
	apart   = 20
	fromInk = 15
)

// TestJudgementsApart: safe, unsafe and even differ for every eye, and from
// the ink. Limited shares safe's colour and is told by its hatch.
func TestJudgementsApart(t *testing.T) {
	for _, th := range themes {
		for name, m := range deficiencies {
			diff := func(a, b Role) float64 {
				l1, a1, b1 := lab(seen(th.Colour(a), m))
				l2, a2, b2 := lab(seen(th.Colour(b), m))
				return ciede2000(l1, a1, b1, l2, a2, b2)
			}
			check := func(want float64, pairs ...[2]Role) {
				for _, pair := range pairs {
					got := diff(pair[0], pair[1])
					t.Logf("%s, %s: roles %v: %.1f", th.Name, name, pair, got)
					if got < want {
						t.Errorf("%s, %s: roles %v are %.1f apart, want %v", th.Name, name, pair, got, want)
					}
				}
			}
			check(apart, [2]Role{Safe, Unsafe}, [2]Role{Safe, Even}, [2]Role{Unsafe, Even})
			check(fromInk, [2]Role{Safe, Ink}, [2]Role{Unsafe, Ink})
		}
	}
}

// TestNoneIsInvisible, and everything else is opaque.
func TestOpaque(t *testing.T) {
	for _, th := range themes {
		if th.Colour(None).A != 0 || th.Wash(None).A != 0 || th.Colour(200).A != 0 {
			t.Errorf("%s: None can be seen", th.Name)
		}
		for r := Paper; r <= OnMark; r++ {
			if th.Colour(r).A != 255 || th.Wash(r).A != 255 {
				t.Errorf("%s: role %d lets the ground through", th.Name, r)
			}
		}
	}
}
