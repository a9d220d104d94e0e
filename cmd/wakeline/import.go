package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"wakeline/storage"
	"wakeline/timeline"
)

const importMore = `
A fighter or setup of a project text replaces the one of the same name; a row of
a table replaces the move of the same name, or adds it. Everything else stays.
A table has one move per row; its columns are the fields of a move, with active
frames written 2(5)1 and windows 1-8 strike; 9-12. A bad row is reported with
its line and column, and nothing of any file is imported, unless --skip-bad is
given. With --revision the move data become a new revision; compare tells what
it changes.
Exit: 0 done; 2 invalid arguments or bad input.
`

// importFiles imports files into a project file, as one step.
func importFiles(c *call) (int, error) {
	in := &intake{maps: map[string]string{}}
	revision := c.flags.String("revision", "", "begin the revision `NAME`: a patch of the game")
	c.flags.StringVar(&in.fighter, "fighter", "", "the moves are those of the fighter `NAME`, in a table without a column for it")
	c.flags.BoolVar(&in.skipBad, "skip-bad", false, "leave out bad rows of tables, and list them on standard error")
	c.flags.Func("map", "a heading of the table and the column that it stands for, `THEIRS=OURS`; nothing after the sign leaves the column out; can be repeated", in.addMap)
	args, err := c.arguments()
	if err != nil {
		return 0, err
	}
	if len(args) < 2 {
		return 0, usageError{fmt.Sprintf("expected a project file and at least one file to import, got %q", args)}
	}
	to, files := args[0], args[1:]
	for _, path := range files {
		if ext := strings.ToLower(filepath.Ext(path)); ext != ".json" && ext != ".csv" {
			return 0, usageError{fmt.Sprintf("expected project texts, named .json, and move tables, named .csv, got %q", path)}
		}
	}
	f, err := openFile(to, storage.Open)
	if err != nil {
		return 0, err
	}
	defer f.Close()
	if why := f.ReadOnly(); why != "" {
		return 0, fmt.Errorf("%s: expected a file to edit, but it is read-only: %s", to, why)
	}
	before := f.Data()
	if given(c.flags, "revision") {
		if err := freshRevision(f, before, *revision); err != nil {
			return 0, err
		}
	}
	doing := "reading"
	m := c.meter()
	defer m.end()
	stop := m.beat(func() string { return doing + " " + count(len(files), "file") })
	err = in.read(c.ctx, before, files)
	stop()
	if err != nil {
		return 0, err
	}
	stop = m.beat(func() string { return "importing " + count(in.size(), "move") })
	err = in.store(c.ctx, f, title(files), *revision)
	stop()
	m.end()
	if err != nil {
		return 0, err
	}
	for _, line := range in.skipped {
		fmt.Fprintln(c.progress, line+"; skipped")
	}
	return exitDone, in.report(c.out, before, f.Data(), *revision)
}

// title is the import's name in the history.
func title(files []string) string {
	names := make([]string, len(files))
	for i, path := range files {
		names[i] = filepath.Base(path)
	}
	const most = 6
	if len(names) > most {
		names = append(names[:most], fmt.Sprintf("and %d more", len(files)-most))
	}
	return "import " + strings.Join(names, ", ")
}

// freshRevision asks that no revision bears the name. Where the project holds
// no fighter yet, its first one will bear it.
func freshRevision(f *storage.File, data *timeline.Project, name string) error {
	if strings.TrimSpace(name) == "" {
		return usageError{"--revision: expected a name"}
	}
	list, err := f.Revisions()
	if err != nil {
		return err
	}
	var names []string
	taken := false
	for _, r := range list {
		names = append(names, r.Name)
		taken = taken || r.Name == name && (!r.Latest || len(data.Fighters) > 0)
	}
	if taken {
		return usageError{fmt.Sprintf("--revision: expected a new name, got %q; there are: %s", name, some(names))}
	}
	return nil
}
