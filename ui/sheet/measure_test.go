package sheet

import (
	"strings"
	"testing"
	"unicode/utf8"

	"wakeline/ui/sheet/lettering"
)

// TestTextWidth compares with a line as it is laid out, with kerning: a text may
// be drawn a little narrower than measured, never wider.
func TestTextWidth(t *testing.T) {
	for _, s := range []string{"safe", "Meets the wake-up on 42, lands on 43 and guards.", "AVAToWa", "1234567890", "Łódź", "Ελλάδα"} {
		for _, bold := range []bool{false, true} {
			_, units := lettering.Of(bold).Line(s)
			want := 10 * float64(units) / lettering.UnitsPerEm
			if got := TextWidth(s, 10, bold); got < 0.995*want || got > 1.06*want {
				t.Errorf("TextWidth(%q, 10, %v) = %v, laid out it is %v wide", s, bold, got, want)
			}
		}
	}
}

func TestFit(t *testing.T) {
	for _, s := range []string{"", "a", "rising lantern", "跳躍攻撃のあと", "e\u0301e\u0301e\u0301", strings.Repeat("long ", 80)} {
		for room := 0.0; room < 90; room += 3.5 {
			got := fit(s, 12, false, room)
			if w := TextWidth(got, 12, false); w > room+1e-9 {
				t.Errorf("fit(%q) to %v is %v wide", s, room, w)
			}
			short, cut := strings.CutSuffix(got, ellipsis)
			if got != s && got != "" && (!cut || !strings.HasPrefix(s, short)) {
				t.Errorf("fit(%q) to %v = %q", s, room, got)
			}
			if next, _ := utf8.DecodeRuneInString(s[len(short):]); cut && lettering.IsMark(next) {
				t.Errorf("fit(%q) to %v parts a letter from its mark", s, room)
			}
		}
	}
}

func TestWrap(t *testing.T) {
	const s = "Lands on 43 and guards; the reversal bites on 45: 2 spare. Averyverylongwordthatfitsnowhere at all."
	for room := 12.0; room < 700; room += 17 {
		lines, whole := wrap(s, 12, false, room, 100)
		if strings.ReplaceAll(strings.Join(lines, ""), " ", "") != strings.ReplaceAll(s, " ", "") || !whole {
			t.Fatalf("wrap to %v loses letters: %q", room, lines)
		}
		for _, l := range lines {
			if TextWidth(l, 12, false) > room {
				t.Errorf("wrap to %v: %q is too long", room, l)
			}
		}
		if few, whole := wrap(s, 12, false, room, 2); len(few) > 2 || whole != (len(lines) <= 2) {
			t.Errorf("wrap to %v, two lines: %q, whole %v", room, few, whole)
		}
	}
}

func TestClean(t *testing.T) {
	for in, want := range map[string]string{
		"plain": "plain", "Łódź 跳": "Łódź 跳", " a\tb\n": "a b", "\u202eabc": "abc", "a\xffb": "a\ufffdb",
		"e\u0301\u0301\u0301\u0301!": "e\u0301\u0301!", "\u200b": "", "x\ufffe": "x\ufffd",
	} {
		if got := clean(in); got != want {
			t.Errorf("clean(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestShare(t *testing.T) {
	parts := []string{strings.Repeat("wide ", 50), " vs ", "Bo"}
	share(parts, 10, false, 200)
	if w := TextWidth(strings.Join(parts, ""), 10, false); w > 200 || w < 150 || parts[2] != "Bo" || parts[1] != " vs " {
		t.Errorf("share = %q, %v wide", parts, w)
	}
}
