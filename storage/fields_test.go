package storage

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"wakeline/timeline"
)

var (
	numberRange = regexp.MustCompile(`BETWEEN (\S+) AND (\S+)\)`)
	wordList    = regexp.MustCompile(`IN \('(.*)'\)`)
)

// TestTheSchemaHoldsTheTableOfFields asks that a new file's tables have the
// columns of the tables of fields, in their order, and CHECK what those say.
func TestTheSchemaHoldsTheTableOfFields(t *testing.T) {
	f := made(t, &timeline.Project{Ruleset: timeline.DefaultRuleset()})
	holdsFields(t, f, "ruleset", rulesetFields)
	holdsFields(t, f, "fighter", fighterFields)
	holdsFields(t, f, "move", moveFields)
	holdsFields(t, f, "jump", jumpFields)
	holdsFields(t, f, "rise", riseFields)
}

func holdsFields[T any](t *testing.T, f *File, table string, of []*timeline.Field[T]) {
	var text string
	if err := f.db.QueryRow("SELECT sql FROM sqlite_schema WHERE type = 'table' AND name = ?", table).Scan(&text); err != nil {
		t.Fatal(err)
	}
	said := map[string]string{} // of each column
	var names []string
	for line := range strings.SplitSeq(text, "\n") {
		line = strings.TrimSuffix(strings.TrimSpace(line), ",")
		if name, says, ok := strings.Cut(line, " "); ok && (strings.HasPrefix(says, "INTEGER") || strings.HasPrefix(says, "TEXT")) {
			names, said[name] = append(names, name), says
		}
	}
	if names = names[1:]; !slices.Equal(names, columns[table]) {
		t.Errorf("%s: the schema has the columns %v, the table of fields %v", table, names, columns[table])
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
// at by the tests of the rules, not here; nor is what SQLite says of UNIQUE.
func agree(got, want string) bool {
	got = strings.Replace(got, " UNIQUE", "", 1)
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
