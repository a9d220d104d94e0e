//go:build trace

package ui

import (
	"encoding/json"
	"fmt"
	"os"
	"reflect"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/paint"
)

// traceEnv names a file that each state shown is appended to, one JSON
// object a line (a traceLine), for a test that drives the real window and
// reads what it shows. Without it nothing is written. The program has this only
// where it is built with the tag "trace".
const traceEnv = "WAKELINE_TRACE"

// traceEvery is how often what is not on the sheet is looked at.
const traceEvery = 50 * time.Millisecond

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

	Setups int               `json:"setups"` // how many there are
	Page   string            `json:"page"`   // its kind, empty for the setups
	Focus  string            `json:"focus"`  // what has the keys
	Hint   string            `json:"hint"`   // at the foot of the window
	Undo   string            `json:"undo"`   // what would be taken back
	Redo   string            `json:"redo"`   // what would be done again
	Places map[string][4]int `json:"places"` // what can be clicked, by its words; of the topmost dialog, where one is up
	Steps  int               `json:"steps"`  // how many values of setups the sheet has drawn
	Shown  int64             `json:"shown"`  // when the last of them was on screen, in microseconds
}

// tracer appends the states shown to a file; a nil one does nothing.
type tracer struct {
	file  *os.File
	last  string
	drawn timeline.Setup // by the sheet, last
	steps int
	shown int64
	queue bool // a note will be taken after the next frame
	spots map[string][4]int
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

// watch notes the state now and then, until the window ends.
func (tr *tracer) watch(w *window) {
	if tr == nil {
		return
	}
	ticks := time.NewTicker(traceEvery)
	defer ticks.Stop()
	for {
		select {
		case <-w.Context().Done():
			return
		case <-ticks.C:
		}
		w.Later(func() {
			if !tr.queue { // what is drawn is not on screen yet
				tr.note(w)
			}
		})
	}
}

// drew has the state noted once what the sheet drew is on screen: what runs
// later does so after the frame at hand.
func (tr *tracer) drew(w *window) {
	if tr == nil {
		return
	}
	if s := w.model.Setup(); !model.SameSetup(&s, &tr.drawn) {
		tr.drawn = s
		tr.steps++
	}
	if tr.queue {
		return
	}
	tr.queue = true
	w.Later(func() {
		tr.queue = false
		tr.shown = time.Now().UnixMicro()
		tr.note(w)
	})
}

// note appends what w shows, where that differs from the last line in more
// than the time.
func (tr *tracer) note(w *window) {
	if _, dragged := w.model.Gesture(); !dragged {
		tr.spots = w.spots()
	}
	undo, redo := w.model.Document().Next()
	l := traceLine{
		Setup: w.model.Setup().Name, Setups: w.model.Len(), Hint: w.status.Hinted, Undo: undo.What, Redo: redo.What,
		Places: tr.spots, Steps: tr.steps,
	}
	if w.page != nil {
		l.Page = kindOf(w.page)
	}
	if o, ok := w.Canvas().Focused().(fyne.CanvasObject); ok {
		l.Focus = wordsOf(o)
	}
	if t := w.sheet; t.Drawing() != nil && w.model.Plan() != nil {
		v, scale := w.model.Verdict(), float64(paint.ScaleOf(t))
		l.Delay, l.K, l.Verdict, l.Because = v.Delay, v.Advantage, v.Called, v.Because
		l.Rise, l.Reply, l.Scale = t.Scene.Rise, t.Scene.Reply, t.Drawing().View.Scale*scale
		l.DelayAt, l.RiseAt = t.Pixels(timeline.PartDelay, scale), t.Pixels(timeline.PartRise, scale)
	}
	text, err := json.Marshal(l)
	if err != nil || string(text) == tr.last {
		return
	}
	tr.last = string(text)
	l.Shown = tr.shown
	if text, err = json.Marshal(l); err == nil {
		_, err = tr.file.Write(append(text, '\n'))
	}
	if err != nil {
		fyne.LogError("trace", err)
	}
}

// kindOf is the name of v's type, as the code has it; of a page with a package
// of its own that goes before.
func kindOf(v any) string {
	of, name, _ := strings.Cut(strings.TrimLeft(fmt.Sprintf("%T", v), "*"), ".")
	if name == "Page" {
		return of + name
	}
	return name
}

// wordsOf is what a control says of itself, and its kind where it says
// nothing.
func wordsOf(o fyne.CanvasObject) string {
	v := reflect.Indirect(reflect.ValueOf(o))
	for _, field := range []string{"Selected", "PlaceHolder", "Text"} {
		if v.Kind() != reflect.Struct {
			break
		}
		if f := v.FieldByName(field); f.IsValid() && f.Kind() == reflect.String && f.String() != "" {
			return f.String()
		}
	}
	return kindOf(o)
}
