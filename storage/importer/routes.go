package importer

import (
	"context"
	"slices"

	"wakeline/storage/table"
	"wakeline/timeline"
)

// readRoutes reads the tables of routes, once all moves are known, and lays
// them over the routes of the project texts, or over one another.
func (in *Import) readRoutes(ctx context.Context, data *timeline.Project, rules timeline.Ruleset) error {
	of := in.Fighters(data)
	for i := range in.Files {
		file := &in.Files[i]
		if !file.ofRoutes {
			continue
		}
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := in.readRouteTable(file, of, rules); err != nil {
			return err
		}
	}
	return nil
}

func (in *Import) readRouteTable(file *File, of func(name string) *timeline.Fighter, rules timeline.Ruleset) error {
	t, err := in.Tables.ReadRoutes(file.Path, table.RouteOptions{Fighter: in.Fighter, Map: in.Map, SkipBad: in.SkipBad, Of: of, Rules: rules})
	switch {
	case err != nil && t != nil:
		return &BadRows{file.Path, t.Bad}
	case err != nil:
		return err
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
		at := slices.IndexFunc(in.routes, func(o table.RouteRow) bool { return o.Fighter == r.Fighter && o.Value.Name == r.Value.Name })
		if at < 0 {
			in.routes = append(in.routes, r)
		} else {
			in.routes[at] = r
		}
	}
	return nil
}

// Fighters finds each fighter as it will be, with the moves that are imported.
func (in *Import) Fighters(data *timeline.Project) func(name string) *timeline.Fighter {
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
