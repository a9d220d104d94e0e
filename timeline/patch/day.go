package patch

import (
	"fmt"
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
		out = append([]string{"No setup, route or mix changed"}, out...)
	}
	return strings.Join(out, ". ") + "."
}

// turns counts how verdicts turned, those that turned worse first: "9 safe to
// unsafe, 5 safe to limited".
func (d *Day) turns() string {
	good := []timeline.Word{timeline.Safe, timeline.Limited, timeline.Unsafe, ""}
	name := func(w timeline.Word) string {
		if w == "" {
			return "not judged"
		}
		return string(w)
	}
	var worse, better []string
	for from, b := range good {
		for to, a := range good {
			n := 0
			for i := range d.Setups {
				if c := &d.Setups[i]; c.Turned() && c.Before.Word == b && c.After.Word == a {
					n++
				}
			}
			text := fmt.Sprintf("%d %s to %s", n, name(b), name(a))
			switch {
			case n > 0 && to > from:
				worse = append(worse, text)
			case n > 0:
				better = append(better, text)
			}
		}
	}
	return strings.Join(append(worse, better...), ", ")
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
