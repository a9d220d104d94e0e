package compare

import (
	"slices"

	"wakeline/timeline"
)

// PartKind says what a part of the move data is.
type PartKind string

// The kinds of a part. A move and a jump share their names, so both are a
// MovePart; a FighterPart is a fighter that one state lacks. A ReplyPart is a
// standing reply, named by its title; it and a RoutePart are never the cause of
// a verdict: those replies stand in the BodyPart there.
const (
	RulesetPart PartKind = "ruleset"
	FighterPart PartKind = "fighter"
	BodyPart    PartKind = "body"
	MovePart    PartKind = "move"
	RisePart    PartKind = "rise"
	ReplyPart   PartKind = "reply"
	RoutePart   PartKind = "route"
)

// DataPart is one thing of the move data that a setup may use.
type DataPart struct {
	Kind    PartKind
	Fighter string // empty for the ruleset
	Name    string // of a move, jump, rise, reply or route
}

// Cause is a part whose change changes a setup's result.
type Cause struct {
	DataPart
	Jump      bool // it is a jump, or became one
	New, Gone bool // only the later state has it, or only the earlier
	Fields    []Difference
}

// Difference is one field that stands otherwise in the later state: those
// that the result needs, written as people write them.
type Difference struct {
	Field         string // as in the project text: "startup", "knockdown.wall"
	Noun          string // in a sentence: "startup", "wall knockdown"
	Before, After string
}

// part is a part as it stands in both states, a pointer or nil.
type part struct {
	DataPart
	before, after any
	differs       bool
}

// causes finds what turned the result: the parts that alone, put into the
// earlier state, change it; where none does, the least lot of them that
// together make the later result.
func (t *trial) causes(before, after []any, c *Change) (by []Cause, together bool) {
	var differ []int
	for i, p := range t.parts {
		if p.differs {
			differ = append(differ, i)
		}
	}
	if len(differ) == 1 {
		return []Cause{t.cause(differ[0], before, after)}, false
	}
	for _, i := range differ {
		mixed := slices.Clone(before)
		mixed[i] = after[i]
		got, ok := t.mixture(mixed)
		// A half of a change that only goes whole: it can't be judged alone,
		// though the later state can.
		if ok && !got.same(&c.Before) && (got.Judged() || !c.After.Judged()) {
			by = append(by, t.cause(i, before, mixed))
		}
	}
	if len(by) > 0 {
		return by, false
	}
	mixed := slices.Clone(after)
	need := slices.Clone(differ)
	for _, i := range differ {
		mixed[i] = before[i]
		if got, ok := t.mixture(mixed); ok && got.same(&c.After) {
			need = slices.DeleteFunc(need, func(k int) bool { return k == i })
			continue
		}
		mixed[i] = after[i]
	}
	for _, i := range need {
		context := slices.Clone(mixed)
		context[i] = before[i]
		by = append(by, t.cause(i, context, mixed))
	}
	return by, len(by) > 1
}

// mixture judges values of both states mixed. It is not ok where they break
// the rules of the move data together, as an immunity past the end of a move
// that another ruleset counts shorter.
func (t *trial) mixture(values []any) (s State, ok bool) {
	s = t.judge(values)
	if !s.Judged() {
		return s, true
	}
	p := t.project(values)
	for i := range p.Fighters {
		f := &p.Fighters[i]
		f.Replies = nil        // those asked were judged; the others name moves that aren't here
		if len(f.Rises) == 0 { // none that the setup uses
			f.Rises = timeline.DefaultRises()
		}
	}
	return s, p.CheckData() == nil
}

// cause says what of part i makes the result of after out of that of before,
// which differ in part i alone.
func (t *trial) cause(i int, before, after []any) Cause {
	out := Cause{DataPart: t.parts[i].DataPart, New: before[i] == nil, Gone: after[i] == nil}
	for _, v := range []any{before[i], after[i]} {
		if _, ok := v.(*timeline.Jump); ok {
			out.Jump = true
		}
	}
	changed := changedFields(before[i], after[i])
	if len(changed) > 1 {
		changed = t.needed(i, changed, before, after)
	}
	return fieldsOf(out, changed, before[i], after[i])
}

// needed drops the fields, the last first, without which the result is the
// same.
func (t *trial) needed(i int, changed []fieldOf, before, after []any) []fieldOf {
	want := t.judge(after)
	mixed := slices.Clone(before)
	kept := slices.Clone(changed)
	for k := len(changed) - 1; k >= 0; k-- {
		fewer := slices.Delete(slices.Clone(kept), k, k+1)
		mixed[i] = mix(before[i], after[i], fewer)
		if got, ok := t.mixture(mixed); ok && got.same(&want) {
			kept = fewer
		}
	}
	return kept
}
