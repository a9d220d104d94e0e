package assets_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"wakeline/assets"
	"wakeline/timeline"
)

// TestTheSchemaSaysWhatTheTableOfFieldsSays compares names, types, ranges,
// words and defaults, and what must be given.
func TestTheSchemaSaysWhatTheTableOfFieldsSays(t *testing.T) {
	var doc node
	dec := json.NewDecoder(bytes.NewReader(assets.ProjectSchema))
	if err := dec.Decode(&doc); err != nil {
		t.Fatal(err)
	}
	s := schema{t, doc.in("$defs")}
	saysFields(s, "ruleset", timeline.RulesetFields)
	saysFields(s, "fighter", timeline.FighterFields, "moves", "jumps", "rises", "replies", "routes")
	saysFields(s, "move", timeline.MoveFields)
	saysFields(s, "jump", timeline.JumpFields)
	saysFields(s, "rise", timeline.RiseFields)
	saysFields(s, "route", timeline.RouteFields, "steps")
	saysFields(s, "routeStep", timeline.RouteStepFields)
	saysFields(s, "followStep", timeline.FollowFields)
}

type node map[string]any

func (n node) in(name string) node {
	inner, _ := n[name].(map[string]any)
	return inner
}

type schema struct {
	*testing.T
	defs node
}

// whole is the node with what it refers to taken in.
func (s schema) whole(n node) node {
	ref, ok := n["$ref"].(string)
	if !ok {
		return n
	}
	out := maps.Clone(s.whole(s.defs.in(strings.TrimPrefix(ref, "#/$defs/"))))
	maps.Copy(out, n)
	return out
}

// saysFields compares an object of the schema with a table; beside are names
// of the object that are no fields.
func saysFields[T any](s schema, thing string, of []timeline.Field[T], beside ...string) {
	s.Helper()
	object := s.defs.in(thing)
	names, required := beside, []string{}
	for i := range of {
		f := &of[i]
		names = append(names, f.Name)
		if f.Needed(new(T)) {
			required = append(required, f.Name)
		}
		branches := []node{}
		all, _ := object["allOf"].([]any)
		for _, one := range all {
			for _, branch := range []string{"then", "else"} {
				branches = append(branches, s.whole(node(one.(map[string]any)).in(branch).in("properties").in(f.Name)))
			}
		}
		saysField(s, thing, f, s.whole(object.in("properties").in(f.Name)), branches)
	}
	slices.Sort(names)
	if got := slices.Sorted(maps.Keys(object.in("properties"))); !slices.Equal(got, names) {
		s.Errorf("%s: the schema has the fields %v, the table %v", thing, got, names)
	}
	if slices.Contains(beside, "steps") { // a route without them is none
		required = append(required, "steps")
	}
	need, _ := object["required"].([]any)
	if got := fmt.Sprint(need...); got != fmt.Sprint(anys(required)...) {
		s.Errorf("%s: the schema requires %v, the table %v", thing, need, required)
	}
}

// saysField compares one field; branches are what the schema says of it for
// single kinds of a thing.
func saysField[T any](s schema, at string, f *timeline.Field[T], n node, branches []node) {
	s.Helper()
	at += "." + f.Name
	if f.Kind() == timeline.GroupField {
		if got, ok := n["default"]; !ok || got != nil {
			s.Errorf("%s: the schema's default is %v, want null", at, got)
		}
		for i := range f.Parts {
			part := s.whole(n.in("properties").in(f.Parts[i].Name))
			if len(part) == 0 {
				part = s.whole(n.in("items"))
			}
			saysType(s, at, &f.Parts[i], part, f.Both)
			saysRange(s, at+"."+f.Parts[i].Name, &f.Parts[i], []node{part})
		}
		return
	}
	saysType(s, at, f, n, f.Need != nil)
	switch f.Kind() {
	case timeline.ListField:
		n = s.whole(n.in("items"))
		if n["type"] != "integer" { // windows: tables_test.go holds their fields
			return
		}
	case timeline.NumberField, timeline.MaybeField:
	default:
		return
	}
	saysRange(s, at, f, append([]node{n}, branches...))
}

func saysType[T any](s schema, at string, f *timeline.Field[T], n node, noDefault bool) {
	s.Helper()
	var kind, standard any
	switch f.Kind() {
	case timeline.TextField:
		kind, standard = "string", f.Default.Text
	case timeline.WordField:
		if !reflect.DeepEqual(n["enum"], anys(f.Words)) {
			s.Errorf("%s: the schema has the words %v, the table %v", at, n["enum"], f.Words)
		}
		if f.Default.Text != "" {
			standard = f.Default.Text
		}
	case timeline.FlagField:
		kind, standard = "boolean", f.Default.N != 0
	case timeline.NumberField:
		kind, standard = "integer", float64(f.Default.N)
	case timeline.MaybeField:
		if kind = anys([]string{"integer", "null"}); noDefault { // one of two that are given together
			kind = "integer"
		}
	case timeline.ListField:
		list := []any{}
		for _, word := range strings.Fields(f.Default.Text) {
			n, _ := strconv.ParseFloat(word, 64)
			list = append(list, n)
		}
		kind, standard = "array", list
	}
	if !reflect.DeepEqual(n["type"], kind) {
		s.Errorf("%s: the schema has the type %v, the table %v", at, n["type"], kind)
	}
	got, given := n["default"]
	if given == noDefault || given && !reflect.DeepEqual(got, standard) {
		s.Errorf("%s: the schema has the default %v (%v), the table %v (%v)", at, got, given, standard, !noDefault)
	}
}

// saysRange compares the tightest range of all nodes.
func saysRange[T any](s schema, at string, f *timeline.Field[T], all []node) {
	s.Helper()
	least, most := math.Inf(-1), math.Inf(1)
	for _, n := range all {
		if v, ok := n["minimum"].(float64); ok {
			least = max(least, v)
		}
		if v, ok := n["maximum"].(float64); ok {
			most = min(most, v)
		}
	}
	if least != float64(f.Min) || most != float64(f.Max) {
		s.Errorf("%s: the schema's range is %g to %g, the table's %d to %d", at, least, most, f.Min, f.Max)
	}
}

func anys(of []string) []any {
	out := make([]any, len(of))
	for i, s := range of {
		out[i] = s
	}
	return out
}
