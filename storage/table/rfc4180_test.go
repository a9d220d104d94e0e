package table

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"wakeline/storage/book"
)

// records reads all records of a text, as Read sees them.
func records(t *testing.T, text string) [][]string {
	t.Helper()
	b, err := book.Read(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	var out [][]string
	for _, row := range b.Sheets[0].Rows {
		out = append(out, row.Cells)
	}
	return out
}

// The examples are those of RFC 4180, "Common Format and MIME Type for
// Comma-Separated Values (CSV) Files", section 2, a rule each.
func TestRFC4180Section2(t *testing.T) {
	abc, zyx := []string{"aaa", "bbb", "ccc"}, []string{"zzz", "yyy", "xxx"}
	for _, c := range []struct {
		rule string
		text string
		want [][]string
	}{
		{"1, records end with CRLF", "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", [][]string{abc, zyx}},
		{"2, the last may have no line break", "aaa,bbb,ccc\r\nzzz,yyy,xxx", [][]string{abc, zyx}},
		{"3, a header line", "field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
			[][]string{{"field_name", "field_name", "field_name"}, abc, zyx}},
		{"4, fields separated by commas", "aaa,bbb,ccc", [][]string{abc}},
		{"4, spaces are part of a field", "aaa, bbb ,ccc", [][]string{{"aaa", " bbb ", "ccc"}}},
		{"5, quotes or none", "\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", [][]string{abc, zyx}},
		{"6, line breaks inside quotes", "\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", [][]string{{"aaa", "b\r\nbb", "ccc"}, zyx}},
		{"7, a quote doubled", "\"aaa\",\"b\"\"bb\",\"ccc\"", [][]string{{"aaa", "b\"bb", "ccc"}}},
	} {
		if got := records(t, c.text); !reflect.DeepEqual(got, c.want) {
			t.Errorf("rule %s: %q = %q, want %q", c.rule, c.text, got, c.want)
		}
	}
}

// Rule 4 goes on: each line has the same number of fields, and the last field
// is not followed by a comma. Rule 5: no quotes in a field without them.
func TestRFC4180WhatIsNotAllowed(t *testing.T) {
	for _, c := range []struct{ rule, text, want string }{
		{"4, too few", "name,kind,total\r\naaa,dash\r\n", "line 2, column 3 (total): expected 3 fields, as in the header, got 2"},
		{"4, a comma after the last", "name,kind,total\r\naaa,dash,9,\r\n", "line 2, column 4: expected 3 fields, as in the header, got 4"},
		{"5, a bare quote", "name,kind,total\r\nö\"a,dash,9\r\n", "line 2, character 2: expected quotes around a field that has quotes in it, got a bare quote"},
		{"7, a quote not doubled", "name,kind,total\r\n\"ö\nö\"a\",dash,9\r\n", "line 3, character 2: expected a comma or the row's end after a closing quote, and quotes inside a field doubled, got more text"},
		{"5, a quote never closed", "name,kind,total\r\n\"aaa,dash,9\r\nbbb,dash,9\r\n", "line 3, character 11: expected a closing quote in the row that begins on line 2, got the end of the file"},
	} {
		_, err := Read(strings.NewReader(c.text), Options{Fighter: "Marl"})
		if err == nil || err.Error() != c.want {
			t.Errorf("rule %s: error = %v, want %s", c.rule, err, c.want)
		}
		var syntax *SyntaxError
		if _, err := Read(strings.NewReader(c.text), Options{Fighter: "Marl", SkipBad: true}); (err != nil) != errors.As(err, &syntax) {
			t.Errorf("rule %s, bad rows skipped: error = %v, want a *SyntaxError or none", c.rule, err)
		}
	}
}

func TestReadAFileOfEachRule(t *testing.T) {
	text := "\ufeffname,kind,total,fighter,more\r\n" +
		"b,dash,9,Marl,\"b\r\nbb\"\r\n" +
		"\"b\"\"bb\",\"dash\",\"9\",\"Marl\",\n" +
		"\r\n" +
		" b ,dash,9, Marl,"
	more := ""
	table, err := Read(strings.NewReader(text), Options{Map: map[string]string{"more": ""}, Each: func(s Seen) error {
		more += s.Record[4]
		return nil
	}})
	if err != nil || more != "b\r\nbb" {
		t.Fatalf("%v, the fields left out are %q", err, more)
	}
	for i, want := range []struct {
		line          int
		name, fighter string
	}{{2, "b", "Marl"}, {4, `b"bb`, "Marl"}, {6, " b ", " Marl"}} {
		if got := table.Rows[i]; got.Line != want.line || got.Value.Name != want.name || got.Fighter != want.fighter {
			t.Errorf("row %d = line %d, %q of %q, want line %d, %q of %q", i, got.Line, got.Value.Name, got.Fighter, want.line, want.name, want.fighter)
		}
	}
}
