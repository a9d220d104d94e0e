package mix

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/value/report"
	"wakeline/ui/model"
	"wakeline/ui/output"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

var (
	_ page.Page    = (*Page)(nil)
	_ page.Ending  = (*Page)(nil)
	_ page.Leaving = (*Page)(nil)
	_ page.Timed   = (*Page)(nil)

	_ page.Exported = (*Page)(nil)
)

// Page shows what the setups of one ender are worth together.
type Page struct {
	host page.Host

	attacker, rival, group *paint.Pick
	gauge, rivals, carry   *paint.PickEntry
	hand                   *paint.PageTick
	answer                 *page.Answer
	busy                   page.Running
	table                  *table
	words                  *paint.WordLines
	reading                *widget.Label
	habits                 *habits
	box                    *fyne.Container

	pair   model.Pair
	groups []mixGroup      // of the pair
	off    map[string]bool // setups that take no part
	got    *report.Mix     // nil: nothing was weighed
	weight map[habit]int   // how often the rival does what, from 0 to mostWeight
	work   page.Newest     // reads and weighs
	read   page.Newest     // what to do against the habits
	quiet  bool            // the controls are set without a run
}

// mixGroup is what the setups of a mix have in common, besides their fighters.
type mixGroup struct {
	ender    string
	position timeline.Position
}

func (g mixGroup) title() string { return fmt.Sprintf("%s (%s)", report.Ender(g.ender), g.position) }

// habit is a column of a mix, whatever else is weighed.
type habit struct {
	rise, reply string
	late        int
}

func habitOf(c *value.MixColumn) habit { return habit{c.Rise, c.Reply, c.Late} }

// New returns the page of the chosen setup's ender: of a project that has
// fighters; export exports what is shown. Run weighs.
func New(host page.Host, export func()) *Page {
	m := &Page{host: host, off: map[string]bool{}, weight: map[habit]int{}}
	m.work = page.Newest{Host: host, What: "The mix", Busy: func(on bool) { m.busy.Set(on) }}
	m.read = page.Newest{Host: host, What: "The habits"}
	m.attacker = paint.NewPick(host, nil, func(string) { m.again(m.Run) })
	m.rival = paint.NewPick(host, nil, func(string) { m.again(m.Run) })
	m.group = paint.NewPick(host, nil, func(string) { m.again(m.weigh) })
	m.gauge, m.rivals, m.carry = m.field("full"), m.field("full"), m.field("0")
	m.hand = paint.NewPageTick(host, "By hand", func(bool) { m.again(m.weigh) })

	title := page.Title("Mix")
	m.busy = page.NewRunning(host, "Weighing…", func() { m.EndOwn() })
	buttons := container.NewHBox(m.busy, paint.NewPageButton(host, "Export…", nil, export), page.CloseButton(host))
	beside := func(words string, o fyne.CanvasObject) fyne.CanvasObject {
		return container.NewBorder(nil, nil, widget.NewLabel(words), nil, o)
	}
	pair := container.NewBorder(nil, nil, title, buttons,
		container.NewGridWithColumns(3, m.attacker, beside("vs", m.rival), beside("after", m.group)))
	narrow := func(o fyne.CanvasObject) fyne.CanvasObject {
		return container.NewGridWrap(fyne.NewSize(84, m.gauge.MinSize().Height), o)
	}
	switches := container.NewHBox(widget.NewLabel("Gauge"), narrow(m.gauge), widget.NewLabel("Rival's gauge"), narrow(m.rivals),
		widget.NewLabel("Carry"), narrow(m.carry), m.hand,
		paint.NewPageButton(host, "Your timing…", nil, func() { page.AskTiming(host, true) }))

	m.answer, m.reading = page.NewAnswer(), widget.NewLabel("")
	m.reading.TextStyle.Bold, m.reading.Truncation = true, fyne.TextTruncateEllipsis
	top := container.NewVBox(container.NewPadded(container.NewVBox(pair, switches)), widget.NewSeparator())

	m.table, m.words = newTable(), paint.NewWordLines()
	m.table.OnOpen, m.table.OnPoint, m.table.OnName, m.table.OnCopy = m.open, m.point, m.tapName, m.copy
	m.table.OnKey = func(ev *fyne.KeyEvent) { host.PageKey(ev) }
	m.habits = newHabits(host)
	m.habits.onWeight = m.setWeight
	above := container.NewBorder(nil, nil, nil, container.NewHBox(
		paint.NewPageButton(host, "Start from best shares", nil, m.fromShares), paint.NewPageButton(host, "Clear habits", nil, m.clearHabits)), m.reading)
	split := container.NewVSplit(container.NewBorder(nil, m.words, nil, nil, m.table), container.NewBorder(above, nil, nil, nil, m.habits.box))
	split.Offset = 0.52
	m.box = m.answer.Between(top, split)
	m.choosePair()
	return m
}

// field is a number that is typed, or picked.
func (m *Page) field(usual string) *paint.PickEntry {
	e := paint.NewPickEntry(m.host, nil)
	e.SetPlaceHolder(usual)
	e.OnChanged = paint.GuardedOf("The mix", func(string) { m.again(m.weigh) })
	return e
}

// again does what a control asks for, unless the page itself has set it.
func (m *Page) again(do func()) {
	if !m.quiet {
		do()
	}
}

// choosePair offers the fighters, and what the ruleset has room for.
func (m *Page) choosePair() {
	m.quiet = true
	defer func() { m.quiet = false }()
	names, s, rules := model.FighterNames(m.host.Model().Data()), m.host.Model().Setup(), m.host.Model().Data().Ruleset
	page.OfferNames(m.attacker, names, s.Attacker, names[0])
	page.OfferNames(m.rival, names, s.Rival, names[len(names)-1])
	var segments []string
	for n := min(rules.Gauge, mostSegments); n >= 0; n-- {
		segments = append(segments, strconv.Itoa(n))
	}
	m.gauge.SetOptions(segments)
	m.rivals.SetOptions(segments)
	m.carry.SetOptions([]string{"0", "1/4", "1/2", "3/4"})
	m.carry.SetPlaceHolder(rules.Carry.String())
}

// mostSegments is how many segments of gauge are offered in a list; more can be
// typed.
const mostSegments = 20

// chooseGroup offers the enders of the pair, that of the chosen setup first.
func (m *Page) chooseGroup() {
	m.quiet = true
	defer func() { m.quiet = false }()
	m.groups = nil
	var titles []string
	for i := range m.pair.Setups {
		s := &m.pair.Setups[i]
		if g := (mixGroup{s.Ender, s.Position}); !slices.Contains(m.groups, g) {
			m.groups, titles = append(m.groups, g), append(titles, g.title())
		}
	}
	s := m.host.Model().Setup()
	own, first := mixGroup{s.Ender, s.Position}.title(), ""
	if len(titles) > 0 {
		first = titles[0]
	}
	if !slices.Contains(titles, own) {
		own = first
	}
	page.OfferNames(m.group, titles, own, first)
	if len(titles) == 0 {
		m.group.ClearSelected()
	}
}

// members are the places in the pair of the chosen ender's setups.
func (m *Page) members() (out []int) {
	at := m.group.SelectedIndex()
	if at < 0 || at >= len(m.groups) {
		return nil
	}
	for i := range m.pair.Setups {
		if s := &m.pair.Setups[i]; (mixGroup{s.Ender, s.Position}) == m.groups[at] {
			out = append(out, i)
		}
	}
	return out
}

// open shows a setup on the timeline, with the reply of that column where the
// setup names it.
func (m *Page) open(row, column int) {
	at := m.table.rows[row].place
	var want habit
	if m.got != nil && column >= 0 {
		want = habitOf(&m.got.Columns[column])
	}
	m.host.Close()
	m.host.Model().Choose(m.pair.Places[at])
	if column < 0 || m.host.Model().Plan() == nil {
		return
	}
	for r, rise := range m.host.Model().Verdict().Rises {
		for l := range rise.Replies {
			if got := &rise.Replies[l]; rise.Rise == want.rise && got.Reply == want.reply && got.Late == want.late {
				m.host.Model().Show(r, l)
				return
			}
		}
	}
	m.host.Note(fmt.Sprintf("%s, %s rise, is not asked of this setup", want.reply, want.rise))
}

// tapName has a setup take part or not, or opens it.
func (m *Page) tapName(row int, x float32) {
	if x > tickRoom {
		m.open(row, -1)
		return
	}
	name := m.table.rows[row].name
	if m.off[name] {
		delete(m.off, name)
	} else {
		m.off[name] = true
	}
	m.weigh()
}

// point says in words what the pointer or the cursor is on.
func (m *Page) point(row, column int) {
	switch {
	case row >= len(m.table.rows) || m.got == nil && row < 0 || row < 0 && column < 0:
		m.words.Say("", "")
	case row < 0:
		m.words.Say(m.got.Column(column), m.columnWords(column))
	case m.table.rows[row].at < 0:
		m.words.Say(m.table.rows[row].name, m.table.rows[row].why)
	case column < 0 || column >= len(m.got.Columns):
		m.words.Say(m.table.rows[row].name, m.rowWords(m.table.rows[row].at))
	default:
		at := m.table.rows[row].at
		m.words.Say(m.table.rows[row].name+" · "+m.got.Column(column), fmt.Sprintf("%s points. %s", m.got.Points(m.got.Payoff[at][column]), m.columnWords(column)))
	}
}

func (m *Page) rowWords(at int) string {
	r := &m.got.Rows[at]
	out := m.got.Plays(at)
	if r.Never {
		out = fmt.Sprintf("never worth playing: against %s's shares it makes %s, not %s; it may make as little as %s", m.got.Rival, report.Short(r.Against), report.Short(m.got.Value), report.Short(r.Worst))
	}
	return model.Sentence(out)
}

func (m *Page) columnWords(j int) string {
	c := &m.got.Columns[j]
	out := fmt.Sprintf("%s does it %s of the time.", m.got.Rival, report.Percent(c.Share))
	if c.Never {
		out = fmt.Sprintf("Never worth it for %s: it leaves %s %s, not %s.", m.got.Rival, m.got.Attacker, report.Short(c.Against), report.Short(m.got.Value))
	}
	return out + " " + model.Sentence(m.got.Habit(j))
}

// copy puts the table on the clipboard, its cells apart by tabs.
func (m *Page) copy() {
	if m.got == nil {
		return
	}
	plain := strings.NewReplacer("\t", " ", "\n", " ", "\r", " ")
	var b strings.Builder
	b.WriteString("setup\tshare\tagainst\tworst")
	for j := range m.got.Columns {
		b.WriteString("\t" + plain.Replace(m.got.Column(j)))
	}
	b.WriteString("\n")
	for i := range m.got.Rows {
		r := &m.got.Rows[i]
		b.WriteString(plain.Replace(r.Setup) + "\t" + m.got.Number(r.Share) + "\t" + m.got.Number(r.Against) + "\t" + m.got.Number(r.Worst))
		for _, v := range m.got.Payoff[i] {
			b.WriteString("\t" + m.got.Number(v))
		}
		b.WriteString("\n")
	}
	fyne.CurrentApp().Clipboard().SetContent(b.String())
	m.words.Say("Table copied", model.CountOf(len(m.got.Rows), "setup")+" × "+model.CountOf(len(m.got.Columns), "reply")+", to paste into a spreadsheet")
}

// Shown is the mix, where one was weighed.
func (m *Page) Shown() *page.Shown {
	got := m.got
	if got == nil {
		return nil
	}
	return &page.Shown{Kind: output.Mix, Make: func(_ context.Context, o *output.Order, format string) (*output.Made, error) {
		return o.MakeMix(got, format)
	}}
}

func (m *Page) Content() fyne.CanvasObject { return m.box }
func (m *Page) Edits() bool                { return true }

// Refocus gives the keys to the table.
func (m *Page) Refocus() { m.host.Canvas().Focus(m.table) }

// TimingChanged implements page.Timed.
func (m *Page) TimingChanged() {
	if m.hand.Checked {
		m.weigh()
	}
}

// Changed weighs anew what an undo, or another window, has changed.
func (m *Page) Changed(c model.Change) {
	if !page.Outdated(m.host, c, page.AnySetup, func() bool { return page.HasFighters(m.host) }) {
		return
	}
	m.choosePair()
	m.Run()
}
