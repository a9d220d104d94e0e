package main

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"time"

	"wakeline/storage"
)

const checkMore = `
Prints "OK", or "damaged" and what is wrong, one finding per line. With
--salvage, what can be read of a damaged file is written into a new one, and
what was lost is reported; the damaged file stays as it is.

Wakeline keeps the last copies of each project file that it opens and edits
and that passed every check. With --restore the newest of them is written into
a new file; --copies lists them.

Exit: 0 OK or restored, 1 damaged, 2 invalid arguments, or a file that can't be
read at all.
`

// check checks a project file: its pages, its references, and the rules of the
// project in it.
func check(c *call) (int, error) {
	salvage := c.flags.String("salvage", "", "write what can be read of a damaged file into the new file `NEW`")
	restore := c.flags.String("restore", "", "write the newest copy that is kept into the new file `NEW`")
	list := c.flags.Bool("copies", false, "list the copies that are kept of the file")
	path, err := c.parse("a project file")
	if err != nil {
		return 0, err
	}
	if filepath.Ext(path) != storage.Ext {
		return 0, usageError{fmt.Sprintf("expected a project file, named %s, got %q", storage.Ext, path)}
	}
	asked := 0
	for _, name := range []string{"salvage", "restore", "copies"} {
		if !given(c.flags, name) {
			continue
		}
		if asked++; asked > 1 {
			return 0, usageError{"expected one of --salvage, --restore and --copies"}
		}
		if to := c.flags.Lookup(name).Value.String(); name != "copies" && filepath.Ext(to) != storage.Ext {
			return 0, usageError{fmt.Sprintf("--%s: expected a name ending in %s, got %q", name, storage.Ext, to)}
		}
	}
	m := c.meter()
	defer m.end()
	switch {
	case *list:
		return exitDone, listCopies(c, path)
	case *restore != "":
		defer m.beat(func() string { return "writing " + *restore })()
		return exitDone, restoreCopy(c, path, *restore)
	}
	stop := m.beat(func() string { return "checking " + path })
	found, err := storage.Check(c.ctx, path)
	stop()
	saving := *salvage != ""
	switch {
	case err != nil && (!saving || errors.Is(err, fs.ErrNotExist) || c.ctx.Err() != nil):
		c.offerCopies(path)
		return 0, err
	case err != nil:
		found = []string{err.Error()}
	case len(found) == 0:
		_, err := fmt.Fprintln(c.out, "OK")
		return exitDone, err
	}
	if saving {
		stop := m.beat(func() string { return "writing " + *salvage })
		saves, err := storage.Salvage(c.ctx, path, *salvage)
		stop()
		if err != nil {
			c.offerCopies(path)
			return 0, err
		}
		found = append(append(found, "wrote "+*salvage), saves.Lines()...)
	}
	m.end()
	for _, line := range append([]string{"damaged"}, found...) {
		if _, err := fmt.Fprintln(c.out, line); err != nil {
			return 0, err
		}
	}
	if !saving {
		fmt.Fprintf(c.progress, "wakeline check: --salvage NEW%s writes what can be read into a new file\n", storage.Ext)
	}
	c.offerCopies(path)
	return exitDamaged, nil
}

// offerCopies says, on standard error, which copy can be restored.
func (c *call) offerCopies(path string) {
	if copies := storage.Copies(path); len(copies) > 0 {
		fmt.Fprintf(c.progress, "wakeline check: --restore NEW%s writes the copy of %s into a new file\n", storage.Ext, copyTime(copies[0]))
	}
}

// listCopies prints the copies that are kept of a project file, the newest
// first.
func listCopies(c *call, path string) error {
	copies := storage.Copies(path)
	if len(copies) == 0 {
		_, err := fmt.Fprintln(c.out, "no copies are kept")
		return err
	}
	for _, one := range copies {
		if _, err := fmt.Fprintf(c.out, "%s  %s\n", copyTime(one), one.Path); err != nil {
			return err
		}
	}
	return nil
}

// restoreCopy writes the newest copy that passes its check into a new file.
func restoreCopy(c *call, path, to string) error {
	copies := storage.Copies(path)
	if len(copies) == 0 {
		return fmt.Errorf("%s: no copies are kept of it", path)
	}
	for _, one := range copies {
		err := storage.Restore(c.ctx, one, to)
		if errors.Is(err, storage.ErrDamaged) {
			fmt.Fprintf(c.progress, "wakeline check: %v\n", err)
			continue
		}
		if err == nil {
			_, err = fmt.Fprintf(c.out, "wrote %s: the copy of %s\n", to, copyTime(one))
		}
		return err
	}
	return fmt.Errorf("%s: every copy of it is damaged", path)
}

// copyTime is when a copy was the project, in local time.
func copyTime(k storage.Kept) string { return k.Of.Local().Format(time.DateTime) }
