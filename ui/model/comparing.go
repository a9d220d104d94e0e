package model

import (
	"context"
	"slices"

	"wakeline/storage"
	"wakeline/storage/guard"
	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/patch"
)

// Changed is a setup that two states of the move data judge otherwise.
type Changed struct {
	At int // among the setups, when it was compared
	compare.Change
}

// eachSetup calls do with every setup.
type eachSetup func(ctx context.Context, do func(at int, s *timeline.Setup) error) error

// CompareAll compares every setup of each on all cores, and returns those
// that changed, in their order. It ends early when ctx does. tell is told how
// many are done.
func CompareAll(ctx context.Context, each func(ctx context.Context, do func(at int, s *timeline.Setup) error) error,
	before, after *timeline.Project, tell func(done int)) ([]Changed, error) {
	return compareEach(ctx, each, compare.New(before, after), tell)
}

func compareEach(ctx context.Context, each eachSetup, both *compare.Comparison, tell func(done int)) (out []Changed, err error) {
	type placed struct {
		at    int
		setup timeline.Setup
	}
	done := 0
	err = guard.InOrder(ctx, "Comparing the setups", func(ctx context.Context, hand func(placed) error) error {
		return each(ctx, func(at int, s *timeline.Setup) error { return hand(placed{at, *s}) })
	}, func(_ context.Context, p placed) (c Changed, err error) {
		if both.Touches(&p.setup) {
			c = Changed{p.at, both.Of(&p.setup)}
		}
		return c, nil
	}, func(c Changed) error {
		if c.Changed() {
			out = append(out, c)
		}
		done++
		tell(done)
		return nil
	})
	if err != nil {
		return nil, err
	}
	return out, nil
}

// Patch is what changed from one revision of a project file to another.
type Patch struct {
	*patch.Patch
	From, To string
	Day      patch.Day // its mixes are not weighed yet

	pairs *patch.Pairs
	uses  map[string][]string // by a route's title, setups that name it or begin after it
}

// mostUses is how many setups of a route are kept.
const mostUses = 200

// NewPatch compares all setups of f under two of its revisions. It ends early
// when ctx does. tell is told how many are done.
func NewPatch(ctx context.Context, f *storage.File, from, to string, tell func(done int)) (*Patch, error) {
	before, err := f.DataOf(from)
	if err != nil {
		return nil, err
	}
	after, err := f.DataOf(to)
	if err != nil {
		return nil, err
	}
	p := &Patch{Patch: patch.New(before, after), From: from, To: to, uses: map[string][]string{}}
	p.Day.Parts, p.Day.Routes, p.pairs = p.Parts, p.Routes, p.NewPairs()
	routes := map[string][]*patch.Route{}
	for i := range p.Routes {
		routes[p.Routes[i].Fighter] = append(routes[p.Routes[i].Fighter], &p.Routes[i])
	}
	total := 0
	changes, err := compareEach(ctx, func(ctx context.Context, do func(at int, s *timeline.Setup) error) error {
		return f.EachSetup(ctx, func(at int, s *timeline.Setup) error {
			p.pairs.Add(s)
			for _, r := range routes[s.Attacker] {
				if list := p.uses[r.Title()]; len(list) < mostUses && usesRoute(s, r) {
					p.uses[r.Title()] = append(list, s.Name)
				}
			}
			total++
			return do(at, s)
		})
	}, p.Setups, tell)
	if err != nil {
		return nil, err
	}
	for i := range changes {
		p.Day.Setups = append(p.Day.Setups, changes[i].Change)
	}
	p.Day.Unchanged = total - len(changes)
	return p, nil
}

// usesRoute reports whether a setup names a route, or begins after its end.
func usesRoute(s *timeline.Setup, r *patch.Route) bool {
	if s.OnHit == r.Name || slices.Contains(s.Punish, r.Name) {
		return true
	}
	for _, state := range []*patch.RouteState{r.Before, r.After} {
		if state != nil && s.Ender != "" && state.Ends().Name == s.Ender {
			return true
		}
	}
	return false
}

// ToWeigh is how many setups there are to weigh.
func (p *Patch) ToWeigh() int { return p.pairs.Len() }

// Weigh weighs the mixes, and returns those that moved. It may run while p is
// read. tell is told how many setups are done.
func (p *Patch) Weigh(ctx context.Context, f *storage.File, tell func(done int)) ([]patch.Mix, error) {
	read, err := f.ByName()
	if err != nil {
		return nil, err
	}
	return p.pairs.Weigh(ctx, read, tell)
}

// SetupsOf names setups in which a route is at work.
func (p *Patch) SetupsOf(r *patch.Route) []string { return p.uses[r.Title()] }

// TurnedBy names the setups that changed by a part of the move data.
func (p *Patch) TurnedBy(part *compare.Cause) (out []string) {
	for i := range p.Day.Setups {
		c := &p.Day.Setups[i]
		if slices.ContainsFunc(c.By, func(by compare.Cause) bool {
			return by.DataPart == part.DataPart || part.Kind == compare.ReplyPart && by.Kind == compare.BodyPart && by.Fighter == part.Fighter &&
				slices.ContainsFunc(by.Fields, func(f compare.Difference) bool { return f.Field == "replies" })
		}) {
			out = append(out, c.Setup)
		}
	}
	return out
}

// Change is what became of the setup of that name; nil where nothing did.
func (p *Patch) Change(setup string) *compare.Change {
	for i := range p.Day.Setups {
		if p.Day.Setups[i].Setup == setup {
			return &p.Day.Setups[i]
		}
	}
	return nil
}
