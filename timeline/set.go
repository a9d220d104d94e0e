package timeline

import (
	"fmt"
	"math/bits"
	"strings"
)

// Width is the number of frames a Set holds: 0 to Width-1.
const Width = 512

const (
	wordBits = 64
	words    = Width / wordBits
)

// Set is a set of frames, one bit a frame. The zero value is empty. It is a
// value: every method returns a new set and leaves its receiver as it was.
type Set [words]uint64

// Span is the run of frames [From, To). It is empty when To <= From.
type Span struct{ From, To int }

// Len is the number of frames of s, 0 when s is empty.
func (s Span) Len() int { return max(0, s.To-s.From) }

// Has reports whether frame f lies in s.
func (s Span) Has(f int) bool { return s.From <= f && f < s.To }

// Later returns s moved n frames later (earlier where n is negative).
func (s Span) Later(n int) Span { return Span{s.From + n, s.To + n} }

// String writes s as "[from, to)".
func (s Span) String() string { return fmt.Sprintf("[%d, %d)", s.From, s.To) }

// RangeError is a span or a shift that leaves the width.
type RangeError struct {
	What string // "span" or "shift"
	Span Span   // the frames asked for
}

// Error says which frames were asked for and which there are.
func (e *RangeError) Error() string {
	return fmt.Sprintf("%s %v leaves the frames 0 to %d", e.What, e.Span, Width-1)
}

// Range returns the frames [from, to), empty when to <= from. A span that
// leaves [0, Width) is a *RangeError.
func Range(from, to int) (Set, error) {
	if to <= from {
		return Set{}, nil
	}
	if from < 0 || to > Width {
		return Set{}, &RangeError{"span", Span{from, to}}
	}
	return between(from, to), nil
}

// since returns the frames from f to the end of the width: the form of a
// state that never ends. f below 0 counts as 0; f at Width or later is empty.
func since(f int) (s Set) {
	if f >= Width {
		return s
	}
	f = max(f, 0)
	w := f / wordBits
	s[w] = ^uint64(0) << (f % wordBits)
	for w++; w < words; w++ {
		s[w] = ^uint64(0)
	}
	return s
}

// between returns the frames [from, to) that lie inside the width.
func between(from, to int) (s Set) {
	from, to = max(from, 0), min(to, Width)
	if to <= from {
		return s
	}
	first, last := from/wordBits, (to-1)/wordBits
	for w := first; w <= last; w++ {
		s[w] = ^uint64(0)
	}
	s[first] &= ^uint64(0) << (from % wordBits)
	s[last] &= ^uint64(0) >> (wordBits - 1 - (to-1)%wordBits)
	return s
}

// add puts the frames [from, to), which lie inside the width, into s.
func (s *Set) add(from, to int) {
	if to <= from {
		return
	}
	first, last := from/wordBits, (to-1)/wordBits
	head, tail := ^uint64(0)<<(from%wordBits), ^uint64(0)>>(wordBits-1-(to-1)%wordBits)
	if first == last {
		s[first] |= head & tail
		return
	}
	s[first] |= head
	for w := first + 1; w < last; w++ {
		s[w] = ^uint64(0)
	}
	s[last] |= tail
}

// Shift returns s moved n frames later, or earlier where n is negative. A
// frame that would leave the width is a *RangeError.
func (s Set) Shift(n int) (Set, error) {
	if !s.Empty() && (s.First()+n < 0 || s.Last()+n >= Width) {
		return Set{}, &RangeError{"shift", Span{s.First() + n, s.Last() + n + 1}}
	}
	if n < 0 {
		return s.sooner(-n), nil
	}
	return s.later(n), nil
}

// later moves s by n >= 0 frames. What passes the end is let go: right for
// states that never end, and for sets whose fit was checked before.
func (s Set) later(n int) (t Set) {
	if n == 0 {
		return s
	}
	if n >= Width {
		return t
	}
	w, b := n/wordBits, n%wordBits
	for i := words - 1; i >= w; i-- {
		t[i] = s[i-w] << b
		if b > 0 && i > w {
			t[i] |= s[i-w-1] >> (wordBits - b)
		}
	}
	return t
}

// sooner moves s by n >= 0 frames towards 0; what passes frame 0 is let go.
func (s Set) sooner(n int) (t Set) {
	if n >= Width {
		return t
	}
	w, b := n/wordBits, n%wordBits
	for i := 0; i+w < words; i++ {
		t[i] = s[i+w] >> b
		if b > 0 && i+w+1 < words {
			t[i] |= s[i+w+1] << (wordBits - b)
		}
	}
	return t
}

// And returns the frames in both s and t.
func (s Set) And(t Set) Set {
	for i := range s {
		s[i] &= t[i]
	}
	return s
}

// Or returns the frames in s or t.
func (s Set) Or(t Set) Set {
	for i := range s {
		s[i] |= t[i]
	}
	return s
}

// Minus returns the frames of s that are not in t.
func (s Set) Minus(t Set) Set {
	for i := range s {
		s[i] &^= t[i]
	}
	return s
}

// Empty reports whether s has no frame.
func (s Set) Empty() bool { return s == Set{} }

// Has reports whether frame f is in s; false outside the width.
func (s Set) Has(f int) bool {
	return f >= 0 && f < Width && s[f/wordBits]>>(f%wordBits)&1 == 1
}

// First returns the lowest frame of s, -1 when s is empty.
func (s Set) First() int {
	for i, w := range s {
		if w != 0 {
			return i*wordBits + bits.TrailingZeros64(w)
		}
	}
	return -1
}

// firstOutside returns the lowest frame of s that is not in t, -1 where there
// is none.
func (s *Set) firstOutside(t *Set) int {
	for i, w := range s {
		if w &^= t[i]; w != 0 {
			return i*wordBits + bits.TrailingZeros64(w)
		}
	}
	return -1
}

// firstOutsideBoth returns the lowest frame of s that is neither in t nor in u,
// -1 where there is none.
func (s *Set) firstOutsideBoth(t, u *Set) int {
	for i, w := range s {
		if w &^= t[i] | u[i]; w != 0 {
			return i*wordBits + bits.TrailingZeros64(w)
		}
	}
	return -1
}

// Last returns the highest frame of s, -1 when s is empty.
func (s Set) Last() int {
	for i := words - 1; i >= 0; i-- {
		if s[i] != 0 {
			return i*wordBits + wordBits - 1 - bits.LeadingZeros64(s[i])
		}
	}
	return -1
}

// runFrom returns the first frame of the unbroken run of s that frame f lies
// in; f is in s.
func (s Set) runFrom(f int) int { return between(0, f).Minus(s).Last() + 1 }

// Count returns the number of frames in s.
func (s Set) Count() (n int) {
	for _, w := range s {
		n += bits.OnesCount64(w)
	}
	return n
}

// Spans returns the unbroken runs of s in order, nil when s is empty.
func (s Set) Spans() []Span {
	var out []Span
	for !s.Empty() {
		from := s.First()
		to := Width
		if gap := since(from).Minus(s); !gap.Empty() {
			to = gap.First()
		}
		out = append(out, Span{from, to})
		s = s.Minus(between(from, to))
	}
	return out
}

// String writes s as its spans, "{}" when empty.
func (s Set) String() string {
	parts := []string{}
	for _, r := range s.Spans() {
		parts = append(parts, r.String())
	}
	return "{" + strings.Join(parts, " ") + "}"
}
