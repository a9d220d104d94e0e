package sheet

import (
	"fmt"
	"strings"
	"testing"
)

// drawnMix is a mix of so many setups and replies, on two rises.
func drawnMix(setups, replies int, name string) *Mix {
	m := &Mix{Heading: name + " vs " + name, Answer: "A round is worth 12.50 points to " + name + ".", Notes: []string{"Proof: " + name}}
	for i := range setups {
		m.Setups = append(m.Setups, MixSetup{Name: fmt.Sprint(name, " ", i), Share: 1 / float64(setups), Never: i == 1})
	}
	for j := range replies {
		r := MixReply{Rise: "normal", Name: fmt.Sprint(name, " ", j), Share: 0.995, Gain: "-1234.56", With: name}
		if j >= replies/2 {
			r.Rise, r.Never = "back", true
		}
		for i := range setups {
			r.Points = append(r.Points, MixPoints{Text: "-12345.67", Most: i == 0})
		}
		m.Replies = append(m.Replies, r)
	}
	return m
}

// TestAMixStandsInItsPlace: no text leaves its page, and none lies on another.
func TestAMixStandsInItsPlace(t *testing.T) {
	for _, name := range []string{"Low", strings.Repeat("A very long name indeed ", 6)} {
		for _, size := range [][2]float64{{480, 0}, {1280, 0}, {900, 1200}} {
			pages, err := DrawMix(drawnMix(5, 70, name), size[0], size[1])
			if err != nil {
				t.Fatal(err)
			}
			if (len(pages) > 1) != (size[1] > 0) {
				t.Errorf("%d pages at a height of %g", len(pages), size[1])
			}
			rows := 0
			for _, d := range pages {
				rows += strings.Count(strings.Join(textsApart(t, d), "\n"), "-1234.56")
			}
			if rows != 70 {
				t.Errorf("%v: %d rows are drawn", size, rows)
			}
		}
	}
	if _, err := DrawMix(drawnMix(MixSetups+1, 2, "a"), 900, 0); err == nil {
		t.Error("too many setups are drawn")
	}
}
