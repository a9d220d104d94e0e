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

func kindRule(c *checker, path *Path, m *Move) {
	if !m.Hits() && !m.wholeOnly() {
		c.fail(path, wantKind, quote(string(m.Kind)))
	}
}

// wholeOnly reports whether the move has a total alone.
func (m *Move) wholeOnly() bool { return m.Kind == Parry || m.Kind == Evade || m.Kind == Dash }

// one is the kind with its article: "a dash", "an evade".
func (k Kind) one() string {
	if k == Evade {
		return "an " + string(k)
	}
	return "a " + string(k)
}

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
	return "the total of " + m.Kind.one()
}

func totalAlone(m *Move) string {
	if !m.wholeOnly() {
		return ""
	}
	return "nothing: " + m.Kind.one() + " has a total alone"
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

func levelRule(c *checker, path *Path, m *Move) {
	switch l := m.Level; {
	case m.Kind == Strike && l != Mid && l != Low && l != Overhead:
		c.fail(path, wantLevel, quote(string(l)))
	case m.Kind == Throw && l != LevelThrow && l != LevelAirThr:
		c.fail(path, "throw or air throw for a throw", quote(string(l)))
	}
}

func activeRule(c *checker, path *Path, m *Move) {
	if !m.Hits() {
		return
	}
	if len(m.Active)%2 == 0 {
		c.fail(path, "an odd number of lengths: active, or active, gap, active, ...", strconv.Itoa(len(m.Active)))
	}
	for i, n := range m.Active {
		if n < 1 || n > MaxFrames {
			c.fail(path.Item(i), rangeWords(1, MaxFrames), strconv.Itoa(n))
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

// complete finishes a move that was read field by field: it sets the level
// that goes without saying, and returns the first field that is missing, with
// what was expected. given says which fields were read; at is nil where nothing
// is missing.
func (m *Move) complete(given func(field string) bool) (at *Field[Move], want, got string) {
	for i := range MoveFields {
		f := &MoveFields[i]
		if f.Need == nil && f.Not == nil && f.Unread == nil || f.Kind() == TextField { // a name is looked at with its like
			continue
		}
		switch there := given(f.Name); {
		case !there && f.Needed(m):
			return f, f.Need(m), quote("")
		case there && f.Unread != nil && f.Unread(m) != "" && !f.IsDefault(m):
			return f, f.Unread(m), f.got(m)
		case there && f.standard != nil && f.Text(m) == "":
			return f, "a " + f.Label + ", or none given", "an empty text"
		case f.standard != nil && f.Text(m) == "":
			f.Set(m, Content{Text: f.standard(m)})
		}
	}
	return nil, "", ""
}

// takeTotal removes the total of a strike or throw, which follows from its
// frames, and returns it; absent where it wasn't given.
func (m *Move) takeTotal(given func(field string) bool) (total Maybe) {
	if !m.Hits() {
		return Maybe{}
	}
	total = Maybe{m.Length, given(totalName)}
	m.Length = 0
	return total
}

// agrees checks that a given total is the sum of the move's frames. It returns
// what was expected, empty where it is.
func (m *Move) agrees(total Maybe, r Ruleset) (want string) {
	if !total.Given || total.N == m.Total(r) {
		return ""
	}
	return fmt.Sprintf("no total, or what startup, active and recovery come to, %d", m.Total(r))
}

// FinishMove completes a move whose cells were read one by one, and checks it as
// CheckMove does. given says which columns had something in them. The error is
// a *FieldError, with a path from "$".
func FinishMove(m *Move, given map[string]bool, r Ruleset) error {
	has := func(field string) bool { return given[field] }
	if at, want, got := m.complete(has); at != nil {
		return &FieldError{Path: (*Path)(nil).in(at.steps), Want: want, Got: got}
	}
	for i := range MoveFields {
		if !MoveFields[i].Both {
			continue
		}
		of := MoveFields[i].Parts
		for k := range of {
			if other := &of[1-k]; given[of[k].Column] && !given[other.Column] {
				return &FieldError{Path: (*Path)(nil).in(other.steps), Want: "a number beside " + of[k].Column, Got: quote("")}
			}
		}
	}
	total := m.takeTotal(has)
	if err := CheckMove(nil, m, r); err != nil {
		return err
	}
	if want := m.agrees(total, r); want != "" {
		return &FieldError{Path: (*Path)(nil).At(totalName), Want: want, Got: total.String()}
	}
	return nil
}
