package main

import (
	"fmt"
	"path/filepath"

	"wakeline/storage"
)

// check looks a project file over: its pages, its references, and the rules
// of the project in it.
func check(c *call) (int, error) {
	path, err := c.parse("a project file")
	if err != nil {
		return 0, err
	}
	if filepath.Ext(path) != storage.Ext {
		return 0, wrongWords{fmt.Sprintf("expected a project file, named %s, got %q", storage.Ext, path)}
	}
	m := c.meter()
	stop := m.beat(func() string { return "looking at " + path })
	found, err := storage.Check(path)
	stop()
	m.end()
	if err != nil {
		return 0, err
	}
	if len(found) == 0 {
		_, err := fmt.Fprintln(c.out, "sound")
		return exitDone, err
	}
	for _, line := range found {
		if _, err := fmt.Fprintln(c.out, line); err != nil {
			return 0, err
		}
	}
	return exitBroken, nil
}
