package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"wakeline/storage"
	"wakeline/timeline"
)

// open reads the project at path.
func open(path string) (*timeline.Project, error) {
	if ext := filepath.Ext(path); ext != ".json" {
		return nil, wrongWords{fmt.Sprintf("expected a project text, named .json, got %q", path)}
	}
	return storage.ReadText(path)
}

// plan compiles setup i of p. Its error carries the JSON path of the part
// that doesn't fit.
func plan(file string, p *timeline.Project, i int, delay int) (*timeline.Plan, error) {
	s := p.Setups[i]
	if delay >= 0 {
		s.Delay = delay
	}
	made, err := timeline.Compile(p, s)
	if wide := (*timeline.PlanError)(nil); errors.As(err, &wide) {
		at := fmt.Sprintf("%s: $.setups[%d].", file, i)
		if delay >= 0 && wide.Field == "delay" {
			at = "--"
		}
		return nil, fmt.Errorf("%s%w", at, err)
	}
	return made, err
}

// find returns the index of the setup of that name.
func find(p *timeline.Project, name string) (int, error) {
	var names []string
	for i, s := range p.Setups {
		if s.Name == name {
			return i, nil
		}
		names = append(names, fmt.Sprintf("%q", s.Name))
	}
	const most = 12
	if len(names) > most {
		names = append(names[:most], fmt.Sprintf("and %d more", len(names)-most))
	}
	return 0, wrongWords{fmt.Sprintf("--setup: expected the name of a setup of the project, got %q; there are: %s", name, strings.Join(names, ", "))}
}
