package table

import (
	"regexp"
	"strconv"
	"strings"

	"wakeline/timeline"
)

// Numbers as tables of others have them: with units, with marks between
// thousands, with a comma or a point before decimals.

// number is one that was read.
type number struct {
	n      int  // rounded towards less
	broken bool // it isn't whole
	marks  bool // it has marks between thousands
}

var (
	numberForm = regexp.MustCompile(`^([+-]?)(\d+|[1-9]\d{0,2}(?:([., '’])\d{3})(?:[., '’]\d{3})*)(?:([.,])(\d+))?$`)
	unitForm   = regexp.MustCompile(`(?i)\s*(?:f|fr|frames?|pts?|points?|units?|segments?|bars?|hp)\.?$`)
	dashes     = strings.NewReplacer("\u2212", "-", "\u2013", "-", "\u2014", "-", "\uff0d", "-", "\u00a0", " ", "\u202f", " ", "\u2009", " ", "±", "+", "’", "'")
)

// readNumber reads one. Marks between thousands are taken where so many can be
// counted, in points and units; of frames there are never that many.
func readNumber(text string, unit timeline.Unit) (out number, ok bool) {
	text = strings.TrimSpace(unitForm.ReplaceAllString(dashes.Replace(text), ""))
	m := numberForm.FindStringSubmatch(text)
	if m == nil {
		return number{}, false
	}
	sign, whole, mark, point, part := m[1], m[2], m[3], m[4], m[5]
	if mark != "" {
		if unit == timeline.Frames || strings.Count(whole, mark)*4+strings.IndexAny(whole, mark) != len(whole) || point == mark {
			return number{}, false // it mixes marks, or may be a decimal
		}
		whole, out.marks = strings.ReplaceAll(whole, mark, ""), true
	} else if unit != timeline.Frames && len(part) == 3 && len(whole) <= 3 && whole[0] != '0' {
		whole, part, out.marks = whole+part, "", true
	}
	n, err := strconv.Atoi(whole)
	if err != nil {
		return number{}, false
	}
	out.broken = strings.Trim(part, "0") != ""
	if sign == "-" {
		if n = -n; out.broken {
			n--
		}
	}
	out.n = n
	return out, true
}

// careful is the whole number to count on.
func (n number) careful(care timeline.Care) string {
	if n.broken && care.Most {
		return strconv.Itoa(n.n + 1)
	}
	return strconv.Itoa(n.n)
}

var rangeForm = regexp.MustCompile(`^([+-]?\d+)\s*(~|〜|～|\.\.+|…|/|-|to|or)\s*([+-]?\d+)$`)

// readRange reads "3~5", "-4~-2", "20-24", "3 to 5": the lesser end and the
// greater one. -4-2 is none, since the second may be negative or not.
func readRange(text string) (least, most int, ok bool) {
	text = strings.TrimSpace(unitForm.ReplaceAllString(strings.ToLower(dashes.Replace(text)), ""))
	m := rangeForm.FindStringSubmatch(text)
	if m == nil || m[2] == "-" && strings.ContainsAny(m[1], "+-") && !strings.ContainsAny(m[3], "+-") {
		return 0, 0, false
	}
	a, errA := strconv.Atoi(m[1])
	b, errB := strconv.Atoi(m[3])
	return min(a, b), max(a, b), errA == nil && errB == nil
}

// carefulEnd is the end of a range to count on.
func carefulEnd(least, most int, care timeline.Care) string {
	if care.Most {
		return strconv.Itoa(most)
	}
	return strconv.Itoa(least)
}
