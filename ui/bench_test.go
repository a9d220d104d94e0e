package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
	"wakeline/ui/editor"
	"wakeline/ui/paint"
)

// BenchmarkDragStep drags the delay by one frame a step, there and back, with
// 60 replies on 3 rises: the verdict, the sheet with its guide, the sentences,
// the table and the row, laid out again.
func BenchmarkDragStep(b *testing.B) { dragCrowd(b, false) }

// BenchmarkDragStepNew is the same where every step shows frames that no step
// before has shown, so that their texts and dashes are painted anew.
func BenchmarkDragStepNew(b *testing.B) {
	w := open(b, sample(), laptop)
	w.model.Worth.Start(func(func()) {}, nil)
	w.sheet.Zoom(-20, 400)
	n := 0
	b.ReportAllocs()
	for b.Loop() {
		if n++; n == 150 {
			b.StopTimer()
			w = open(b, sample(), laptop)
			w.model.Worth.Start(func(func()) {}, nil)
			w.sheet.Zoom(-20, 400)
			n = 0
			b.StartTimer()
		}
		w.model.SetDelay(n)
	}
}

// BenchmarkDragStepLanes is BenchmarkDragStep with the lanes shown, and a line
// on a frame told in words.
func BenchmarkDragStepLanes(b *testing.B) { dragCrowd(b, true) }

func dragCrowd(b *testing.B, lanes bool) {
	w := open(b, crowd(60), fyne.NewSize(1440, 900))
	w.model.Worth.Start(func(func()) {}, nil) // behind the window, of which this measures the goroutine
	if lanes {
		w.showLanes()
		w.scrub.Meeting()
	}
	p := grip(b, w, timeline.PartDelay, 0)
	press(w, p)
	scale := w.sheet.Drawing().View.Scale
	n, step := 0, 1
	b.ReportAllocs()
	for b.Loop() {
		if n += step; n == 6 || n == 0 {
			step = -step
		}
		ev := &fyne.DragEvent{Dragged: fyne.NewDelta(float32(step)*float32(scale), 0)}
		ev.Position = fyne.NewPos(float32(p.X+float64(n)*scale), float32(p.Y))
		w.sheet.Dragged(ev)
	}
	if got := w.delay(); got != 3+n {
		b.Fatalf("delay %d, want %d", got, 3+n)
	}
}

// BenchmarkDragRiseCrowd drags the wake-up: each step is another plan.
func BenchmarkDragRiseCrowd(b *testing.B) {
	w := open(b, crowd(60), fyne.NewSize(1440, 900))
	w.showLanes()
	w.model.Begin()
	n := 0
	b.ReportAllocs()
	for b.Loop() {
		n++
		w.model.SetAdvantage(55 + n%6)
	}
}

// BenchmarkLanesScroll scrolls through the lanes of 60 replies.
func BenchmarkLanesScroll(b *testing.B) {
	w := openLanes(b, crowd(60), fyne.NewSize(1440, 900))
	n := 0
	b.ReportAllocs()
	for b.Loop() {
		n++
		paint.ScrollTo(w.lanes.Rows, float32(n%50*editor.LaneRow))
	}
}

// BenchmarkPlayTick shows the next frame of a scene that is played.
func BenchmarkPlayTick(b *testing.B) {
	w := openLanes(b, crowd(60), fyne.NewSize(1440, 900))
	n := 0
	b.ReportAllocs()
	for b.Loop() {
		n++
		w.scrub.Set(n % 80)
	}
}
