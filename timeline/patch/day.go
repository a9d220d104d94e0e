package patch

import (
	"fmt"
	"slices"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/words"
)

// Day is all that a patch changed, as far as it was worked out.
type Day struct {
	Parts     []compare.Cause
	Setups    []compare.Change // those that changed
	Unchanged int              // the other setups
	Routes    []Route
	Mixes     []Mix // those that changed
	Weighed   bool  // the mixes are known
}

// Section is one kind of what a patch changed.
type Section string

// The sections, in the order in which they are shown.
const (
	MoveData      Section = "Move data"
	Turned        Section = "Setups turned"
	Uncovered     Section = "Replies no longer covered"
	Covered       Section = "Replies covered now"
	Shrank        Section = "Windows shrank"
	Grew          Section = "Windows grew"
	Moved         Section = "Windows moved"
	RoutesBroke   Section = "Routes no longer link"
	RoutesMended  Section = "Routes link now"
	RoutesChanged Section = "Other routes changed"
	Mixes         Section = "Mixes moved"
)

// Sections lists them in their order.
func Sections() []Section {
	return []Section{MoveData, Turned, Uncovered, Covered, Shrank, Grew, Moved, RoutesBroke, RoutesMended, RoutesChanged, Mixes}
}

// SectionOf says where a setup that changed is shown. A reply that is covered,
// or is no longer, says more than what the window does.
func SectionOf(c *compare.Change) Section {
	switch {
	case c.Turned():
		return Turned
	case len(c.Lost) > 0:
		return Uncovered
	case len(c.Won) > 0:
		return Covered
	case c.Shift == compare.Shrank, c.Shift == compare.Closed:
		return Shrank
	case c.Shift == compare.Grew, c.Shift == compare.Opened:
		return Grew
	}
	return Moved
}

// Section says where a route that changed is shown.
func (r *Route) Section() Section {
	switch r.Kind {
	case Broke:
		return RoutesBroke
	case Mended:
		return RoutesMended
	}
	return RoutesChanged
}

// Counts counts what stands in each section.
func (d *Day) Counts() map[Section]int {
	out := map[Section]int{MoveData: len(d.Parts), Mixes: len(d.Mixes)}
	for i := range d.Setups {
		out[SectionOf(&d.Setups[i])]++
	}
	for i := range d.Routes {
		out[d.Routes[i].Section()]++
	}
	return out
}

// Answers reports whether anything changed that was asked: a setup, a route or
// a mix.
func (d *Day) Answers() bool { return len(d.Setups) > 0 || len(d.Routes) > 0 || len(d.Mixes) > 0 }

// Answer says in a few sentences what changed, the setups that turned first.
func (d *Day) Answer() string {
	n := d.Counts()
	var out []string
	if n[Turned] > 0 {
		out = append(out, fmt.Sprintf("%s turned: %s", words.Count(n[Turned], "setup"), d.turns()))
	}
	add := func(thing string, of ...counted) {
		if text := countList(thing, of); text != "" {
			out = append(out, text)
		}
	}
	add("window", counted{n[Shrank], "shrank", "shrank"}, counted{n[Grew], "grew", "grew"}, counted{n[Moved], "moved", "moved"})
	add("setup", counted{n[Uncovered], "covers fewer replies", "cover fewer replies"}, counted{n[Covered], "covers more replies", "cover more replies"})
	others := "changed"
	if n[RoutesBroke]+n[RoutesMended] > 0 {
		others = "changed otherwise"
	}
	add("route", counted{n[RoutesBroke], "no longer links", "no longer link"}, counted{n[RoutesMended], "links now", "link now"}, counted{n[RoutesChanged], others, others})
	add("mix", counted{n[Mixes], "moved", "moved"})
	add("part", counted{n[MoveData], "of the move data changed", "of the move data changed"})
	if len(out) == 0 {
		return "The move data are the same."
	}
	if !d.Answers() {
		none := "No setup or route changed"
		if d.Weighed {
			none = "No setup, route or mix changed"
		}
		out = append([]string{none}, out...)
	}
	return strings.Join(out, ". ") + "."
}

// ranks are the words of a verdict, the best first; the last is that of none.
var ranks = [...]timeline.Word{timeline.Safe, timeline.Limited, timeline.Unsafe, ""}

// turn is how a verdict turned, the worst first: those that turned worse, by
// what they are now, then those that turned better.
func turn(c *compare.Change) int {
	n := len(ranks)
	b, a := slices.Index(ranks[:], c.Before.Word), slices.Index(ranks[:], c.After.Word)
	if a > b {
		return (n-1-a)*n + b
	}
	return n*n + a*n + b
}

// In lists the places of what stands in a section, in the order in which it is
// shown: of setups that turned the worst first.
func (d *Day) In(s Section) (out []int) {
	add := func(n int, in func(i int) bool) {
		for i := range n {
			if in(i) {
				out = append(out, i)
			}
		}
	}
	switch s {
	case MoveData:
		add(len(d.Parts), func(int) bool { return true })
	case RoutesBroke, RoutesMended, RoutesChanged:
		add(len(d.Routes), func(i int) bool { return d.Routes[i].Section() == s })
	case Mixes:
		add(len(d.Mixes), func(int) bool { return true })
	default:
		add(len(d.Setups), func(i int) bool { return SectionOf(&d.Setups[i]) == s })
	}
	if s == Turned {
		slices.SortStableFunc(out, func(i, j int) int { return turn(&d.Setups[i]) - turn(&d.Setups[j]) })
	}
	return out
}

// turns counts how verdicts turned, the worst first: "9 safe to unsafe, 5 safe
// to limited".
func (d *Day) turns() string {
	name := func(w timeline.Word) string {
		if w == "" {
			return "not judged"
		}
		return string(w)
	}
	var out []string
	turned := d.In(Turned)
	for from := 0; from < len(turned); {
		first, to := &d.Setups[turned[from]], from
		for to < len(turned) && turn(&d.Setups[turned[to]]) == turn(first) {
			to++
		}
		out = append(out, fmt.Sprintf("%d %s to %s", to-from, name(first.Before.Word), name(first.After.Word)))
		from = to
	}
	return strings.Join(out, ", ")
}

// counted is how many things did something, in words for one and for several.
type counted struct {
	n         int
	does, all string
}

// countList lists what things did, the thing named once: "3 windows shrank and
// 1 grew". It is empty where none did anything.
func countList(thing string, of []counted) string {
	var out []string
	for _, c := range of {
		if c.n == 0 {
			continue
		}
		text := fmt.Sprint(c.n)
		if len(out) == 0 {
			text = words.Count(c.n, thing)
		}
		if c.n == 1 {
			out = append(out, text+" "+c.does)
		} else {
			out = append(out, text+" "+c.all)
		}
	}
	return words.List(out)
}

// About says what stands in the section.
func (s Section) About() string {
	switch s {
	case MoveData:
		return "All that differs in the move data, whether a setup uses it or not."
	case Turned:
		return "Setups whose verdict is another, at their set delay. What turned worse comes first."
	case Uncovered:
		return "Setups with a reply that some delay covered before, and none does now."
	case Covered:
		return "Setups with a reply that no delay covered before, and some does now."
	case Shrank:
		return "Setups of the same verdict that fewer delays keep."
	case Grew:
		return "Setups of the same verdict that more delays keep."
	case Moved:
		return "Setups of the same verdict whose good delays are others."
	case RoutesBroke:
		return "Routes with a link that is too slow now, or that are no longer confirmed."
	case RoutesMended:
		return "Routes whose links work now, or that are confirmed now."
	case RoutesChanged:
		return "Routes that are new or gone, or of other margins, damage or gauge."
	case Mixes:
		return "What a round is worth with all setups of one ender, with full gauges."
	}
	return ""
}
