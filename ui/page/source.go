package page

import (
	"path/filepath"

	"wakeline/ui/model"
	"wakeline/ui/output"
)

// SourceName is the file that numbers are of, empty where there is none.
func SourceName(m *model.Model) string {
	if path := m.Path(); path != "" {
		return filepath.Base(path)
	}
	return ""
}

// Source says in o where the numbers come from.
func Source(m *model.Model, o *output.Order) {
	o.Source.Project = SourceName(m)
	if d, ok := m.Document().OnDisk(); ok {
		o.Source.Revision, o.Source.Date, o.Source.Note = d.Latest.Name, d.Latest.Date, d.Latest.Note
	}
}
