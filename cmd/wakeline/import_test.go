package main

import (
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"wakeline/storage"
	"wakeline/timeline"
)

// fileOf makes a project file that holds a project text.
func fileOf(t *testing.T, text string) string {
	t.Helper()
	p, err := timeline.ReadText([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "p.wakeline")
	f, err := storage.Create(path, p)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

// named writes a file of that name.
func named(t *testing.T, name, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// inFile opens a project file for do.
func inFile(t *testing.T, path string, do func(f *storage.File)) {
	t.Helper()
	f, err := storage.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	do(f)
}

// textOf is a project file as a project text.
func textOf(t *testing.T, path string) (text string) {
	t.Helper()
	inFile(t, path, func(f *storage.File) {
		p, err := f.Project()
		if err != nil {
			t.Fatal(err)
		}
		text = string(timeline.WriteText(p))
	})
	return text
}

func TestNewMakesAProjectOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.wakeline")
	code, out, progress := runIt(t, "new", path)
	if code != 0 || !strings.Contains(out, "created "+path) || progress != "" {
		t.Errorf("new = %d, %q, %q", code, out, progress)
	}
	before, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if code, out, progress := runIt(t, "new", path, "--sample"); code != 2 || out != "" || !strings.Contains(progress, "exists") {
		t.Errorf("new over a file = %d, %q, %q, want 2 and that it exists", code, out, progress)
	}
	if after, err := os.ReadFile(path); err != nil || string(before) != string(after) {
		t.Errorf("the file that was there changed: %v", err)
	}
	for _, c := range []struct{ path, say string }{{"b.json", "ending in .wakeline"}, {"c", "ending in .wakeline"}, {filepath.Join(path, "d.wakeline"), "not a directory"}} {
		if code, _, progress := runIt(t, "new", c.path); code != 2 || !strings.Contains(progress, c.say) {
			t.Errorf("new %s = %d, %q, want 2 and %q", c.path, code, progress, c.say)
		}
	}
	if code, out, _ := runIt(t, "judge", path, "--json"); code != 0 || out != "{\n \"setups\": []\n}\n" {
		t.Errorf("judge of nothing = %d, %q", code, out)
	}
}

func TestTheSampleComesBackByteForByte(t *testing.T) {
	dir := t.TempDir()
	path, text := filepath.Join(dir, "s.wakeline"), filepath.Join(dir, "s.json")
	want, err := os.ReadFile(sample)
	if err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"new", path, "--sample"}, {"export", path, text}} {
		if code, _, progress := runIt(t, args...); code != 0 {
			t.Fatalf("%v = %d, %q", args, code, progress)
		}
	}
	if got, err := os.ReadFile(text); err != nil || string(got) != string(want) {
		t.Fatalf("export of new --sample is not the sample: %v", err)
	}
	again := filepath.Join(dir, "again.wakeline")
	for _, args := range [][]string{{"new", again}, {"import", again, text}, {"export", again, text}} {
		if code, _, progress := runIt(t, args...); code != 0 {
			t.Fatalf("%v = %d, %q", args, code, progress)
		}
	}
	if got, err := os.ReadFile(text); err != nil || string(got) != string(want) {
		t.Fatalf("export of the imported sample is not the sample: %v", err)
	}
	inFile(t, again, func(f *storage.File) {
		if what, err := f.Undo(); err != nil || what != "import s.json" {
			t.Errorf("undo = %q, %v, want the import", what, err)
		}
		if n := len(f.Data().Fighters); n != 0 {
			t.Errorf("fighters after undo = %d, want 0", n)
		}
	})
}

func TestTablesComeBackEqual(t *testing.T) {
	dir := t.TempDir()
	path, folder, again := filepath.Join(dir, "s.wakeline"), filepath.Join(dir, "tables"), filepath.Join(dir, "again.wakeline")
	runIt(t, "new", path, "--sample")
	code, out, progress := runIt(t, "export", path, folder)
	if code != 0 || strings.Count(out, "wrote ") != 6 || progress != "" || !strings.Contains(out, "Brenno routes.csv: 7 routes") {
		t.Fatalf("export = %d, %q, %q, want three tables of moves and three of routes", code, out, progress)
	}
	if err := os.WriteFile(filepath.Join(folder, "other.txt"), []byte("kept"), 0o644); err != nil {
		t.Fatal(err)
	}
	if code, out, _ := runIt(t, "export", path, folder); code != 0 || strings.Count(out, "replaced ") != 6 {
		t.Errorf("export again = %d, %q, want that six are replaced", code, out)
	}
	if kept, err := os.ReadFile(filepath.Join(folder, "other.txt")); err != nil || string(kept) != "kept" {
		t.Errorf("the other file = %q, %v", kept, err)
	}
	tables, err := filepath.Glob(filepath.Join(folder, "*.csv"))
	if err != nil || len(tables) != 6 {
		t.Fatalf("tables = %v, %v", tables, err)
	}
	runIt(t, "new", again)
	if code, out, progress := runIt(t, append([]string{"import", again}, tables...)...); code != 0 || !strings.Contains(out, "(new)") || !strings.Contains(out, "; routes: 16 new, 0 changed, 0 gone") || !strings.Contains(out, "Brenno routes.csv: 7 routes of Brenno\n") {
		t.Fatalf("import = %d, %q, %q", code, out, progress)
	}
	inFile(t, path, func(a *storage.File) {
		inFile(t, again, func(b *storage.File) {
			if len(b.Data().Fighters) != 3 {
				t.Fatalf("fighters = %d, want 3", len(b.Data().Fighters))
			}
			for _, f := range a.Data().Fighters {
				if got := b.Data().Fighter(f.Name); !reflect.DeepEqual(got.Moves, f.Moves) {
					t.Errorf("moves of %s differ:\n%+v\nwant\n%+v", f.Name, got.Moves, f.Moves)
				} else if !reflect.DeepEqual(got.Routes, f.Routes) {
					t.Errorf("routes of %s differ:\n%+v\nwant\n%+v", f.Name, got.Routes, f.Routes)
				}
			}
			if what, err := b.Undo(); err != nil || !strings.HasPrefix(what, "import Brenno") || len(b.Data().Fighters) != 0 {
				t.Errorf("undo = %q, %v, %d fighters left; want one step", what, err, len(b.Data().Fighters))
			}
			if _, err := b.Undo(); !errors.Is(err, storage.ErrNoStep) {
				t.Errorf("undo again: %v, want %v", err, storage.ErrNoStep)
			}
		})
	})
}

const goodTable = "fighter,name,kind,level,startup,active,recovery\nA,Jab,strike,mid,4,2,8\nB,Jab,strike,mid,5,2,8\n"

func TestImportIsAllOrNothing(t *testing.T) {
	good := named(t, "good.csv", goodTable)
	badRow := named(t, "bad.csv", "fighter,name,kind,level,startup,active,recovery\nA,Hook,strike,mid,9,2,8\nA,Cut,strike,mid,x,2,8\n")
	for _, c := range []struct {
		name  string
		files []string
		say   string
	}{
		{"a bad row", []string{good, badRow}, badRow + ": line 3, column 5 (startup): expected a whole number, got \"x\""},
		{"a bad row first", []string{badRow, good}, "nothing was imported"},
		{"a strange heading", []string{good, named(t, "h.csv", "fighter,name,kind,speed\nA,Jab,dash,9\n")}, "line 1, column 4 (speed): expected a heading"},
		{"no fighter", []string{named(t, "f.csv", "name,kind,total\nStep,dash,9\n")}, "a fighter to give the moves to"},
		{"no table", []string{good, named(t, "q.csv", "fighter,name,kind\nA,\"a\"b,dash\n")}, "line 2, character"},
		{"a broken text", []string{good, write(t, strings.Replace(little, `"startup": 7`, `"startup": 0`, 1))}, "$.fighters[0].moves[0].startup: expected"},
		{"no file", []string{good, good + ".json"}, "no such file"},
		{"a text that takes away what a setup uses", []string{write(t, `{"wakeline": 1, "fighters": [{"name": "A"}]}`)}, "import p.json"},
		{"a move that breaks a setup", []string{named(t, "g.csv", "fighter,name,kind,level,startup,active\nA,Drop,strike,mid,4,2\n")}, "attack: expected an air move"},
		{"something else", []string{good, good + ".doc"}, "named .csv"},
		{"none", nil, "at least one file"},
	} {
		path := fileOf(t, little)
		before := textOf(t, path)
		code, out, progress := runIt(t, append([]string{"import", path}, c.files...)...)
		if code != 2 || out != "" || !strings.Contains(progress, c.say) {
			t.Errorf("%s: import = %d, %q, %q; want 2 and %q", c.name, code, out, progress, c.say)
		}
		if after := textOf(t, path); after != before {
			t.Errorf("%s: the project changed:\n%s", c.name, after)
		}
		inFile(t, path, func(f *storage.File) {
			if h, err := f.History(9); err != nil || len(h) > 0 {
				t.Errorf("%s: history = %v, %v, want none", c.name, h, err)
			}
		})
	}
}

func TestImportSkipsBadRowsWhenToldTo(t *testing.T) {
	path := fileOf(t, little)
	bad := named(t, "bad.csv", "Who;x,name,Move type,level,startup,active,recovery,notes\nA,Hook,strike,mid,9,2,8,n\nA,Cut,strike,mid,x,2,8,\nA,Rise,strike,mid,3,3,20,\nB,Two,strike,mid,3,3,20,\"of two\nlines\"\nB,Hop,dash,mid,,,,\n")
	code, out, progress := runIt(t, "import", path, bad, "--skip-bad", "--map", "who;x=fighter", "--map", "Move type=kind", "--map", "notes=", "--revision", "1.1")
	if code != 0 {
		t.Fatalf("import = %d, %q, %q", code, out, progress)
	}
	for _, want := range []string{bad + ": 3 moves: 2 of A, 1 of B (new); 2 rows skipped", `moves: 2 new, 1 changed, 0 gone; revision "1.1"`} {
		if !strings.Contains(out, want) {
			t.Errorf("out = %q, want %q", out, want)
		}
	}
	for _, want := range []string{bad + ": line 3, column 5 (startup): expected a whole number, got \"x\"; skipped", bad + ": line 7 (total): expected the total of a dash, got nothing; skipped"} {
		if !strings.Contains(progress, want) {
			t.Errorf("progress = %q, want %q", progress, want)
		}
	}
	inFile(t, path, func(f *storage.File) {
		a := f.Data().Fighter("A")
		if len(a.Moves) != 4 || a.Move("Rise").Startup != 3 || a.Move("Rise").Immune != nil || f.Data().Fighter("B").Move("Two") == nil {
			t.Errorf("moves = %+v", a.Moves)
		}
		list, err := f.Revisions()
		if err != nil || len(list) != 2 || list[1].Name != "1.1" || !list[1].Latest {
			t.Errorf("revisions = %+v, %v", list, err)
		}
		if _, err := f.Undo(); err != nil {
			t.Fatal(err)
		}
		if list, _ := f.Revisions(); len(list) != 1 || f.Data().Fighter("B") != nil {
			t.Errorf("after undo: revisions = %+v, fighters %d", list, len(f.Data().Fighters))
		}
	})
	for _, c := range []struct {
		args []string
		say  string
	}{
		{[]string{"--map", "x"}, `expected a heading, "=" and a column, got "x"`},
		{[]string{"--map", "a=name", "--map", "a=kind"}, "expected one column"},
		{[]string{"--map", "a=speed"}, `got "speed"`},
		{[]string{"--revision", "first"}, `--revision: expected a new name, got "first"`},
		{[]string{"--revision", " "}, "--revision: expected a name"},
	} {
		args := append([]string{"import", path, named(t, "good.csv", goodTable)}, c.args...)
		if code, _, progress := runIt(t, args...); code != 2 || !strings.Contains(progress, c.say) {
			t.Errorf("%v = %d, %q, want 2 and %q", c.args, code, progress, c.say)
		}
	}
}

// Files are laid over one another in the order they are named.
func TestImportLaysFilesOverOneAnother(t *testing.T) {
	table := func(fighter, startup string) string {
		return named(t, "t.csv", "fighter,name,kind,level,startup,active\n"+fighter+",Rise,strike,mid,"+startup+",2\n"+fighter+",More,strike,mid,"+startup+",2\n")
	}
	text := write(t, little)
	other := write(t, `{"wakeline": 1, "ruleset": {"health": 9000}, "fighters": [{"name": "B", "moves": [{"name": "Rise", "kind": "dash", "total": 9}]}], "setups": []}`)
	for _, c := range []struct {
		name       string
		files      []string
		a, b, more int // startups; more: of A's More, -1 without one
	}{
		{"table over text", []string{text, table("A", "9")}, 9, -1, 9},
		{"text over table", []string{table("A", "9"), text}, 4, -1, -1},
		{"table over table over text", []string{text, table("A", "9"), table("B", "7"), table("A", "8"), table("B", "6")}, 8, 6, 8},
		{"text over text", []string{text, table("B", "7"), other, table("A", "5")}, 5, 0, 5},
	} {
		path := filepath.Join(t.TempDir(), "p.wakeline")
		runIt(t, "new", path)
		if code, _, progress := runIt(t, append([]string{"import", path}, c.files...)...); code != 0 {
			t.Errorf("%s: %d, %q", c.name, code, progress)
			continue
		}
		inFile(t, path, func(f *storage.File) {
			startup := func(fighter, move string) int {
				if f := f.Data().Fighter(fighter); f != nil && f.Move(move) != nil {
					return f.Move(move).Startup
				}
				return -1
			}
			if a, b, more := startup("A", "Rise"), startup("B", "Rise"), startup("A", "More"); a != c.a || b != c.b || more != c.more {
				t.Errorf("%s: startups = %d, %d, %d; want %d, %d, %d", c.name, a, b, more, c.a, c.b, c.more)
			}
			if h, _ := f.History(9); len(h) != 1 {
				t.Errorf("%s: %d steps, want 1", c.name, len(h))
			}
		})
	}
	lone := named(t, "lone.csv", "name,kind,total\nStep,dash,12\n")
	path := fileOf(t, little)
	if code, out, progress := runIt(t, "import", path, lone, "--fighter", "A"); code != 0 || !strings.Contains(out, "1 move of A") {
		t.Errorf("import --fighter = %d, %q, %q", code, out, progress)
	}
}

func TestImportNeedsTheFileToItself(t *testing.T) {
	path := fileOf(t, little)
	good := named(t, "good.csv", goodTable)
	inFile(t, path, func(*storage.File) {
		if code, _, progress := runIt(t, "import", path, good); code != 2 || !strings.Contains(progress, "another window has it open") {
			t.Errorf("import beside a window = %d, %q, want 2", code, progress)
		}
		if code, out, progress := runIt(t, "judge", path, "--setup", "good"); code != 0 || !strings.Contains(out, "good: safe") {
			t.Errorf("judge beside a window = %d, %q, %q", code, out, progress)
		}
	})
	if code, _, progress := runIt(t, "import", write(t, little), good); code != 2 || !strings.Contains(progress, "named .wakeline") {
		t.Errorf("import into a text = %d, %q, want 2", code, progress)
	}
	if code, _, progress := runIt(t, "import", named(t, "x.wakeline", strings.Repeat("no project", 20)), good); code != 2 || !strings.Contains(progress, "not a Wakeline project file") {
		t.Errorf("import into a stranger's file = %d, %q, want 2", code, progress)
	}
}

func TestExportRefusesWhatItCantWrite(t *testing.T) {
	path := fileOf(t, little)
	for _, c := range []struct {
		args []string
		say  string
	}{
		{[]string{path}, "expected two arguments"},
		{[]string{path, "moves.csv"}, "a folder for a table of each fighter"},
		{[]string{path, "other.wakeline"}, "a folder for a table of each fighter"},
		{[]string{path, path}, "a folder for a table of each fighter"},
		{[]string{path, named(t, "plain", "x")}, "expected a folder"},
		{[]string{path, filepath.Join(path, "a.json")}, "not a directory"},
		{[]string{path + ".none", "a.json"}, "named .wakeline"},
	} {
		if code, out, progress := runIt(t, append([]string{"export"}, c.args...)...); code != 2 || out != "" || !strings.Contains(progress, c.say) {
			t.Errorf("export %v = %d, %q, %q; want 2 and %q", c.args, code, out, progress, c.say)
		}
	}
	empty := filepath.Join(t.TempDir(), "e.wakeline")
	runIt(t, "new", empty)
	if code, _, progress := runIt(t, "export", empty, t.TempDir()); code != 2 || !strings.Contains(progress, "got none") {
		t.Errorf("export of no fighter = %d, %q", code, progress)
	}
}

// TestRoutesAreImported takes routes of moves that are there, and of moves that
// come with them, and says where a row is wrong.
func TestRoutesAreImported(t *testing.T) {
	path := fileOf(t, little)
	moves := named(t, "moves.csv", "fighter,name,kind,level,startup,active,recovery\nA,Hook,strike,mid,9,2,8\n")
	routes := named(t, "routes.csv", "fighter,Name,Combo,confirmed\nA,first,\"rise, hook\",\nA,second,hook > Rise,yes\n")
	bad := named(t, "bad.csv", "fighter,name,steps,damage\nA,third,\"Rise, Jab\",1\nNobody,x,Rise,\nA,fourth,Rise,much\nA,fifth,Rise,7\n")
	if code, _, progress := runIt(t, "import", path, bad); code != 2 || !strings.Contains(progress, bad+": line 2, column 3 (steps): expected a move of A, got \"Jab\"") ||
		!strings.Contains(progress, "line 3, column 1 (fighter): expected a fighter that there is") || !strings.Contains(progress, "line 4, column 4 (damage): expected a whole number, got \"much\"") {
		t.Errorf("bad routes = %d, %q", code, progress)
	}
	code, out, progress := runIt(t, "import", path, routes, moves, "--map", "Combo=steps")
	if code != 0 || !strings.Contains(out, "routes.csv: 2 routes of A\n") || !strings.Contains(out, "moves: 1 new, 0 changed, 0 gone; routes: 2 new, 0 changed, 0 gone") {
		t.Fatalf("import = %d, %q, %q", code, out, progress)
	}
	if code, out, progress = runIt(t, "import", path, bad, "--skip-bad"); code != 0 || !strings.Contains(out, "bad.csv: 1 route of A; 3 rows skipped") {
		t.Errorf("import --skip-bad = %d, %q, %q", code, out, progress)
	}
	inFile(t, path, func(f *storage.File) {
		a := f.Data().Fighter("A")
		want := []timeline.RouteStep{{Move: "Hook", By: timeline.Link}, {Move: "Rise", By: timeline.Cancel}}
		if r := a.Route("second"); r == nil || !r.Confirmed || !reflect.DeepEqual(r.Steps, want) || a.Route("fifth") == nil || len(a.Routes) != 3 {
			t.Errorf("routes = %+v", a.Routes)
		}
	})
}
