package timeline

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"
)

// RouteFields is the table of a route's fields, without its steps. It is not to
// be changed.
var RouteFields = prepared(Route{}, []Field[Route]{
	{Name: "name", Also: []string{"route", "route name", "combo name", "title"}, Need: always[Route]("a name"),
		About: "the route's name; setups that use it take a new name too",
		at:    textAt(func(r *Route) *string { return &r.Name })},
	{Name: "damage", Also: []string{"dmg"}, Care: Care{Why: "it takes the least"}, Unit: Points, Card: "%d points",
		About: "points measured in the game; empty: counted from its steps",
		at:    maybeAt(func(r *Route) *Maybe { return &r.Damage })},
	{Name: "gauge_cost", Also: []string{"cost", "meter cost", "bar cost", "meter used"}, Care: Care{Most: true, Why: "it costs the most"}, Unit: Segments, Card: "%d",
		About: "segments it costs, measured in the game; empty: counted from its steps",
		at:    maybeAt(func(r *Route) *Maybe { return &r.GaugeCost })},
	{Name: "gauge_gain", Also: []string{"gain", "meter gain", "bar gain", "meter build"}, Care: Care{Why: "it brings the least"}, Unit: Segments, Card: "%d",
		About: "segments it brings, measured in the game; empty: counted from its steps",
		at:    maybeAt(func(r *Route) *Maybe { return &r.GaugeGain })},
	{Name: "confirmed", Also: []string{"tested", "works", "verified"},
		About: "yes where it was done in the game: then it works whatever its links say",
		at:    flagAt(func(r *Route) *bool { return &r.Confirmed })},
})

// bys are the ways in which a step may come after another.
var bys = []By{Link, Cancel}

// RouteStepFields is the table of the fields of a route's step. It is not to be
// changed.
var RouteStepFields = prepared(RouteStep{By: Link}, []Field[RouteStep]{
	{Name: "move", Need: always[RouteStep]("a move done on the ground"),
		About: "a move of the fighter, done on the ground",
		at:    textAt(func(s *RouteStep) *string { return &s.Move })},
	{Name: "by", About: "link or cancel", rule: byRule(func(s *RouteStep) By { return s.By }),
		at: word[RouteStep, By]{place: func(s *RouteStep) *By { return &s.By }, list: bys}},
})

// FollowFields is the table of the fields of a string's step. It is not to be
// changed.
var FollowFields = prepared(FollowStep{By: Link}, []Field[FollowStep]{
	{Name: "move", Need: always[FollowStep]("a move done on the ground"),
		About: "a move of the attacker, done on the ground",
		at:    textAt(func(s *FollowStep) *string { return &s.Move })},
	{Name: "wait", Unit: Frames, About: "frames after the attacker is free",
		at: numberAt(func(s *FollowStep) *int { return &s.Wait })},
	{Name: "by", About: "link or cancel", rule: byRule(func(s *FollowStep) By { return s.By }),
		at: word[FollowStep, By]{place: func(s *FollowStep) *By { return &s.By }, list: bys}},
})

func byRule[T any](of func(*T) By) func(c *checker, path *Path, v *T) {
	return func(c *checker, path *Path, v *T) {
		if by := of(v); by != Link && by != Cancel {
			c.fail(path, "link or cancel", quote(string(by)))
		}
	}
}

// maxPercent is the most that a percent of a damage may be.
const maxPercent = 1000

// percents is a list of percents, "100 90 80".
type percents[T any] struct{ place[T, []int] }

const wantPercents = "percents such as 100 90 80"

func (a percents[T]) kind() FieldKind { return ListField }
func (a percents[T]) read(f *fields, name string, v *T) {
	if f.has(name) {
		*a.place(v) = f.numbers(name)
	}
}

func (a percents[T]) get(v *T) Content {
	words := make([]string, len(*a.place(v)))
	for i, n := range *a.place(v) {
		words[i] = strconv.Itoa(n)
	}
	return Content{Text: strings.Join(words, " ")}
}

func (a percents[T]) set(v *T, c Content) (want string) {
	var list []int
	for _, text := range strings.FieldsFunc(c.Text, func(r rune) bool { return r == ' ' || r == ',' || r == ';' || r == '%' }) {
		n, ok := ParseWhole(text)
		if !ok {
			return wantPercents
		}
		list = append(list, n)
	}
	*a.place(v) = list
	return unless(len(list) > 0, wantPercents)
}

func (a percents[T]) write(w *writer, v *T) {
	of := *a.place(v)
	w.list(len(of), func(i int) { w.WriteString(strconv.Itoa(of[i])) })
}

func scalingRule(c *checker, path *Path, r *Ruleset) {
	if len(r.Scaling) == 0 {
		c.fail(path, "at least one percent", "an empty list")
	}
	for i, n := range r.Scaling {
		c.within(path.Item(i), n, 0, maxPercent)
	}
}

// maxCarry is the most digits of a carry: of its two numbers, or behind its
// point.
const maxCarry = 9

// Ratio is a number of a/b, in lowest terms, a >= 0 and b > 0.
type Ratio struct{ Num, Den int }

// String writes the ratio as the project text does: "1/2", or "0".
func (r Ratio) String() string {
	if r.Den == 1 {
		return strconv.Itoa(r.Num)
	}
	return fmt.Sprintf("%d/%d", r.Num, r.Den)
}

// Rat is the ratio as a fraction of big numbers.
func (r Ratio) Rat() *big.Rat { return big.NewRat(int64(r.Num), int64(max(r.Den, 1))) }

// WantCarry is what is expected of a carry.
const WantCarry = "a part from 0 to below 1, such as 1/2 or 0.5"

// ParseCarry reads a carry: a fraction "1/2" or a decimal "0.5", from 0 to below
// 1.
func ParseCarry(text string) (Ratio, bool) {
	num, den, fraction := strings.Cut(text, "/")
	if !fraction {
		whole, parts, _ := strings.Cut(text, ".")
		if strings.HasSuffix(text, ".") {
			return Ratio{}, false
		}
		num, den = whole+parts, "1"+strings.Repeat("0", len(parts))
	}
	for _, digits := range []string{num, den} {
		if digits == "" || len(digits) > maxCarry+1 || strings.Trim(digits, "0123456789") != "" {
			return Ratio{}, false
		}
	}
	a, _ := strconv.Atoi(num)
	b, _ := strconv.Atoi(den)
	if b == 0 || a >= b {
		return Ratio{}, false
	}
	g := gcd(a, b)
	return Ratio{a / g, b / g}, true
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// carry is the ruleset's carry, a text of a number from 0 to below 1.
type carry struct{}

func (carry) kind() FieldKind        { return TextField }
func (carry) get(r *Ruleset) Content { return Content{Text: r.Carry.String()} }
func (carry) copy(to, from *Ruleset) { to.Carry = from.Carry }

func (carry) set(r *Ruleset, c Content) (want string) {
	got, ok := ParseCarry(strings.TrimSpace(c.Text))
	if !ok {
		return WantCarry
	}
	r.Carry = got
	return ""
}

func (carry) read(f *fields, name string, r *Ruleset) {
	text := f.text(name, r.Carry.String())
	got, ok := ParseCarry(text)
	if !ok {
		f.fail(name, "a text of "+WantCarry, strconv.Quote(text))
	}
	r.Carry = got
}

func (carry) write(w *writer, r *Ruleset) { w.quote(r.Carry.String()) }

func carryRule(c *checker, path *Path, r *Ruleset) {
	if r.Carry.Den < 1 || r.Carry.Num < 0 || r.Carry.Num >= r.Carry.Den {
		c.fail(path, "a text of "+WantCarry, strconv.Quote(r.Carry.String()))
	}
}
