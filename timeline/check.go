package timeline

import "fmt"

// Limits of the numbers in a project. Frames past the width can't be judged,
// so MaxFrames is the width; units and points are bounded so that no product
// of them overflows.
const (
	MaxFrames = Width
	MaxUnits  = 1_000_000
	MaxPoints = 1_000_000_000
	maxRate   = 1_000_000
	maxShield = 16 // armour windows of one move
)

// FieldError is a value of a project that breaks a rule.
type FieldError struct {
	Path *Path
	Want string // what was expected
	Got  string // what stands there, empty where nothing does
	Name string // the name that stands there, where what has it doesn't fit
}

// Error says where, what was expected, and what stands there.
func (e *FieldError) Error() string {
	if e.Got == "" {
		return fmt.Sprintf("%s: expected %s", e.Path, e.Want)
	}
	return fmt.Sprintf("%s: expected %s, got %s", e.Path, e.Want, e.Got)
}

// Check returns the first rule of interfaces.md that p breaks as a
// *FieldError, in the order of the project text; nil where it keeps them all.
// It looks at ranges, names and what must go together. Whether a setup's
// frames fit the width is Compile's to say.
func (p *Project) Check() error {
	if err := p.CheckData(); err != nil {
		return err
	}
	c := checker{rules: p.Ruleset}
	seen := make(names, len(p.Setups))
	ix := NewIndex(p)
	for i := range p.Setups {
		path := (*Path)(nil).At("setups").Item(i)
		c.name(path, p.Setups[i].Name, seen)
		c.setup(path, ix.roster, &p.Setups[i])
		if c.err != nil {
			return c.err
		}
	}
	return nil
}

// CheckData is Check of the ruleset and the fighters alone.
func (p *Project) CheckData() error {
	c := checker{rules: p.Ruleset}
	checkFields(&c, (*Path)(nil).At("ruleset"), RulesetFields, &p.Ruleset)
	seen := names{}
	for i := range p.Fighters {
		path := (*Path)(nil).At("fighters").Item(i)
		c.name(path, p.Fighters[i].Name, seen)
		c.fighter(path, &p.Fighters[i])
	}
	return c.first()
}

// CheckSetup is Check of one setup against p's fighters. Paths of errors begin
// with path. It doesn't check that no other setup has the same name.
func (p *Project) CheckSetup(path *Path, s *Setup) error {
	return checkSetup(p.Ruleset, p.roster, path, s)
}

func checkSetup(rules Ruleset, find finder, path *Path, s *Setup) error {
	c := checker{rules: rules}
	c.name(path, s.Name, names{})
	c.setup(path, find, s)
	return c.first()
}

// CheckMove returns the first rule of interfaces.md that m breaks by itself,
// apart from what else its fighter has, as a *FieldError whose path begins
// with path; nil where it keeps them all.
func CheckMove(path *Path, m *Move, r Ruleset) error {
	c := checker{rules: r}
	c.name(path, m.Name, names{})
	c.free(path, m.Name)
	c.move(path, m)
	if c.err != nil {
		return c.err
	}
	return nil
}

// CheckRoute is CheckMove for a route of f, apart from f's other routes.
func CheckRoute(path *Path, f *Fighter, r *Route) error {
	c := checker{}
	c.name(path, r.Name, names{})
	c.route(path, &roster{Fighter: f}, r)
	if c.err != nil {
		return c.err
	}
	return nil
}

type names map[string]bool

// checker keeps the first error it meets.
type checker struct {
	rules Ruleset
	total int // frames of the move that is checked
	err   *FieldError
}

// first is the error kept, as a plain nil where there is none.
func (c *checker) first() error {
	if c.err == nil {
		return nil
	}
	return c.err
}

func (c *checker) fail(path *Path, want, got string) {
	if c.err == nil {
		c.err = &FieldError{Path: path, Want: want, Got: got}
	}
}

// failName is fail where the name that stands there is at fault; note follows
// the name in the error.
func (c *checker) failName(path *Path, want, name, note string) {
	if c.err == nil {
		c.err = &FieldError{Path: path, Want: want, Got: quote(name) + note, Name: name}
	}
}

// within asks for lo <= n <= hi.
func (c *checker) within(path *Path, n, lo, hi int) {
	if n < lo || n > hi {
		c.fail(path, rangeWords(lo, hi), fmt.Sprint(n))
	}
}

func rangeWords(lo, hi int) string { return fmt.Sprintf("a whole number from %d to %d", lo, hi) }

func (c *checker) maybe(path *Path, m Maybe, lo, hi int) {
	if m.Given {
		c.within(path, m.N, lo, hi)
	}
}

// free checks that the name of a move or jump isn't a word that plans use.
func (c *checker) free(path *Path, name string) {
	if Reserved(name) {
		c.fail(path.At("name"), "a name that isn't reserved", fmt.Sprintf("%q", name))
	}
}

// Reserved reports whether a name is a word that plans use, so that no move or
// jump may have it.
func Reserved(name string) bool {
	switch name {
	case GuardHigh, GuardLow, Nothing, DoGuard, DoParry, Auto:
		return true
	}
	return false
}

func (c *checker) fighter(path *Path, f *Fighter) {
	checkFields(c, path, FighterFields, f)
	doings := names{} // moves and jumps share their names
	for i := range f.Moves {
		at := path.At("moves").Item(i)
		c.name(at, f.Moves[i].Name, doings)
		c.free(at, f.Moves[i].Name)
		c.move(at, &f.Moves[i])
	}
	for i := range f.Jumps {
		at := path.At("jumps").Item(i)
		c.name(at, f.Jumps[i].Name, doings)
		c.free(at, f.Jumps[i].Name)
		checkFields(c, at, JumpFields, &f.Jumps[i])
	}
	if len(f.Rises) == 0 {
		c.fail(path.At("rises"), "at least one rise", "an empty list")
	}
	rises := names{}
	for i := range f.Rises {
		at := path.At("rises").Item(i)
		c.name(at, f.Rises[i].Name, rises)
		checkFields(c, at, RiseFields, &f.Rises[i])
	}
	own := &roster{Fighter: f}
	c.replies(path, own, f.Replies)
	routes := names{}
	for i := range f.Routes {
		at := path.At("routes").Item(i)
		c.name(at, f.Routes[i].Name, routes)
		c.route(at, own, &f.Routes[i])
	}
}

// route checks a route of a fighter, but for its name.
func (c *checker) route(path *Path, own *roster, r *Route) {
	checkFields(c, path, RouteFields, r)
	if len(r.Steps) == 0 {
		c.fail(path.At("steps"), "at least one move", "an empty list")
	}
	for k := range r.Steps {
		step := path.At("steps").Item(k)
		c.grounded(step.At("move"), "a move", own, r.Steps[k].Move)
		checkFields(c, step, RouteStepFields, &r.Steps[k])
	}
}

func (c *checker) move(path *Path, m *Move) {
	c.total = m.Total(c.rules)
	checkFields(c, path, MoveFields, m)
}

// wantFrame is what is expected of a frame of the move that is checked.
const wantFrame = "a frame of the move, %d to %d"

func quote(s string) string {
	if s == "" {
		return "nothing"
	}
	return fmt.Sprintf("%q", s)
}
