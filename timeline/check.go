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

// FieldError is a value of a project that breaks a rule. Path is a JSON path
// of the project text (RFC 9535's notation), such as
// "$.fighters[0].moves[2].startup".
type FieldError struct {
	Path string
	Want string // what was expected
	Got  string // what stands there, empty where nothing does
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
		path := fmt.Sprintf("$.setups[%d]", i)
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
	c.ruleset(p.Ruleset)
	seen := names{}
	for i := range p.Fighters {
		path := fmt.Sprintf("$.fighters[%d]", i)
		c.name(path, p.Fighters[i].Name, seen)
		c.fighter(path, &p.Fighters[i])
	}
	return c.first()
}

// CheckSetup is Check of one setup against p's fighters; path is where its
// errors say it stands. That its name is its own is not looked at.
func (p *Project) CheckSetup(path string, s *Setup) error {
	return checkSetup(p.Ruleset, p.roster, path, s)
}

func checkSetup(rules Ruleset, find finder, path string, s *Setup) error {
	c := checker{rules: rules}
	c.name(path, s.Name, names{})
	c.setup(path, find, s)
	return c.first()
}

// CheckMove returns the first rule of interfaces.md that m breaks by itself,
// apart from what else its fighter has, as a *FieldError whose path begins
// with path; nil where it keeps them all.
func CheckMove(path string, m *Move, r Ruleset) error {
	c := checker{rules: r}
	c.name(path, m.Name, names{})
	c.free(path, m.Name)
	c.move(path, m)
	if c.err != nil {
		return c.err
	}
	return nil
}

type names map[string]bool

// checker keeps the first error it meets.
type checker struct {
	rules Ruleset
	err   *FieldError
}

// first is the error kept, as a plain nil where there is none.
func (c *checker) first() error {
	if c.err == nil {
		return nil
	}
	return c.err
}

func (c *checker) fail(path, want, got string) {
	if c.err == nil {
		c.err = &FieldError{path, want, got}
	}
}

// within asks for lo <= n <= hi.
func (c *checker) within(path string, n, lo, hi int) {
	if n < lo || n > hi {
		c.fail(path, fmt.Sprintf("a whole number from %d to %d", lo, hi), fmt.Sprint(n))
	}
}

func (c *checker) maybe(path string, m Maybe, lo, hi int) {
	if m.Given {
		c.within(path, m.N, lo, hi)
	}
}

// free asks that a move or jump doesn't bear a word that plans use.
func (c *checker) free(path, name string) {
	switch name {
	case GuardHigh, GuardLow, Nothing, DoGuard, DoParry, Auto:
		c.fail(path+".name", "a name that isn't reserved", fmt.Sprintf("%q", name))
	}
}

func (c *checker) ruleset(r Ruleset) {
	const p = "$.ruleset."
	if r.Rate.Num < 1 || r.Rate.Den < 1 || r.Rate.Num > maxRate || r.Rate.Den > maxRate {
		c.fail(p+"rate", "a text such as \"60/1\", both numbers from 1 to 1000000", fmt.Sprintf("\"%d/%d\"", r.Rate.Num, r.Rate.Den))
	}
	c.within(p+"throw_grace_rise", r.ThrowGraceRise, 0, MaxFrames)
	c.within(p+"throw_grace_landing", r.ThrowGraceLanding, 0, MaxFrames)
	c.within(p+"buffer", r.Buffer, 0, MaxFrames)
	c.within(p+"health", r.Health, 1, MaxPoints)
	c.within(p+"gauge", r.Gauge, 0, MaxPoints)
}

func (c *checker) fighter(path string, f *Fighter) {
	c.maybe(path+".body", f.Body, 0, MaxUnits)
	doings := names{} // moves and jumps share their names
	for i := range f.Moves {
		at := fmt.Sprintf("%s.moves[%d]", path, i)
		c.name(at, f.Moves[i].Name, doings)
		c.free(at, f.Moves[i].Name)
		c.move(at, &f.Moves[i])
	}
	for i := range f.Jumps {
		at, j := fmt.Sprintf("%s.jumps[%d]", path, i), &f.Jumps[i]
		c.name(at, j.Name, doings)
		c.free(at, j.Name)
		c.within(at+".prejump", j.Prejump, 0, MaxFrames)
		c.within(at+".airborne", j.Airborne, 1, MaxFrames)
		c.landing(at+".landing", at+".guard_after", j.Landing, j.GuardAfter)
		c.within(at+".travel", j.Travel, -MaxUnits, MaxUnits)
		c.maybe(at+".apex", j.Apex, 0, MaxUnits)
	}
	if len(f.Rises) == 0 {
		c.fail(path+".rises", "at least one rise", "an empty list")
	}
	rises := names{}
	for i, r := range f.Rises {
		at := fmt.Sprintf("%s.rises[%d]", path, i)
		c.name(at, r.Name, rises)
		c.within(at+".extra", r.Extra, 0, MaxFrames)
		c.within(at+".shift", r.Shift, -MaxUnits, MaxUnits)
	}
}

func (c *checker) landing(recoveryPath, guardPath string, recovery, guardAfter int) {
	c.within(recoveryPath, recovery, 0, MaxFrames)
	if guardAfter < 0 || guardAfter > recovery {
		c.fail(guardPath, fmt.Sprintf("a whole number from 0 to the landing recovery, %d", recovery), fmt.Sprint(guardAfter))
	}
}

func (c *checker) move(path string, m *Move) {
	c.shape(path, m)
	c.maybe(path+".on_hit", m.OnHit, -MaxFrames, MaxFrames)
	c.maybe(path+".on_guard", m.OnGuard, -MaxFrames, MaxFrames)
	c.maybe(path+".hitstun", m.Hitstun, 0, MaxFrames)
	c.maybe(path+".guardstun", m.Guardstun, 0, MaxFrames)
	if m.OnHit.Given && m.Hitstun.Given {
		c.fail(path+".hitstun", "on_hit or hitstun, not both", m.Hitstun.String())
	}
	if m.OnGuard.Given && m.Guardstun.Given {
		c.fail(path+".guardstun", "on_guard or guardstun, not both", m.Guardstun.String())
	}
	total := m.Total(c.rules)
	if m.AirborneFrom.Given && (m.AirborneFrom.N < 1 || m.AirborneFrom.N > total) {
		c.fail(path+".airborne_from", fmt.Sprintf("a frame of the move, 1 to %d", total), m.AirborneFrom.String())
	}
	c.maybe(path+".deep", m.Deep, 0, MaxFrames)
	c.maybe(path+".drop", m.Drop, -MaxUnits, MaxUnits)
	c.maybe(path+".top", m.Top, 0, MaxUnits)
	if m.Reach != nil {
		c.within(path+".reach[0]", m.Reach.Near, -MaxUnits, MaxUnits)
		c.within(path+".reach[1]", m.Reach.Far, m.Reach.Near, MaxUnits)
	}
	if m.Landing != nil {
		c.landing(path+".landing.recovery", path+".landing.guard_after", m.Landing.Recovery, m.Landing.GuardAfter)
	}
	for i, w := range m.Immune {
		at := fmt.Sprintf("%s.immune[%d]", path, i)
		c.window(at, w.Window, total)
		if !w.Strikes && !w.Throws {
			c.fail(at+".against", "strike, throw or both", "neither")
		}
	}
	if len(m.Armour) > maxShield {
		c.fail(path+".armour", fmt.Sprintf("at most %d windows", maxShield), fmt.Sprint(len(m.Armour)))
	}
	for i, w := range m.Armour {
		at := fmt.Sprintf("%s.armour[%d]", path, i)
		c.window(at, w.Window, total)
		c.within(at+".hits", w.Hits, 1, MaxFrames)
	}
	for i, w := range m.Parry {
		c.window(fmt.Sprintf("%s.parry[%d]", path, i), w, total)
	}
	c.within(path+".damage", m.Damage, 0, MaxPoints)
	c.within(path+".gauge_cost", m.GaugeCost, 0, MaxPoints)
	c.within(path+".gauge_gain", m.GaugeGain, 0, MaxPoints)
	c.within(path+".travel", m.Travel, -MaxUnits, MaxUnits)
	c.maybe(path+".knockdown.midscreen", m.Knockdown.Midscreen, 0, MaxFrames-1)
	c.maybe(path+".knockdown.wall", m.Knockdown.Wall, 0, MaxFrames-1)
	c.maybe(path+".distance.midscreen", m.Distance.Midscreen, -MaxUnits, MaxUnits)
	c.maybe(path+".distance.wall", m.Distance.Wall, -MaxUnits, MaxUnits)
}

// shape asks that kind, level, and either active frames or a total agree.
func (c *checker) shape(path string, m *Move) {
	switch m.Kind {
	case Strike:
		if m.Level != Mid && m.Level != Low && m.Level != Overhead {
			c.fail(path+".level", "mid, low or overhead for a strike", quote(string(m.Level)))
		}
	case Throw:
		if m.Level != LevelThrow && m.Level != LevelAirThr {
			c.fail(path+".level", "throw or air throw for a throw", quote(string(m.Level)))
		}
	case Parry, Evade, Dash:
		if m.Level != "" {
			c.fail(path+".level", "no level: only strikes and throws have one", quote(string(m.Level)))
		}
	default:
		c.fail(path+".kind", "strike, throw, parry, evade or dash", quote(string(m.Kind)))
	}
	if !m.Hits() {
		c.within(path+".total", m.Length, 1, MaxFrames)
		return
	}
	c.within(path+".startup", m.Startup, 1, MaxFrames)
	if len(m.Active)%2 == 0 {
		c.fail(path+".active", "an odd number of lengths: active, or active, gap, active, ...", fmt.Sprint(len(m.Active)))
	}
	for i, n := range m.Active {
		c.within(fmt.Sprintf("%s.active[%d]", path, i), n, 1, MaxFrames)
	}
	c.within(path+".recovery", m.Recovery, 0, MaxFrames)
}

func (c *checker) window(path string, w Window, total int) {
	if w.From < 1 || w.From > total {
		c.fail(path+".from", fmt.Sprintf("a frame of the move, 1 to %d", total), fmt.Sprint(w.From))
	}
	if w.To < w.From || w.To > total {
		c.fail(path+".to", fmt.Sprintf("a frame from %d to the move's last, %d", w.From, total), fmt.Sprint(w.To))
	}
}

func quote(s string) string {
	if s == "" {
		return "nothing"
	}
	return fmt.Sprintf("%q", s)
}
