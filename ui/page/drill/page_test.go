package drill

import (
	"math"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
	"wakeline/timeline/odds"
	"wakeline/ui/model"
	"wakeline/ui/page/pagetest"
)

// hour is a clock that tests set.
type hour struct{ t time.Time }

func (h *hour) now() time.Time       { return h.t }
func (h *hour) pass(d time.Duration) { h.t = h.t.Add(d) }
func (h *hour) at(c *clock, moment float64) {
	h.t = c.began.Add(time.Duration(math.Ceil((moment + odds.Lead) * 1e9 / 60)))
}

// openDrill shows the drill of a setup with a wait.
func openDrill(t testing.TB, p *timeline.Project) (*pagetest.Host, *Page, *hour) {
	t.Helper()
	w := pagetest.Open(t, p)
	d, h := drillIn(t, w)
	return w, d, h
}

// drillIn shows the drill of the host's chosen setup.
func drillIn(t testing.TB, w *pagetest.Host) (*Page, *hour) {
	t.Helper()
	h := &hour{time.Date(2026, 3, 4, 10, 0, 0, 0, time.UTC)}
	d, err := New(w, h.now)
	if err != nil {
		t.Fatal(err)
	}
	w.Show(d)
	return d, h
}

// down presses Space as the driver does.
func down(d *Page) {
	ev := &fyne.KeyEvent{Name: fyne.KeySpace}
	d.pad.KeyDown(ev)
	d.pad.TypedKey(ev)
	d.pad.TypedRune(' ')
	d.pad.KeyUp(ev)
}

// round presses at a moment, and runs the round to its end and on to the next.
func round(d *Page, h *hour, moments ...float64) {
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
	_, d, h := openDrill(t, pagetest.Sample())
	down(d)
	if d.clock.state != runs || !strings.Contains(d.said.Text, "count") {
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
	w, d, h := openDrill(t, pagetest.Sample())
	w.Canvas().Focus(d.attack)
	d.attack.SetChecked(true)
	if w.Canvas().Focused() != fyne.Focusable(d.pad) {
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
func drillOut(d *Page, h *hour, late ...float64) {
	d.count.SetSelected("10")
	down(d)
	for _, ms := range late {
		round(d, h, d.clock.drill.Jump.Aim+ms*60/1000)
	}
}

var tenLate = []float64{10, 12, 8, 14, 6, 10, 12, 8, 14, 6}

func TestADrillFeedsTheOdds(t *testing.T) {
	p := pagetest.Sample()
	w, d, h := openDrill(t, p)
	w.Model().SetDelay(max(1, w.Model().Verdict().Window[0].From))
	before := w.Timing().Words()
	if !strings.Contains(before, "25 ms spread (assumed)") {
		t.Fatalf("before: %q", before)
	}
	drillOut(d, h, tenLate...)
	if d.clock.running() || d.beat != nil {
		t.Fatal("the drill is not over after its rounds")
	}
	got := w.Timing().Person()
	if e, _ := odds.Measure(d.clock.late()); got.Presses != 10 || math.Abs(got.Bias-e.RobustBias.Value) > 1e-9 || math.Abs(got.Spread-e.RobustSpread.Value) > 1e-9 || math.Abs(got.Bias-10) > 0.01 {
		t.Errorf("the hand is %+v", got)
	}
	if after := w.Timing().Words(); after == before || !strings.Contains(after, "10 ms late (measured in 10 presses)") {
		t.Errorf("after: %q", after)
	}
	if !strings.Contains(d.about.Text, "stays until the project is closed") {
		t.Errorf("says of the record: %q", d.about.Text)
	}
	w.Timing().Choose(model.Choice{Source: model.TimingAssumed})
	if !w.Timing().Person().Assumed {
		t.Error("the assumption can't be had again")
	}
}

func TestAStoppedDrillIsKept(t *testing.T) {
	w, d, h := openDrill(t, pagetest.Sample())
	drillOut(d, h, 10, 20, 30)
	d.pad.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if d.clock.running() || len(w.Timing().Drilled()) != 3 {
		t.Errorf("%d presses kept", len(w.Timing().Drilled()))
	}
	if w.Timing().Person().Presses != 0 {
		t.Error("three presses are believed")
	}
	d.pad.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.Page != nil {
		t.Error("Escape doesn't close the page")
	}
	d, _ = drillIn(t, w)
	if !strings.Contains(d.words.Text, "3 presses so far") {
		t.Errorf("says %q", d.words.Text)
	}
}

func TestAnotherPageEndsTheDrill(t *testing.T) {
	w, d, h := openDrill(t, pagetest.Sample())
	drillOut(d, h, 10, 20)
	if other, err := New(w, h.now); err != nil {
		t.Fatal(err)
	} else {
		w.Show(other)
	}
	d.tick()
	if d.clock.running() || d.beat != nil || len(w.Timing().Drilled()) != 2 {
		t.Errorf("runs %v, %d presses kept", d.clock.running(), len(w.Timing().Drilled()))
	}
}

func TestAPauseIsOfferedAfterFiveMinutes(t *testing.T) {
	_, d, h := openDrill(t, pagetest.Sample())
	d.count.SetSelected("50")
	down(d)
	long := stretch / 3
	for range 2 {
		h.pass(long)
		d.tick()
		h.pass(betweenRounds)
		d.tick()
	}
	if d.clock.state != runs || d.rest.Visible() {
		t.Fatalf("a pause after %v", d.clock.spent)
	}
	h.pass(long)
	d.tick()
	if d.clock.state != rests || !d.rest.Visible() {
		t.Fatalf("no pause after %v: %v", d.clock.spent, d.clock.state)
	}
	h.pass(time.Hour)
	d.tick()
	if d.clock.state != rests {
		t.Error("it goes on by itself")
	}
	down(d)
	if d.clock.state != runs || d.rest.Visible() || d.clock.spent != 0 || len(d.clock.presses) != 0 {
		t.Errorf("Space goes on: %v, %d presses", d.clock.state, len(d.clock.presses))
	}
	if d.clock.idle != 3 {
		t.Errorf("%d rounds without a press, want 3", d.clock.idle)
	}
}

func TestTheCautionIsShownOnce(t *testing.T) {
	w, d, _ := openDrill(t, pagetest.Sample())
	if !d.caution.Visible() {
		t.Fatal("no caution")
	}
	d.understood()
	again, err := New(w, time.Now)
	if err != nil || d.caution.Visible() || again.caution.Visible() {
		t.Error("it is shown again")
	}
}

func TestThePictureIsMeasured(t *testing.T) {
	_, d, h := openDrill(t, pagetest.Sample())
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

// In the game the buffer takes a press before the first possible frame: the jump
// starts on that one, and the attack is asked for after it.
func TestAPressBeforeFrame0InTheBufferJumpsOn0(t *testing.T) {
	p := pagetest.Sample()
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

func TestADrillInAProjectFileStays(t *testing.T) {
	w := pagetest.OpenFile(t, pagetest.Sample())
	doc := w.Model().Document()
	d, h := drillIn(t, w)
	undo := w.Model().CanUndo()
	drillOut(d, h, tenLate...)
	drills, err := doc.File().Drills()
	if err != nil || len(drills) != 1 || len(drills[0].Presses) != 10 || drills[0].Setup != w.Model().Setup().Name || drills[0].Date != "2026-03-04T10:00:00Z" {
		t.Fatalf("drills %+v, %v", drills, err)
	}
	if w.Model().CanUndo() != undo {
		t.Error("a drill is a step of undo")
	}
	if w.Timing().Person().Presses != 10 || d.record.kept != "The record is saved in the project file." {
		t.Errorf("hand %+v, %q", w.Timing().Person(), d.record.kept)
	}
}
