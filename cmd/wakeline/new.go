package main

import (
	"fmt"
	"path/filepath"

	"wakeline/samples"
	"wakeline/storage"
	"wakeline/timeline"
)

// newProject creates a project file where there is none.
func newProject(c *call) (int, error) {
	sample := c.flags.Bool("sample", false, "put the demo into it: an invented game")
	path, err := c.parse("the name of a project file, ending in " + storage.Ext)
	if err != nil {
		return 0, err
	}
	if filepath.Ext(path) != storage.Ext {
		return 0, usageError{fmt.Sprintf("expected a name ending in %s, got %q", storage.Ext, path)}
	}
	var p *timeline.Project
	holds := "empty"
	if *sample {
		if p, err = timeline.ReadText(samples.Text); err != nil {
			return 0, err
		}
		holds = "with the demo in it"
	}
	f, err := storage.Create(path, p)
	if err != nil {
		return 0, err
	}
	if err := f.Close(); err != nil {
		return 0, err
	}
	_, err = fmt.Fprintf(c.out, "created %s, %s\n", path, holds)
	return exitDone, err
}
