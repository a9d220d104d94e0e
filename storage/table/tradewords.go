package table

import (
	"regexp"
	"slices"
	"strings"

	"wakeline/timeline"
)

// said are the words of the trade for one of ours.
type said struct {
	word string
	why  string // empty: the words mean the same
	as   []string
}

// kindWords and levelWords are what tables of others call kinds and levels.
var (
	kindWords = []said{
		{string(timeline.Strike), "an attack with active frames", []string{"attack", "normal", "command normal", "special", "super", "hit", "strikes"}},
		{string(timeline.Throw), "", []string{"t", "grab", "command grab", "command throw", "throws"}},
		{string(timeline.Dash), "", []string{"backdash", "back dash", "forward dash", "dashes", "walk"}},
		{string(timeline.Evade), "", []string{"dodge", "roll", "sidestep", "side step", "spot dodge"}},
		{string(timeline.Parry), "", []string{"counter", "parries"}},
	}
	levelWords = []said{
		{string(timeline.Mid), "", []string{"m", "mids", "middle"}},
		{string(timeline.Low), "", []string{"l", "lows"}},
		{string(timeline.Overhead), "", []string{"o", "oh", "overheads"}},
		{string(timeline.Mid), "high may be an overhead, or pass over a low body: counted as what either guard stops", []string{"h", "high"}},
		{string(timeline.Mid), "either guard stops it", []string{"any", "both", "all", "hl", "lh", "h/l", "l/h", "high/low", "low/high"}},
		{string(timeline.LevelThrow), "", []string{"t", "grab", "throws", "ground throw"}},
		{string(timeline.LevelAirThr), "", []string{"at", "air grab", "airthrow", "anti-air throw"}},
	}
)

const shortFor = "short for it"

// levelsOfHits are the levels of several hits: M, L or H/M.
var levelsOfHits = regexp.MustCompile(`^(?i:[hmlo]|mid|low|high|overhead)(?:\s*[,/+>-]\s*(?i:[hmlo]|mid|low|high|overhead))+$`)

func among(list []said, text string) ([]taken, bool) {
	text = strings.ToLower(text)
	for i := range list {
		if slices.Contains(list[i].as, text) {
			why := list[i].why
			if why == "" {
				why = shortFor
			}
			if len(text) > 2 && list[i].why == "" {
				why = "another word for it"
			}
			return one(list[i].word, why)
		}
	}
	return nil, false
}

// readWord reads another word for one of a field.
func readWord(c *foreign) ([]taken, bool) {
	switch {
	case c.isKind():
		return among(kindWords, c.text)
	case slices.Contains(c.words, string(timeline.Mid)):
		if got, ok := among(levelWords, c.text); ok {
			return got, true
		}
		if levelsOfHits.MatchString(c.text) {
			return one(string(timeline.Mid), "several levels: counted as what either guard stops")
		}
	}
	return nil, false
}

// readLevelAsKind takes a level in the column of kinds: M is a strike, and mid.
func readLevelAsKind(c *foreign) ([]taken, bool) {
	level := []taken{{text: strings.ToLower(c.text), why: "a level"}}
	if at := slices.IndexFunc(levelWords, func(s said) bool { return s.word == level[0].text }); at < 0 {
		var ok bool
		if level, ok = among(levelWords, c.text); !ok {
			return nil, false
		}
	}
	kind := timeline.Strike
	if level[0].text == string(timeline.LevelThrow) || level[0].text == string(timeline.LevelAirThr) {
		kind = timeline.Throw
	}
	level[0].to = levelColumn
	return append([]taken{{text: string(kind), why: "it says the level"}}, level...), true
}

var (
	windowSpan  = regexp.MustCompile(`(\d+)f?\s*(?:-|~|〜|to)\s*f?(\d+)`)
	windowFrame = regexp.MustCompile(`\bf(\d)`)
	windowHits  = regexp.MustCompile(`(?:\(\s*(\d+)\s*(?:hits?)?\s*\)|x\s?(\d+))\s*(;|$)`)
	windowNext  = regexp.MustCompile(`\s*[,+&]\s*(\d)`)
)

// windowWords are the words beside the frames of a window; those with nothing
// are left out.
var windowWords = map[string]string{
	"full": "", "fully": "", "all": "", "both": "", "complete": "", "inv": "", "invul": "", "invuln": "", "invincible": "", "invincibility": "",
	"invulnerable": "", "immune": "", "immunity": "", "frame": "", "frames": "", "from": "", "against": "", "to": "", "vs": "", "and": "", "f": "",
	"armor": "", "armour": "", "parry": "",
	"strikes": "strike", "attacks": "strike", "attack": "strike", "throws": "throw", "grab": "throw", "grabs": "throw",
}

// readWindows reads windows in other words: "f1~8 full", "1-8 throws, 9-12".
func readWindows(c *foreign) ([]taken, bool) {
	text := strings.ToLower(dashes.Replace(c.text))
	text = windowSpan.ReplaceAllString(text, "$1-$2")
	text = windowFrame.ReplaceAllString(text, "$1")
	text = windowHits.ReplaceAllString(text, " $1$2 hits$3")
	text = windowNext.ReplaceAllString(text, "; $1")
	text = strings.NewReplacer("/", " ", "(", " ", ")", " ").Replace(text)
	var parts []string
	for part := range strings.SplitSeq(text, ";") {
		var kept []string
		for _, word := range strings.Fields(part) {
			if other, ok := windowWords[word]; ok {
				word = other
			}
			if word != "" {
				kept = append(kept, word)
			}
		}
		parts = append(parts, strings.Join(kept, " "))
	}
	text = strings.Join(parts, "; ")
	if text == "" || c.try(text) != "" {
		return nil, false
	}
	return one(text, "the same in other words")
}
