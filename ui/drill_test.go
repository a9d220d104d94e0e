package ui

import (
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/odds"
	"wakeline/ui/sheet"
)

// hour is a clock that tests set.
type hour struct{ t time.Time }

func (h *hour) now() time.Time       { return h.t }
func (h *hour) pass(d time.Duration) { h.t = h.t.Add(d) }
func (h *hour) at(c *drillClock, moment float64) {
	h.t = c.began.Add(time.Duration(math.Ceil((moment + odds.Lead) * 1e9 / 60)))
}

// openDrill shows the drill of a setup with a wait.
func openDrill(t testing.TB, p *timeline.Project) (*window, *drillPage, *hour) {
	t.Helper()
	w := open(t, p, laptop)
	h := &hour{time.Date(2026, 3, 4, 10, 0, 0, 0, time.UTC)}
	d, err := newDrillPage(w, h.now)
	if err != nil {
		t.Fatal(err)
	}
	w.showPage(d)
	w.win.Canvas().Focus(d.pad)
	return w, d, h
}

// down presses Space as the driver does.
func down(d *drillPage) {
	ev := &fyne.KeyEvent{Name: fyne.KeySpace}
	d.pad.KeyDown(ev)
	d.pad.TypedKey(ev)
	d.pad.TypedRune(' ')
	d.pad.KeyUp(ev)
}

// round presses at a moment, and runs the round to its end and on to the next.
func round(d *drillPage, h *hour, moments ...float64) {
	c := d.clock
	for _, m := range moments {
		h.at(c, m)
		down(d)
	}
	h.at(c, float64(c.drill.End))
	d.tick()
	h.pass(betweenRounds)
	d.tick()
}

func TestAPressIsMeasuredAgainstTheWindow(t *testing.T) {
	_, d, h := openDrill(t, sample())
	down(d)
	if d.clock.state != drillRuns || !strings.Contains(d.said.Text, "count") {
		t.Fatalf("Space doesn't start: %v, %q", d.clock.state, d.said.Text)
	}
	aim := d.clock.drill.Jump.Aim
	spans := d.clock.drill.Jump.Window.Spans()
	last := spans[len(spans)-1].To - 1
	h.at(d.clock, -50) // a false start is none
	down(d)
	round(d, h, aim)
	round(d, h, float64(last+3)+0.5)
	if n := len(d.clock.presses); n != 2 {
		t.Fatalf("%d presses, want 2", n)
	}
	if p := d.clock.presses[0]; p.Off != 0 || math.Abs(p.Late) > 0.001 || p.Frame != int(aim) {
		t.Errorf("pressed at the aim: %+v", p)
	}
	if p := d.clock.presses[1]; p.Off != 3 || p.Frame != last+3 {
		t.Errorf("pressed 3 frames late: %+v", p)
	}
	if d.said.Text != d.clock.presses[1].Words("jump") || !strings.Contains(d.said.Text, "3 frames late") {
		t.Errorf("says %q", d.said.Text)
	}
	if !strings.HasPrefix(d.words.Text, "2 presses, of which 1 in time.") || !strings.Contains(d.words.Text, "Robust: ") {
		t.Errorf("says %q", d.words.Text)
	}
}

func TestASecondPressIsTheAttacks(t *testing.T) {
	w, d, h := openDrill(t, sample())
	w.win.Canvas().Focus(d.attack)
	d.attack.SetChecked(true)
	if w.win.Canvas().Focused() != fyne.Focusable(d.pad) {
		t.Error("the keys stay on the tick: Space would take it off")
	}
	down(d)
	jump := d.clock.drill.Jump
	target, _ := d.clock.drill.Attack(int(jump.Aim) + 1)
	round(d, h, jump.Aim+1, target.Aim-2, target.Aim)
	if n := len(d.clock.presses); n != 2 || d.clock.presses[1].what != pressOfAttack {
		t.Fatalf("%d presses: %+v", n, d.clock.presses)
	}
	if p := d.clock.presses[1]; math.Abs(p.Late+2000.0/60) > 0.01 {
		t.Errorf("2 frames before the aim of a jump one frame late: %+v", p)
	}
	d.attack.SetChecked(false)
	round(d, h, jump.Aim, target.Aim)
	if n := len(d.clock.presses); n != 3 {
		t.Errorf("%d presses: the attack is asked for still", n)
	}
}

// drillOut drills n rounds, each press so many milliseconds late.
func drillOut(d *drillPage, h *hour, late ...float64) {
	d.count.SetSelected("10")
	down(d)
	for _, ms := range late {
		round(d, h, d.clock.drill.Jump.Aim+ms*60/1000)
	}
}

var tenLate = []float64{10, 12, 8, 14, 6, 10, 12, 8, 14, 6}

func TestADrillFeedsTheOdds(t *testing.T) {
	p := sample()
	w, d, h := openDrill(t, p)
	w.model.SetDelay(max(1, w.model.Verdict().Window[0].From))
	before := w.hands.words()
	if !strings.Contains(before, "25 ms spread (assumed)") {
		t.Fatalf("before: %q", before)
	}
	drillOut(d, h, tenLate...)
	if d.running() || d.beat != nil {
		t.Fatal("the drill is not over after its rounds")
	}
	got := w.hands.person()
	if e, _ := odds.Measure(d.clock.late()); got.Presses != 10 || got.Bias != e.RobustBias.Value || got.Spread != e.RobustSpread.Value || math.Abs(got.Bias-10) > 0.01 {
		t.Errorf("the hand is %+v", got)
	}
	if after := w.hands.words(); after == before || !strings.Contains(after, "10 ms late (measured in 10 presses)") || w.explain.Odds() != after {
		t.Errorf("after: %q", after)
	}
	if !strings.Contains(d.about.Text, "stays until the project is closed") {
		t.Errorf("says of the record: %q", d.about.Text)
	}
	w.app.Preferences().SetString(prefHand, handAssumed)
	if !w.hands.person().Assumed {
		t.Error("the assumption can't be had again")
	}
}

func TestAStoppedDrillIsKept(t *testing.T) {
	w, d, h := openDrill(t, sample())
	drillOut(d, h, 10, 20, 30)
	d.pad.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if d.running() || len(w.hands.drilled()) != 3 {
		t.Errorf("%d presses kept", len(w.hands.drilled()))
	}
	if w.hands.person().Presses != 0 {
		t.Error("three presses are believed")
	}
	d.pad.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.page != nil {
		t.Error("Escape doesn't close the page")
	}
	w.showDrill()
	d = w.page.(*drillPage)
	if !strings.Contains(d.words.Text, "3 presses so far") {
		t.Errorf("says %q", d.words.Text)
	}
}

func TestAnotherPageEndsTheDrill(t *testing.T) {
	w, d, h := openDrill(t, sample())
	drillOut(d, h, 10, 20)
	w.showMatchup()
	d.tick()
	if d.running() || d.beat != nil || len(w.hands.drilled()) != 2 {
		t.Errorf("runs %v, %d presses kept", d.running(), len(w.hands.drilled()))
	}
}

func TestAPauseIsOfferedAfterFiveMinutes(t *testing.T) {
	_, d, h := openDrill(t, sample())
	d.count.SetSelected("50")
	down(d)
	long := drillStretch / 3
	for range 2 {
		h.pass(long)
		d.tick()
		h.pass(betweenRounds)
		d.tick()
	}
	if d.clock.state != drillRuns || d.rest.Visible() {
		t.Fatalf("a pause after %v", d.clock.spent)
	}
	h.pass(long)
	d.tick()
	if d.clock.state != drillRests || !d.rest.Visible() {
		t.Fatalf("no pause after %v: %v", d.clock.spent, d.clock.state)
	}
	h.pass(time.Hour)
	d.tick()
	if d.clock.state != drillRests {
		t.Error("it goes on by itself")
	}
	down(d)
	if d.clock.state != drillRuns || d.rest.Visible() || d.clock.spent != 0 || len(d.clock.presses) != 0 {
		t.Errorf("Space goes on: %v, %d presses", d.clock.state, len(d.clock.presses))
	}
	if d.clock.idle != 3 {
		t.Errorf("%d rounds without a press, want 3", d.clock.idle)
	}
}

func TestTheCautionIsShownOnce(t *testing.T) {
	w, d, _ := openDrill(t, sample())
	if !d.caution.Visible() {
		t.Fatal("no caution")
	}
	d.understood()
	again, err := newDrillPage(w, time.Now)
	if err != nil || d.caution.Visible() || again.caution.Visible() {
		t.Error("it is shown again")
	}
}

func TestThePictureIsMeasured(t *testing.T) {
	_, d, h := openDrill(t, sample())
	down(d)
	for i := range 30 {
		step := 16 * time.Millisecond
		if i == 7 {
			step = 90 * time.Millisecond // one hitch moves nothing
		}
		h.pass(step)
		d.tick()
	}
	if got := d.clock.picture(); got != 16 {
		t.Errorf("a picture every %v ms, want 16", got)
	}
	d.startOrStop()
	if !strings.Contains(d.about.Text, "every 16.0 ms") {
		t.Errorf("says %q", d.about.Text)
	}
}

func TestDotsStandWhereThePressesAre(t *testing.T) {
	_, d, h := openDrill(t, sample())
	drillOut(d, h, 0, 0, 70, -400)
	const width = 600
	spots := d.strip.spots(width)
	if len(spots) != 4 || spots[0].x != spots[1].x || spots[1].y >= spots[0].y {
		t.Fatalf("dots %+v: equal presses don't stack", spots)
	}
	if spots[2].x <= spots[0].x || spots[3].x >= spots[0].x || spots[3].x < 0 {
		t.Errorf("dots %+v: late is right, early left, and none outside", spots)
	}
}

// A press off the scale is no dot at its end, where it would tell another time,
// but an arrow past it; and it is said.
func TestAPressOffTheScaleIsDrawnSo(t *testing.T) {
	_, d, h := openDrill(t, sample())
	const width = 600
	frame := 1000.0 / 60
	edge := stripReach * frame
	for late, off := range map[float64]int{-edge - 1: -1, -edge + 1: 0, 0: 0, edge - 1: 0, edge + 1: 1, 900: 1} {
		d.clock.presses = []drillPress{{Press: odds.Press{Late: late}, what: pressOfJump}}
		s := d.strip.spots(width)[0]
		inside := s.x >= stripPad && s.x <= width-stripPad
		if s.off != off || inside != (off == 0) || s.x < stripDot/2 || s.x > width-stripDot/2 {
			t.Errorf("%v ms late: %+v, want off the scale %d", late, s, off)
		}
		if says := d.strip.offScale(); len(says) != off*off {
			t.Errorf("%v ms late: says %q", late, says)
		}
	}
	d.clock.presses = nil
	drillOut(d, h, 0, -400, 200, 300)
	if got, want := d.words.Text, "\nOff the scale: 1 press more than 9 frames early.\nOff the scale: 2 presses more than 9 frames late.\n"; !strings.Contains(got, want) {
		t.Errorf("says %q, want %q in it", got, want)
	}
}

// In the game the buffer takes a press before the first possible frame: the jump
// starts on that one, and the attack is asked for after it.
func TestAPressBeforeFrame0InTheBufferJumpsOn0(t *testing.T) {
	p := sample()
	p.Setups[0].Fillers, p.Setups[0].Delay = nil, 2
	_, d, h := openDrill(t, p)
	d.attack.SetChecked(true)
	if first := d.clock.drill.Jump.Window.First; first != 0 {
		t.Fatalf("the jump may start on %d, want 0", first)
	}
	down(d)
	h.at(d.clock, -0.5)
	down(d)
	c := d.clock
	if len(c.presses) != 1 || c.presses[0].Acts != 0 || c.start != 0 || !strings.HasSuffix(d.said.Text, ", on 0: pressed on -1, the buffer holds it until 0.") {
		t.Fatalf("pressed on -1: %+v, starts on %d, %q", c.presses, c.start, d.said.Text)
	}
	want, _ := c.drill.Attack(0)
	if got, what, _, ok := c.target(); !ok || what != pressOfAttack || got.Aim != want.Aim {
		t.Errorf("then %v asks for %q at %v, want the attack at %v", ok, what, got.Aim, want.Aim)
	}
	// Before the buffer it does nothing: there is no jump to attack from.
	round(d, h)
	h.at(c, -float64(c.drill.Jump.Window.Buffer)-0.5)
	down(d)
	if _, _, _, ok := c.target(); ok || len(c.presses) != 2 || c.presses[1].Acts >= 0 || !strings.Contains(d.said.Text, "does not come") {
		t.Errorf("pressed before the buffer: %+v, %q", c.presses, d.said.Text)
	}
}

// The last press is discarded in the drill, after it, and off a record of before.
func TestTheLastPressIsDiscarded(t *testing.T) {
	w, d, h := openDrill(t, sample())
	if !d.discard.Disabled() || !d.clear.Disabled() {
		t.Error("there is something to discard before the first press")
	}
	back := func() { d.pad.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace}) }
	back()
	drillOut(d, h, 5) // a drill of before
	d.pad.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	drillOut(d, h, 10, 20, 30)
	if d.discard.Disabled() || !d.clear.Disabled() {
		t.Error("a drill that runs can't be cleared, but its last press can be discarded")
	}
	late := func(want ...float64) {
		t.Helper()
		got, shown := w.hands.drilled(), d.clock.late()
		if !near(got, want) || len(shown) > 0 && !near(shown, want[1:]) {
			t.Errorf("the record is %v, shown are %v, want %v", got, shown, want)
		}
	}
	back()
	if n := len(d.clock.presses); n != 2 || d.said.Text != "The last press is discarded." || !strings.HasPrefix(d.words.Text, "2 presses, ") || !near(w.hands.drilled(), []float64{5}) {
		t.Errorf("%d presses, %q, %q", n, d.said.Text, d.words.Text)
	}
	d.pad.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	late(5, 10, 20)
	back()
	late(5, 10)
	d, err := newDrillPage(w, h.now) // what was drilled before
	if err != nil {
		t.Fatal(err)
	}
	w.showPage(d)
	d.discardPress()
	late(5)
	d.discardPress()
	late()
	if !d.discard.Disabled() || len(w.model.Document().(*TextDocument).drills) != 0 {
		t.Error("something is left to discard")
	}
}

func near(got, want []float64) bool {
	return slices.EqualFunc(got, want, func(a, b float64) bool { return math.Abs(a-b) < 0.01 })
}

// Each hand by name has a record of its own, in a project file too; the one that
// is chosen is drilled, and odds and search are of it.
func TestSeveralHands(t *testing.T) {
	for _, kind := range []string{"text", "file"} {
		t.Run(kind, func(t *testing.T) {
			w := openFile(t, sample())
			if kind == "text" {
				w = open(t, sample(), laptop)
			}
			h := &hour{time.Date(2026, 3, 4, 10, 0, 0, 0, time.UTC)}
			d, err := newDrillPage(w, h.now)
			if err != nil {
				t.Fatal(err)
			}
			w.showPage(d)
			if got := d.hand.Options; !slices.Equal(got, []string{namelessHand, newHandLabel}) || d.hand.Selected != namelessHand {
				t.Fatalf("at first %q of %q", d.hand.Selected, got)
			}
			drillOut(d, h, tenLate...)
			w.hands.choose("Ann")
			if d.of != "Ann" || d.hand.Selected != "Ann" || len(d.clock.presses) != 0 || !w.hands.person().Assumed || !strings.HasPrefix(d.words.Text, "There is no drill of Ann yet.") {
				t.Fatalf("Ann before her first drill: %q, %+v, %q", d.hand.Selected, w.hands.person(), d.words.Text)
			}
			d.hand.SetSelected(newHandLabel)
			if w.topAsk() == nil || d.hand.Selected != "Ann" {
				t.Errorf("a new hand: %q, asks %v", d.hand.Selected, w.topAsk())
			}
			w.topAsk().hide()
			slow := make([]float64, 10)
			for i := range slow {
				slow[i] = 60 + float64(i%3)
			}
			drillOut(d, h, slow...)
			if !d.hand.Disabled() && d.running() {
				t.Error("the hand can be changed while it drills")
			}
			is := func(name string, bias float64) {
				t.Helper()
				if p := w.hands.person(); p.Name != name || p.Presses != 10 || math.Abs(p.Bias-bias) > 0.1 {
					t.Errorf("the hand is %+v, want %q, %v late", p, name, bias)
				}
				w.showFind()
				if f := w.page.(*findPage); !strings.Contains(f.hand.Text, "measured in 10 presses"+map[bool]string{true: " of " + name}[name != ""]) {
					t.Errorf("the search is for %q", f.hand.Text)
				}
				w.showPage(d)
			}
			is("Ann", 61)
			d.hand.SetSelected(namelessHand)
			is("", 10)
			// Cleared is the record of the chosen hand alone, after a question.
			d.clear.press()
			if w.topAsk() == nil || len(w.hands.drilled()) != 10 {
				t.Fatal("nothing asks before the record is cleared")
			}
			w.topAsk().buttons[1].(*pushButton).press()
			if len(w.hands.drilled()) != 0 || !d.clear.Disabled() || !strings.HasPrefix(d.words.Text, "There is no drill yet.") {
				t.Errorf("cleared: %d presses, %q", len(w.hands.drilled()), d.words.Text)
			}
			d.hand.SetSelected("Ann")
			is("Ann", 61)
		})
	}
}

func TestNameOfAHand(t *testing.T) {
	for text, want := range map[string]string{" Ann ": "Ann", "": "", "no name": "", "New hand…": "", "a\tb": "", strings.Repeat("x", 41): "", "Åsa 2": "Åsa 2"} {
		if got, err := nameOfHand(text); got != want || (err == nil) != (want != "") {
			t.Errorf("%q is %q, %v, want %q", text, got, err, want)
		}
	}
}

func TestADrillInAProjectFileStays(t *testing.T) {
	w := openFile(t, sample())
	doc := w.model.Document().(*FileDocument)
	h := &hour{time.Date(2026, 3, 4, 10, 0, 0, 0, time.UTC)}
	d, err := newDrillPage(w, h.now)
	if err != nil {
		t.Fatal(err)
	}
	w.showPage(d)
	undo := w.model.CanUndo()
	drillOut(d, h, tenLate...)
	drills, err := doc.File().Drills()
	if err != nil || len(drills) != 1 || len(drills[0].Presses) != 10 || drills[0].Setup != w.model.Setup().Name || drills[0].Date != "2026-03-04T10:00:00Z" {
		t.Fatalf("drills %+v, %v", drills, err)
	}
	if w.model.CanUndo() != undo {
		t.Error("a drill is a step of undo")
	}
	if w.hands.person().Presses != 10 || d.kept != "The record is saved in the project file." {
		t.Errorf("hand %+v, %q", w.hands.person(), d.kept)
	}
}

func TestAProjectFileTakesTheDrillsAlong(t *testing.T) {
	w, d, h := openDrill(t, sample())
	drillOut(d, h, tenLate...)
	before := w.hands.person()
	w.keepAsFile(filepath.Join(t.TempDir(), "kept"+storage.Ext))
	doc, ok := w.model.Document().(*FileDocument)
	if !ok {
		t.Fatal(overlayText(w))
	}
	t.Cleanup(w.end)
	drills, err := doc.File().Drills()
	if err != nil || len(drills) != 1 || w.hands.person().Presses != before.Presses {
		t.Errorf("%d drills, %v, the hand %+v, want %+v", len(drills), err, w.hands.person(), before)
	}
}

func TestYourTimingIsRemembered(t *testing.T) {
	w := open(t, sample(), laptop)
	for text, want := range map[string]bool{"12,5": true, " 30 ": true, "-1": false, "x": false, "NaN": false, "20000": false} {
		if _, err := milliseconds("the spread", text, 0); (err == nil) != want {
			t.Errorf("%q: %v", text, err)
		}
	}
	prefs := w.app.Preferences()
	prefs.SetString(prefHand, handTyped)
	prefs.SetFloat(prefSpread, 12.5)
	prefs.SetFloat(prefBias, -3)
	if got := w.hands.person(); got.Spread != 12.5 || got.Bias != -3 || got.Assumed || got.Presses != 0 {
		t.Errorf("the hand is %+v", got)
	}
	w.askHand()
	if w.win.Canvas().Overlays().Top() == nil {
		t.Error("nothing asks")
	}
}

// What the bar of bias and spread is called stands beside it, within the strip.
func TestTheNameOfTheSpreadStaysOnTheStrip(t *testing.T) {
	for _, c := range []struct {
		from, to float64
		x        float32
		a        sheet.Anchor
		ok       bool
	}{
		{180, 220, 230, sheet.AtStart, true},
		{280, 330, 270, sheet.AtEnd, true},
		{12, 388, 0, sheet.AtStart, false},
		{60, 380, 0, sheet.AtStart, false},
	} {
		if x, a, ok := besideSpan(c.from, c.to, 400, 80); x != c.x || a != c.a || ok != c.ok {
			t.Errorf("beside %v to %v: %v, %v, %v", c.from, c.to, x, a, ok)
		}
	}
}

// However many presses come alike, their dots stay on the strip, each higher
// than the one before.
func TestHighStacksStayOnTheStrip(t *testing.T) {
	_, d, _ := openDrill(t, sample())
	for n := 1; n <= 100; n++ {
		d.clock.presses = append(d.clock.presses, drillPress{Press: odds.Press{Late: -400}, what: pressOfJump})
		spots := d.strip.spots(400)
		if top := spots[n-1].y - stripDot/2; top < stripTop || n > 1 && spots[n-1].y >= spots[n-2].y {
			t.Fatalf("%d presses: the last at %v", n, spots[n-1].y)
		}
	}
}
