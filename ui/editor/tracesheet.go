//go:build trace

package editor

import (
	"fyne.io/fyne/v2"

	"wakeline/timeline"
)

// Spots are the sheet's two tracks, from the first frame in view to the last.
func (t *Timeline) Spots(add func(name string, at fyne.Position, size fyne.Size)) {
	d := t.drawing
	if d == nil {
		return
	}
	track := func(name string, from, to float64) {
		add(name, fyne.NewPos(float32(d.Left), float32(from)), fyne.NewSize(float32(d.Right-d.Left), float32(to-from)))
	}
	track("the attacker's track", d.Bars.From, d.Bars.To)
	track("the rival's track", d.Bottom.From, d.Bottom.To)
}

// Pixels is where the first hot place of a part lies in the window.
func (t *Timeline) Pixels(part timeline.Part, scale float64) *[4]int {
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(t)
	for _, h := range t.drawing.Hots {
		if h.Part == part {
			return &[4]int{
				int((float64(at.X) + h.Min.X) * scale), int((float64(at.Y) + h.Min.Y) * scale),
				int((float64(at.X) + h.Max.X) * scale), int((float64(at.Y) + h.Max.Y) * scale),
			}
		}
	}
	return nil
}
