package table

import (
	"regexp"
	"slices"
	"strings"
	"unicode"

	"wakeline/timeline"
)

// Guess is the column of a table of moves that a heading of another's table
// seems to mean; empty for none. Letters alone are compared, without a unit in
// brackets.
func Guess(heading string) string { return ofMoves.guess(heading) }

// GuessRoute is the same for a table of routes.
func GuessRoute(heading string) string { return ofRoutes.guess(heading) }

// Alike reports whether two headings have the same letters, whatever stands
// between them.
func Alike(a, b string) bool { return letters(a) == letters(b) }

func letters(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, s)
}

var (
	unitInBrackets = regexp.MustCompile(`(?i)\s*[(\[]\s*(?:in\s+)?(f|fr|frames?|pts?|points?|units?|px|segments?|bars?|hp|%|percent)\s*[)\]]\s*$`)
	unitAfter      = regexp.MustCompile(`(?i)[ _-]+(?:in[ _-]+)?(?:frames?|points|percent)$`)
)

// heading is one of a table.
type heading struct {
	Place
	text    string // bare of the spaces around it
	percent bool   // what stands under it is a percent
}

func newHeading(at Place, text string) heading {
	text = strings.TrimSpace(text)
	at.Heading = cut(text)
	unit := unitInBrackets.FindStringSubmatch(text)
	percent := unit != nil && (unit[1] == "%" || strings.EqualFold(unit[1], "percent")) || strings.HasSuffix(text, "%")
	return heading{at, text, percent}
}

// fighterWords and so on are headings of others for columns that are no field.
var (
	fighterWords = []string{"character", "char", "fighter name", "character name", "name of fighter", "who"}
	stepsWords   = []string{"combo", "sequence", "string", "inputs", "moves"}
)

// guess is the column that a heading seems to mean, empty for none.
func (sh *shape) guess(text string) string {
	text = strings.TrimSuffix(strings.TrimSpace(text), "%")
	bare := unitInBrackets.ReplaceAllString(text, "")
	for _, try := range []string{text, bare, unitAfter.ReplaceAllString(bare, "")} {
		try = letters(try)
		if try == "" {
			continue
		}
		for _, name := range sh.names {
			if letters(name) == try {
				return name
			}
		}
		for _, name := range sh.names {
			if slices.ContainsFunc(sh.also(name), func(s string) bool { return letters(s) == try }) {
				return name
			}
		}
	}
	return ""
}

// column is the column of ours that a heading stands for. known is false where
// it is none, sure where it is mapped or in our own letters.
func (sh *shape) column(text string, renamed map[string]string) (name string, known, sure bool) {
	key := strings.ToLower(strings.TrimSpace(text))
	if name, ok := renamed[key]; ok {
		return name, true, true
	}
	if name := timeline.ColumnOf(key); slices.Contains(sh.names, name) {
		return name, true, true
	}
	name = sh.guess(key)
	return name, name != "", name != "" && (Alike(name, key) || Alike(name, unitInBrackets.ReplaceAllString(key, "")))
}
