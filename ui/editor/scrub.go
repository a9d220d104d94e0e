package editor

import (
	"image/color"
	"math"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Widget        = (*Scrub)(nil)
	_ fyne.Widget        = (*rulerBand)(nil)
	_ fyne.Draggable     = (*rulerBand)(nil)
	_ desktop.Mouseable  = (*rulerBand)(nil)
	_ desktop.Hoverable  = (*rulerBand)(nil)
	_ desktop.Cursorable = (*rulerBand)(nil)
)

// Scrub is a line on one frame over a sheet, that a hand moves along the
// ruler. It lies over the sheet and lets all else through to it. What the two
// sides do on its frame the core says.
type Scrub struct {
	widget.BaseWidget

	OnMoved func()       // after it stands on another frame, or goes
	OnHint  func(string) // what the place under the pointer does
	OnTaken func()       // a hand has taken hold of it

	sheet   *Timeline
	On      bool
	FrameAt int
	setup   int // that it stands on

	Band    *rulerBand
	line    canvas.Rectangle // where the frame begins
	wash    canvas.Rectangle // the frame
	flag    canvas.Rectangle // on the ruler, with its number
	number  canvas.Text
	unseen  canvas.Rectangle // what a repaint is asked for with
	objects []fyne.CanvasObject
}

// NewScrub returns a line over t's sheet, not shown yet.
func NewScrub(t *Timeline) *Scrub {
	s := &Scrub{sheet: t, setup: -1}
	s.Band = &rulerBand{s: s}
	s.Band.ExtendBaseWidget(s.Band)
	s.unseen.FillColor = color.Transparent
	s.number.TextSize, s.number.TextStyle.Bold, s.number.Alignment = paint.CaptionSize, true, fyne.TextAlignCenter
	s.ExtendBaseWidget(s)
	return s
}

// Frame is the frame that the line stands on; ok is false where it is not
// shown.
func (s *Scrub) Frame() (frame int, ok bool) { return s.FrameAt, s.On }

// Words say what each side does on the frame; empty where the line is not
// shown.
func (s *Scrub) Words() string {
	plan := s.sheet.model.Plan()
	if !s.On || plan == nil {
		return ""
	}
	rise, line := s.sheet.model.Shown()
	m := words.MomentAt(plan, s.sheet.model.Setup().Delay, rise, line, s.FrameAt)
	return m.Words()
}

// Set puts the line on a frame, or on the nearest that the sheet shows at all.
func (s *Scrub) Set(frame int) {
	span := s.sheet.Scene.Span
	if s.sheet.Drawing() == nil || span.Len() == 0 {
		return
	}
	frame = min(max(frame, span.From), span.To-1)
	if s.On && s.FrameAt == frame {
		return
	}
	s.On, s.FrameAt = true, frame
	s.sheet.Bring(s.FrameAt)
	s.moved()
}

// Step moves the line by n frames; where it is not shown it comes to the
// meeting first.
func (s *Scrub) Step(n int) {
	if !s.On {
		s.Meeting()
		return
	}
	s.Set(s.FrameAt + n)
}

// Meeting puts the line on the meeting, or on the wake-up where nobody
// touches.
func (s *Scrub) Meeting() { s.Set(s.sheet.Scene.Cell.Meeting.Or(s.sheet.Scene.Wake)) }

// Start and End put it on the first and the last frame of the scene.
func (s *Scrub) Start() { s.Set(s.sheet.Scene.Span.From) }

// End: see Start.
func (s *Scrub) End() { s.Set(s.sheet.Scene.Span.To - 1) }

// Clear takes the line away. It reports whether there was one.
func (s *Scrub) Clear() bool {
	was := s.On
	if s.On = false; was {
		s.moved()
	}
	return was
}

func (s *Scrub) moved() {
	s.Refresh()
	if s.OnMoved != nil {
		s.OnMoved()
	}
}

// Follow keeps the line on its frame after the sheet was drawn, and inside
// the scene; on another setup it goes.
func (s *Scrub) Follow() {
	if c := s.sheet.model.Chosen(); c != s.setup || s.sheet.Drawing() == nil {
		s.setup, s.On = c, false
	}
	if span := s.sheet.Scene.Span; s.On {
		s.FrameAt = min(max(s.FrameAt, span.From), span.To-1)
	}
	s.moved()
}

// CreateRenderer implements fyne.Widget.
func (s *Scrub) CreateRenderer() fyne.WidgetRenderer { return &scrubRenderer{s} }

// scrubRenderer owns the line, its flag, and the place that takes the hand.
type scrubRenderer struct{ s *Scrub }

func (r *scrubRenderer) MinSize() fyne.Size           { return fyne.Size{} }
func (r *scrubRenderer) Objects() []fyne.CanvasObject { return r.s.objects }
func (r *scrubRenderer) Destroy()                     {}
func (r *scrubRenderer) Layout(fyne.Size) {
	defer paint.Survive("The line on a frame")
	r.Refresh()
}

// Refresh moves the few objects there are; the sheet under them stays.
func (r *scrubRenderer) Refresh() {
	defer paint.Survive("The line on a frame")
	s, d := r.s, r.s.sheet.Drawing()
	s.objects = append(s.objects[:0], &s.unseen)
	if d != nil {
		paint.Place(s.Band, d.Left, d.Ruler.From, d.Right, d.Ruler.To)
		s.objects = append(s.objects, s.Band)
		r.line(d)
	}
	canvas.Refresh(&s.unseen)
}

func (r *scrubRenderer) line(d *sheet.Drawing) {
	s := r.s
	x0, x1 := d.X(float64(s.FrameAt)), d.X(float64(s.FrameAt+1))
	if !s.On || x0 < d.Left-0.01 || x0 > d.Right+0.01 {
		return
	}
	ink := paint.Colours().Ink[sheet.Ink]
	s.wash.FillColor, s.line.FillColor, s.flag.FillColor, s.number.Color = paint.Fade(ink, 0.10), ink, ink, paint.Colours().Ink[sheet.Paper]
	x := math.Round(x0)
	paint.Place(&s.wash, x, d.Ruler.To, math.Max(x+1, math.Min(math.Round(x1), d.Right)), d.Bottom.To)
	paint.Place(&s.line, x-1, d.Ruler.To-2, x+1, d.Bottom.To)
	s.number.Text = strconv.Itoa(s.FrameAt)
	size := s.number.MinSize()
	half := math.Ceil(float64(size.Width)/2) + 5
	middle := math.Min(math.Max(x, half), d.W-half)
	paint.Place(&s.flag, middle-half, d.Ruler.To-2-float64(size.Height), middle+half, d.Ruler.To-1)
	paint.Place(&s.number, middle-half, d.Ruler.To-2-float64(size.Height), middle+half, d.Ruler.To-2)
	s.objects = append(s.objects, &s.wash, &s.line, &s.flag, &s.number)
}

// rulerBand is the ruler as a place to take hold of: a press brings the line,
// a drag moves it.
type rulerBand struct {
	widget.BaseWidget
	s *Scrub
}

// CreateRenderer implements fyne.Widget.
func (b *rulerBand) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(canvas.NewRectangle(color.Transparent))
}

// MouseDown brings the line under the pointer.
func (b *rulerBand) MouseDown(ev *desktop.MouseEvent) {
	defer paint.Survive("The ruler")
	if ev.Button != desktop.MouseButtonPrimary {
		return
	}
	paint.FocusOn(b.s.sheet)
	if b.s.OnTaken != nil {
		b.s.OnTaken()
	}
	b.to(ev.Position)
}

// MouseUp implements desktop.Mouseable.
func (b *rulerBand) MouseUp(*desktop.MouseEvent) {}

// Dragged moves the line with the pointer.
func (b *rulerBand) Dragged(ev *fyne.DragEvent) { b.to(ev.Position) }

// DragEnd implements fyne.Draggable.
func (b *rulerBand) DragEnd() {}

func (b *rulerBand) to(pos fyne.Position) {
	defer paint.Survive("The line on a frame")
	if d := b.s.sheet.Drawing(); d != nil {
		x := math.Min(math.Max(float64(pos.X+b.Position().X), d.Left), d.Right)
		b.s.Set(int(math.Floor(d.Frame(x))))
	}
}

// MouseIn implements desktop.Hoverable.
func (b *rulerBand) MouseIn(*desktop.MouseEvent) {
	defer paint.Survive("The ruler")
	b.hint("Click or drag along the ruler to read one frame in words; the comma and period keys step by one")
}

// MouseMoved implements desktop.Hoverable.
func (b *rulerBand) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (b *rulerBand) MouseOut() {
	defer paint.Survive("The ruler")
	b.hint("")
}

func (b *rulerBand) hint(text string) {
	if b.s.OnHint != nil {
		b.s.OnHint(text)
	}
}

// Cursor implements desktop.Cursorable.
func (b *rulerBand) Cursor() desktop.Cursor { return desktop.HResizeCursor }

// Bring pans so that a frame is in view; where it is, nothing moves.
func (t *Timeline) Bring(frame int) {
	if t.drawing == nil {
		return
	}
	f, n := float64(frame), t.tracks/t.CurrentView.Scale
	switch {
	case f < t.CurrentView.From:
		t.LookAt(f - n/8)
	case f+1 > t.CurrentView.From+n+0.01:
		t.LookAt(f - n/8) // a page on, for one that plays
	}
}

// aroundMeeting is how many frames are shown on each side of the overlap.
const aroundMeeting = 9

// FitMeeting shows the frames on which the two sides meet, and a few around.
func (t *Timeline) FitMeeting() {
	if t.drawing == nil {
		return
	}
	s := t.Scene.Overlap
	if s.Len() == 0 {
		s = timeline.Span{From: t.Scene.Wake, To: t.Scene.Wake + 1}
	}
	n := float64(s.Len() + 2*aroundMeeting)
	t.CurrentView.Scale = min(t.tracks/n, mostScale)
	t.LookAt(float64(s.From+s.To)/2 - t.tracks/t.CurrentView.Scale/2)
}
