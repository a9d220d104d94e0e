package ui

import (
	"runtime"
	"slices"
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/odds"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

var _ page.Page = (*drillPage)(nil)

// The names of what is remembered of drills.
const (
	prefDrillCount   = "drill.presses"
	prefDrillAttack  = "drill.attack"
	prefDrillClicks  = "drill.clicks"
	prefDrillCaution = "drill.caution" // it was read
)

// drillCounts are how many rounds a drill may have.
var drillCounts = []string{"10", "20", "30", "50"}

// drillPage is the timing exercise of the chosen setup.
type drillPage struct {
	w     *window
	clock *drillClock
	doc   model.Document // that the setup is in
	setup timeline.Setup
	beat  *fyne.Animation // nil: nothing moves

	sheet   *paint.AnswerSheet
	pad     *drillPad
	strip   *drillStrip
	count   *paint.Pick
	attack  *paint.PageTick
	click   *paint.PageTick
	clicks  clicks
	start   *paint.PushButton
	said    *widget.Label // of the last press, or what to do
	words   *widget.Label // of the presses so far
	about   *widget.Label // of the screen, and the record
	caution *fyne.Container
	rest    *fyne.Container
	box     fyne.CanvasObject
	kept    string // where the last record is

	hand    *paint.Pick
	of      string // whose hand it is
	saved   bool   // the presses are in the record
	discard *paint.PushButton
	clear   *paint.PushButton
}

// showDrill shows the page for the chosen setup.
func (w *window) showDrill() {
	if w.model.Plan() == nil {
		w.Dialogs().Lines("There is nothing to drill", []string{"A drill runs a setup that can be judged. Choose one, or make it first."})
		return
	}
	d, err := newDrillPage(w, time.Now)
	if err != nil {
		w.Dialogs().Fail("This setup can't be drilled", err)
		return
	}
	w.showPage(d)
	d.Refocus()
}

func newDrillPage(w *window, now func() time.Time) (*drillPage, error) {
	d := &drillPage{w: w, clock: &drillClock{now: now}}
	prefs := w.Preferences()
	d.sheet, d.strip = paint.NewAnswerSheet(), newDrillStrip()
	d.pad = newDrillPad(d.sheet, d.clock)
	d.pad.OnPress, d.pad.OnKey = d.press, d.key
	d.count = paint.NewPick(w, drillCounts, func(n string) { prefs.SetString(prefDrillCount, n); d.aim() })
	d.count.Selected = prefs.StringWithFallback(prefDrillCount, "20")
	if !slices.Contains(drillCounts, d.count.Selected) {
		d.count.Selected = drillCounts[1]
	}
	d.attack = paint.NewPageTick(w, "Press the attack too", func(on bool) {
		prefs.SetBool(prefDrillAttack, on)
		d.clock.both = on
		d.say()
		d.aim()
	})
	d.click = paint.NewPageTick(w, "Clicks", func(on bool) {
		prefs.SetBool(prefDrillClicks, on)
		d.listen(on)
		d.say()
		d.aim()
	})
	d.start = paint.NewPageButton(w, "", nil, d.startOrStop)
	d.said, d.words, d.about = widget.NewLabel(""), widget.NewLabel(""), paint.NewLowLabel()
	d.said.TextStyle.Bold, d.said.Truncation = true, fyne.TextTruncateEllipsis
	d.words.Wrapping, d.about.Wrapping, d.about.Truncation = fyne.TextWrapWord, fyne.TextWrapWord, fyne.TextTruncateOff

	plain := func(words string) *widget.Label {
		l := widget.NewLabel(words)
		l.Wrapping = fyne.TextWrapWord
		return l
	}
	d.caution = container.NewBorder(nil, nil, nil, container.NewCenter(paint.NewPageButton(w, "Understood", nil, d.understood)),
		plain("Many presses in a row strain fingers and wrist. Rest when you tire, and stop when something hurts or tingles."))
	if prefs.Bool(prefDrillCaution) {
		d.caution.Hide()
	}
	d.rest = container.NewBorder(nil, nil, nil, container.NewHBox(paint.NewPageButton(w, "Go on", nil, d.goOn), paint.NewPageButton(w, "Stop here", nil, d.startOrStop)),
		plain("You have drilled for five minutes. A pause now does the hand good."))
	d.rest.Hide()
	title := widget.NewLabel("Drill the timing")
	title.TextStyle.Bold = true
	top := container.NewVBox(container.NewPadded(container.NewHBox(title, layout.NewSpacer(), d.click, d.attack, widget.NewLabel("Rounds"), d.count,
		d.start, paint.NewPageButton(w, "Your timing…", nil, w.askTiming), paint.NewPageButton(w, "Close", theme.CancelIcon(), d.close))), widget.NewSeparator(), d.caution, d.rest)
	// The sheet must not move while a hand aims: what is said scrolls.
	right := container.NewBorder(d.handRow(), nil, nil, nil, container.NewVScroll(container.NewVBox(d.words, d.about)))
	below := container.NewBorder(d.said, nil, nil, nil, container.NewGridWithColumns(2, d.strip, right))
	d.box = container.NewBorder(top, below, nil, nil, container.NewStack(d.sheet, d.pad))
	if err := d.take(); err != nil {
		return nil, err
	}
	d.attack.SetChecked(prefs.Bool(prefDrillAttack) && d.clock.drill.Air)
	d.click.SetChecked(prefs.Bool(prefDrillClicks))
	return d, nil
}

// take makes the exercise of the chosen setup.
func (d *drillPage) take() error {
	m := d.w.model
	plan := m.Plan()
	if plan == nil {
		return m.Err()
	}
	drill, err := odds.NewDrill(m.Data(), m.Setup())
	if err != nil {
		return err
	}
	d.doc, d.setup = m.Document(), m.Setup()
	c := d.clock
	*c = drillClock{now: c.now, drill: drill, both: d.attack.Checked, onRound: func() { d.clicks.play(d.w.Context(), d.w.Run) }}
	d.listen(d.click.Checked)
	d.strip.clock, d.strip.frame = c, m.Data().Ruleset.Rate.Milliseconds(1)
	if drill.Air {
		d.attack.Enable()
	} else {
		d.attack.Disable()
		c.both = false
	}
	d.sheet.ShowPlan(plan, d.setup.Delay)
	d.kept = ""
	d.fillHands()
	d.say()
	return nil
}

// listen gets the clicks of the count ready, or leaves them.
func (d *drillPage) listen(on bool) {
	d.clicks.on = on
	d.clicks.prepare(soundHelpers(runtime.GOOS), d.clock.drill.Beats())
}

// understood takes the caution away for good.
func (d *drillPage) understood() {
	d.w.Preferences().SetBool(prefDrillCaution, true)
	d.caution.Hide()
	d.aim()
}

// aim gives the keys to the sheet.
func (d *drillPage) aim() {
	if d.w.Showing(d) {
		d.w.Canvas().Focus(d.pad)
	}
}

// running reports whether a drill is under way.
func (d *drillPage) running() bool { return d.clock.state != drillIdle }

// startOrStop begins a drill, or ends the one that runs.
func (d *drillPage) startOrStop() {
	if d.running() {
		d.clock.stop()
		d.end()
	} else {
		d.clock.want, _ = strconv.Atoi(d.count.Selected)
		d.clock.begin()
		d.kept, d.saved = "", false
		// The window's own beat: nothing runs behind it.
		d.beat = &fyne.Animation{Duration: time.Hour, RepeatCount: fyne.AnimationRepeatForever, Tick: paint.GuardedOf("The drill", func(float32) { d.tick() })}
		d.beat.Start()
	}
	d.aim()
	d.show()
}

// goOn ends a pause.
func (d *drillPage) goOn() {
	d.clock.goOn()
	d.aim()
	d.show()
}

// press takes a press of Space: it begins, or is judged.
func (d *drillPage) press() {
	switch d.clock.state {
	case drillIdle:
		d.startOrStop()
	case drillRests:
		d.goOn()
	default:
		if p, ok := d.clock.press(); ok {
			d.said.SetText(p.Words(p.called))
			d.show()
		}
	}
}

// key does what another key does.
func (d *drillPage) key(ev *fyne.KeyEvent) {
	if ev.Name == fyne.KeyBackspace {
		d.discardPress()
		return
	}
	d.w.PageKey(ev)
}

// EndOwn stops a drill that runs.
func (d *drillPage) EndOwn() bool {
	if !d.running() {
		return false
	}
	d.startOrStop()
	return true
}

// tick is called with each picture.
func (d *drillPage) tick() {
	if !d.running() {
		d.still()
		return
	}
	if d.clock.tick() {
		if !d.running() {
			d.end()
		}
		d.show()
		return
	}
	d.pad.Refresh()
}

// still ends what moves.
func (d *drillPage) still() {
	if d.beat != nil {
		d.beat.Stop()
		d.beat = nil
	}
}

// end keeps the record of a drill that is over.
func (d *drillPage) end() {
	d.still()
	d.clicks.silence()
	if len(d.clock.presses) == 0 || d.doc != d.w.model.Document() {
		return
	}
	record := storage.Drill{Date: d.clock.first.UTC().Format(time.RFC3339), Setup: d.setup.Name, Hand: d.of, Picture: d.clock.picture()}
	for i := range d.clock.presses {
		p := &d.clock.presses[i]
		record.Presses = append(record.Presses, storage.Press{What: p.what, Late: p.Late, Frames: p.Off})
	}
	keeper, ok := d.doc.(model.DrillKeeper)
	if !ok {
		return
	}
	err := keeper.KeepDrill(record)
	switch d.saved = err == nil; {
	case err != nil:
		d.kept = "The record was not saved: " + err.Error() + "."
	case keeper.DrillsLast():
		d.kept = "The record is saved in the project file."
	default:
		d.kept = "JSON has no place for the record: it stays until the project is closed, unless you choose “Save as project file”."
	}
	d.w.Timing().Again()
}

// show shows the state, and the presses so far.
func (d *drillPage) show() {
	d.rest.Hidden = d.clock.state != drillRests
	d.say()
	d.pad.Refresh()
	d.strip.Refresh()
	d.box.Refresh()
}

// close shows the setups.
func (d *drillPage) close() { d.w.Close() }

// Left ends a drill that runs.
func (d *drillPage) Left() {
	if d.running() {
		d.clock.stop()
		d.end()
	}
}

func (d *drillPage) Content() fyne.CanvasObject { return d.box }
func (d *drillPage) Edits() bool                { return false }
func (d *drillPage) Refocus()                   { d.w.Canvas().Focus(d.pad) }

// Changed takes the chosen setup anew, where it is another.
func (d *drillPage) Changed(c model.Change) {
	if c&(model.ListChanged|model.DataChanged|model.SetupChanged|model.ChoiceChanged) == 0 {
		return
	}
	if d.running() {
		d.clock.stop()
		d.end()
	}
	if err := d.take(); err != nil {
		d.w.Close()
		return
	}
	d.show()
}

// TimingChanged implements page.Timed.
func (d *drillPage) TimingChanged() { d.takeHand() }
