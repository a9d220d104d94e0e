package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"wakeline/storage"
	"wakeline/storage/table"
	"wakeline/timeline"
	"wakeline/timeline/words"
)

const exportMore = `
A project text holds everything but revisions, in-game tests and the history.
Tables hold the moves of a fighter, and its routes in a table beside, without
jumps, rises, replies and setups. The folder is created where there is none;
files of the same names are replaced, others stay.
Exit: 0 done; 2 invalid arguments or bad input.
`

// export writes a project as a project text or as move tables.
func export(c *call) (int, error) {
	args, err := c.arguments()
	if err != nil {
		return 0, err
	}
	if len(args) != 2 {
		return 0, usageError{fmt.Sprintf("expected two arguments, a project and the file or folder to write, got %q", args)}
	}
	to := args[1]
	ext := filepath.Ext(to)
	if strings.EqualFold(ext, ".csv") || ext == storage.Ext {
		return 0, usageError{fmt.Sprintf("expected a file named .json, or a folder for a table of each fighter, got %q", to)}
	}
	p, err := openSource(args[0])
	if err != nil {
		return 0, err
	}
	defer p.close()
	m := c.meter()
	defer m.end()
	defer m.beat(func() string { return "writing " + to })()
	if ext == ".json" {
		return exitDone, exportText(c, p, to)
	}
	if err := p.whole(); err != nil {
		return 0, err
	}
	return exitDone, exportTables(c, p.data.Fighters, to)
}

// exportText writes the project text, where import would read it back.
func exportText(c *call, s *source, to string) error {
	p := s.data.Bare()
	if err := s.each(c.ctx, func(_ int, setup *timeline.Setup) error {
		p.Setups = append(p.Setups, *setup)
		return nil
	}); err != nil {
		return err
	}
	if err := p.Check(); err != nil {
		return fmt.Errorf("%s: %w", s.path, err)
	}
	text := timeline.WriteText(p)
	if len(text) > timeline.MaxText {
		return fmt.Errorf("%s: expected at most %d MiB of project text, got %d: nothing could read it back; the project file itself has no such bound",
			to, timeline.MaxText>>20, (len(text)+1<<20-1)>>20)
	}
	did := verb(to)
	if err := storage.Replace(to, func(w io.Writer) error { _, err := w.Write(text); return err }); err != nil {
		return err
	}
	_, err := fmt.Fprintf(c.out, "%s %s: %s, %s\n", did, to, words.Count(len(p.Fighters), "fighter"), words.Count(len(p.Setups), "setup"))
	return err
}

// exportTables writes a table of moves for each fighter, and beside it one of its
// routes, where it has any; nothing is written before all of them are made.
func exportTables(c *call, fighters []timeline.Fighter, folder string) error {
	if len(fighters) == 0 {
		return errors.New("expected a fighter to write a table of, got none")
	}
	var names, held []string
	var tables []*bytes.Buffer
	add := func(name, what string, n int, write func(w io.Writer) error) error {
		var out bytes.Buffer
		if err := write(&out); err != nil {
			return fmt.Errorf("table of %s: %w", name, err)
		}
		names, held, tables = append(names, name), append(held, words.Count(n, what)), append(tables, &out)
		return nil
	}
	for i := range fighters {
		f := &fighters[i]
		if err := add(f.Name, "move", len(f.Moves), func(w io.Writer) error { return table.Write(w, f.Name, f.Moves) }); err != nil {
			return err
		}
	}
	for i := range fighters {
		f := &fighters[i]
		if len(f.Routes) == 0 {
			continue
		}
		if err := add(f.Name+" routes", "route", len(f.Routes), func(w io.Writer) error { return table.WriteRoutes(w, f.Name, f.Routes) }); err != nil {
			return err
		}
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return fmt.Errorf("expected a folder, or room for one: %w", err)
	}
	for i, name := range table.FileNames(names) {
		if err := c.ctx.Err(); err != nil {
			return err
		}
		to := filepath.Join(folder, name)
		did := verb(to)
		if err := storage.Replace(to, func(w io.Writer) error { _, err := tables[i].WriteTo(w); return err }); err != nil {
			return err
		}
		if _, err := fmt.Fprintf(c.out, "%s %s: %s\n", did, to, held[i]); err != nil {
			return err
		}
	}
	return nil
}

// verb is what writing to a path does: it makes a file or replaces one.
func verb(path string) string {
	if _, err := os.Stat(path); err == nil {
		return "replaced"
	}
	return "wrote"
}
