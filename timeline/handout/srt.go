package handout

import (
	"fmt"
	"strings"
)

// SRT writes cues as a SubRip file. No standard defines one; this is what
// readers agree on: a number, a line of times with a comma before the
// thousandths, the text, an empty line, UTF-8, and lines that end with CR LF.
// It has no way to write < > { }, which readers take for markup, so these are
// replaced by letters that look like them. Cues are as for WebVTT.
func SRT(cues []Cue) (string, error) {
	shown, err := captionsOf(cues, func(i int) ([]caption, error) { return cues[i].captions(i + 1) })
	plain := strings.NewReplacer("<", "‹", ">", "›", "{", "(", "}", ")")
	var b strings.Builder
	for i, c := range shown {
		times := strings.ReplaceAll(stamp(c.from)+" --> "+stamp(c.to), ".", ",")
		fmt.Fprintf(&b, "%d\r\n%s\r\n%s\r\n\r\n", i+1, times, plain.Replace(strings.Join(c.lines, "\r\n")))
	}
	return b.String(), err
}
