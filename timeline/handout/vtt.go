package handout

import (
	"fmt"
	"strconv"
	"strings"

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

// WebVTT writes cues as a W3C WebVTT file: each in captions of at most two
// lines of 42 letters, a chapter as its title on one line. Times must be at
// least 0, each cue must end after it begins, and none may begin before the one
// before it; the error names the cue, counted from 1.
func WebVTT(cues []Cue) (string, error) {
	shown, err := captionsOf(cues, func(i int) ([]caption, error) {
		if c := &cues[i]; c.Text == "" {
			return []caption{{c.From, c.To, []string{c.named()}}}, nil
		}
		return cues[i].captions(i + 1)
	})
	var b strings.Builder
	b.WriteString("WEBVTT\n")
	for i, c := range shown {
		fmt.Fprintf(&b, "\n%d\n%s --> %s\n%s\n", i+1, stamp(c.from), stamp(c.to), cueText.Replace(strings.Join(c.lines, "\n")))
	}
	return b.String(), err
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

// cueText escapes what WebVTT takes for markup.
var cueText = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")

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
