package main

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"

	"wakeline/storage"
)

const checkMore = `
Prints "OK", or "damaged" and what is wrong, one finding per line. With
--salvage, what can be read of a damaged file is written into a new one, and
what was lost is reported; the damaged file stays as it is. Exit: 0 OK,
1 damaged, 2 invalid arguments, or a file that can't be read at all.
`

// check checks a project file: its pages, its references, and the rules of the
// project in it.
func check(c *call) (int, error) {
	salvage := c.flags.String("salvage", "", "write what can be read of a damaged file into the new file `NEW`")
	path, err := c.parse("a project file")
	if err != nil {
		return 0, err
	}
	if filepath.Ext(path) != storage.Ext {
		return 0, usageError{fmt.Sprintf("expected a project file, named %s, got %q", storage.Ext, path)}
	}
	saving := given(c.flags, "salvage")
	if saving && filepath.Ext(*salvage) != storage.Ext {
		return 0, usageError{fmt.Sprintf("--salvage: expected a name ending in %s, got %q", storage.Ext, *salvage)}
	}
	m := c.meter()
	defer m.end()
	stop := m.beat(func() string { return "checking " + path })
	found, err := storage.Check(c.ctx, path)
	stop()
	switch {
	case err != nil && (!saving || errors.Is(err, fs.ErrNotExist) || c.ctx.Err() != nil):
		return 0, err
	case err != nil:
		found = []string{err.Error()}
	case len(found) == 0:
		_, err := fmt.Fprintln(c.out, "OK")
		return exitDone, err
	}
	if saving {
		stop := m.beat(func() string { return "writing " + *salvage })
		lost, err := storage.Salvage(c.ctx, path, *salvage)
		stop()
		if err != nil {
			return 0, err
		}
		found = append(found, "wrote "+*salvage)
		for _, line := range lost {
			found = append(found, "lost: "+line)
		}
		if len(lost) == 0 {
			found = append(found, "nothing was lost")
		}
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
	return exitDamaged, nil
}
