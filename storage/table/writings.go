package table

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"wakeline/timeline"
)

// traits are what is to be known of a field to read a cell of it.
type traits struct {
	column string
	kind   timeline.FieldKind
	unit   timeline.Unit
	care   timeline.Care
	words  []string
	knocks string
	try    func(text string) (want string) // what is wrong with a text, as the field itself reads it; empty: nothing
}

// number reports whether the field is one.
func (t *traits) number() bool {
	return t.kind == timeline.NumberField || t.kind == timeline.MaybeField
}

// active reports whether the field is the active frames: a list with a unit.
func (t *traits) active() bool { return t.kind == timeline.ListField && t.unit == timeline.Frames }

// windows reports whether the field is windows inside a move.
func (t *traits) windows() bool { return t.kind == timeline.ListField && t.unit == "" }

// foreign is a cell that the field itself can't read.
type foreign struct {
	*traits
	text  string
	rules timeline.Ruleset
	first int // the move's first active frame, counted from 1; 0: not known
}

// taken is what such a cell says.
type taken struct {
	text string // as the field of the column writes it; empty: nothing
	to   string // the column that it goes to; empty: the cell's own
	why  string // empty: it was merely written in another way
}

// writing is one way in which tables of others write cells.
type writing struct {
	name    string
	example string // of it
	column  string // that the example stands in
	means   string // what the example is taken for
	fits    func(t *traits) bool
	read    func(c *foreign) ([]taken, bool)
}

// writings is the one table of what a cell may say beside what its field reads
// itself, in the order in which they are tried.
func writings() []writing {
	return []writing{
		{"nothing", "-", "on_hit", "", (*traits).notText, readNothing},
		{"a number with a unit, decimals, or marks between thousands", "1.200", "damage", "1200", (*traits).number, readMarked},
		{"a part of the full health or gauge", "12,5 %", "damage", "125", (*traits).worth, readPercent},
		{"a knockdown, with its advantage or without", "KD +31", "on_hit", "31", (*traits).mayKnock, readKnockdown},
		{"frames until an effect and after it, or the hits of one move: all added up", "12+3", "startup", "15", (*traits).adds, readSum},
		{"several hits alike", "30x3", "damage", "90", (*traits).points, readTimes},
		{"first and last active frame", "5-7", "active", "3", (*traits).active, readActive},
		{"a range: the end that is the worse one for you", "-4~-2", "on_hit", "-4", (*traits).ranges, readEnds},
		{"a letter or another word", "L", "level", "low", (*traits).word, readWord},
		{"the level in place of the kind", "T", "kind", "throw", (*traits).isKind, readLevelAsKind},
		{"a mark for yes or no", "x", "air", "yes", (*traits).flag, readTick},
		{"windows in words", "f1~8 full", "immune", "1-8", (*traits).windows, readWindows},
		{"a mark that leads to a remark", "4*", "on_hit", "4", (*traits).notText, readRemarked},
	}
}

func (t *traits) notText() bool  { return t.kind != timeline.TextField }
func (t *traits) points() bool   { return t.unit == timeline.Points && t.number() }
func (t *traits) worth() bool    { return t.points() || t.unit == timeline.Segments && t.number() }
func (t *traits) mayKnock() bool { return t.knocks != "" }
func (t *traits) flag() bool     { return t.kind == timeline.FlagField }
func (t *traits) word() bool     { return t.kind == timeline.WordField }
func (t *traits) isKind() bool   { return t.column == timeline.MoveKind }
func (t *traits) ranges() bool   { return t.care.Why != "" && (t.number() || t.active()) }

// adds: an advantage is no sum, nor is a place on the ground.
func (t *traits) adds() bool {
	return t.worth() || t.kind == timeline.NumberField && t.unit == timeline.Frames || t.active()
}

func one(text, why string) ([]taken, bool) { return []taken{{text: text, why: why}}, true }

// understand reads a cell as others write it.
func (c *foreign) understand() ([]taken, bool) {
	for _, w := range writings() {
		if !w.fits(c.traits) {
			continue
		}
		if got, ok := w.read(c); ok && c.readable(got) {
			return got, true
		}
	}
	return nil, false
}

// readable reports whether the field itself reads what is to go into it.
func (c *foreign) readable(got []taken) bool {
	for i := range got {
		if got[i].text != "" && (got[i].to == "" || got[i].to == c.column) && c.try(got[i].text) != "" {
			return false
		}
	}
	return true
}

// fit is understand, where the field's own writing stands for itself.
func (c *foreign) fit() ([]taken, bool) {
	if c.text != "" && c.try(c.text) == "" {
		return one(c.text, "")
	}
	return c.understand()
}

var (
	noValue   = []string{"-", "--", "---", "–", "—", "−", "n/a", "na", "none", "nil", "null", "."}
	notKnown  = []string{"?", "??", "???", "unknown", "not known", "tbd", "tba"}
	ticksYes  = []string{"x", "y", "✓", "✔", "○", "●"}
	ticksNo   = []string{"n", "✗", "✘", "×"}
	remarks   = regexp.MustCompile(`^(.*[^*†‡§^\s])\s*(?:[*†‡§^]+|\[\d{1,2}\])$`)
	percents  = regexp.MustCompile(`^(\d+)(?:[.,](\d{1,6}))?\s*%$`)
	sums      = regexp.MustCompile(`^\d+(?:\s*\+\s*\d+)+$`)
	times     = regexp.MustCompile(`^(\d+)\s*[xX×*]\s*(\d+)$`)
	knocked   = `(?:(?:hard|soft|[hs])[ -]?)?(?:kd|knock[ -]?down|d)`
	knockFore = regexp.MustCompile(`^(?i:` + knocked + `)\s*[:(]?\s*([^)]*?)\s*\)?$`)
	knockAft  = regexp.MustCompile(`^([^(]*?)\s*[:(]?\s*(?i:` + knocked + `)\s*\)?$`)
)

func readNothing(c *foreign) ([]taken, bool) {
	text := strings.ToLower(c.text)
	switch {
	case slices.Contains(noValue, text):
		return one("", "")
	case slices.Contains(notKnown, text):
		return one("", "it isn't known")
	}
	return nil, false
}

func readMarked(c *foreign) ([]taken, bool) {
	n, ok := readNumber(c.text, c.unit)
	switch {
	case !ok || n.broken && c.care.Why == "":
		return nil, false
	case n.broken:
		return one(n.careful(c.care), "not a whole number: rounded to where "+c.care.Why)
	case n.marks:
		return one(strconv.Itoa(n.n), "the mark is one between thousands")
	}
	return one(strconv.Itoa(n.n), "")
}

// readPercent takes percents for parts of the ruleset's full health or gauge.
func readPercent(c *foreign) ([]taken, bool) {
	m := percents.FindStringSubmatch(c.text)
	if m == nil {
		return nil, false
	}
	whole, err := strconv.Atoi(m[1])
	if err != nil || whole > 10_000 {
		return nil, false
	}
	full, what := c.rules.Health, "health"
	if c.unit == timeline.Segments {
		full, what = c.rules.Gauge, "gauge"
	}
	part, _ := strconv.Atoi((m[2] + "000000")[:6])
	const hundred = 100 * 1_000_000
	all := int64(whole*1_000_000+part) * int64(full)
	n := all / hundred
	why := fmt.Sprintf("a part of the full %s, %d", what, full)
	if all%hundred != 0 {
		if c.care.Most {
			n++
		}
		why += ", rounded to where " + c.care.Why
	}
	return one(strconv.FormatInt(n, 10), why)
}

// readKnockdown takes "KD +31", "HKD 31", "+31 KD" and "KD", also with D alone.
// The advantage goes to the column of knockdowns. "D", without one, says nothing
// that can be counted with.
func readKnockdown(c *foreign) ([]taken, bool) {
	text := strings.ToLower(c.text)
	if c.column == c.knocks && (slices.Contains(ticksYes, text) || text == "yes") {
		return one("", "a knockdown that says no advantage: left empty")
	}
	for _, form := range []*regexp.Regexp{knockFore, knockAft} {
		m := form.FindStringSubmatch(c.text)
		if m == nil {
			continue
		}
		if m[1] == "" {
			return one("", "a knockdown that says no advantage: left empty")
		}
		why := "a knockdown with that advantage"
		if n, ok := readNumber(m[1], timeline.Frames); ok && !n.broken {
			return []taken{{strconv.Itoa(n.n), c.knocks, why}}, true
		}
		if least, _, ok := readRange(m[1]); ok {
			return []taken{{strconv.Itoa(least), c.knocks, why + "; of the range the end at which it leaves the least"}}, true
		}
	}
	return nil, false
}

// readSum adds up what stands between plus signs. Of a startup, 12+3 is taken
// for 12 frames until an effect that holds both sides, such as a freeze, and 3
// after it: the freeze holds both alike, so the first active frame is the 15th
// of the move. Of active frames both stretches follow one another.
func readSum(c *foreign) ([]taken, bool) {
	text := strings.TrimSpace(unitForm.ReplaceAllString(c.text, ""))
	if !sums.MatchString(text) {
		return nil, false
	}
	sum := 0
	for part := range strings.SplitSeq(text, "+") {
		n, err := strconv.Atoi(strings.TrimSpace(part))
		if err != nil || n > timeline.MaxPoints {
			return nil, false
		}
		sum += n
	}
	if c.unit == timeline.Frames {
		return one(strconv.Itoa(sum), "frames before and after an effect: added up")
	}
	return one(strconv.Itoa(sum), "several hits: added up")
}

func readTimes(c *foreign) ([]taken, bool) {
	m := times.FindStringSubmatch(c.text)
	if m == nil {
		return nil, false
	}
	a, errA := strconv.Atoi(m[1])
	b, errB := strconv.Atoi(m[2])
	if errA != nil || errB != nil || a > timeline.MaxPoints || b > timeline.MaxFrames {
		return nil, false
	}
	return one(strconv.Itoa(a*b), "several hits: added up")
}

// readActive takes 5-7 for the frames on which a move is active where its first
// active frame is the 5th; else it is a range like others.
func readActive(c *foreign) ([]taken, bool) {
	least, most, ok := readRange(c.text)
	if !ok || c.first == 0 || least != c.first {
		return nil, false
	}
	return one(strconv.Itoa(most-least+1), "its first and last active frame, by its startup")
}

func readEnds(c *foreign) ([]taken, bool) {
	least, most, ok := readRange(c.text)
	if !ok {
		return nil, false
	}
	return one(carefulEnd(least, most, c.care), "a range: the end at which "+c.care.Why)
}

func readTick(c *foreign) ([]taken, bool) {
	text := strings.ToLower(c.text)
	switch {
	case slices.Contains(ticksYes, text):
		return one("yes", "")
	case slices.Contains(ticksNo, text):
		return one("no", "")
	}
	return nil, false
}

func readRemarked(c *foreign) ([]taken, bool) {
	m := remarks.FindStringSubmatch(c.text)
	if m == nil {
		return nil, false
	}
	rest := *c
	rest.text = m[1]
	got, ok := rest.fit()
	if !ok {
		return nil, false
	}
	got = slices.Clone(got)
	for i := range got {
		got[i].why = strings.TrimPrefix(got[i].why+"; the mark after it leads to a remark", "; ")
	}
	return got, true
}
