package exercise

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// chosen is a question whose second choice is right.
func chosen() Question {
	return Question{Kind: WhatBreaks, Choices: []string{"a", "b", "c"}, right: []bool{false, true, false}, Hints: []string{"one", "two"}, Why: "b."}
}

func TestARoundGivesTwoTriesAndCountsThem(t *testing.T) {
	for _, c := range []struct {
		name    string
		do      func(r *Round)
		points  int
		done    bool
		right   bool
		whole   string
		tries   int
		hinted  int
		another string
	}{
		{"at once", func(r *Round) { r.Answer(Answer{Choice: 1}) }, 2, true, true, "b.", 1, 0, ""},
		{"on the second try", func(r *Round) { r.Answer(Answer{Choice: 0}); r.Answer(Answer{Choice: 1}) }, 1, true, true, "b.", 2, 0, ""},
		{"with a hint", func(r *Round) { r.Hint(); r.Answer(Answer{Choice: 1}) }, 1, true, true, "b.", 1, 1, ""},
		{"wrong twice", func(r *Round) {
			for range 5 {
				r.Answer(Answer{Choice: 2})
			}
			r.Answer(Answer{Choice: 1})
		}, 0, true, false, "b.", 2, 0, ""},
		{"told", func(r *Round) { r.Tell(); r.Answer(Answer{Choice: 1}) }, 0, true, false, "b.", 0, 0, ""},
		{"one try", func(r *Round) { r.Answer(Answer{Choice: 2}) }, 0, false, false, "", 1, 0, "one"},
		{"all hints", func(r *Round) {
			for range 5 {
				r.Hint()
			}
		}, 0, false, false, "", 0, 2, ""},
	} {
		r := Round{Question: chosen()}
		c.do(&r)
		if r.Points() != c.points || r.Done != c.done || r.Right != c.right || r.Whole() != c.whole || r.Tries != c.tries || r.Given != c.hinted {
			t.Errorf("%s: %+v, %d points, %q", c.name, r, r.Points(), r.Whole())
		}
		if got := r.Hint(); got != c.another {
			t.Errorf("%s: the next hint is %q, want %q", c.name, got, c.another)
		}
	}
}

func TestInOrderAsksAllKindsOfEachSetup(t *testing.T) {
	got := InOrder([]string{"x", "y"}, []Kind{OneMore, WhereSafe})
	if want := []Item{{"x", OneMore}, {"x", WhereSafe}, {"y", OneMore}, {"y", WhereSafe}}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

// TestWhatWasGotWrongIsDrawnFirst draws many times: each item is as often the
// first as its weight says, within four standard deviations.
func TestWhatWasGotWrongIsDrawnFirst(t *testing.T) {
	items := InOrder([]string{"known", "wrong", "new", "mended"}, []Kind{OneMore})
	past := []Record{
		{Setup: "mended", Kind: OneMore}, {Setup: "wrong", Kind: OneMore}, {Setup: "wrong", Kind: OneMore, Points: 1}, {Setup: "wrong", Kind: WhereSafe, Points: 2},
		{Setup: "known", Kind: OneMore, Right: true, Points: 2}, {Setup: "mended", Kind: OneMore, Points: 2}, {Setup: "mended", Kind: OneMore, Points: 2}, {Setup: "mended", Kind: OneMore, Points: 2},
	}
	want := map[string]int{"known": 1, "wrong": 4, "new": 4, "mended": 1} // the oldest of four results counts no more
	r := rand.New(rand.NewPCG(3, 4))
	const draws = 20000
	first := map[string]int{}
	for range draws {
		got := Draw(items, past, r.IntN)
		first[got[0].Setup]++
		sorted := slices.Clone(got)
		slices.SortFunc(sorted, func(a, b Item) int { return slices.Index(items, a) - slices.Index(items, b) })
		if !slices.Equal(sorted, items) {
			t.Fatalf("drawn are %v of %v", got, items)
		}
	}
	for name, w := range want {
		p := float64(w) / 10
		if got, sigma := float64(first[name]), math.Sqrt(draws*p*(1-p)); math.Abs(got-draws*p) > 4*sigma {
			t.Errorf("%s comes first %v times of %d, want %v", name, got, draws, draws*p)
		}
	}
	if items[0].Setup != "known" {
		t.Error("drawing changes the items")
	}
}
