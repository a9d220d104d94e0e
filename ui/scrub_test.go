package ui

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/timeline"
	"wakeline/ui/editor"
)

// pressRuler presses the ruler in the middle of a frame.
func pressRuler(w *window, frame float64) {
	b := w.scrub.Band
	ev := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	ev.Position = fyne.NewPos(float32(w.sheet.Drawing().X(frame+0.5))-b.Position().X, 4)
	b.MouseDown(ev)
}

func TestScrubByHand(t *testing.T) {
	w := open(t, sample(), laptop)
	if _, on := w.scrub.Frame(); on || w.scrub.Words() != "" {
		t.Fatal("a line stands before it is asked for")
	}
	pressRuler(w, 30)
	if f, on := w.scrub.Frame(); !on || f != 30 {
		t.Fatalf("the line stands on %d, %v", f, on)
	}
	b := w.scrub.Band
	for _, tt := range []struct {
		x    float64
		want int
	}{{31.2, 31}, {57.9, 57}, {-1000, w.sheet.Scene.Span.From}, {1000, w.sheet.Scene.Span.To - 1}} {
		ev := &fyne.DragEvent{}
		ev.Position = fyne.NewPos(float32(w.sheet.Drawing().X(tt.x))-b.Position().X, 4)
		b.Dragged(ev)
		if f, _ := w.scrub.Frame(); f != tt.want {
			t.Errorf("dragged to %g it stands on %d, want %d", tt.x, f, tt.want)
		}
	}
	if edits(w.model) != 0 {
		t.Error("reading a frame is an edit")
	}
}

func TestScrubByKeys(t *testing.T) {
	w := open(t, sample(), laptop)
	w.model.SetDelay(4)
	meeting := w.sheet.Scene.Cell.Meeting
	at := func(want int) {
		t.Helper()
		if f, on := w.scrub.Frame(); !on || f != want {
			t.Fatalf("the line stands on %d, %v, want %d", f, on, want)
		}
	}
	key(w, fyne.KeyPeriod, 1)
	at(meeting.N)
	key(w, fyne.KeyPeriod, 3)
	at(meeting.N + 3)
	key(w, fyne.KeyComma, 4)
	at(meeting.N - 1)
	w.sheet.Keys = func() fyne.KeyModifier { return fyne.KeyModifierShift }
	key(w, fyne.KeyComma, 2)
	at(meeting.N - 1 - 2*scrubStep)
	w.sheet.Keys = func() fyne.KeyModifier { return 0 }
	key(w, fyne.KeyEnd, 1)
	at(meeting.N)
	if !strings.HasPrefix(w.scrub.Words(), "Frame ") || !strings.HasSuffix(w.scrub.Words(), "Here they meet.") {
		t.Errorf("it says %q", w.scrub.Words())
	}
	key(w, fyne.KeyEscape, 1)
	if _, on := w.scrub.Frame(); on {
		t.Error("Escape leaves the line")
	}
	key(w, fyne.KeyEnd, 1)
	w.model.Choose(1)
	if _, on := w.scrub.Frame(); on {
		t.Error("the line stands on another setup")
	}
}

// TestScrubFollows has the words follow a drag, and the view a line that
// leaves it.
func TestScrubFollows(t *testing.T) {
	w := open(t, sample(), laptop)
	pressRuler(w, 20)
	before := w.scrub.Words()
	p := grip(t, w, timeline.PartDelay, 0)
	press(w, p)
	move(w, p, 5, 0, 5)
	if after := w.scrub.Words(); after == before || w.strip.Said != after {
		t.Errorf("after a drag it says %q, the strip %q", after, w.strip.Said)
	}
	release(w)
	w.sheet.FitMeeting()
	w.scrub.Set(2)
	d := w.sheet.Drawing()
	if x := d.X(2); x < d.Left || x > d.Right {
		t.Errorf("frame 2 lies at %g, the tracks from %g to %g", x, d.Left, d.Right)
	}
}

// TestWordsAreWhole holds the strip to showing all of its words, at the
// smallest window.
func TestWordsAreWhole(t *testing.T) {
	p := sample()
	p.Fighters[1].Name = "Maerwyn of the very long name that no strip was made for"
	for i := range p.Setups {
		p.Setups[i].Rival = p.Fighters[1].Name
	}
	w := open(t, p, fyne.NewSize(1024, 640))
	for f := -8; f < 90; f++ {
		w.scrub.Set(f)
		if got := strings.Join(w.strip.Lines, " "); got != w.scrub.Words() {
			t.Fatalf("the strip says %q, want %q", got, w.scrub.Words())
		}
		if high := w.strip.Size().Height; high < float32(len(w.strip.Lines)*editor.PlayLine) {
			t.Fatalf("on %d the strip is %g high for %d lines", f, high, len(w.strip.Lines))
		}
	}
	if got := w.Canvas().Content().MinSize(); got.Height > 640 {
		t.Errorf("asks for %v", got)
	}
}

func TestPlay(t *testing.T) {
	for _, tt := range []struct {
		rate timeline.Rate
		slow int
		ms   int // after the start
		want int // frames from the first on
	}{
		{timeline.Rate{Num: 60, Den: 1}, 1, 500, 30},
		{timeline.Rate{Num: 60, Den: 1}, 2, 500, 15},
		{timeline.Rate{Num: 60, Den: 1}, 10, 500, 3},
		{timeline.Rate{Num: 30, Den: 1}, 1, 500, 15},
	} {
		p := sample()
		p.Ruleset.Rate = tt.rate
		w := open(t, p, laptop)
		now := time.Now()
		w.player.Now = func() time.Time { return now }
		w.player.SetSpeed(tt.slow)
		key(w, fyne.KeySpace, 1)
		first := w.sheet.Scene.Span.From
		if f, _ := w.scrub.Frame(); f != first || !w.player.Playing() {
			t.Fatalf("%+v: begins on %d, plays %v", tt, f, w.player.Playing())
		}
		sheetsBefore := w.sheet.Renderer.Pen.Serial
		now = now.Add(time.Duration(tt.ms) * time.Millisecond) // one late tick: frames are left out
		w.player.Tick()
		if f, _ := w.scrub.Frame(); f != first+tt.want {
			t.Errorf("%+v: shows %d, want %d", tt, f, first+tt.want)
		}
		if w.sheet.Renderer.Pen.Serial != sheetsBefore {
			t.Errorf("%+v: the sheet is drawn again", tt)
		}
		key(w, fyne.KeySpace, 1)
		now = now.Add(time.Second)
		w.player.Tick()
		if f, _ := w.scrub.Frame(); f != first+tt.want || w.player.Playing() {
			t.Errorf("%+v: a pause goes on to %d", tt, f)
		}
		key(w, fyne.KeySpace, 1)
		now = now.Add(time.Hour)
		w.player.Tick()
		if f, _ := w.scrub.Frame(); f != w.sheet.Scene.Span.To-1 || w.player.Playing() {
			t.Errorf("%+v: ends on %d, plays %v", tt, f, w.player.Playing())
		}
	}
}

// TestSpeedAndHandWhilePlaying changes the speed in the middle, and takes hold
// of the line.
func TestSpeedAndHandWhilePlaying(t *testing.T) {
	w := open(t, sample(), laptop)
	now := time.Now()
	w.player.Now = func() time.Time { return now }
	w.player.Toggle()
	now = now.Add(time.Second / 2)
	w.player.Tick()
	at, _ := w.scrub.Frame()
	w.player.NextSpeed()
	now = now.Add(time.Second / 2)
	w.player.Tick()
	if f, _ := w.scrub.Frame(); f != at+15 {
		t.Errorf("at half speed it comes from %d to %d", at, f)
	}
	if got := w.Preferences().Int(prefSlow); got != 2 {
		t.Errorf("remembers a speed %d times slower", got)
	}
	pressRuler(w, 10)
	if w.player.Playing() {
		t.Error("it plays on in a hand")
	}
	w.player.Toggle()
	w.model.Choose(1)
	w.player.Tick()
	if w.player.Playing() {
		t.Error("it plays on in another setup")
	}
}

func TestFitMeeting(t *testing.T) {
	w := open(t, sample(), laptop)
	w.model.Choose(1)
	w.model.Show(0, 0) // a high guard, which meets
	fit := w.sheet.Drawing().View.Scale
	w.sheet.TypedRune('9')
	d, s := w.sheet.Drawing(), w.sheet.Scene.Overlap
	if d.View.Scale <= fit {
		t.Errorf("scale %g, was %g", d.View.Scale, fit)
	}
	left, right := d.X(float64(s.From))-d.Left, d.Right-d.X(float64(s.To))
	if left < 3*d.View.Scale || right < 3*d.View.Scale || left-right > 1 || right-left > 1 {
		t.Errorf("%g units before the overlap, %g after", left, right)
	}
	w.sheet.TypedRune('0')
	if got := w.sheet.Drawing().View.Scale; got != fit {
		t.Errorf("fit again at %g, was %g", got, fit)
	}
}
