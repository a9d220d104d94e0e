package timeline

import (
	"fmt"
	"strconv"
)

// What a move must and must not give, by its kind, for the table of its fields.

const (
	wantKind  = "strike, throw, parry, evade or dash"
	wantLevel = "mid, low or overhead for a strike"
)

func kindRule(c *checker, path string, m *Move) {
	if !m.Hits() && !m.wholeOnly() {
		c.fail(path, wantKind, quote(string(m.Kind)))
	}
}

// wholeOnly reports whether the move has a total alone.
func (m *Move) wholeOnly() bool { return m.Kind == Parry || m.Kind == Evade || m.Kind == Dash }

// ofHits asks for what a strike or throw must give.
func ofHits(what string) func(m *Move) string {
	return func(m *Move) string {
		if !m.Hits() {
			return ""
		}
		return what + string(m.Kind)
	}
}

func needTotal(m *Move) string {
	if !m.wholeOnly() {
		return ""
	}
	return "the total of a " + string(m.Kind)
}

func totalAlone(m *Move) string {
	if !m.wholeOnly() {
		return ""
	}
	return "nothing: a " + string(m.Kind) + " has a total alone"
}

func needLevel(m *Move) string {
	if m.Kind != Strike {
		return ""
	}
	return wantLevel
}

func notLevel(m *Move) string {
	if m.Hits() {
		return ""
	}
	return "no level: only strikes and throws have one"
}

// defaultLevel is the level of a move that gives none.
func defaultLevel(m *Move) string {
	if m.Kind == Throw {
		return string(LevelThrow)
	}
	return ""
}

func levelRule(c *checker, path string, m *Move) {
	switch l := m.Level; {
	case m.Kind == Strike && l != Mid && l != Low && l != Overhead:
		c.fail(path, wantLevel, quote(string(l)))
	case m.Kind == Throw && l != LevelThrow && l != LevelAirThr:
		c.fail(path, "throw or air throw for a throw", quote(string(l)))
	}
}

func activeRule(c *checker, path string, m *Move) {
	if !m.Hits() {
		return
	}
	if len(m.Active)%2 == 0 {
		c.fail(path, "an odd number of lengths: active, or active, gap, active, ...", strconv.Itoa(len(m.Active)))
	}
	for i, n := range m.Active {
		if n < 1 || n > MaxFrames {
			c.fail(fmt.Sprintf("%s[%d]", path, i), rangeWords(1, MaxFrames), strconv.Itoa(n))
		}
	}
}

// besideGiven is want where the other number is given.
func besideGiven(other Maybe, want string) string {
	if !other.Given {
		return ""
	}
	return want
}

// complete gives a move that was read field by field the level of its kind
// where it has none, and returns what else it lacks; given says what was read.
// at is nil where it lacks nothing.
func (m *Move) complete(given func(field string) bool) (at *Field[Move], want, got string) {
	for i := range MoveFields {
		f := &MoveFields[i]
		switch there := given(f.Name); {
		case !there && f.Needed(m):
			return f, f.Need(m), quote("")
		case there && f.standard != nil && f.Text(m) == "":
			return f, "a " + f.Label + ", or none given", "an empty text"
		case f.standard != nil && f.Text(m) == "":
			f.Set(m, Content{Text: f.standard(m)})
		}
	}
	return nil, "", ""
}

// takeTotal drops the total of a move whose frames give one, and returns what
// is wrong with it where it says another number. at is nil where all is well.
func (m *Move) takeTotal(given func(field string) bool, r Ruleset) (at *Field[Move], want, got string) {
	total := m.Length
	if !m.Hits() {
		return nil, "", ""
	}
	m.Length = 0
	if f := FieldNamed(MoveFields, totalName); given(f.Name) && total != m.Total(r) {
		return f, fmt.Sprintf("no total, or what startup, active and recovery come to, %d", m.Total(r)), strconv.Itoa(total)
	}
	return nil, "", ""
}
