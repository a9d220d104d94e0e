package importer

import (
	"context"
	"fmt"
	"slices"

	"wakeline/storage"
	"wakeline/storage/table"
	"wakeline/timeline"
)

// OfRoutes reports whether the table at path is one of routes, by its headings.
func OfRoutes(path string, mapped map[string]string) (bool, error) {
	f, err := storage.OpenRegular(path)
	if err != nil {
		return false, fmt.Errorf("expected a move table: %w", err)
	}
	defer f.Close()
	looked, err := table.Look(f, mapped)
	if err != nil {
		return false, fmt.Errorf("%s: %w", path, err)
	}
	return looked.Routes, nil
}

// readRoutes reads the tables of routes, once all moves are known, and lays
// them over the routes of the project texts, or over one another.
func (in *Import) readRoutes(ctx context.Context, data *timeline.Project) error {
	of := in.fighters(data)
	for i := range in.Files {
		file := &in.Files[i]
		if !file.ofRoutes {
			continue
		}
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := in.readRouteTable(file, of); err != nil {
			return err
		}
	}
	return nil
}

func (in *Import) readRouteTable(file *File, of func(name string) *timeline.Fighter) error {
	f, err := storage.OpenRegular(file.Path)
	if err != nil {
		return fmt.Errorf("expected a table of routes: %w", err)
	}
	defer f.Close()
	t, err := table.ReadRoutes(f, table.RouteOptions{Fighter: in.Fighter, Map: in.Map, SkipBad: in.SkipBad, Of: of})
	switch {
	case err != nil && t != nil:
		return &BadRows{file.Path, t.Bad}
	case err != nil:
		return fmt.Errorf("%s: %w", file.Path, err)
	}
	file.Skipped, file.SkippedRows, file.Notes = t.Bad, t.BadRows, t.Notes
	for _, r := range t.Rows {
		file.Routes++
		k := slices.IndexFunc(file.Owners, func(o Owner) bool { return o.Name == r.Fighter })
		if k < 0 {
			k = len(file.Owners)
			file.Owners = append(file.Owners, Owner{Name: r.Fighter})
		}
		file.Owners[k].Rows++
		at := slices.IndexFunc(in.routes, func(o table.RouteRow) bool { return o.Fighter == r.Fighter && o.Route.Name == r.Route.Name })
		if at < 0 {
			in.routes = append(in.routes, r)
		} else {
			in.routes[at] = r
		}
	}
	return nil
}

// fighters finds each fighter as it will be, with the moves that are imported.
func (in *Import) fighters(data *timeline.Project) func(name string) *timeline.Fighter {
	known := map[string]*timeline.Fighter{}
	return func(name string) *timeline.Fighter {
		if f, ok := known[name]; ok {
			return f
		}
		var f *timeline.Fighter
		if in.text != nil {
			f = in.text.Fighter(name)
		}
		if f == nil {
			f = data.Fighter(name)
		}
		for i := range in.rows {
			if in.rows[i].fighter != name {
				continue
			}
			next := timeline.Fighter{Name: name}
			if f != nil {
				next = *f
			}
			next.Moves = lay(slices.Clone(next.Moves), in.rows[i].list, func(m *timeline.Move) string { return m.Name })
			f = &next
		}
		known[name] = f
		return f
	}
}
