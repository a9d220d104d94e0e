package handout

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"wakeline/timeline/words"
)

// Cue is a stretch of a recorded lesson on which a setup is spoken of; times
// in thousandths of a second.
type Cue struct {
	From, To int64
	Title    string
	Text     string // empty: a chapter, which is its title alone
}

// CueOf is the cue of a verdict: its setup and word, then why. A chapter names
// the setup alone.
func CueOf(v *words.Verdict, from, to int64, chapter bool) Cue {
	if chapter {
		return Cue{From: from, To: to, Title: v.Setup}
	}
	return Cue{from, to, v.Setup + ": " + string(v.Called), v.Because}
}

// WebVTT writes cues as a W3C WebVTT file. Times must be at least 0, each cue
// must end after it begins, and none may begin before the one before it; the
// error names the cue, counted from 1.
func WebVTT(cues []Cue) (string, error) {
	var b strings.Builder
	b.WriteString("WEBVTT\n")
	last := int64(0)
	for i, c := range cues {
		if c.From < last || c.To <= c.From {
			return "", fmt.Errorf("cue %d, %q: expected it to begin at %s or later and to end after that, got %s to %s", i+1, c.Title, stamp(last), stamp(c.From), stamp(c.To))
		}
		last = c.From
		title := cueText(c.Title)
		if title == "" {
			title = "(no name)"
		}
		fmt.Fprintf(&b, "\n%d\n%s --> %s\n%s\n", i+1, stamp(c.From), stamp(c.To), title)
		if text := cueText(c.Text); text != "" {
			b.WriteString(text + "\n")
		}
	}
	return b.String(), nil
}

// stamp writes a time as WebVTT does: hours in two digits or more, minutes,
// seconds and thousandths.
func stamp(ms int64) string {
	sign := ""
	if ms < 0 {
		sign, ms = "-", -ms
	}
	return fmt.Sprintf("%s%02d:%02d:%02d.%03d", sign, ms/3600000, ms/60000%60, ms/1000%60, ms%1000)
}

// cueText is text on one line, with what WebVTT takes for markup escaped.
func cueText(s string) string {
	s = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) && !unicode.IsSpace(r) || r == unicode.ReplacementChar {
			return -1
		}
		return r
	}, s)
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(strings.Join(strings.Fields(s), " "))
}

// ReadTime reads seconds ("75", "75.5"), or minutes or hours before them
// ("1:15.5", "0:01:15"), as thousandths of a second; further decimals are cut.
func ReadTime(s string) (ms int64, err error) {
	whole, part, point := strings.Cut(strings.TrimSpace(s), ".")
	fields := strings.Split(whole, ":")
	ok := len(fields) <= 3 && (!point || part != "") && strings.Trim(part, "0123456789") == ""
	for i, f := range fields {
		n, err := strconv.ParseUint(f, 10, 31)
		ok = ok && err == nil && (i == 0 || n < 60 && len(f) == 2)
		ms = ms*60 + int64(n)
	}
	if thousandths, err := strconv.ParseUint((part + "000")[:3], 10, 31); ok && err == nil {
		return ms*1000 + int64(thousandths), nil
	}
	return 0, fmt.Errorf("expected a time such as 75.5 or 1:15.5, got %q", s)
}
