package model

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
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

var projectPath = regexp.MustCompile(`^(?:setup ("(?:[^"\\]|\\.)*"): )?\$(?:\.(fighters|setups)\[(\d+)\](?:\.(moves|jumps|rises)\[(\d+)\])?)?\.?(.*)$`)

// PathWords puts a JSON path of p into words: the thing, and the column.
func PathWords(p *timeline.Project, path string) (thing, field string) {
	m := projectPath.FindStringSubmatch(path)
	if m == nil {
		return "", path
	}
	field = fieldWords(m[6])
	whole := fieldWords(strings.TrimPrefix(path, "$."))
	number := func(s string) int { n, _ := strconv.Atoi(s); return n }
	switch at := number(m[3]); {
	case m[1] != "":
		name, _ := strconv.Unquote(m[1])
		return "setup " + name, field
	case m[2] == "setups" && at < len(p.Setups):
		return "setup " + p.Setups[at].Name, field
	case m[2] == "fighters" && at < len(p.Fighters):
		f := &p.Fighters[at]
		switch k := number(m[5]); {
		case m[4] == "moves" && k < len(f.Moves):
			return f.Name + "'s " + f.Moves[k].Name, field
		case m[4] == "jumps" && k < len(f.Jumps):
			return f.Name + "'s jump " + f.Jumps[k].Name, field
		case m[4] == "rises" && k < len(f.Rises):
			return f.Name + "'s rise " + f.Rises[k].Name, field
		}
		return f.Name, field
	case m[2] != "": // of data that could not be read
		return "", whole
	}
	return "", field
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
var uses = map[string]string{"ender": "as its ender", "fillers": "as a filler", "jump": "as its jump", "attack": "as its attack", "landing": "as its landing action", "replies": "as a reply"}

var usedAs = regexp.MustCompile(`\$\.(?:setups\[\d+\]\.)?([a-z]+)(?:\[\d+\](?:\.move)?)?$`)

// useWords say what a setup uses that no longer fits: "Thole as a filler";
// nothing where the error is of something else.
func useWords(e *timeline.FieldError) string {
	m := usedAs.FindStringSubmatch(e.Path)
	if m == nil || uses[m[1]] == "" {
		return ""
	}
	quoted, err := strconv.QuotedPrefix(e.Got)
	if err != nil {
		return ""
	}
	name, _ := strconv.Unquote(quoted)
	return name + " " + uses[m[1]]
}

var listPlace = regexp.MustCompile(`^([a-z_]+)\[(\d+)\]\.?(.*)$`)

// singles are the entries of the lists that have another name than the list.
var singles = map[string]string{"fighters": "fighter", "setups": "setup", "moves": "move", "jumps": "jump", "fillers": "filler", "replies": "reply", "rises": "rise", "tags": "tag"}

// fieldWords writes a field of the project text as it is read: "guard after",
// "filler 2", "immune 1, from".
func fieldWords(field string) string {
	if rule, ok := strings.CutPrefix(field, "ruleset."); ok && timeline.FieldNamed(timeline.RulesetFields, rule) != nil {
		return timeline.FieldNamed(timeline.RulesetFields, rule).Label
	}
	if m := listPlace.FindStringSubmatch(field); m != nil {
		at, _ := strconv.Atoi(m[2])
		words := fmt.Sprintf("%s %d", NameOr(singles[m[1]], m[1]), at+1)
		if m[3] != "" {
			words += ", " + fieldWords(m[3])
		}
		return strings.ReplaceAll(words, "_", " ")
	}
	if field == "advantage" {
		return "knockdown advantage"
	}
	return strings.NewReplacer(".", " ", "_", " ").Replace(field)
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
