package finish

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/value/report"
	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/output"
	"wakeline/ui/page"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ page.Page    = (*Page)(nil)
	_ page.Ending  = (*Page)(nil)
	_ page.Leaving = (*Page)(nil)

	_ page.Exported = (*Page)(nil)
)

// Page shows how a fight ends from the chosen setup on.
type Page struct {
	host page.Host

	of     *widget.Label // the setup to begin with
	reply  *paint.Pick
	gauge  *paint.PickEntry
	points *paint.PageEntry
	health *paint.PageSlider
	busy   page.Running
	answer *page.Answer
	view   *paint.ScrolledSheet
	box    *fyne.Container

	pair  *model.Pair   // of the setup's fighters; nil: not read yet
	got   *model.Finish // nil: none was found, or it can't be looked for
	query value.FinishQuery
	work  page.Newest
	quiet bool // the controls are set without a search
}

// New returns the page of the chosen setup: of a project that has one whose
// fighters there are; export exports what is shown. Run searches.
func New(host page.Host, export func()) *Page {
	f := &Page{host: host}
	f.work = page.Newest{Host: host, What: "The finish", Busy: func(on bool) { f.busy.Set(on) }}
	f.of = widget.NewLabel("")
	f.of.Truncation = fyne.TextTruncateEllipsis
	f.reply = paint.NewPick(host, nil, func(string) { f.again() })
	f.gauge = paint.NewPickEntry(host, nil)
	f.gauge.SetPlaceHolder("full")
	f.gauge.OnChanged = paint.GuardedOf("The finish", func(string) { f.again() })
	f.points = paint.NewPageEntry(host)
	f.points.OnChanged = paint.GuardedOf("The finish", func(string) { f.typed() })
	f.health = paint.NewPageSlider(host, 1, 1, f.dragged)

	title := page.Title("Finish")
	f.busy = page.NewRunning(host, "Searching…", func() { f.EndOwn() })
	first := container.NewBorder(nil, nil, title, container.NewHBox(f.busy, paint.NewPageButton(host, "Export…", nil, export), page.CloseButton(host)), f.of)
	wide := func(w float32, o fyne.CanvasObject) fyne.CanvasObject {
		return container.NewGridWrap(fyne.NewSize(w, f.points.MinSize().Height), o)
	}
	left := container.NewHBox(widget.NewLabel("The rival does"), wide(190, f.reply), widget.NewLabel("Gauge"), wide(84, f.gauge), widget.NewLabel("Rival's health"), wide(84, f.points))
	second := container.NewBorder(nil, nil, left, nil, f.health)
	top := container.NewVBox(container.NewPadded(container.NewVBox(first, second)), widget.NewSeparator())

	f.answer = page.NewAnswer()
	f.view = paint.NewScrolledSheet(f.draw)
	f.view.OnKey = func(ev *fyne.KeyEvent) bool { return ev.Name == fyne.KeyEscape && host.PageKey(ev) }
	f.box = f.answer.Between(top, f.view.Box)
	f.fill()
	return f
}

// fill offers what the setup's rival can do, and what the ruleset has room for.
func (f *Page) fill() {
	f.quiet = true
	defer func() { f.quiet = false }()
	s, data := f.host.Model().Setup(), f.host.Model().Data()
	f.of.SetText(fmt.Sprintf("begins with %s · %s vs %s", s.Name, s.Attacker, s.Rival))
	replies, first := model.FinishReplies(data, &s)
	page.OfferNames(f.reply, replies, first, first)
	var segments []string
	for n := min(data.Ruleset.Gauge, mostSegments); n >= 0; n-- {
		segments = append(segments, strconv.Itoa(n))
	}
	f.gauge.SetOptions(segments)
	full := max(1, data.Ruleset.Health)
	if f.health.Max != float64(full) {
		f.health.Max = float64(full)
		f.health.SetValue(float64(full))
		f.points.SetText(strconv.Itoa(full))
	}
}

// mostSegments is how many segments of gauge are offered in a list; more can be
// typed.
const mostSegments = 20

// dragged takes the health that the slider was dragged to.
func (f *Page) dragged(n int) {
	if f.quiet {
		return
	}
	f.quiet = true
	f.points.SetText(strconv.Itoa(n))
	f.quiet = false
	f.search()
}

// typed takes the health that was typed.
func (f *Page) typed() {
	if f.quiet {
		return
	}
	if n, ok := f.typedHealth(); ok {
		f.quiet = true
		f.health.SetValue(float64(n))
		f.quiet = false
	}
	f.search()
}

func (f *Page) typedHealth() (n int, ok bool) {
	n, err := strconv.Atoi(strings.TrimSpace(f.points.Text))
	return n, err == nil && n >= 1 && n <= int(f.health.Max)
}

// again searches after a control was used.
func (f *Page) again() {
	if !f.quiet {
		f.search()
	}
}

// Run reads the setups of the pair behind the window, and searches.
func (f *Page) Run() {
	s := f.host.Model().Setup()
	each := f.host.Model().Document().Each()
	var got model.Pair
	f.work.Run(func(ctx context.Context) (err error) {
		got, err = model.PairOf(ctx, each, s.Attacker, s.Rival)
		return err
	}, func(err error) {
		if err != nil {
			f.say("The setups can't be read.", model.Sentence(err.Error()))
			return
		}
		f.pair = &got
		f.search()
	})
}

// ask is what is searched for; wrong says what can't be taken.
func (f *Page) ask() (q value.FinishQuery, wrong string) {
	rules := f.host.Model().Data().Ruleset
	q = value.FinishQuery{Begin: f.host.Model().Setup(), Reply: f.reply.Selected}
	n, ok := f.typedHealth()
	if !ok {
		return q, fmt.Sprintf("Rival's health: expected 1 to %s, got %q.", words.Count(int(f.health.Max), "point"), f.points.Text)
	}
	q.Health = timeline.Some(n)
	if text := strings.TrimSpace(f.gauge.Text); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil || n < 0 || n > rules.Gauge {
			return q, fmt.Sprintf("Gauge: expected 0 to %s, got %q.", words.Count(rules.Gauge, "segment"), text)
		}
		q.Gauge = timeline.Some(n)
	}
	q.Setups = f.pair.After(&q.Begin)
	return q, ""
}

// search searches behind the window, in place of what is searched there.
func (f *Page) search() {
	f.work.Stop()
	if f.pair == nil {
		f.Run()
		return
	}
	q, wrong := f.ask()
	if wrong != "" {
		f.say(wrong, "")
		return
	}
	data := f.host.Model().Data().Bare()
	var got model.Finish
	f.work.Run(func(ctx context.Context) (err error) {
		got, err = model.FindFinish(ctx, data, q)
		return err
	}, func(err error) {
		switch {
		case errors.Is(err, context.Canceled):
		case err != nil:
			f.say("This setup can't begin a finish.", model.Sentence(err.Error()))
		default:
			f.take(&got, q)
		}
	})
}

// say shows words in place of an answer.
func (f *Page) say(answer, about string) {
	f.got = nil
	f.answer.Say(answer, about)
	f.view.Again()
}

// take shows what was found.
func (f *Page) take(got *model.Finish, q value.FinishQuery) {
	f.got, f.query = got, q
	told := report.Finish{Finish: &got.Finish}
	f.answer.Say(told.Answer(), told.Costs(&q, f.host.Model().Data().Ruleset))
	f.view.Again()
}

// draw draws the rounds for a width.
func (f *Page) draw(w float64) *sheet.Drawing {
	if f.got == nil {
		return nil
	}
	return sheet.DrawRounds(taken(f.got, &f.query, f.host.Model().Data().Ruleset).Drawn(false), w)
}

// taken is a finish that can be taken along.
func taken(got *model.Finish, q *value.FinishQuery, rules timeline.Ruleset) *output.Finish {
	told := report.Finish{Finish: &got.Finish}
	return &output.Finish{Finish: told, Scenes: got.Scenes, Begin: q.Begin.Name, Attacker: q.Begin.Attacker, Rival: q.Begin.Rival, Health: q.Health.N, Costs: told.Costs(q, rules)}
}

// Shown is the finish, where one was found.
func (f *Page) Shown() *page.Shown {
	if f.got == nil {
		return nil
	}
	of := taken(f.got, &f.query, f.host.Model().Data().Ruleset)
	return &page.Shown{Kind: output.Rounds, Make: func(_ context.Context, o *output.Order, format string) (*output.Made, error) {
		return o.MakeFinish(of, format)
	}}
}

// EndOwn stops a search.
func (f *Page) EndOwn() bool {
	if !f.work.Stop() {
		return false
	}
	f.say("Stopped.", "Any change searches anew.")
	return true
}

// Left gives up a search.
func (f *Page) Left() { f.work.Stop() }

func (f *Page) Content() fyne.CanvasObject { return f.box }
func (f *Page) Edits() bool                { return true }

// Refocus gives the keys to the health.
func (f *Page) Refocus() { f.host.Canvas().Focus(f.health) }

// Changed searches anew after an undo, or another window's edit.
func (f *Page) Changed(c model.Change) {
	if !page.Outdated(f.host, c, page.AnySetup|model.ChoiceChanged, func() bool { return Possible(f.host.Model()) }) {
		return
	}
	f.pair = nil
	f.fill()
	f.Run()
}

// Possible reports whether a finish can begin with the chosen setup: there is
// one, and its fighters.
func Possible(m *model.Model) bool {
	s := m.Setup()
	return m.Chosen() >= 0 && m.Data().Fighter(s.Attacker) != nil && m.Data().Fighter(s.Rival) != nil
}
