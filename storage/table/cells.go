package table

import (
	"fmt"
	"strconv"
	"strings"

	"wakeline/timeline"
)

// What cells hold, in the words of an error.
const (
	wantWhole  = "a whole number"
	wantFlag   = "yes or no"
	wantActive = "frames written like 3, or 2(5)1 with gaps in brackets"
	wantImmune = "windows written like 1-8 strike throw, with ; between them"
	wantArmour = "windows written like 1-8 2 hits, with ; between them"
	wantParry  = "windows written like 1-10, with ; between them"
)

// parseWhole reads a whole number. A plus sign and a typographic minus, which
// tables of advantages often have, are taken.
func parseWhole(cell string) (int, bool) {
	if after, ok := strings.CutPrefix(cell, "\u2212"); ok {
		cell = "-" + after
	}
	n, err := strconv.Atoi(cell)
	return n, err == nil
}

func parseFlag(cell string) (value, ok bool) {
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
	return parseWhole(cell)
}

// parseActive reads active, gap, active, ... in the trade's writing, 2(5)1.
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

// parseWindows reads windows separated with ";", the words after each of them
// by rest.
func parseWindows[W any](cell string, rest func(at timeline.Window, words []string) (W, bool)) (out []W, ok bool) {
	for part := range strings.SplitSeq(cell, ";") {
		words := strings.Fields(part)
		if len(words) == 0 {
			return nil, false
		}
		from, to, isSpan := strings.Cut(strings.ReplaceAll(words[0], "\u2013", "-"), "-")
		if !isSpan {
			to = from
		}
		var at timeline.Window
		var ok1, ok2, ok3 bool
		at.From, ok1 = parseCount(from)
		at.To, ok2 = parseCount(to)
		w, ok3 := rest(at, words[1:])
		if !ok1 || !ok2 || !ok3 {
			return nil, false
		}
		out = append(out, w)
	}
	return out, true
}

func formatWindows[W any](of []W, format func(w W) (at timeline.Window, rest string)) string {
	var b strings.Builder
	for i, w := range of {
		if i > 0 {
			b.WriteString("; ")
		}
		at, rest := format(w)
		fmt.Fprintf(&b, "%d-%d%s", at.From, at.To, rest)
	}
	return b.String()
}

func parseImmunity(at timeline.Window, words []string) (timeline.Immunity, bool) {
	w := timeline.Immunity{Window: at, Strikes: len(words) == 0, Throws: len(words) == 0}
	for _, word := range words {
		switch strings.ToLower(word) {
		case "strike":
			w.Strikes = true
		case "throw":
			w.Throws = true
		default:
			return w, false
		}
	}
	return w, true
}

func formatImmunity(w timeline.Immunity) (timeline.Window, string) {
	switch {
	case !w.Throws:
		return w.Window, " strike"
	case !w.Strikes:
		return w.Window, " throw"
	}
	return w.Window, ""
}

func parseArmour(at timeline.Window, words []string) (timeline.Armour, bool) {
	if len(words) == 0 {
		return timeline.Armour{Window: at, Hits: 1}, true
	}
	hits, ok := parseCount(words[0])
	ok = ok && len(words) == 2 && (strings.EqualFold(words[1], "hits") || strings.EqualFold(words[1], "hit"))
	return timeline.Armour{Window: at, Hits: hits}, ok
}

func formatArmour(w timeline.Armour) (timeline.Window, string) {
	if w.Hits == 1 {
		return w.Window, ""
	}
	return w.Window, fmt.Sprintf(" %d hits", w.Hits)
}

func parseParry(at timeline.Window, words []string) (timeline.Window, bool) {
	return at, len(words) == 0
}

func formatParry(w timeline.Window) (timeline.Window, string) { return w, "" }
