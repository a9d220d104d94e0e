package model

import (
	"errors"
	"fmt"
	"strings"

	"wakeline/timeline"
)

// Headings writes the columns that a text names as they are read.
var Headings = func() *strings.Replacer {
	var pairs []string
	for _, f := range timeline.Columns(timeline.MoveFields) {
		pairs = append(pairs, f.Column, Heading(f.Column))
	}
	return strings.NewReplacer(pairs...)
}()

// Heading is a column's name as it is read; tables of files keep the name.
func Heading(column string) string { return strings.ReplaceAll(column, "_", " ") }

// ExpectedWords say what was expected, and what was there instead.
func ExpectedWords(want, got string) string {
	s := "expected " + Headings.Replace(want)
	if got != "" {
		s += ", got " + got
	}
	return s
}

// PathWords puts a place in p into words: the thing, and the column.
func PathWords(p *timeline.Project, path *timeline.Path) (thing, field string) {
	steps := path.Steps()
	if setup, ok := path.Setup(); ok {
		return "setup " + setup, fieldWords(steps)
	}
	at, rest := entry(steps)
	switch {
	case at < 0:
		return "", fieldWords(steps)
	case steps[0].Name == "setups" && at < len(p.Setups):
		return "setup " + p.Setups[at].Name, fieldWords(rest)
	case steps[0].Name == "fighters" && at < len(p.Fighters):
		return ownerWords(&p.Fighters[at], rest)
	}
	return "", fieldWords(steps) // of data that could not be read
}

// entry takes the list and the place in it off the front of steps; -1 where
// they begin otherwise.
func entry(steps []timeline.Step) (at int, rest []timeline.Step) {
	if len(steps) < 2 || steps[0].Name == "" || steps[1].Name != "" {
		return -1, steps
	}
	return steps[1].Index, steps[2:]
}

// ownerWords puts a place in what a fighter has into words.
func ownerWords(f *timeline.Fighter, steps []timeline.Step) (thing, field string) {
	at, rest := entry(steps)
	if at < 0 {
		return f.Name, fieldWords(steps)
	}
	switch list := steps[0].Name; {
	case list == "moves" && at < len(f.Moves):
		return f.Name + "'s " + f.Moves[at].Name, fieldWords(rest)
	case list == "jumps" && at < len(f.Jumps):
		return f.Name + "'s jump " + f.Jumps[at].Name, fieldWords(rest)
	case list == "rises" && at < len(f.Rises):
		return f.Name + "'s rise " + f.Rises[at].Name, fieldWords(rest)
	case list == "replies" && at < len(f.Replies):
		return f.Name + "'s reply " + f.Replies[at].Title(), fieldWords(rest)
	case list == "routes" && at < len(f.Routes):
		return f.Name + "'s route " + f.Routes[at].Name, fieldWords(rest)
	}
	return f.Name, fieldWords(steps)
}

// ErrorWords puts an error of an edit into words; p is the data as they were
// to become, or as near to that as is known.
func ErrorWords(p *timeline.Project, err error) string {
	broken := (*timeline.FieldError)(nil)
	if !errors.As(err, &broken) {
		return err.Error()
	}
	thing, field := PathWords(p, broken.Path)
	if setup, ok := strings.CutPrefix(thing, "setup "); ok {
		if use := useWords(broken); use != "" {
			return fmt.Sprintf("“%s” uses %s: expected %s", setup, use, Headings.Replace(broken.Want))
		}
	}
	var places []string
	for _, s := range []string{thing, field} {
		if s != "" {
			places = append(places, s)
		}
	}
	if len(places) == 0 {
		return ExpectedWords(broken.Want, broken.Got)
	}
	return strings.Join(places, ", ") + ": " + ExpectedWords(broken.Want, broken.Got)
}

// uses are what a setup uses a move or jump as, by the field that names it.
var uses = map[string]string{"ender": "as its ender", "fillers": "as a filler", "jump": "as its jump", "attack": "as its attack", "landing": "as its landing action", "replies": "as a reply",
	"on_hit": "as its route after a hit", "punish": "as a punish", "follow": "in its string"}

// useWords say what a setup uses that no longer fits: "Thole as a filler";
// nothing where the error is of something else.
func useWords(e *timeline.FieldError) string {
	steps := e.Path.Steps()
	if at, rest := entry(steps); at >= 0 && steps[0].Name == "setups" {
		steps = rest
	}
	if e.Name == "" || len(steps) == 0 || uses[steps[0].Name] == "" {
		return ""
	}
	return e.Name + " " + uses[steps[0].Name]
}

// singles are the entries of the lists that have another name than the list.
var singles = map[string]string{"fighters": "fighter", "setups": "setup", "moves": "move", "jumps": "jump", "routes": "route", "steps": "step", "fillers": "filler", "replies": "reply", "rises": "rise", "tags": "tag", "follow": "string step"}

// fieldWords writes a field of the project text as it is read: "guard after",
// "filler 2", "immune 1, from".
func fieldWords(steps []timeline.Step) string {
	if len(steps) == 2 && steps[0].Name == "ruleset" {
		if rule := timeline.FieldNamed(timeline.RulesetFields, steps[1].Name); rule != nil {
			return rule.Label
		}
	}
	var words []string
	for i := 0; i < len(steps); i++ {
		word := strings.ReplaceAll(steps[i].Name, "_", " ")
		if at, rest := entry(steps[i:]); at >= 0 {
			word = fmt.Sprintf("%s %d", NameOr(singles[steps[i].Name], word), at+1)
			if i++; len(rest) > 0 {
				word += ","
			}
		}
		words = append(words, word)
	}
	if len(words) == 1 && words[0] == "advantage" {
		return "knockdown advantage"
	}
	return strings.Join(words, " ")
}

// Refusal is an error in the words of the rule that it breaks, without the
// place in the project.
func Refusal(err error) string {
	if broken := (*timeline.FieldError)(nil); errors.As(err, &broken) {
		words := "expected " + broken.Want
		if broken.Got != "" {
			words += ", got " + broken.Got
		}
		return words
	}
	return err.Error()
}
