package main

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"

	"wakeline/storage"
)

const checkMore = `
Prints "sound", or what is wrong, a line each. With --salvage, what can be
read of a broken file is written into a new one, and what was lost is told;
the broken file stays as it is. Exit: 0 sound, 1 broken, 2 wrong words, or a
file that can't be looked at.
`

// check looks a project file over: its pages, its references, and the rules
// of the project in it.
func check(c *call) (int, error) {
	salvage := c.flags.String("salvage", "", "write what can be read of a broken file into this `NEW` one")
	path, err := c.parse("a project file")
	if err != nil {
		return 0, err
	}
	if filepath.Ext(path) != storage.Ext {
		return 0, wrongWords{fmt.Sprintf("expected a project file, named %s, got %q", storage.Ext, path)}
	}
	saving := given(c.flags, "salvage")
	if saving && filepath.Ext(*salvage) != storage.Ext {
		return 0, wrongWords{fmt.Sprintf("--salvage: expected a name ending in %s, got %q", storage.Ext, *salvage)}
	}
	m := c.meter()
	defer m.end()
	stop := m.beat(func() string { return "looking at " + path })
	found, err := storage.Check(c.ctx, path)
	stop()
	switch {
	case err != nil && (!saving || errors.Is(err, fs.ErrNotExist) || c.ctx.Err() != nil):
		return 0, err
	case err != nil:
		found = []string{err.Error()}
	case len(found) == 0:
		_, err := fmt.Fprintln(c.out, "sound")
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
	for _, line := range found {
		if _, err := fmt.Fprintln(c.out, line); err != nil {
			return 0, err
		}
	}
	if !saving {
		fmt.Fprintf(c.progress, "wakeline check: with --salvage NEW%s what can be read is written into a new file\n", storage.Ext)
	}
	return exitBroken, nil
}
