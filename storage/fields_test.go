package storage

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"wakeline/timeline"
)

var (
	columnText  = regexp.MustCompile(`(\w+) ((?:INTEGER|TEXT)(?: NOT NULL| UNIQUE| DEFAULT \S+| PRIMARY KEY| CHECK \((?:[^()]|\([^()]*\))*\))*)`)
	notSaid     = regexp.MustCompile(` UNIQUE| DEFAULT \S+`)
	numberRange = regexp.MustCompile(`BETWEEN (\S+) AND (\S+)\)`)
)

// TestTheSchemaHoldsTheTableOfFields asks that a new file's tables have the
// columns of the tables of fields, and CHECK what those say.
func TestTheSchemaHoldsTheTableOfFields(t *testing.T) {
	f := made(t, &timeline.Project{Ruleset: timeline.DefaultRuleset()})
	holdsFields(t, f, "ruleset", rulesetFields)
	holdsFields(t, f, "fighter", fighterFields)
	holdsFields(t, f, "move", moveFields)
	holdsFields(t, f, "jump", jumpFields)
	holdsFields(t, f, "rise", riseFields)
	holdsFields(t, f, "route", routeFields)
}

func holdsFields[T any](t *testing.T, f *File, table string, of []*timeline.Field[T]) {
	var text string
	if err := f.db.QueryRow("SELECT sql FROM sqlite_schema WHERE type = 'table' AND name = ?", table).Scan(&text); err != nil {
		t.Fatal(err)
	}
	said := map[string]string{} // of each column
	for _, m := range columnText.FindAllStringSubmatch(text, -1) {
		said[m[1]] = m[2]
	}
	delete(said, "id")
	if names, want := slices.Sorted(maps.Keys(said)), slices.Sorted(slices.Values(columns[table])); !slices.Equal(names, want) {
		t.Errorf("%s: the schema has the columns %v, the table of fields %v", table, names, want)
	}
	for _, f := range of {
		if got, want := said[f.Stored], storedAs(f); !agree(got, want) {
			t.Errorf("%s.%s: the schema says %q, the table of fields %q", table, f.Stored, got, want)
		}
	}
}

// storedAs is what the schema says of a column that holds the field.
func storedAs[T any](f *timeline.Field[T]) string {
	say := "INTEGER"
	text := f.Kind() == timeline.TextField || f.Kind() == timeline.WordField || f.Kind() == timeline.ListField
	if text {
		say = "TEXT"
	}
	if text && f.Kind() != timeline.WordField || f.Default.Given || f.Needed(new(T)) {
		say += " NOT NULL"
	}
	check := ""
	switch f.Kind() {
	case timeline.TextField:
		check = "trim(" + f.Stored + ") <> ''"
	case timeline.WordField:
		check = fmt.Sprintf("%s IN ('%s')", f.Stored, strings.Join(f.Words, "', '"))
	case timeline.FlagField:
		check = f.Stored + " IN (0, 1)"
	case timeline.NumberField, timeline.MaybeField:
		check = fmt.Sprintf("%s BETWEEN %d AND %d", f.Stored, f.Min, f.Max)
	}
	if check != "" {
		say += " CHECK (" + check + ")"
	}
	return say
}

// agree compares two such texts. An end that hangs on another column is looked
// at by the tests of the rules, not here; nor is what the table doesn't say.
func agree(got, want string) bool {
	got = notSaid.ReplaceAllString(got, "")
	g, w := numberRange.FindStringSubmatch(got), numberRange.FindStringSubmatch(want)
	if g == nil || w == nil {
		return got == want || w != nil && got == numberRange.ReplaceAllString(want, ">= "+w[1]+")") // to the last of its frames
	}
	for i := 1; i <= 2; i++ {
		if _, err := strconv.Atoi(g[i]); err != nil {
			want = strings.Replace(want, w[i], g[i], 1)
		}
	}
	return got == want
}
