package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
)

// BenchmarkDragStep drags the delay by one frame a step, there and back: the
// verdict, the sheet, the sentences, the table and the row, laid out again.
func BenchmarkDragStep(b *testing.B) {
	w := open(b, sample(), laptop)
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

// BenchmarkDragStepNew is the same where every step shows frames that no step
// before has shown, so that their texts and dashes are painted anew.
func BenchmarkDragStepNew(b *testing.B) {
	w := open(b, sample(), laptop)
	w.sheet.Zoom(-20, 400)
	n := 0
	b.ReportAllocs()
	for b.Loop() {
		if n++; n == 150 {
			b.StopTimer()
			w = open(b, sample(), laptop)
			w.sheet.Zoom(-20, 400)
			n = 0
			b.StartTimer()
		}
		w.model.SetDelay(n)
	}
}
