package panel

import (
	"path/filepath"

	"fyne.io/fyne/v2"

	"wakeline/storage"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// Status is the quiet line at the foot of the window: where the numbers are from,
// the name of a setup that the list has to cut, and what the place under the
// pointer does.
type Status struct {
	paint.Painted

	model   *model.Model
	wrapper paint.Wrapper
	Hinted  string
}

const (
	StatusHeight = 22
	longName     = 190 // units from which a setup's name is cut in the list
)

// NewStatus returns the line for m.
func NewStatus(m *model.Model) *Status {
	s := &Status{model: m, wrapper: paint.Wrapper{Size: paint.CaptionSize}}
	s.Extend(s, s.paint, func() fyne.Size { return fyne.NewSize(200, StatusHeight) })
	return s
}

// Hint says text at the right, until the next hint.
func (s *Status) Hint(text string) {
	if text != s.Hinted {
		s.Hinted = text
		s.Refresh()
	}
}

// Source says where the numbers are from.
func (s *Status) Source() string {
	of := "this project"
	if s.model.Path() != "" {
		of = filepath.Base(s.model.Path())
	}
	d, onDisk := s.model.Document().OnDisk()
	if d.Sample {
		of = "an invented game"
	}
	if onDisk {
		if d.Latest.Name != storage.FirstRevision {
			of += ", revision " + d.Latest.Name
		}
		if d.Latest.Note != "" {
			of += ", " + d.Latest.Note
		}
	}
	return "Frame data: " + of + " (not verified against the game)"
}

func (s *Status) paint(p *paint.Pen, size fyne.Size) {
	p.Line(&sheet.Line{To: sheet.Point{X: float64(size.Width)}, From: sheet.Point{}, Stroke: sheet.Rule, Width: 1})
	const pad, base = 10, 16
	write := func(t string, x float32, a sheet.Anchor) {
		p.Text(&sheet.Text{At: sheet.Point{X: float64(x), Y: base}, Str: t, Size: paint.CaptionSize, Role: sheet.Soft, Anchor: a})
	}
	if s.Hinted != "" { // it matters more, now
		write(s.wrapper.Fit(s.Hinted, size.Width-2*pad), pad, sheet.AtStart)
		return
	}
	source := s.wrapper.Fit(s.Source(), size.Width-2*pad)
	write(source, pad, sheet.AtStart)
	if name := s.model.Setup().Name; s.wrapper.WidthOf(name) > longName {
		room := size.Width - 4*pad - s.wrapper.WidthOf(source)
		write(s.wrapper.Fit(name, room), size.Width-pad, sheet.AtEnd)
	}
}
