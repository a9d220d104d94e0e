package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"wakeline/storage"
	"wakeline/storage/importer"
	"wakeline/timeline/words"
)

const importMore = `
A fighter or setup of a project text replaces the one of the same name; a row of
a table replaces the move or route of the same name, or adds it. Everything else stays.
A table has one move per row; its columns are the fields of a move, with active
frames written 2(5)1 and windows 1-8 strike; 9-12. A table with a column "steps"
is one of routes: fighter, name, steps such as "jab, jab > sweep" (a comma before
a link, > before a cancel), and the other fields of a route.
Tables of others are read too: .xlsx and .ods, or text with commas, semicolons, tabs
or bars between the cells; headings in other words, or over several columns; remarks, and rows that
name the fighter of those below. A cell may say KD +31, 12+3, -4~-2, 12,5 % or L. What
is taken for something else than its letters say is listed on standard error, as a
note. A heading or cell that is not understood is reported with its line and
column, and nothing of any file is imported, unless --skip-bad is given: then its
row is left out. With --revision the move data become a new revision; compare
tells what it changes.
Exit: 0 done; 2 invalid arguments or bad input.
`

// importFiles imports files into a project file, as one step.
func importFiles(c *call) (int, error) {
	in := &importer.Import{Map: map[string]string{}}
	revision := c.flags.String("revision", "", "begin the revision `NAME`: a patch of the game")
	c.flags.StringVar(&in.Fighter, "fighter", "", "the moves are those of the fighter `NAME`, in a table without a column for it")
	c.flags.BoolVar(&in.SkipBad, "skip-bad", false, "leave out bad rows of tables, and list them on standard error")
	c.flags.Func("map", "a heading of the table and the column that it stands for, `THEIRS=OURS`; nothing after the sign leaves the column out; can be repeated", func(s string) error { return addMap(in.Map, s) })
	args, err := c.arguments()
	if err != nil {
		return 0, err
	}
	if len(args) < 2 {
		return 0, usageError{fmt.Sprintf("expected a project file and at least one file to import, got %q", args)}
	}
	to, files := args[0], args[1:]
	for _, path := range files {
		if !importer.IsText(path) && !importer.IsTable(path) {
			return 0, usageError{fmt.Sprintf("expected project texts, named .json, and tables, named %s, got %q", words.Or(importer.TableNames), path)}
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
		if err := freshRevision(f, *revision); err != nil {
			return 0, err
		}
	}
	doing := "reading"
	m := c.meter()
	defer m.end()
	stop := m.beat(func() string { return doing + " " + words.Count(len(files), "file") })
	err = in.Read(c.ctx, before, files...)
	stop()
	if err != nil {
		return 0, tableError(err)
	}
	stop = m.beat(func() string { return "importing " + words.Count(in.Moves(), "move") })
	err = in.Store(c.ctx, f, title(files), *revision, nil)
	stop()
	m.end()
	if err != nil {
		return 0, err
	}
	var lines []string
	for i := range in.Files {
		file := &in.Files[i]
		importNotes(c.progress, file)
		lines = append(lines, importLine(file))
	}
	lines = append(lines, changesLine(before, f.Data(), *revision))
	_, err = fmt.Fprintln(c.out, strings.Join(lines, "\n"))
	return exitDone, err
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

// freshRevision asks that no revision bears the name.
func freshRevision(f *storage.File, name string) error {
	if strings.TrimSpace(name) == "" {
		return usageError{"--revision: expected a name"}
	}
	free, names, err := f.FreeRevision(name)
	if err == nil && !free {
		err = usageError{fmt.Sprintf("--revision: expected a new name, got %q; there are: %s", name, some(names))}
	}
	return err
}
