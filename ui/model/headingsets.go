package model

import (
	"slices"
	"strings"
)

// HeadingSets are how the headings of tables were mapped, the newest first.
type HeadingSets []HeadingSet

// HeadingSet is one set of headings, in any order, and what they stand for.
type HeadingSet struct {
	Headings []string          `json:"headings"` // in small letters, sorted
	Map      map[string]string `json:"map"`
}

// mostHeadingSets is how many are remembered.
const mostHeadingSets = 100

// setOf is a set of headings, as HeadingSet has it.
func setOf(headings []string) []string {
	var out []string
	for _, h := range headings {
		if h = strings.ToLower(strings.TrimSpace(h)); h != "" {
			out = append(out, h)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// Of is how those headings were mapped, nil where they never were.
func (s HeadingSets) Of(headings []string) map[string]string {
	set := setOf(headings)
	for i := range s {
		if slices.Equal(s[i].Headings, set) {
			return s[i].Map
		}
	}
	return nil
}

// With is the sets with that mapping, in place of what was known of the same
// headings.
func (s HeadingSets) With(headings []string, mapping map[string]string) HeadingSets {
	set := setOf(headings)
	out := HeadingSets{{set, mapping}}
	for _, other := range s {
		if !slices.Equal(other.Headings, set) && len(out) < mostHeadingSets {
			out = append(out, other)
		}
	}
	return out
}
