package main

import (
	"path/filepath"
	"strings"
	"testing"
)

// Tables in the forms people use come to one project, and each that is taken for
// something else than its letters say is told.
func TestTablesOfOthersComeToOneProject(t *testing.T) {
	files, err := filepath.Glob("../../storage/table/testdata/tables/*")
	if err != nil || len(files) < 20 {
		t.Fatal(files, err)
	}
	want := ""
	for _, file := range files {
		path := filepath.Join(t.TempDir(), "p.wakeline")
		runIt(t, "new", path)
		code, out, progress := runIt(t, "import", path, file)
		if code != 0 || !strings.Contains(out, "3 of Marl (new), 2 of Orla (new), 2 of Ness (new)") {
			t.Errorf("%s: import = %d, %q, %q", file, code, out, progress)
			continue
		}
		got := textOf(t, path)
		if want == "" {
			want = got
		}
		if got != want {
			t.Errorf("%s comes to another project:\n%s", file, got)
		}
		if quiet := strings.HasSuffix(file, "01-own.csv"); quiet != (progress == "") || quiet == strings.Contains(out, " note") {
			t.Errorf("%s: out %q, progress %q", file, out, progress)
		}
	}
}

func TestImportTellsWhatItTook(t *testing.T) {
	path := filepath.Join(t.TempDir(), "p.wakeline")
	runIt(t, "new", path)
	file := named(t, "moves.tsv", "Marl\nMove\tType\tStart-up (f)\tActive\tOn hit\nsweep\tL\t12+3\t3\tKD +31\nkick\tM\tsoon\tmany\tD\n")
	if code, out, progress := runIt(t, "import", path, file); code != 2 || out != "" || strings.Contains(progress, "taken as") ||
		!strings.Contains(progress, `line 4, column 3 (Start-up (f)): expected a whole number, got "soon"`) || !strings.Contains(progress, `line 4, column 4 (Active): expected frames written like 3`) {
		t.Errorf("import = %d, %q, %q; want both bad cells and no note", code, out, progress)
	}
	code, out, progress := runIt(t, "import", path, file, "--skip-bad")
	if code != 0 || !strings.Contains(out, "1 move of Marl (new); 1 row skipped; ") {
		t.Errorf("import --skip-bad = %d, %q", code, out)
	}
	for _, want := range []string{
		`line 1: "Marl" taken as the fighter of the rows below: it stands alone above the headings`,
		`line 3, column 3 (Start-up (f)): "12+3" taken as 15: frames before and after an effect: added up`,
		`line 3, column 5 (On hit): "KD +31" taken as knockdown_midscreen 31: a knockdown with that advantage`,
		`line 4, column 3 (Start-up (f)): expected a whole number, got "soon"; skipped`,
	} {
		if !strings.Contains(progress, want) {
			t.Errorf("progress lacks %q:\n%s", want, progress)
		}
	}
}
