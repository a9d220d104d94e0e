package ui

import (
	"encoding/json"
	"os"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
)

// traceEnv names a file that each state shown is appended to, one JSON
// object a line (a traceLine), for a test that drives the real window and
// reads what it shows. Without it nothing is written.
const traceEnv = "WAKELINE_TRACE"

// traceLine is one state as shown. Rectangles are left, top, right and bottom
// in pixels of the window; they are absent for a part that is not in view.
type traceLine struct {
	Setup   string        `json:"setup"`
	Delay   int           `json:"delay"`
	K       int           `json:"advantage"`
	Verdict timeline.Word `json:"verdict"`
	Because string        `json:"because"`
	Rise    string        `json:"rise"`
	Reply   string        `json:"reply"`
	Scale   float64       `json:"pixels_a_frame"`
	DelayAt *[4]int       `json:"delay_at,omitempty"`
	RiseAt  *[4]int       `json:"rise_at,omitempty"`
}

// tracer appends the states shown to a file; a nil one does nothing.
type tracer struct {
	file *os.File
	last string
}

func newTracer() *tracer {
	path := os.Getenv(traceEnv)
	if path == "" {
		return nil
	}
	f, err := os.OpenFile(path, os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o644)
	if err != nil {
		fyne.LogError("trace", err)
		return nil
	}
	return &tracer{file: f}
}

// note appends what t shows, where that differs from the last line.
func (tr *tracer) note(t *Timeline) {
	if tr == nil || t.drawing == nil {
		return
	}
	v, scale := t.model.Verdict(), float64(scaleOf(t))
	text, err := json.Marshal(traceLine{
		v.Setup, v.Delay, v.Advantage, v.Word, v.Because, t.scene.Rise, t.scene.Reply, t.drawing.View.Scale * scale,
		t.pixels(timeline.PartDelay, scale), t.pixels(timeline.PartRise, scale),
	})
	if err != nil || string(text) == tr.last {
		return
	}
	tr.last = string(text)
	if _, err := tr.file.Write(append(text, '\n')); err != nil {
		fyne.LogError("trace", err)
	}
}

// pixels is where the first hot place of a part lies in the window.
func (t *Timeline) pixels(part timeline.Part, scale float64) *[4]int {
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
