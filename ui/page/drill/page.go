package drill

import (
	"runtime"
	"slices"
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline/odds"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

var (
	_ page.Page    = (*Page)(nil)
	_ page.Ending  = (*Page)(nil)
	_ page.Leaving = (*Page)(nil)
	_ page.Timed   = (*Page)(nil)
)

// The names of what is remembered of drills.
const (
	prefCount   = "drill.presses"
	prefAttack  = "drill.attack"
	prefClicks  = "drill.clicks"
	prefCaution = "drill.caution" // it was read
)

// roundCounts are how many rounds a drill may have.
var roundCounts = []string{"10", "20", "30", "50"}

// Page is the timing exercise of the chosen setup.
type Page struct {
	host   page.Host
	clock  *clock
	record *record
	beat   *fyne.Animation // nil: nothing moves

	sheet   *paint.AnswerSheet
	pad     *pad
	strip   *strip
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
	hand    *handRow
	box     fyne.CanvasObject
}

// New returns the page of the setup that is chosen in the host's model, with a
// monotonic clock.
func New(host page.Host, now func() time.Time) (*Page, error) {
	d := &Page{host: host, clock: &clock{now: now}}
	d.record = &record{host: host, clock: d.clock}
	prefs := host.Preferences()
	d.sheet, d.strip = paint.NewAnswerSheet(), newStrip()
	d.pad = newPad(d.sheet, d.clock)
	d.pad.OnPress, d.pad.OnKey = d.press, d.key
	d.count = paint.NewPick(host, roundCounts, func(n string) { prefs.SetString(prefCount, n); d.aim() })
	d.count.Selected = prefs.StringWithFallback(prefCount, "20")
	if !slices.Contains(roundCounts, d.count.Selected) {
		d.count.Selected = roundCounts[1]
	}
	d.attack = paint.NewPageTick(host, "Press the attack too", func(on bool) {
		prefs.SetBool(prefAttack, on)
		d.clock.both = on
		d.say()
		d.aim()
	})
	d.click = paint.NewPageTick(host, "Clicks", func(on bool) {
		prefs.SetBool(prefClicks, on)
		d.listen(on)
		d.say()
		d.aim()
	})
	d.start = paint.NewPageButton(host, "", nil, d.startOrStop)
	d.said, d.words, d.about = widget.NewLabel(""), widget.NewLabel(""), paint.NewLowLabel()
	d.said.TextStyle.Bold, d.said.Truncation = true, fyne.TextTruncateEllipsis
	d.words.Wrapping, d.about.Wrapping, d.about.Truncation = fyne.TextWrapWord, fyne.TextWrapWord, fyne.TextTruncateOff

	plain := func(words string) *widget.Label {
		l := page.Wrapped(words)
		return l
	}
	d.caution = container.NewBorder(nil, nil, nil, container.NewCenter(paint.NewPageButton(host, "Understood", nil, d.understood)),
		plain("Many presses in a row strain fingers and wrist. Rest when you tire, and stop when something hurts or tingles."))
	if prefs.Bool(prefCaution) {
		d.caution.Hide()
	}
	d.rest = container.NewBorder(nil, nil, nil, container.NewHBox(paint.NewPageButton(host, "Go on", nil, d.goOn), paint.NewPageButton(host, "Stop here", nil, d.startOrStop)),
		plain("You have drilled for five minutes. A pause now does the hand good."))
	d.rest.Hide()
	d.hand = newHandRow(host, d.record, d.aim, d.discardPress, d.clearRecord)
	title := page.Title("Drill the timing")
	top := container.NewVBox(container.NewPadded(container.NewHBox(title, layout.NewSpacer(), d.click, d.attack, widget.NewLabel("Rounds"), d.count,
		d.start, paint.NewPageButton(host, "Your timing…", nil, func() { page.AskTiming(host, true) }), page.CloseButton(host))), widget.NewSeparator(), d.caution, d.rest)
	// The sheet must not move while a hand aims: what is said scrolls.
	right := container.NewBorder(d.hand.box, nil, nil, nil, container.NewVScroll(container.NewVBox(d.words, d.about)))
	below := container.NewBorder(d.said, nil, nil, nil, container.NewGridWithColumns(2, d.strip, right))
	d.box = container.NewBorder(top, below, nil, nil, container.NewStack(d.sheet, d.pad))
	if err := d.take(); err != nil {
		return nil, err
	}
	d.attack.SetChecked(prefs.Bool(prefAttack) && d.clock.drill.Air)
	d.click.SetChecked(prefs.Bool(prefClicks))
	return d, nil
}

// take makes the exercise of the chosen setup.
func (d *Page) take() error {
	m := d.host.Model()
	plan := m.Plan()
	if plan == nil {
		return m.Err()
	}
	drill, err := odds.NewDrill(m.Data(), m.Setup())
	if err != nil {
		return err
	}
	setup := m.Setup()
	d.record.of(m.Document(), setup.Name)
	c := d.clock
	*c = clock{now: c.now, drill: drill, both: d.attack.Checked, onRound: func() { d.clicks.play(d.host.Context(), d.host.Run) }}
	d.listen(d.click.Checked)
	d.strip.clock, d.strip.frame = c, m.Data().Ruleset.Rate.Milliseconds(1)
	enable(d.attack, drill.Air)
	c.both = c.both && drill.Air
	d.sheet.ShowPlan(plan, setup.Delay)
	d.hand.fill()
	d.say()
	return nil
}

// listen gets the clicks of the count ready, or leaves them.
func (d *Page) listen(on bool) {
	d.clicks.on = on
	d.clicks.prepare(soundHelpers(runtime.GOOS), d.clock.drill.Beats())
}

// understood takes the caution away for good.
func (d *Page) understood() {
	d.host.Preferences().SetBool(prefCaution, true)
	d.caution.Hide()
	d.aim()
}

// aim gives the keys to the sheet.
func (d *Page) aim() {
	if d.host.Showing(d) {
		d.host.Canvas().Focus(d.pad)
	}
}

// startOrStop begins a drill, or ends the one that runs.
func (d *Page) startOrStop() {
	if d.clock.running() {
		d.clock.stop()
		d.end()
	} else {
		d.clock.want, _ = strconv.Atoi(d.count.Selected)
		d.clock.begin()
		d.record.begin()
		// The window's own beat: nothing runs behind it.
		d.beat = &fyne.Animation{Duration: time.Hour, RepeatCount: fyne.AnimationRepeatForever, Tick: paint.GuardedOf("The drill", func(float32) { d.tick() })}
		d.beat.Start()
	}
	d.aim()
	d.show()
}

// goOn ends a pause.
func (d *Page) goOn() {
	d.clock.goOn()
	d.aim()
	d.show()
}

// press takes a press of Space: it begins, or is judged.
func (d *Page) press() {
	switch d.clock.state {
	case idle:
		d.startOrStop()
	case rests:
		d.goOn()
	default:
		if p, ok := d.clock.press(); ok {
			d.said.SetText(p.Words(p.called))
			d.show()
		}
	}
}

// key does what another key does.
func (d *Page) key(ev *fyne.KeyEvent) {
	if ev.Name == fyne.KeyBackspace {
		d.discardPress()
		return
	}
	d.host.PageKey(ev)
}

// EndOwn stops a drill that runs.
func (d *Page) EndOwn() bool {
	if !d.clock.running() {
		return false
	}
	d.startOrStop()
	return true
}

// tick is called with each picture.
func (d *Page) tick() {
	if !d.clock.running() {
		d.still()
		return
	}
	if d.clock.tick() {
		if !d.clock.running() {
			d.end()
		}
		d.show()
		return
	}
	d.pad.Refresh()
}

// still ends what moves.
func (d *Page) still() {
	if d.beat != nil {
		d.beat.Stop()
		d.beat = nil
	}
}

// end keeps the record of a drill that is over.
func (d *Page) end() {
	d.still()
	d.clicks.silence()
	d.record.keep()
}

// show shows the state, and the presses so far.
func (d *Page) show() {
	d.rest.Hidden = d.clock.state != rests
	d.say()
	d.pad.Refresh()
	d.strip.Refresh()
	d.box.Refresh()
}

// Left ends a drill that runs.
func (d *Page) Left() {
	if d.clock.running() {
		d.clock.stop()
		d.end()
	}
}

// discardPress removes the last press of the hand.
func (d *Page) discardPress() {
	if d.record.discard() {
		d.show()
		d.said.SetText("The last press is discarded.")
		d.aim()
	}
}

// clearRecord removes every press of the hand.
func (d *Page) clearRecord() {
	if d.record.clear() {
		d.show()
	}
}

func (d *Page) Content() fyne.CanvasObject { return d.box }
func (d *Page) Edits() bool                { return false }
func (d *Page) Refocus()                   { d.host.Canvas().Focus(d.pad) }

// Changed takes the chosen setup anew, where it is another.
func (d *Page) Changed(c model.Change) {
	if c&(page.AnySetup|model.ChoiceChanged) == 0 {
		return
	}
	d.Left()
	if err := d.take(); err != nil {
		d.host.Close()
		return
	}
	d.show()
}

// TimingChanged follows another choice of the hand, or another record. Of a
// drill that runs the hand stays.
func (d *Page) TimingChanged() {
	if d.clock.running() {
		return
	}
	if d.record.hand != d.host.Timing().Name() {
		d.record.drop()
	}
	d.hand.fill()
	d.show()
}
