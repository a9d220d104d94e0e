package storage

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	sqlite3 "github.com/mattn/go-sqlite3"

	"wakeline/timeline"
)

func init() { sql.Register("plain-sqlite3", &sqlite3.SQLiteDriver{}) }

// plainly runs SQL on the file at path without any of this package's guards,
// as another program would.
func plainly(t testing.TB, path string, statements ...string) {
	t.Helper()
	db, err := sql.Open("plain-sqlite3", path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	db.SetMaxOpenConns(1)
	for _, s := range statements {
		if _, err := db.Exec(s); err != nil {
			t.Fatalf("%s: %v", s, err)
		}
	}
}

// folder reads all files of a folder.
func folder(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if !e.Type().IsRegular() {
			out[e.Name()] = e.Type().String()
			continue
		}
		b, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		out[e.Name()] = string(b)
	}
	return out
}

// poke changes bytes of a file.
func poke(t *testing.T, path string, at int64, b []byte) {
	t.Helper()
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if _, err := f.WriteAt(b, at); err != nil {
		t.Fatal(err)
	}
}

func TestHostileAndForeignFilesAreRefusedUntouched(t *testing.T) {
	const unlock = "PRAGMA writable_schema = ON"
	with := func(statements ...string) func(t *testing.T, path string) {
		return func(t *testing.T, path string) { plainly(t, path, statements...) }
	}
	for name, c := range map[string]struct {
		make func(t *testing.T, path string)
		want error
		says string
	}{
		"a trigger": {with("CREATE TRIGGER x AFTER UPDATE ON setup BEGIN DELETE FROM fighter; END"), ErrDamaged, `trigger "x"`},
		"a trigger under SQLite's name": {with("CREATE TRIGGER x AFTER UPDATE ON setup BEGIN DELETE FROM fighter; END", unlock,
			"UPDATE sqlite_schema SET name = 'sqlite_autoindex_setup_9' WHERE name = 'x'"), nil, "sqlite_autoindex_setup_9"},
		"a view for a table":         {with("ALTER TABLE tag RENAME TO hidden", "CREATE VIEW tag AS SELECT setup, place, name FROM hidden"), ErrDamaged, ""},
		"a virtual table":            {with("CREATE VIRTUAL TABLE v USING fts4(x)"), ErrDamaged, ""},
		"a table more":               {with("CREATE TABLE more (x)"), ErrDamaged, `"more"`},
		"a table less":               {with("DROP TABLE proof"), ErrDamaged, "lacks"},
		"an index less":              {with("DROP INDEX tag_name"), ErrDamaged, "tag_name"},
		"a column more":              {with("ALTER TABLE rise ADD COLUMN x TEXT"), ErrDamaged, `"rise"`},
		"a generated column":         {with("ALTER TABLE rise ADD COLUMN x INTEGER AS (extra * 2)"), ErrDamaged, `"rise"`},
		"a CHECK less":               {with(unlock, "UPDATE sqlite_schema SET sql = replace(sql, 'CHECK (extra BETWEEN 0 AND 512)', '') WHERE name = 'rise'"), ErrDamaged, `"rise"`},
		"another CHECK":              {with(unlock, "UPDATE sqlite_schema SET sql = replace(sql, '512', '513') WHERE name = 'rise'"), ErrDamaged, `"rise"`},
		"a row twice":                {with(unlock, "INSERT INTO sqlite_schema SELECT * FROM sqlite_schema WHERE name = 'tag_name'"), nil, ""},
		"another application":        {with("PRAGMA application_id = 77"), ErrForeign, "application_id is 0x4d"},
		"a newer version":            {with("PRAGMA user_version = 900"), ErrNewer, "version 900"},
		"a negative version":         {with("PRAGMA user_version = -1"), ErrDamaged, "version is -1"},
		"no version":                 {with("PRAGMA user_version = 0"), ErrDamaged, "version is 0"},
		"a write-ahead log":          {with("PRAGMA journal_mode = WAL"), ErrForeign, "write-ahead"},
		"a stray log":                {func(t *testing.T, path string) { write(t, path+"-wal", "log") }, ErrForeign, "write-ahead"},
		"a journal naming files":     {func(t *testing.T, path string) { write(t, path+"-journal", strings.Repeat("x", 512)+superMagic) }, ErrForeign, "journal names another file"},
		"a journal that is a folder": {func(t *testing.T, path string) { os.Mkdir(path+"-journal", 0o755) }, ErrForeign, "got a folder"},
		"a version that none has":    {with("PRAGMA user_version = 1000000"), ErrDamaged, "version is 1000000"},
		"a bit of the first bytes":   {func(t *testing.T, path string) { poke(t, path, 3, []byte{'K'}) }, ErrDamaged, "first bytes"},
		"a bit of the application":   {func(t *testing.T, path string) { poke(t, path, 68, []byte{'V'}) }, ErrDamaged, "application_id is 0x56"},
		"a bit of the format":        {func(t *testing.T, path string) { poke(t, path, 18, []byte{5}) }, ErrDamaged, "version 5"},
		"a row of a negative number": {with("PRAGMA foreign_keys = OFF", "UPDATE setup SET id = -id", "UPDATE reply SET setup = -setup", "UPDATE filler SET setup = -setup", "UPDATE tag SET setup = -setup", "UPDATE claimed_rise SET setup = -setup", "UPDATE follow SET setup = -setup", "UPDATE punish SET setup = -setup"), ErrDamaged, "numbered from 1"},
		"a filler of a negative number": {with("PRAGMA foreign_keys = OFF", "UPDATE move SET id = -id", "UPDATE setup SET ender = -ender, attack = -attack, landing_move = -landing_move",
			"UPDATE filler SET move = -move", "UPDATE reply SET move = -move", "UPDATE follow SET move = -move", "UPDATE route_step SET move = -move", "UPDATE standing_reply SET move = -move"), ErrDamaged, "table move: expected rows numbered from 1"},
		"a reply of no setup":     {with("PRAGMA foreign_keys = OFF", "UPDATE reply SET setup = 999 WHERE setup = (SELECT max(setup) FROM reply)"), ErrDamaged, "to a row of setup that isn't there"},
		"a name with an escape":   {with("UPDATE move SET name = 'a' || char(27) || '[2J' WHERE id = 1"), ErrDamaged, "without control characters"},
		"a name that is no UTF-8": {with("UPDATE move SET name = CAST(X'61FF' AS TEXT) WHERE id = 1"), ErrDamaged, "UTF-8"},
		"no bytes":                {func(t *testing.T, path string) { os.Truncate(path, 0) }, ErrForeign, "empty"},
		"half a header":           {func(t *testing.T, path string) { os.Truncate(path, 50) }, ErrForeign, "50 bytes"},
		"a header alone":          {func(t *testing.T, path string) { os.Truncate(path, 100) }, ErrDamaged, ""},
		"a text":                  {func(t *testing.T, path string) { write(t, path, strings.Repeat("not a database ", 99)) }, ErrForeign, "doesn't begin as one does"},
		"a project text":          {func(t *testing.T, path string) { write(t, path, string(timeline.WriteText(sample(t)))) }, ErrForeign, "doesn't begin as one does"},
		"pages of no size":        {func(t *testing.T, path string) { poke(t, path, 16, []byte{0, 3}) }, ErrDamaged, ""},
		"a folder": {func(t *testing.T, path string) {
			os.Remove(path)
			os.Mkdir(path, 0o755)
		}, ErrForeign, "got a folder"},
		"nothing there": {func(t *testing.T, path string) { os.Remove(path) }, os.ErrNotExist, ""},
		"a link to nothing": {func(t *testing.T, path string) {
			os.Remove(path)
			os.Symlink(path+".none", path)
		}, os.ErrNotExist, ""},
		"a row against a CHECK": {with("PRAGMA ignore_check_constraints = ON", "UPDATE setup SET delay = 9999"), ErrDamaged, "CHECK"},
		"a lost reference":      {with("PRAGMA foreign_keys = OFF", "UPDATE move SET fighter = 999"), ErrDamaged, ""},
		"a rule broken":         {with("UPDATE move SET active = '2(5)' WHERE active <> ''"), ErrDamaged, "active"},
		"no latest revision":    {with("UPDATE revision SET data = ''"), ErrDamaged, "latest revision"},
		"two latest revisions":  {with("INSERT INTO revision SELECT 9, 'x' || substr(uid, 2), 'x', date, note, data FROM revision"), ErrDamaged, "latest revision"},
		"no ruleset":            {with("DELETE FROM ruleset"), ErrDamaged, "ruleset"},
	} {
		t.Run(name, func(t *testing.T) {
			f := made(t, sample(t))
			f.Close()
			dir := filepath.Dir(f.Path())
			c.make(t, f.Path())
			before := folder(t, dir)
			got, err := Open(f.Path())
			if err == nil {
				got.Close()
				t.Fatal("opened, want an error")
			}
			if c.want == nil {
				c.want = ErrDamaged
			}
			if !errors.Is(err, c.want) || !contains(err.Error(), c.says) || !contains(err.Error(), f.Path()) {
				t.Errorf("error = %v, want %v that says %q and names the file", err, c.want, c.says)
			}
			if _, err := Check(context.Background(), f.Path()); err != nil && !errors.Is(err, c.want) {
				t.Errorf("check: %v", err)
			}
			Salvage(context.Background(), f.Path(), filepath.Join(tempDir(t), "saved"+Ext))
			if after := folder(t, dir); !maps.Equal(before, after) {
				t.Errorf("the folder changed: %v, was %v", keys(after), keys(before))
			}
		})
	}
}

func keys(m map[string]string) (out []string) {
	for k := range m {
		out = append(out, k)
	}
	return out
}

func write(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func TestAHostileHistoryIsRefused(t *testing.T) {
	for name, c := range map[string]struct{ change, says string }{
		"another table":        {"UPDATE edit_row SET in_table = 'sqlite_schema'", "expected a table that edits touch"},
		"SQL for a table":      {"UPDATE edit_row SET in_table = 'setup; DROP TABLE setup'", "expected a table that edits touch"},
		"another column":       {`UPDATE edit_row SET before = replace(before, '"delay"', '"delay = 1, note"')`, "expected a column delay"},
		"a column more":        {`UPDATE edit_row SET before = replace(before, '"delay"', '"x":1,"delay"')`, "columns"},
		"a list for a value":   {`UPDATE edit_row SET before = replace(before, '"delay":0', '"delay":[0]')`, "a text or a number"},
		"a fraction":           {`UPDATE edit_row SET before = replace(before, '"delay":0', '"delay":0.5')`, "delay"},
		"rows of another kind": {`UPDATE edit_row SET before = replace(before, '"kids":{', '"kids":{"move":[{}],')`, "expected no rows"},
		"no JSON":              {"UPDATE edit_row SET before = 'x'", "history of setup"},
		"another type":         {`UPDATE edit_row SET before = replace(before, '"delay":0', '"delay":"x"')`, "TEXT"},
		"a broken rule":        {`UPDATE edit_row SET before = replace(before, '"delay":0', '"delay":513')`, "CHECK"},
		"a broken reference":   {`UPDATE edit_row SET before = json_set(before, '$.row.ender', 9999)`, ""},
	} {
		t.Run(name, func(t *testing.T) {
			p := sample(t)
			p.Setups[0].Delay = 0
			f := made(t, p)
			p.Setups[0].Delay = 5
			if err := f.Edit("delay", func(s *Step) error { return s.PutSetup(p.Setups[0].Name, &p.Setups[0]) }); err != nil {
				t.Fatal(err)
			}
			f.Close()
			plainly(t, f.Path(), c.change)
			f, err := Open(f.Path())
			if err != nil {
				t.Fatal(err)
			}
			defer f.Close()
			if _, err := f.Undo(); err == nil || !contains(err.Error(), c.says) {
				t.Errorf("undo: %v, want an error that says %q", err, c.says)
			}
			holds(t, f, p, name)
		})
	}
}

func TestLinksLeadToOneFile(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	link := filepath.Join(tempDir(t), "link"+Ext)
	err := os.Symlink(f.Path(), link)
	if _, lost := os.Lstat(link); runtime.GOOS == "windows" && (err != nil || lost != nil) {
		t.Skip("Windows lets only some make links, and wine 8 makes none")
	} else if err != nil {
		t.Fatal(err)
	}
	second, err := Open(link)
	if err != nil {
		t.Fatal(err)
	}
	defer second.Close()
	if why := second.ReadOnly(); why != anotherWindow {
		t.Errorf("read-only through a link: %q, want %q", why, anotherWindow)
	}
	holds(t, second, p, "through a link")
}

func TestABrokenOffEditIsTakenBackOrTold(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	f.Close()
	whole, err := os.ReadFile(f.Path())
	if err != nil {
		t.Fatal(err)
	}
	// What a crash in the midst of an edit leaves: the file half written, and
	// its journal beside it.
	db, err := sql.Open("plain-sqlite3", f.Path())
	if err != nil {
		t.Fatal(err)
	}
	db.SetMaxOpenConns(1)
	for _, s := range []string{"PRAGMA cache_size = 1", "PRAGMA cache_spill = 1", "BEGIN", "UPDATE move SET damage = damage + 7", "UPDATE setup SET note = hex(randomblob(20000))"} {
		if _, err := db.Exec(s); err != nil {
			t.Fatal(err)
		}
	}
	half, err := os.ReadFile(f.Path())
	if err != nil {
		t.Fatal(err)
	}
	journal, err := os.ReadFile(f.Path() + "-journal")
	if err != nil {
		t.Fatal(err)
	}
	db.Close()
	if bytes.Equal(half, whole) {
		t.Fatal("the file was not half written")
	}
	lay := func(name string) string {
		path := filepath.Join(tempDir(t), name+Ext)
		write(t, path, string(half))
		write(t, path+"-journal", string(journal))
		return path
	}
	path := lay("writable")
	if got, err := Open(path); err != nil {
		t.Error(err)
	} else {
		holds(t, got, p, "taken back")
		got.Close()
	}
	path = lay("checked")
	if found, err := Check(context.Background(), path); err != nil || len(found) > 0 {
		t.Errorf("check = %v, %v", found, err)
	}
	path = lay("salvaged")
	saved := filepath.Join(tempDir(t), "saved"+Ext)
	if saves, err := Salvage(context.Background(), path, saved); err != nil || len(saves.Lost)+len(saves.Failed) > 0 {
		t.Errorf("salvage = %v, %v", saves, err)
	} else if got, err := readWhole(saved); err != nil || !bytes.Equal(timeline.WriteText(got), timeline.WriteText(p)) {
		t.Errorf("what was saved differs: %v", err)
	}
	if now, _ := os.ReadFile(path); !bytes.Equal(now, half) {
		t.Error("salvage wrote to the file")
	}
	path = lay("looked at")
	if got, err := OpenToRead(path); err != nil || got.ReadOnly() != onlyRead {
		t.Errorf("look: %v", err)
	} else {
		holds(t, got, p, "looked at")
		got.Close()
	}
	// Where another window edits the file, that one must take it back.
	path = lay("held")
	held := state{real: path}
	if held.takeLock(); held.readOnly != "" {
		t.Fatal(held.readOnly)
	}
	defer held.dropLock()
	if _, err := OpenToRead(path); err == nil || !contains(err.Error(), "an edit of it was interrupted") {
		t.Errorf("look: %v, want an error that an edit was interrupted", err)
	}
}

func TestTheGuards(t *testing.T) {
	f := made(t, nil)
	for pragma, want := range map[string]string{
		"trusted_schema": "0", "cell_size_check": "1", "foreign_keys": "1", "mmap_size": "0", "synchronous": "3", "journal_mode": "delete",
	} {
		got, err := pragmaRows(t.Context(), f.db, pragma)
		if err != nil || len(got) > 1 || len(got) == 1 && got[0] != want {
			t.Errorf("PRAGMA %s = %v, %v, want %s", pragma, got, err, want)
		}
	}
	for _, refused := range []string{
		"PRAGMA writable_schema = ON", "PRAGMA trusted_schema = ON", "PRAGMA ignore_check_constraints = ON", "PRAGMA journal_mode = OFF", "PRAGMA schema_version = 9",
		"SELECT load_extension('x')", "CREATE TRIGGER x AFTER UPDATE ON setup BEGIN SELECT 1; END", "CREATE VIEW x AS SELECT 1",
		"CREATE TEMP VIEW x AS SELECT 1", "CREATE VIRTUAL TABLE x USING fts4(y)", "DROP TABLE setup", "UPDATE sqlite_schema SET sql = ''",
		"ATTACH 'other' AS other",
	} {
		if _, err := f.db.Exec(refused); err == nil {
			t.Errorf("%s: done, want it refused", refused)
		}
	}
	if err := withDriver(t.Context(), f.db, func(c *sqlite3.SQLiteConn) error {
		if got := c.GetLimit(sqlite3.SQLITE_LIMIT_LENGTH); got != limitLength {
			t.Errorf("limit of lengths = %d, want %d", got, limitLength)
		}
		if got := c.GetLimit(sqlite3.SQLITE_LIMIT_SQL_LENGTH); got != limitSQLLength {
			t.Errorf("limit of SQL = %d, want %d", got, limitSQLLength)
		}
		if got := c.GetLimit(sqlite3.SQLITE_LIMIT_ATTACHED); got > 1 {
			t.Errorf("limit of attached files = %d, want 1 at most", got)
		}
		return nil
	}); err != nil {
		t.Error(err)
	}
	if _, err := f.db.Exec("UPDATE ruleset SET health = zeroblob(100000000)"); err == nil {
		t.Error("100 MB in a row, want it refused")
	}
}
