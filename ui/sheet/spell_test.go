package sheet

import (
	"strings"
	"testing"
	"unicode"

	"wakeline/timeline"
	"wakeline/ui/sheet/lettering"
)

// TestSpelled: letters that the font has stay letters, one that it lacks is a
// box with its code point, and both take the room that was measured.
func TestSpelled(t *testing.T) {
	for _, c := range []struct {
		str    string
		pieces []string // letters, and the rows of digits
		boxes  int
	}{
		{"ab跳c", []string{"ab", "8D", "F3", "c"}, 1},
		{"跳躍", []string{"8D", "F3", "8E", "8D"}, 2},
		{"x😀", []string{"x", "1F6", "00"}, 1},
		{"कि", []string{"09", "15", "09", "3F"}, 2},
		{"日 é", []string{"65", "E5", "é"}, 1},
	} {
		for _, a := range []Anchor{AtStart, AtMiddle, AtEnd} {
			whole := Text{At: Point{100, 50}, Str: c.str, Size: 20, Role: Ink, Anchor: a}
			if lettering.Of(false).Covers(whole.Str) {
				t.Logf("the font has all of %q", c.str)
				continue
			}
			var got []string
			boxes := 0
			room := textRect(100, 50, TextWidth(c.str, 20, false), 20, a)
			for _, s := range Spelled(&whole) {
				for _, q := range points(s) {
					if q.X < room.x0-0.01 || q.X > room.x1+0.01 || q.Y < room.y0-0.01 || q.Y > room.y1+0.01 {
						t.Errorf("%q, anchor %d: %+v leaves its room %v", c.str, a, s, room)
					}
				}
				switch v := s.(type) {
				case Text:
					got = append(got, v.Str)
				case Box:
					boxes++
				}
			}
			if strings.Join(got, "|") != strings.Join(c.pieces, "|") || boxes != c.boxes {
				t.Errorf("%q is spelled %q with %d boxes, want %q with %d", c.str, got, boxes, c.pieces, c.boxes)
			}
		}
	}
}

// TestSpelledKeepsItsSpaces: a piece that follows a box and a space begins with
// its first letter, as far from the box as the space is wide: an SVG drops a
// space that a text begins with.
func TestSpelledKeepsItsSpaces(t *testing.T) {
	shapes := Spelled(&Text{At: Point{100, 50}, Str: "跳 7", Size: 20, Role: Ink})
	last, ok := shapes[len(shapes)-1].(Text)
	if want := 100 + TextWidth("跳 ", 20, false); !ok || last.Str != "7" || last.At.X != want {
		t.Errorf("the last piece is %+v, want 7 on %v", last, want)
	}
}

// TestNumbersStandApart: a block's length says what it counts, and doesn't run
// into its name.
func TestNumbersStandApart(t *testing.T) {
	for name, want := range map[string]string{"kick": "kick · 9 frames", "kick 2": "kick 2 · 9 frames", "שטף": "שטף · 9 frames", "": ""} {
		b := timeline.Block{Name: name, Span: timeline.Span{From: 0, To: 9}, Pieces: []timeline.Piece{{Phase: timeline.Active, Span: timeline.Span{From: 0, To: 9}}}}
		if got := named(&b, name, 12, false, 500); got != want {
			t.Errorf("%q: %q, want %q", name, got, want)
		}
	}
}

// TestScripts: Latin, Greek and Cyrillic need no boxes.
func TestScripts(t *testing.T) {
	for _, s := range []string{"Übermut", "Ångström", "Đorđe", "Ψηλό άλμα", "Прыжок", "ﬁn – “…” ±·"} {
		if !lettering.Of(false).Covers(s) || !lettering.Of(true).Covers(s) {
			var out []rune
			for _, r := range s {
				if !lettering.Of(false).Has(r) || !lettering.Of(true).Has(r) {
					out = append(out, r)
				}
			}
			t.Errorf("%q has letters that the font lacks: %q", s, out)
		}
	}
	// All that the sheet itself writes is in the font.
	for r := rune(' '); r < 0x7f; r++ {
		if unicode.IsPrint(r) && (!lettering.Of(false).Has(r) || !lettering.Of(true).Has(r)) {
			t.Errorf("%q is lacking", r)
		}
	}
}

// TestOwnWordsHaveLetters: whatever the sheet itself writes is in the font.
func TestOwnWordsHaveLetters(t *testing.T) {
	for i, d := range append(sheets(t)[:10], pages(t)...) {
		if i == 11 { // whose names are lacking
			continue
		}
		texts, _ := textsOf(d)
		for _, x := range texts {
			if !lettering.Of(x.Bold).Covers(x.Str) {
				t.Errorf("sheet %d: %q has letters that the font lacks", i, x.Str)
			}
		}
	}
}
