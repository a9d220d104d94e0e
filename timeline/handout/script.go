package handout

import (
	"fmt"
	"strings"

	"wakeline/timeline"
)

// Script is what a voice says to a film, in order, each part under the time on
// which it begins and how long it may take, those of a section under its
// heading. It is plain text, and Markdown too.
func Script(title string, parts []Part, rate timeline.Rate) string {
	var b strings.Builder
	cues := Timed(parts, rate, false)
	length := int64(0)
	if len(cues) > 0 {
		length = cues[len(cues)-1].To
	}
	fmt.Fprintf(&b, "# %s\n\n%s in all.\n", escape(title), clockTime(length))
	for i := range cues {
		c, under := &cues[i], ""
		if sectioned(parts) && parts[i].Section == "" {
			under = "#"
		}
		fmt.Fprintf(&b, "\n##%s %s %s\n\nFor %s s.\n\n", under, clockTime(c.From), escape(c.Title), seconds(c.To-c.From))
		for _, s := range sentences(oneLine(c.Text)) {
			fmt.Fprintf(&b, "%s\n", escape(s))
		}
	}
	return b.String()
}

// clockTime writes a time in minutes and seconds: 1:15.5.
func clockTime(ms int64) string {
	return fmt.Sprintf("%d:%s", ms/60000, pad(seconds(ms%60000)))
}

func pad(s string) string {
	if len(s) < 2 || s[1] == '.' {
		return "0" + s
	}
	return s
}

// seconds writes thousandths as seconds, without zeros at the end.
func seconds(ms int64) string {
	s := fmt.Sprintf("%d.%03d", ms/1000, ms%1000)
	return strings.TrimRight(strings.TrimRight(s, "0"), ".")
}
