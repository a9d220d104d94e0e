package lettering

import (
	"slices"
	"sync"
	"testing"
	"unicode"
)

// TestKerning: letters that lean to one another stand closer than their
// advances, others don't, and scripts don't mix.
func TestKerning(t *testing.T) {
	for s, closer := range map[string]bool{"AVATo": true, "Ta.": true, "minimum": false, "1234": false} {
		for _, bold := range []bool{false, true} {
			_, width := Of(bold).Line(s)
			sum := 0.0
			for _, r := range s {
				sum += Of(bold).Advance(r) * UnitsPerEm
			}
			if float64(width) < sum-1 != closer || float64(width) > sum+1 {
				t.Errorf("%q, bold %v: %d wide, by its letters %v", s, bold, width, sum)
			}
		}
	}
	for _, c := range [][2]string{{"kick ", "Прыжок"}, {"ab\u0301", "Ψηλό"}, {"a", "\ufffd"}, {"\ufffd", "A"}} {
		a, wa := Of(false).Line(c[0])
		b, wb := Of(false).Line(c[1])
		for i := range b {
			b[i].X += wa
		}
		if got, width := Of(false).Line(c[0] + c[1]); width != wa+wb || !slices.Equal(got, append(a, b...)) {
			t.Errorf("%q and %q together are %v, %d wide, apart %v, %d", c[0], c[1], got, width, append(a, b...), wa+wb)
		}
	}
}

// TestMarks: a mark takes no room, and stands over its letter.
func TestMarks(t *testing.T) {
	for _, s := range []string{"x\u0301", "q\u0323"} {
		_, plain := Of(false).Line(s[:1])
		line, width := Of(false).Line(s)
		ink := Of(false).Outline(line[len(line)-1].ID).Bounds()
		if middle := line[len(line)-1].X + (ink.Min.X+ink.Max.X).Round()/2; len(line) != 2 || width != plain || middle < 0 || middle > plain {
			t.Errorf("%q is %+v, %d wide, without its mark %d", s, line, width, plain)
		}
	}
}

// TestStands: each letter stands for the glyph that it is drawn by, and its
// advance is the font's; all but two that this font draws by a glyph of no
// letter, without their dots.
func TestStands(t *testing.T) {
	n, none := 0, ""
	for _, bold := range []bool{false, true} {
		f := Of(bold)
		for r := rune(' '); r <= 0xffff; r++ {
			if !f.Has(r) || IsMark(r) || unicode.Is(unicode.Cf, r) {
				continue
			}
			line, width := f.Line(string(r))
			if len(line) != 1 {
				continue
			}
			got, advance, ok := f.Stands(line[0])
			if !ok {
				none += string(r)
				continue
			}
			again, _ := f.Line(string(got))
			if advance != width || len(again) != 1 || again[0].ID != line[0].ID {
				t.Errorf("%q stands as %q, %d wide; it is %d wide", r, got, advance, width)
			}
			n++
		}
	}
	if none != "\u0456\u0458\u0456\u0458" {
		t.Errorf("%q stand for nothing", none)
	}
	if n < 4000 {
		t.Errorf("%d letters were looked at", n)
	}
	if _, _, ok := Of(false).Stands(Glyph{ID: 60000, Rune: 'a'}); ok {
		t.Error("a letter stands for a glyph that there isn't")
	}
}

// TestLinesSideBySide: many at once are as one by one.
func TestLinesSideBySide(t *testing.T) {
	texts := []string{"AVATo", "kick Прыжок", "x\u0301", "", "Meets the wake-up on 42"}
	var want [][]Glyph
	for _, s := range texts {
		line, _ := Of(true).Line(s)
		want = append(want, line)
	}
	var all sync.WaitGroup
	for range 8 {
		all.Add(1)
		go func() {
			defer all.Done()
			for i := range 200 {
				k := i % len(texts)
				if line, _ := Of(true).Line(texts[k]); !slices.Equal(line, want[k]) {
					t.Errorf("%q is %v, alone %v", texts[k], line, want[k])
				}
				Of(true).Outline(uint16(i))
			}
		}()
	}
	all.Wait()
}
