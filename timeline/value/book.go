package value

import (
	"cmp"
	"slices"

	"wakeline/timeline"
)

// Book holds the routes of all fighters of a project, for many setups. It is
// not changed after NewBook; its methods may be called from several goroutines
// at once.
type Book struct{ fighters map[string]*repertoire }

// NewBook works out the routes of every fighter of p.
func NewBook(p *timeline.Project) *Book {
	b := &Book{make(map[string]*repertoire, len(p.Fighters))}
	for i := range p.Fighters {
		f := &p.Fighters[i]
		b.fighters[f.Name] = repertoireOf(Routes(p.Ruleset, f))
	}
	return b
}

// repertoire is the routes of a fighter; the lists hold those that count.
type repertoire struct {
	routes    []Route
	counting  []*Route // in the fighter's order
	best      []*Route // for itself: the best first
	costliest []*Route // for its rival: the one that costs most first
}

func repertoireOf(routes []Route) *repertoire {
	out := &repertoire{routes: routes}
	for i := range routes {
		if r := &routes[i]; r.Counts {
			out.counting = append(out.counting, r)
		}
	}
	out.best, out.costliest = slices.Clone(out.counting), slices.Clone(out.counting)
	slices.SortStableFunc(out.best, better)
	slices.SortStableFunc(out.costliest, costlier)
	return out
}

// punishes are the routes that a setup considers: those of these names, or all
// where there is none, in their order and the best first.
func (f *repertoire) punishes(names []string) (inOrder, best []*Route) {
	if len(names) == 0 {
		return f.counting, f.best
	}
	for _, r := range f.counting {
		if r.Named && slices.Contains(names, r.Name) {
			inOrder = append(inOrder, r)
		}
	}
	slices.SortStableFunc(inOrder, func(a, b *Route) int {
		return cmp.Compare(slices.Index(names, a.Name), slices.Index(names, b.Name))
	})
	best = slices.Clone(inOrder)
	slices.SortStableFunc(best, better)
	return inOrder, best
}

// better is below 0 where a is taken rather than b: of most points with its
// gauge in, then of most damage, of least cost, named.
func better(a, b *Route) int {
	return cmp.Or(cmp.Compare(b.Damage+b.worth, a.Damage+a.worth), costlier(a, b))
}

// costlier is below 0 where a is what the rival takes rather than b: of most
// damage, then of least cost, named.
func costlier(a, b *Route) int {
	named := 0
	if a.Named != b.Named {
		named = 1
		if a.Named {
			named = -1
		}
	}
	return cmp.Or(cmp.Compare(b.Damage, a.Damage), cmp.Compare(a.Cost, b.Cost), named)
}
