package timeline

import (
	"errors"
	"math/rand/v2"
	"slices"
	"testing"
)

func TestRange(t *testing.T) {
	for _, c := range []struct {
		from, to int
		want     string // "" for an error
		count    int
	}{
		{0, 1, "{[0, 1)}", 1},
		{3, 9, "{[3, 9)}", 6},
		{63, 65, "{[63, 65)}", 2},
		{0, 64, "{[0, 64)}", 64},
		{64, 128, "{[64, 128)}", 64},
		{100, 300, "{[100, 300)}", 200},
		{511, 512, "{[511, 512)}", 1},
		{0, 512, "{[0, 512)}", 512},
		{5, 5, "{}", 0},
		{9, 3, "{}", 0},
		{600, 600, "{}", 0},
		{-4, -4, "{}", 0},
		{-1, 3, "", 0},
		{510, 513, "", 0},
		{600, 700, "", 0},
	} {
		s, err := Range(c.from, c.to)
		if c.want == "" {
			var out *RangeError
			if !errors.As(err, &out) || out.What != "span" || out.Span != (Span{c.from, c.to}) {
				t.Errorf("Range(%d, %d): error = %v, want a *RangeError of that span", c.from, c.to, err)
			}
			continue
		}
		if err != nil || s.String() != c.want || s.Count() != c.count {
			t.Errorf("Range(%d, %d) = %v with %d frames, %v, want %s with %d", c.from, c.to, s, s.Count(), err, c.want, c.count)
		}
	}
}

func TestShift(t *testing.T) {
	for _, c := range []struct {
		span Span
		by   int
		want string // "" for an error
	}{
		{Span{3, 9}, 0, "{[3, 9)}"},
		{Span{3, 9}, 4, "{[7, 13)}"},
		{Span{60, 62}, 3, "{[63, 65)}"},
		{Span{60, 70}, 64, "{[124, 134)}"},
		{Span{0, 4}, 508, "{[508, 512)}"},
		{Span{0, 4}, 509, ""},
		{Span{0, 1}, 512, ""},
		{Span{0, 1}, 5000, ""},
		{Span{3, 9}, -3, "{[0, 6)}"},
		{Span{3, 9}, -4, ""},
		{Span{128, 130}, -64, "{[64, 66)}"},
		{Span{128, 130}, -65, "{[63, 65)}"},
		{Span{511, 512}, -511, "{[0, 1)}"},
		{Span{511, 512}, -512, ""},
		{Span{5, 5}, 9999, "{}"},
		{Span{5, 5}, -9999, "{}"},
	} {
		s := rangeOf(t, c.span)
		got, err := s.Shift(c.by)
		if c.want == "" {
			var out *RangeError
			if !errors.As(err, &out) || out.What != "shift" || out.Span != c.span.Later(c.by) {
				t.Errorf("%v.Shift(%d): error = %v, want a *RangeError of %v", s, c.by, err, c.span.Later(c.by))
			}
			continue
		}
		if err != nil || got.String() != c.want {
			t.Errorf("%v.Shift(%d) = %v, %v, want %s", s, c.by, got, err, c.want)
		}
	}
}

func TestSetAlgebra(t *testing.T) {
	a := rangeOf(t, Span{60, 70}).Or(rangeOf(t, Span{127, 129}))
	b := rangeOf(t, Span{64, 128})
	for _, c := range []struct {
		name        string
		got         Set
		want        string
		first, last int
	}{
		{"a", a, "{[60, 70) [127, 129)}", 60, 128},
		{"a and b", a.And(b), "{[64, 70) [127, 128)}", 64, 127},
		{"a or b", a.Or(b), "{[60, 129)}", 60, 128},
		{"a minus b", a.Minus(b), "{[60, 64) [128, 129)}", 60, 128},
		{"b minus a", b.Minus(a), "{[70, 127)}", 70, 126},
		{"a minus a", a.Minus(a), "{}", -1, -1},
		{"the whole width", rangeOf(t, Span{0, Width}), "{[0, 512)}", 0, 511},
	} {
		if c.got.String() != c.want || c.got.First() != c.first || c.got.Last() != c.last {
			t.Errorf("%s = %v, first %d, last %d, want %s, %d, %d", c.name, c.got, c.got.First(), c.got.Last(), c.want, c.first, c.last)
		}
	}
	for _, f := range []int{-1, 59, 70, 126, 129, Width, Width + 60} {
		if a.Has(f) {
			t.Errorf("a.Has(%d) = true, want false", f)
		}
	}
}

// TestSetIsASetOfFrames holds every method against a map of frames.
func TestSetIsASetOfFrames(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 12))
	draw := func() (s Set, m map[int]bool) {
		m = map[int]bool{}
		for range rng.IntN(5) {
			from := rng.IntN(Width)
			to := min(Width, from+1+rng.IntN(90))
			s = s.Or(rangeOf(t, Span{from, to}))
			for f := from; f < to; f++ {
				m[f] = true
			}
		}
		return s, m
	}
	for range 3000 {
		a, am := draw()
		b, bm := draw()
		sameFrames(t, "a.And(b)", a.And(b), func(f int) bool { return am[f] && bm[f] })
		sameFrames(t, "a.Or(b)", a.Or(b), func(f int) bool { return am[f] || bm[f] })
		sameFrames(t, "a.Minus(b)", a.Minus(b), func(f int) bool { return am[f] && !bm[f] })
		n := rng.IntN(2*Width) - Width
		fits := true
		for f := range am {
			fits = fits && f+n >= 0 && f+n < Width
		}
		moved, err := a.Shift(n)
		if (err == nil) != fits {
			t.Errorf("%v.Shift(%d): error = %v, want one: %v", a, n, err, !fits)
		}
		if fits {
			sameFrames(t, "a.Shift(n)", moved, func(f int) bool { return am[f-n] })
		}
	}
}

// sameFrames holds s, and what its methods tell of it, against membership in want.
func sameFrames(t *testing.T, what string, s Set, want func(f int) bool) {
	t.Helper()
	var spans []Span
	first, last, count := -1, -1, 0
	for f := -1; f <= Width; f++ {
		if s.Has(f) != want(f) {
			t.Fatalf("%s: Has(%d) = %v, want %v", what, f, s.Has(f), want(f))
		}
		if !want(f) {
			continue
		}
		if count == 0 {
			first = f
		}
		if last != f-1 || count == 0 {
			spans = append(spans, Span{f, f})
		}
		last = f
		spans[len(spans)-1].To = f + 1
		count++
	}
	if s.First() != first || s.Last() != last || s.Count() != count || s.Empty() != (count == 0) {
		t.Errorf("%s: first %d, last %d, count %d, empty %v, want %d, %d, %d", what, s.First(), s.Last(), s.Count(), s.Empty(), first, last, count)
	}
	if !slices.Equal(s.Spans(), spans) {
		t.Errorf("%s: Spans() = %v, want %v", what, s.Spans(), spans)
	}
}
