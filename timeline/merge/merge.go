package merge

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"wakeline/timeline"
)

// Result is one project made of two, and what makes it out of ours.
type Result struct {
	Side

	Edits     []timeline.Edit // of the project, in an order in which they can be done
	ListEdits []ListEdit

	setups []origin // of the setups of Project, as far as they aren't ours unchanged
}

// ListEdit replaces the saved list called Before, or adds one where that is
// empty.
type ListEdit struct {
	Before string
	List   timeline.SavedList
}

// origin is a setup of the result, and where it came from.
type origin struct{ at, ours, their int }

// Problem is why a choice can't be carried out: what comes of it breaks a rule.
type Problem struct {
	Item int // whose choice it is, -1 where it is of no single one
	Err  error
}

// ProblemsError says what keeps two projects from being merged.
type ProblemsError struct {
	Problems []Problem // the first ones, in order of the items
	More     int       // how many there are besides
}

// Error says the first.
func (e *ProblemsError) Error() string {
	text := e.Problems[0].Err.Error()
	if more := e.Others(); more > 0 {
		text += fmt.Sprintf(" (and %d more)", more)
	}
	return text
}

// Others is how many there are besides the first.
func (e *ProblemsError) Others() int { return len(e.Problems) - 1 + e.More }

// mostProblems is how many problems are told.
const mostProblems = 100

// mergeStep is how many setups are merged before the progress is told.
const mergeStep = 1000

// Merge makes one project of both: of each item what was chosen for it. Neither
// side is changed; the result shares what it can. Where the result would break a
// rule, as where a setup names a move that was left out, the error is a
// *ProblemsError. tell, which may be nil, is told how many setups were looked
// at.
func (c *Comparison) Merge(ctx context.Context, choices []Choice, tell func(done, of int)) (*Result, error) {
	if len(choices) != len(c.Items) {
		return nil, fmt.Errorf("expected %d choices, got %d", len(c.Items), len(choices))
	}
	for i := range choices {
		if !slices.Contains(c.Items[i].Choices(), choices[i]) {
			return nil, fmt.Errorf("%s: expected a choice that it has", c.Items[i].Name)
		}
	}
	m := &merging{Comparison: c, choices: choices, out: &Result{}}
	o := c.ours.Project
	m.out.Project = &timeline.Project{Ruleset: o.Ruleset, Fighters: slices.Clone(o.Fighters)}
	m.ruleset()
	m.fighters()
	m.setups()
	m.lists()
	if err := m.check(ctx, tell); err != nil {
		return nil, err
	}
	return m.out, nil
}

// merging is a merge in the making.
type merging struct {
	*Comparison
	choices  []Choice
	out      *Result
	from     []int // the item of each setup of the result
	problems ProblemsError
}

// each calls do with every item of a kind.
func (m *merging) each(kind Kind, do func(it *Item, choice Choice)) {
	for i := range m.Items {
		if m.Items[i].Kind == kind {
			do(&m.Items[i], m.choices[i])
		}
	}
}

func (m *merging) edit(e timeline.Edit) { m.out.Edits = append(m.out.Edits, e) }

func (m *merging) ruleset() {
	changed := false
	m.each(RulesetKind, func(it *Item, choice Choice) {
		if choice == Theirs && it.State == Different {
			copyFields(timeline.RulesetFields[it.ours:it.ours+1], &m.out.Project.Ruleset, &m.theirs.Project.Ruleset)
			changed = true
		}
	})
	if changed {
		m.edit(timeline.RulesetEdit{Ruleset: m.out.Project.Ruleset})
	}
}

// fighters puts in what fighters have: moves and jumps before what names them.
func (m *merging) fighters() {
	p, t := m.out.Project, m.theirs.Project
	owner := map[string]int{}
	for i := range p.Fighters {
		owner[p.Fighters[i].Name] = i
	}
	m.each(FighterKind, func(it *Item, choice Choice) {
		if choice != Theirs {
			return
		}
		theirs := &t.Fighters[it.their]
		if it.State == New {
			p.Fighters = append(p.Fighters, *theirs)
			m.edit(timeline.FighterEdit{Fighter: theirs})
			return
		}
		copyFields(timeline.FighterFields, &p.Fighters[it.ours], theirs)
	})
	owned[timeline.Move](m, MoveKind, owner)
	owned[timeline.Jump](m, JumpKind, owner)
	owned[timeline.Rise](m, RiseKind, owner)
	owned[timeline.Route](m, RouteKind, owner)
	asked := map[string]bool{}
	m.each(ReplyKind, func(it *Item, choice Choice) {
		if choice == Theirs {
			put(&p.Fighters[owner[it.Owner]].Replies, it, t.Fighter(it.Owner).Replies)
			asked[it.Owner] = true
		}
	})
	m.each(FighterKind, func(it *Item, choice Choice) {
		if it.ours >= 0 && (asked[it.Name] || choice == Theirs) {
			own := p.Fighters[it.ours].Own()
			m.edit(timeline.FighterEdit{Before: it.Name, Fighter: &own})
		}
	})
}

// owned puts in what fighters have of a kind; owner is the place of each.
func owned[T any, P timeline.Owned[T]](m *merging, kind Kind, owner map[string]int) {
	m.each(kind, func(it *Item, choice Choice) {
		if choice == Theirs {
			v := put(P(nil).In(&m.out.Project.Fighters[owner[it.Owner]]), it, *P(nil).In(m.theirs.Project.Fighter(it.Owner)))
			m.edit(timeline.OwnedEdit[T, P]{Owner: it.Owner, Before: before(it), To: v})
		}
	})
}

// copyFields gives to all that from has of some fields.
func copyFields[T any](of []timeline.Field[T], to, from *T) {
	for _, f := range timeline.Differing(of, to, from) {
		f.Copy(to, from)
	}
}

// before is what the item is called in ours, empty where it is new there.
func before(it *Item) string {
	if it.ours < 0 {
		return ""
	}
	return it.Name
}

// put has theirs take the place of ours in a list, or adds it, and leaves the
// list that was there as it is.
func put[T any](list *[]T, it *Item, theirs []T) *T {
	v := &theirs[it.their]
	*list = slices.Clip(*list)
	if it.ours < 0 {
		*list = append(*list, *v)
		return v
	}
	*list = slices.Clone(*list)
	(*list)[it.ours] = *v
	return v
}

// setups puts the setups in; of both, theirs gets a name that no setup of
// either side has.
func (m *merging) setups() {
	p, t := m.out.Project, m.theirs.Project
	p.Setups = slices.Clone(m.ours.Project.Setups)
	m.from = make([]int, len(p.Setups))
	var taken map[string]bool
	for i := range m.Items {
		it := &m.Items[i]
		if it.Kind != SetupKind {
			continue
		}
		if it.ours >= 0 {
			m.from[it.ours] = i
		}
		choice := m.choices[i]
		if choice == Ours {
			continue
		}
		theirs := &t.Setups[it.their]
		if choice == Theirs && it.ours >= 0 {
			p.Setups[it.ours] = *theirs
			m.edit(timeline.SetupEdit{Before: it.Name, Setup: theirs})
			m.out.setups = append(m.out.setups, origin{it.ours, it.ours, it.their})
			continue
		}
		if choice == Both {
			if taken == nil {
				taken = map[string]bool{}
				for k := range m.Items {
					if m.Items[k].Kind == SetupKind {
						taken[m.Items[k].Name] = true
					}
				}
			}
			named := *theirs
			named.Name = freeName(it.Name, func(name string) bool { return taken[name] })
			taken[named.Name] = true
			theirs = &named
		}
		m.out.setups = append(m.out.setups, origin{len(p.Setups), -1, it.their})
		p.Setups = append(p.Setups, *theirs)
		m.from = append(m.from, i)
		m.edit(timeline.SetupEdit{Setup: theirs})
	}
}

// lists puts the saved lists in. Where one of theirs gets another name, so do
// those that name it.
func (m *merging) lists() {
	m.out.Lists = slices.Clone(m.ours.Lists)
	taken := map[string]bool{}
	m.each(ListKind, func(it *Item, _ Choice) { taken[strings.ToLower(it.Name)] = true })
	renamed := map[string]string{}
	m.each(ListKind, func(it *Item, choice Choice) {
		if choice == Both {
			name := freeName(it.Name, func(name string) bool { return taken[strings.ToLower(name)] })
			taken[strings.ToLower(name)], renamed[it.Name] = true, name
		}
	})
	m.each(ListKind, func(it *Item, choice Choice) {
		if choice == Ours {
			return
		}
		l := m.theirs.Lists[it.their]
		m.each(ListKind, func(other *Item, _ Choice) {
			if after, ok := renamed[other.Name]; ok {
				l.Search = timeline.RenameList(l.Search, other.Name, after)
			}
		})
		l.Name = it.Name
		if choice == Both {
			l.Name = renamed[it.Name]
		}
		if choice == Theirs && it.ours >= 0 {
			m.out.Lists[it.ours] = l
			m.out.ListEdits = append(m.out.ListEdits, ListEdit{it.Name, l})
			return
		}
		m.out.Lists = append(m.out.Lists, l)
		m.out.ListEdits = append(m.out.ListEdits, ListEdit{"", l})
	})
}

// freeName is name with the first number after it that is not taken.
func freeName(name string, taken func(name string) bool) string {
	name = timeline.CutName(name, len(" 999999"))
	for n := 2; ; n++ {
		if free := fmt.Sprintf("%s %d", name, n); !taken(free) {
			return free
		}
	}
}

// check holds the result against the rules of a project.
func (m *merging) check(ctx context.Context, tell func(done, of int)) error {
	p := m.out.Project
	bare := p.Bare()
	if err := bare.CheckData(); err != nil {
		m.problem(-1, err)
		return &m.problems // a setup can't be looked at without sound data
	}
	ix := timeline.NewIndex(bare)
	for i := range p.Setups {
		if i%mergeStep == 0 {
			if err := ctx.Err(); err != nil {
				return err
			}
			if tell != nil {
				tell(i, len(p.Setups))
			}
		}
		if err := ix.CheckSetup(timeline.SetupPath(p.Setups[i].Name), &p.Setups[i]); err != nil {
			m.problem(m.from[i], err)
		}
	}
	if i, err := timeline.CheckLists(m.out.Lists); err != nil {
		m.problem(m.listItem(m.out.Lists[i].Name), err)
	}
	if len(m.problems.Problems) > 0 {
		return &m.problems
	}
	return nil
}

// listItem is the item of a list, -1 where its name is new.
func (m *merging) listItem(name string) int {
	return slices.IndexFunc(m.Items, func(it Item) bool { return it.Kind == ListKind && it.Name == name })
}

func (m *merging) problem(item int, err error) {
	if len(m.problems.Problems) == mostProblems {
		m.problems.More++
		return
	}
	m.problems.Problems = append(m.problems.Problems, Problem{item, err})
}
