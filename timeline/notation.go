package timeline

import (
	"fmt"
	"strconv"
	"strings"
)

// What a cell holds, in the words of an error.
const (
	wantWhole  = "a whole number"
	wantFlag   = "yes or no"
	wantActive = "frames written like 3, or 2(5)1 with gaps in brackets"
	wantImmune = "windows written like 1-8 strike throw, with ; between them"
	wantArmour = "windows written like 1-8 2 hits, with ; between them"
	wantParry  = "windows written like 1-10, with ; between them"
)

func unless(ok bool, want string) string {
	if ok {
		return ""
	}
	return want
}

// ParseWhole reads a whole number. A plus sign and a typographic minus, which
// tables of advantages often have, are taken.
func ParseWhole(cell string) (int, bool) {
	if after, ok := strings.CutPrefix(cell, "\u2212"); ok {
		cell = "-" + after
	}
	n, err := strconv.Atoi(cell)
	return n, err == nil
}

// ParseFlag reads yes or no, also true or false, 1 or 0.
func ParseFlag(cell string) (value, ok bool) {
	switch strings.ToLower(cell) {
	case "true", "yes", "1":
		return true, true
	case "false", "no", "0":
		return false, true
	}
	return false, false
}

// parseCount reads frames, digits alone: no sign stands inside a window.
func parseCount(cell string) (int, bool) {
	if cell == "" || strings.Trim(cell, "0123456789") != "" {
		return 0, false
	}
	return ParseWhole(cell)
}

// ActiveWords writes active, gap, active, ... the trade's way: 2(5)1; empty
// where there is nothing.
func ActiveWords(active []int) string {
	if len(active) == 1 {
		return strconv.Itoa(active[0])
	}
	var b strings.Builder
	for i, n := range active {
		if i%2 == 0 {
			fmt.Fprint(&b, n)
		} else {
			fmt.Fprintf(&b, "(%d)", n)
		}
	}
	return b.String()
}

// parseActive reads what ActiveWords writes.
func parseActive(cell string) (out []int, ok bool) {
	for {
		active, rest, more := strings.Cut(cell, "(")
		n, ok := parseCount(strings.TrimSpace(active))
		if !ok {
			return nil, false
		}
		out = append(out, n)
		if !more {
			return out, true
		}
		gap, rest, closed := strings.Cut(rest, ")")
		n, ok = parseCount(strings.TrimSpace(gap))
		if !ok || !closed {
			return nil, false
		}
		out, cell = append(out, n), rest
	}
}

// windowForm is how one sort of windows is written: in cells, after the frames
// of a window, and in the project text, beside them.
type windowForm[W any] struct {
	want   string
	start  W // of a window as the project text begins it
	of     func(w *W) *Window
	parse  func(w *W, words []string) (ok bool)
	words  func(w *W) string
	fields []Field[W]
}

// parseAll reads windows separated with ";".
func (form *windowForm[W]) parseAll(cell string) (out []W, ok bool) {
	for part := range strings.SplitSeq(cell, ";") {
		words := strings.Fields(part)
		if len(words) == 0 {
			return nil, false
		}
		from, to, isSpan := strings.Cut(strings.ReplaceAll(words[0], "\u2013", "-"), "-")
		if !isSpan {
			to = from
		}
		var w W
		var ok1, ok2 bool
		at := form.of(&w)
		at.From, ok1 = parseCount(from)
		at.To, ok2 = parseCount(to)
		if !ok1 || !ok2 || !form.parse(&w, words[1:]) {
			return nil, false
		}
		out = append(out, w)
	}
	return out, true
}

// formatAll writes windows as "1-8 strike; 9-12", empty where there are none.
func (form *windowForm[W]) formatAll(list []W) string {
	if len(list) == 0 {
		return ""
	}
	var b []byte
	for i := range list {
		if i > 0 {
			b = append(b, "; "...)
		}
		at := form.of(&list[i])
		b = append(strconv.AppendInt(b, int64(at.From), 10), '-')
		b = append(strconv.AppendInt(b, int64(at.To), 10), form.words(&list[i])...)
	}
	return string(b)
}

func parseImmunity(w *Immunity, words []string) bool {
	w.Strikes, w.Throws = len(words) == 0, len(words) == 0
	for _, word := range words {
		switch strings.ToLower(word) {
		case "strike":
			w.Strikes = true
		case "throw":
			w.Throws = true
		default:
			return false
		}
	}
	return true
}

func immunityWords(w *Immunity) string {
	switch {
	case !w.Throws:
		return " strike"
	case !w.Strikes:
		return " throw"
	}
	return ""
}

func parseArmour(w *Armour, words []string) bool {
	if w.Hits = 1; len(words) == 0 {
		return true
	}
	var ok bool
	w.Hits, ok = parseCount(words[0])
	return ok && len(words) == 2 && (strings.EqualFold(words[1], "hits") || strings.EqualFold(words[1], "hit"))
}

func armourWords(w *Armour) string {
	if w.Hits == 1 {
		return ""
	}
	return fmt.Sprintf(" %d hits", w.Hits)
}
