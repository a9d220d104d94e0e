package table

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"unicode/utf8"
)

func TestFileName(t *testing.T) {
	for _, c := range []struct{ fighter, want string }{
		{"Marl", "Marl.csv"},
		{"Old Marl", "Old Marl.csv"},
		{"嵐", "嵐.csv"},
		{"Dr. Ö", "Dr. Ö.csv"},
		{"", "unnamed.csv"},
		{"  ", "unnamed.csv"},
		{"a/b\\c", "a_b_c.csv"},
		{"../up", "_._up.csv"},
		{".", "_.csv"},
		{"..", "_..csv"},
		{"-rf", "_rf.csv"},
		{"con", "_con.csv"},
		{"Aux.old", "_Aux.old.csv"},
		{"com¹ ", "_com¹.csv"},
		{"console", "console.csv"},
		{"a\nb\x00c\u202ed\ufffde", "a_b_c_d_e.csv"},
		{"a\xffb", "a_b.csv"},
		{`<a>:"b"|?*`, "_a___b____.csv"},
		{"e\u0301", "e_.csv"},
	} {
		if got := FileNames([]string{c.fighter})[0]; got != c.want {
			t.Errorf("FileNames(%q) = %q, want %q", c.fighter, got, c.want)
		}
	}
}

func TestFileNamesStayDistinct(t *testing.T) {
	got := FileNames([]string{"a/b", "a_b", "A?B", "a_b 2", "", "unnamed", "ſ", "S"})
	want := []string{"a_b.csv", "a_b 2.csv", "A_B 3.csv", "a_b 2 2.csv", "unnamed.csv", "unnamed 2.csv", "ſ.csv", "S 2.csv"}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("FileNames = %q, want %q", got, want)
	}
	long := strings.Repeat("嵐", 100)
	for _, name := range FileNames([]string{long, long + "a", long + "b"}) {
		if len(name) > 255 || !utf8.ValidString(name) {
			t.Errorf("long name = %q of %d bytes, want at most 255 bytes of UTF-8", name, len(name))
		}
	}
}

func TestFileNamesMakeFiles(t *testing.T) {
	dir, g := t.TempDir(), newDice(3)
	var fighters []string
	for range 500 {
		fighters = append(fighters, g.text(g.IntN(3)))
	}
	for _, name := range FileNames(fighters) {
		path := filepath.Join(dir, name)
		if filepath.Dir(path) != dir {
			t.Fatalf("%q leaves its folder", name)
		}
		f, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL, 0o600)
		if err != nil {
			t.Fatal(err)
		}
		f.Close()
	}
}
