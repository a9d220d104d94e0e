package cast

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/ui/grid"
	"wakeline/ui/model"
	"wakeline/ui/output"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

var (
	_ page.Page    = (*Page)(nil)
	_ page.Ending  = (*Page)(nil)
	_ page.Leaving = (*Page)(nil)

	_ page.Exported = (*Page)(nil)

	_ grid.Events = (*Page)(nil)
	_ grid.Opens  = (*Page)(nil)
)

// What the choices let pass besides one value.
const (
	anyEnder    = "All enders"
	anyPosition = "All positions"
	anyTag      = "All tags"
	anyVerdict  = "All verdicts"
)

// tellEvery is how often the page shows what was judged meanwhile.
const tellEvery = 100 * time.Millisecond

// Page shows the setups of one fighter against every rival.
type Page struct {
	host page.Host

	attacker, ender, position, tag, verdict, order *paint.Pick
	filter                                         *paint.PageEntry
	answer, about, said                            *widget.Label
	busy                                           page.Running
	save                                           *paint.PushButton
	table                                          *table
	grid                                           *grid.Grid
	against, original                              *paint.AnswerSheet
	parts, box                                     *fyne.Container

	got   model.CastSetups
	done  bool // all of got is judged
	work  page.Newest
	quiet bool // the controls are set without a run
}

// New returns the page of the chosen setup's fighter: of a project that has
// fighters; export exports what is shown. Run judges.
func New(host page.Host, export func()) *Page {
	c := &Page{host: host, table: &table{}}
	c.work = page.Newest{Host: host, What: "The cast", Busy: func(on bool) { c.busy.Set(on) }}
	again := func(string) { c.again() }
	c.attacker = paint.NewPick(host, nil, again)
	c.ender, c.position, c.tag = paint.NewPick(host, nil, again), paint.NewPick(host, []string{anyPosition, string(timeline.Midscreen), string(timeline.Wall)}, again), paint.NewPick(host, nil, again)
	c.verdict = paint.NewPick(host, []string{anyVerdict, string(timeline.Safe), string(timeline.Limited), string(timeline.Unsafe)}, again)
	c.order = paint.NewPick(host, []string{asProject, mostFirst, fewestFirst}, func(string) { c.sort() })
	c.filter = paint.NewPageEntry(host)
	c.filter.SetPlaceHolder("Filter by words")
	c.filter.OnChanged = paint.GuardedOf("The cast", again)
	title := page.Title("Cast")
	c.answer = widget.NewLabel("")
	c.answer.TextStyle.Bold, c.answer.Wrapping = true, fyne.TextWrapWord
	c.about, c.said = widget.NewLabel(""), widget.NewLabel("")
	c.about.Wrapping = fyne.TextWrapWord
	legend := paint.NewLowLabel()
	legend.SetText("In each cell: the verdict, the window, and the startup of the quickest reversal that is met safely.")
	c.said.Wrapping = fyne.TextWrapWord
	c.busy = page.NewRunning(host, "Judging…", func() { c.EndOwn() })
	c.grid = grid.New(c.table, c)
	c.against, c.original = paint.NewAnswerSheet(), paint.NewAnswerSheet()
	c.save = paint.NewPageButton(host, "Save as setup", theme.DocumentCreateIcon(), c.keep)
	copied := paint.NewPageButton(host, "Copy table", theme.ContentCopyIcon(), c.copy)
	pair := container.NewBorder(nil, nil, container.NewHBox(title, c.attacker, widget.NewLabel("vs all")), container.NewHBox(c.busy, copied, paint.NewPageButton(host, "Export…", nil, export), page.CloseButton(host)), c.filter)
	picks := container.NewGridWithColumns(5, c.ender, c.position, c.tag, c.verdict, c.order)
	top := container.NewVBox(container.NewPadded(container.NewVBox(pair, picks)), widget.NewSeparator(), container.New(layout.NewCustomPaddedVBoxLayout(-8), c.answer, c.about, legend))

	foot := container.NewBorder(nil, nil, nil, container.NewVBox(c.save, layout.NewSpacer()), c.said)
	sheets := container.NewClip(container.New(besideLayout{}, c.against, c.original))
	c.parts = container.New(partsLayout{}, c.grid, foot, sheets)
	c.box = container.NewBorder(top, nil, nil, nil, c.parts)
	c.offer()
	return c
}

// offer fills the choices from the project, and keeps what is chosen where it
// is still there.
func (c *Page) offer() {
	c.quiet = true
	defer func() { c.quiet = false }()
	m := c.host.Model()
	names := model.FighterNames(m.Data())
	fill := func(p *paint.Pick, options []string, otherwise string) {
		p.SetOptions(options)
		if !slices.Contains(options, p.Selected) {
			p.SetSelected(otherwise)
		}
	}
	first := m.Setup().Attacker
	if !slices.Contains(names, first) {
		first = names[0]
	}
	fill(c.attacker, names, first)
	enders := []string{anyEnder}
	if f := m.Data().Fighter(c.attacker.Selected); f != nil {
		for _, at := range []timeline.Position{timeline.Midscreen, timeline.Wall} {
			for _, name := range model.Enders(f, at) {
				if !slices.Contains(enders, name) {
					enders = append(enders, name)
				}
			}
		}
	}
	fill(c.ender, enders, anyEnder)
	tags, err := m.Document().Tags()
	if err != nil { // of a damaged file, which is told elsewhere
		tags = nil
	}
	fill(c.tag, append([]string{anyTag}, tags...), anyTag)
	fill(c.position, c.position.Options, anyPosition)
	fill(c.verdict, c.verdict.Options, anyVerdict)
	fill(c.order, c.order.Options, asProject)
}

// again judges anew after a control was used.
func (c *Page) again() {
	if !c.quiet {
		c.offer()
		c.Run()
	}
}

// query is what the controls ask for.
func (c *Page) query() (model.CastQuery, error) {
	chosen := func(p *paint.Pick, any string) string {
		if p.Selected == any {
			return ""
		}
		return p.Selected
	}
	filter, err := c.host.Model().Document().ReadSearch(c.filter.Text)
	if err == nil && slices.ContainsFunc(filter.Terms(), func(t timeline.Term) bool { return t.Part == timeline.TestPart }) {
		err = errors.New("in-game tests can be filtered in the list of setups alone")
	}
	return model.CastQuery{Attacker: c.attacker.Selected, Filter: filter, Ender: chosen(c.ender, anyEnder),
		Position: timeline.Position(chosen(c.position, anyPosition)), Tag: chosen(c.tag, anyTag), Verdict: timeline.Word(chosen(c.verdict, anyVerdict))}, err
}

// Run judges behind the window, in place of what is judged there, and shows
// what is known so far.
func (c *Page) Run() {
	q, err := c.query()
	if err != nil {
		c.work.Stop()
		c.about.SetText("The filter can't be read: " + err.Error() + ".")
		return
	}
	each, data := c.host.Model().Document().Each(), c.host.Model().Data().Bare()
	c.done = false
	var whole model.CastSetups
	c.work.Run(func(ctx context.Context) error {
		got, err := q.Find(ctx, each, data)
		if err != nil {
			return err
		}
		last := time.Time{}
		show := func() {
			part := got
			part.Rows = slices.Clip(got.Rows)
			c.host.Later(func() {
				if ctx.Err() == nil && !c.done {
					c.take(part)
				}
			})
		}
		if err := got.Judge(ctx, func(row compare.CastRow) {
			if got.Rows = append(got.Rows, row); q.Verdict == "" && (len(got.Rows) == 1 || time.Since(last) > tellEvery) {
				last = time.Now()
				show()
			}
		}); err != nil {
			return err
		}
		got.Keep(&q)
		whole = got
		return nil
	}, func(err error) {
		switch {
		case errors.Is(err, context.Canceled):
		case err != nil:
			c.answer.SetText("The setups can't be judged: " + err.Error())
		default:
			c.done = true
			c.take(whole)
		}
	})
}

// take shows what was judged.
func (c *Page) take(got model.CastSetups) {
	at := c.grid.At()
	if c.got.Cast == nil && len(got.Rows) > 0 {
		at = c.begin(&got)
	}
	c.got = got
	c.tell()
	c.table.lay(&c.got, c.order.Selected)
	c.grid.Fit()
	c.grid.Place(at)
	c.grid.Refresh()
}

// begin is the cell of the chosen setup against its own rival, else the first.
func (c *Page) begin(got *model.CastSetups) grid.Place {
	at := grid.Place{Col: firstRival}
	if row := slices.Index(got.Places[:len(got.Rows)], c.host.Model().Chosen()); row >= 0 {
		at = grid.Place{Row: row, Col: firstRival + max(0, slices.Index(got.Cast.Rivals, got.Setups[row].Rival))}
	}
	return at
}

// tell says what the rows come to.
func (c *Page) tell() {
	n := len(c.got.Rows)
	if n == 0 && c.done {
		c.answer.SetText(fmt.Sprintf("%s has no such setup.", c.got.Cast.Attacker))
	} else {
		c.answer.SetText(c.got.Cast.Answer(c.got.Rows))
	}
	about := []string{fmt.Sprintf("Judged %d of %s so far.", n, model.CountOf(len(c.got.Setups), "setup"))}
	if c.done {
		about = c.got.Cast.CoverWords(c.got.Rows, &c.got.Fewest)
		if c.got.Fewest.Proved && len(c.got.Fewest.Sets) > 0 {
			about[0] = strings.TrimSuffix(about[0], ".") + ". This is the minimum."
		}
	}
	if c.got.More > 0 {
		about = append(about, fmt.Sprintf("%s more are not judged: narrow the filter.", model.CountOf(c.got.More, "setup")))
	}
	c.about.SetText(strings.Join(about, " "))
}

// sort lays the rows in another order.
func (c *Page) sort() {
	if c.quiet || c.got.Cast == nil {
		return
	}
	c.table.lay(&c.got, c.order.Selected)
	c.grid.Begin(grid.Place{Col: firstRival})
}

// Moved says and shows the cell under the cursor.
func (c *Page) Moved() {
	s, _, rival := c.table.setup(c.grid.At())
	c.save.Disable()
	if s == nil {
		c.said.SetText("")
		c.against.Clear()
		c.original.Clear()
		return
	}
	if rival == "" {
		rival = s.Rival
	}
	aimed := s.Against(rival)
	cell := c.got.Cast.Cell(aimed)
	c.said.SetText(fmt.Sprintf("%s vs %s: %s", s.Name, rival, cell.Words()))
	c.show(c.against, aimed)
	if c.original.Hidden = rival == s.Rival; !c.original.Hidden {
		c.show(c.original, *s)
		if cell.Word != "" {
			c.save.Enable()
		}
	}
	c.parts.Refresh()
}

// show shows a setup's sheet, or nothing where it can't be laid out.
func (c *Page) show(on *paint.AnswerSheet, s timeline.Setup) {
	if plan, err := c.got.Cast.Plan(s); err == nil {
		on.ShowPlan(plan, s.Delay)
	} else {
		on.Clear()
	}
}

// Open shows the setup of the cell on the timeline; against another rival than
// its own it is saved first.
func (c *Page) Open() {
	s, row, rival := c.table.setup(c.grid.At())
	switch {
	case s == nil:
	case rival == "" || rival == s.Rival:
		place := c.got.Places[row]
		c.host.Close()
		c.host.Model().Choose(place)
		c.host.ShowChosen()
	default:
		c.keep()
	}
}

// keep makes the setup against the rival of the cell one of its own, and shows
// it.
func (c *Page) keep() {
	s, _, rival := c.table.setup(c.grid.At())
	if s == nil || rival == "" || rival == s.Rival || page.Busy(c.host) {
		return
	}
	aimed := s.Against(rival)
	aimed.Name = c.host.Model().FreeName(timeline.CutName(s.Name, len([]rune(" vs "+rival))) + " vs " + rival)
	if !c.host.Done("The setup could not be saved", c.host.Model().AddSetup("setup against another rival", aimed)) {
		return
	}
	c.host.Close()
	c.host.ShowChosen()
	c.host.Note("Saved as a setup of its own. Ctrl+Z takes it back")
}

// copy puts the table as shown on the clipboard.
func (c *Page) copy() {
	c.Copy(fyne.CurrentApp().Clipboard())
}

// Shown is the table as it is shown, once all of it is judged.
func (c *Page) Shown() *page.Shown {
	got, order := c.got, slices.Clone(c.table.order)
	if !c.done {
		return nil
	}
	return &page.Shown{Kind: output.Cast, Make: func(ctx context.Context, o *output.Order, format string) (*output.Made, error) {
		table, err := got.Table(ctx, order, format == "json")
		if err != nil {
			return nil, err
		}
		return o.MakeCast(&table, format)
	}}
}

// Copy implements grid.Events: the whole table.
func (c *Page) Copy(to fyne.Clipboard) {
	if c.got.Cast == nil {
		return
	}
	to.SetContent(c.table.text())
	c.said.SetText(fmt.Sprintf("Table copied: %s and %s, to paste into a spreadsheet", model.CountOf(len(c.table.order), "setup"), model.CountOf(len(c.got.Cast.Rivals), "rival")))
}

// Escape implements grid.Events.
func (c *Page) Escape() { c.host.PageKey(&fyne.KeyEvent{Name: fyne.KeyEscape}) }

func (c *Page) Content() fyne.CanvasObject { return c.box }
func (c *Page) Edits() bool                { return true }

// Refocus gives the keys to the table.
func (c *Page) Refocus() { c.host.Canvas().Focus(c.grid) }

// EndOwn ends the judging.
func (c *Page) EndOwn() bool { return c.work.Stop() }

// Left ends the judging too.
func (c *Page) Left() { c.work.Stop() }

// Changed judges anew what an edit, an undo or another window has changed.
func (c *Page) Changed(what model.Change) {
	if !page.Outdated(c.host, what, page.AnySetup, func() bool { return page.HasFighters(c.host) }) {
		return
	}
	c.offer()
	c.Run()
}
