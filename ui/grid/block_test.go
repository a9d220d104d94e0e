package grid

import (
	"reflect"
	"strings"
	"testing"
)

func TestParseBlock(t *testing.T) {
	for _, test := range []struct {
		text string
		want [][]string
	}{
		{"", nil},
		{"5", [][]string{{"5"}}},
		{"a\tb\nc\td\n", [][]string{{"a", "b"}, {"c", "d"}}},
		{"a\tb\r\nc\r\n", [][]string{{"a", "b"}, {"c", ""}}},
		{"a\rb", [][]string{{"a"}, {"b"}}},
		{"\t\n", [][]string{{"", ""}}},
		{"\n\n", [][]string{{""}, {""}}},
		{"\"a\tb\"\t\"say \"\"so\"\"\"\n", [][]string{{"a\tb", `say "so"`}}},
		{"\"two\nlines\"\tb", [][]string{{"two\nlines", "b"}}},
		{"\"open\tb\n", [][]string{{`"open`, "b"}}},
		{"\"shut\" on\tb", [][]string{{`"shut" on`, "b"}}},
		{"5\" jump\tb", [][]string{{`5" jump`, "b"}}},
		{"a\t", [][]string{{"a", ""}}},
	} {
		if got, err := ParseBlock(test.text); err != nil || !reflect.DeepEqual(got, test.want) {
			t.Errorf("%q is %q, %v, want %q", test.text, got, err, test.want)
		}
	}
	if _, err := ParseBlock(strings.Repeat("\t", 2000)); err == nil {
		t.Error("2001 cells in a row are taken")
	}
}

// FuzzParseBlock holds that any text is taken apart into a full rectangle,
// which written out reads back equal.
func FuzzParseBlock(f *testing.F) {
	for _, s := range []string{"", "a\tb\nc\td\n", "\"a\tb\"\t\"\"\"\"\r\n", "\"open\tb\n", "\"x\"y\t\"\n\"", "\r\r\n\n\t"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		rows, err := ParseBlock(text)
		if err != nil {
			return
		}
		for i := range rows {
			if len(rows[i]) != len(rows[0]) {
				t.Fatalf("row %d of %q has %d cells, the first %d", i, text, len(rows[i]), len(rows[0]))
			}
		}
		again, err := ParseBlock(FormatBlock(rows))
		if err != nil || !reflect.DeepEqual(again, rows) {
			t.Fatalf("%q is %q; written and read again %q, %v", text, rows, again, err)
		}
	})
}
