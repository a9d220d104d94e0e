package assets_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"wakeline/assets"
	"wakeline/samples"
	"wakeline/timeline"
)

func compiled(t *testing.T) *jsonschema.Schema {
	t.Helper()
	const id = "urn:wakeline:project:1"
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(assets.ProjectSchema))
	if err != nil {
		t.Fatal(err)
	}
	if got := doc.(map[string]any)["$id"]; got != id {
		t.Fatalf("$id = %v, want %v", got, id)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource(id, doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile(id)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// validate asks the schema about a project text.
func validate(s *jsonschema.Schema, text []byte) error {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		return err
	}
	return s.Validate(doc)
}

func TestTheSampleValidates(t *testing.T) {
	if err := validate(compiled(t), samples.Text); err != nil {
		t.Error(err)
	}
}

// refused asks that both the schema and the reader refuse text.
func refused(t *testing.T, s *jsonschema.Schema, text string) {
	t.Helper()
	if validate(s, []byte(text)) == nil {
		t.Error("the schema takes it, want it refused")
	}
	if _, err := timeline.ReadText([]byte(text)); err == nil {
		t.Error("the reader takes it, want it refused")
	}
}

// taken asks that both the schema and the reader take text.
func taken(t *testing.T, s *jsonschema.Schema, text string) {
	t.Helper()
	if err := validate(s, []byte(text)); err != nil {
		t.Errorf("the schema refuses it: %v", err)
	}
	if _, err := timeline.ReadText([]byte(text)); err != nil {
		t.Errorf("the reader refuses it: %v", err)
	}
}

// change puts new in place of old, which must stand in the page once.
func change(t *testing.T, old, new string) string {
	t.Helper()
	if n := strings.Count(page, old); n != 1 {
		t.Fatalf("%q stands in the page %d times, want once", old, n)
	}
	return strings.Replace(page, old, new, 1)
}

func TestBothRefuse(t *testing.T) {
	s := compiled(t)
	for _, c := range broken {
		t.Run(c.name, func(t *testing.T) { refused(t, s, change(t, c.old, c.new)) })
	}
	for name, text := range map[string]string{"a list": "[]", "a text": `"wakeline"`, "null": "null", "empty": "{}"} {
		t.Run(name, func(t *testing.T) { refused(t, s, text) })
	}
}

func TestBothTake(t *testing.T) {
	s := compiled(t)
	taken(t, s, page)
	for _, c := range valid {
		t.Run(c.name, func(t *testing.T) { taken(t, s, change(t, c.old, c.new)) })
	}
	for name, text := range map[string]string{
		"nothing but the version": `{"wakeline": 1}`,
		"empty lists":             `{"wakeline": 1.0, "ruleset": {}, "fighters": [], "setups": []}`,
		"a bare fighter":          `{"wakeline": 1, "fighters": [{"name": "A"}]}`,
		"bare moves": `{"wakeline": 1, "fighters": [{"name": "A", "moves": [{"name": "s", "kind": "strike", "level": "low", "startup": 1, "active": [1]},
			{"name": "t", "kind": "throw", "startup": 1, "active": [1]}, {"name": "d", "kind": "dash", "total": 1}]}]}`,
		"a bare setup": `{"wakeline": 1, "fighters": [{"name": "A"}], "setups": [{"name": "s", "attacker": "A", "rival": "A", "advantage": 0}]}`,
	} {
		t.Run(name, func(t *testing.T) { taken(t, s, text) })
	}
}

// Whatever the reader takes, the schema takes; so whatever the schema
// refuses, the reader refuses.
func TestTheSchemaTakesWhatTheReaderTakes(t *testing.T) {
	s := compiled(t)
	m := mutator{rand.New(rand.NewPCG(7, 43))}
	for _, base := range []struct {
		name  string
		text  []byte
		times int
	}{{"page", []byte(page), 4000}, {"sample", samples.Text, 1000}} {
		took, gave := 0, 0
		for i := range base.times {
			doc := decode(t, base.text)
			what := m.mutate(doc)
			if i%3 == 0 {
				what += "; " + m.mutate(doc)
			}
			text, err := json.Marshal(doc)
			if err != nil {
				t.Fatal(err)
			}
			bySchema := validate(s, text)
			_, byReader := timeline.ReadText(text)
			if byReader == nil && bySchema != nil {
				t.Errorf("%s, %s: the reader takes what the schema refuses: %v", base.name, what, bySchema)
			}
			if byReader == nil {
				took++
			}
			if bySchema != nil {
				gave++
			}
		}
		t.Logf("%s: of %d, the reader took %d and the schema refused %d", base.name, base.times, took, gave)
		if took < base.times/10 || gave < base.times/10 {
			t.Errorf("%s: of %d, the reader took %d and the schema refused %d, want a tenth of each at least", base.name, base.times, took, gave)
		}
	}
}

func decode(t *testing.T, text []byte) map[string]any {
	t.Helper()
	dec := json.NewDecoder(bytes.NewReader(text))
	dec.UseNumber()
	var doc map[string]any
	if err := dec.Decode(&doc); err != nil {
		t.Fatal(err)
	}
	return doc
}

// mutator changes a document in one place, at random.
type mutator struct{ *rand.Rand }

// strays are values that may stand where they don't belong.
var strays = []string{"null", "true", "0", "1", "-1", "7", "2.5", "3.0", "16", "511", "512", "513", "1000000", "1000001", "1e9", "1e10",
	`""`, `" "`, `"auto"`, `"guard"`, `"nothing"`, `"mid"`, `"throw"`, `"air throw"`, `"strike"`, `"parry"`, `"wall"`, `"beat"`, `"60/1"`, `"Scrape"`,
	`[]`, `[1]`, `[2, 3]`, `["strike"]`, `[{"from": 1, "to": 2}]`, `{}`, `{"midscreen": 3}`, `{"recovery": 4, "guard_after": 1}`}

func (m mutator) stray() any {
	var v any
	dec := json.NewDecoder(strings.NewReader(strays[m.IntN(len(strays))]))
	dec.UseNumber()
	if err := dec.Decode(&v); err != nil {
		panic(err)
	}
	return v
}

// fieldNames are those that are added where they are not.
var fieldNames = strings.Fields(`name kind level startup active recovery total on_hit on_guard hitstun guardstun airborne_from
	misses_air air deep drop top reach landing immune armour parry damage gauge_cost gauge_gain travel knockdown distance room body width moves jumps
	rises extra shift prejump airborne guard_after apex from to hits against midscreen wall ender position advantage fillers delay jump attack
	press replies tags note move demand late rate buffer unheard`)

// mutate changes doc and says how.
func (m mutator) mutate(doc map[string]any) string {
	var at any = doc
	path := "$"
	for { // walk down until a step stops at the place to change
		switch v := at.(type) {
		case map[string]any:
			if m.IntN(12) == 0 || len(v) == 0 {
				name := fieldNames[m.IntN(len(fieldNames))]
				v[name] = m.stray()
				return fmt.Sprintf("%s.%s set to %v", path, name, v[name])
			}
			names := slices.Sorted(maps.Keys(v))
			name := names[m.IntN(len(names))]
			path += "." + name
			if deeper(v[name]) && m.IntN(8) > 0 {
				at = v[name]
				continue
			}
			if m.IntN(4) == 0 {
				delete(v, name)
				return path + " dropped"
			}
			v[name] = m.turn(v[name])
			return fmt.Sprintf("%s = %v", path, v[name])
		case []any:
			i := m.IntN(len(v))
			path += fmt.Sprintf("[%d]", i)
			if deeper(v[i]) {
				at = v[i]
				continue
			}
			v[i] = m.turn(v[i])
			return fmt.Sprintf("%s = %v", path, v[i])
		}
	}
}

// deeper reports whether there is something inside v to change.
func deeper(v any) bool {
	switch v := v.(type) {
	case map[string]any:
		return true
	case []any:
		return len(v) > 0
	}
	return false
}

// turn returns another value in place of v: another number, one item more or
// fewer, or a stray.
func (m mutator) turn(v any) any {
	switch v := v.(type) {
	case json.Number:
		n, err := v.Int64()
		if err != nil {
			break
		}
		switch m.IntN(5) {
		case 0:
			return json.Number(fmt.Sprint(-n))
		case 1:
			return json.Number(fmt.Sprintf("%d.0", n))
		case 2:
			return json.Number(fmt.Sprint(n + int64(m.IntN(7)) - 3))
		}
	case []any:
		switch m.IntN(3) {
		case 0:
			return v[:max(0, len(v)-1)]
		case 1:
			if len(v) > 0 {
				return append(slices.Clone(v), v[m.IntN(len(v))])
			}
		}
	}
	return m.stray()
}
