package table

import (
	"slices"
	"strings"
	"unicode/utf8"

	"wakeline/storage/book"
)

// Rows that are no move: remarks, lines drawn with letters, names of groups.

// isRule reports whether a row is a line drawn under the headings, as in
// tables that are written with bars.
func isRule(row *book.Row) bool {
	filled := 0
	for _, cell := range row.Cells {
		cell = strings.TrimSpace(cell)
		if cell == "" {
			continue
		}
		if strings.Trim(cell, "-=:+") != "" || len(cell) < 3 {
			return false
		}
		filled++
	}
	return filled > 0
}

// longestName is how many letters a name alone in its row has at most; what is
// longer is a remark.
const longestName = 40

// isRemark reports whether the only cell of a row is a remark: it begins with a
// mark for one, or is a sentence.
func isRemark(text string) bool {
	for _, mark := range []string{"#", "//", "--", "*", "!", ";", "note:", "notes:", "source:", "remark:"} {
		if strings.HasPrefix(strings.ToLower(text), mark) {
			return true
		}
	}
	return strings.HasSuffix(text, ".") || utf8.RuneCountInString(text) > longestName
}

func isName(text string) bool { return !isRemark(text) && !isGroup(text) }

// groups are what groups of moves are called.
var groups = []string{
	"normals", "normal", "specials", "special", "supers", "super", "throws", "grabs", "jumps", "dashes", "attacks", "moves", "strikes",
	"commandnormals", "uniqueattacks", "uniquemoves", "universal", "universalmoves", "systemmechanics", "movement", "airnormals", "air",
	"standing", "standingnormals", "crouching", "crouchingnormals", "jumping", "jumpingnormals", "groundnormals", "ground", "other", "others",
	"reversals", "parries", "evades", "routes", "combos", "fillers", "enders", "knockdowns", "specialmoves", "superarts", "stance", "stances",
}

func isGroup(text string) bool { return slices.Contains(groups, letters(text)) }
