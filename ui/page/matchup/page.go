package matchup

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

var _ page.Page = (*Page)(nil)

// Page shows all setups of one attacker and rival against all replies, and the
// fewest setups that cover all that can be covered.
type Page struct {
	host page.Host

	attacker, rival  *paint.Pick
	all, safe, first *paint.PageTick
	points           *paint.PageTick // hidden where no cell has any
	count            *widget.Label
	grid             *matchupGrid
	words            *paint.WordLines
	cover            *coverView
	box              *fyne.Container

	got   model.Matchup
	rows  []int // of got.Grid, as shown
	quiet bool  // the controls are set without a run
}

// prefPoints is whether cells say what they come to.
const prefPoints = "matchup.points"

// New returns the page of the chosen setup's pair: of a project that has
// fighters. Run judges it.
func New(host page.Host) *Page {
	m := &Page{host: host}
	again := func(string) { m.again() }
	m.attacker, m.rival = paint.NewPick(host, nil, again), paint.NewPick(host, nil, again)
	m.all = paint.NewPageTick(host, "All replies of the rival", func(bool) { m.again() })
	m.safe = paint.NewPageTick(host, "Safe setups only", func(bool) { m.again() })
	m.first = paint.NewPageTick(host, "Minimum set first", func(bool) { m.sort() })
	m.points = paint.NewPageTick(host, "Points", func(on bool) {
		host.Preferences().SetBool(prefPoints, on)
		m.tell()
		m.sort()
	})
	m.points.Checked = host.Preferences().BoolWithFallback(prefPoints, true)
	m.points.Hide()
	m.count = widget.NewLabel("")
	m.count.Importance, m.count.Truncation = widget.LowImportance, fyne.TextTruncateEllipsis
	title := page.Title("Match-up")
	m.grid, m.words, m.cover = newGrid(), paint.NewWordLines(), newCoverView()
	m.grid.OnOpen, m.grid.OnPoint, m.grid.OnCopy = m.open, m.point, m.copy
	m.grid.OnKey = func(ev *fyne.KeyEvent) { host.PageKey(ev) }
	m.cover.OnChoose = func(row int) {
		if at := slices.Index(m.rows, row); at >= 0 {
			m.grid.MoveTo(at, m.grid.Column)
		}
	}
	copied := paint.NewPageButton(host, "Copy table", theme.ContentCopyIcon(), m.copy)
	shut := page.CloseButton(host)
	pair := container.NewHBox(title, m.attacker, widget.NewLabel("vs"), m.rival, layout.NewSpacer(), copied, shut)
	switches := container.NewBorder(nil, nil, container.NewHBox(m.all, m.safe, m.first, m.points), nil, m.count)
	top := container.NewVBox(container.NewPadded(container.NewVBox(pair, switches)), widget.NewSeparator())

	caption := widget.NewLabel("Minimum set: the fewest setups that cover every reply that can be covered")
	caption.TextStyle.Bold, caption.Truncation = true, fyne.TextTruncateEllipsis
	below := container.NewBorder(caption, nil, nil, nil, container.NewVScroll(m.cover))
	split := container.NewVSplit(container.NewBorder(nil, m.words, nil, nil, m.grid), below)
	split.Offset = 0.7
	m.box = container.NewBorder(top, nil, nil, nil, split)
	m.choosePair()
	return m
}

// choosePair offers the fighters, and keeps or takes the pair of the chosen
// setup.
func (m *Page) choosePair() {
	m.quiet = true
	defer func() { m.quiet = false }()
	names := model.FighterNames(m.host.Model().Data())
	s := m.host.Model().Setup()
	page.OfferNames(m.attacker, names, s.Attacker, names[0])
	page.OfferNames(m.rival, names, s.Rival, names[len(names)-1])
}

// again judges the match-up anew after a control was used.
func (m *Page) again() {
	if !m.quiet {
		m.Run()
	}
}

// Run judges the match-up behind the window, and shows it.
func (m *Page) Run() {
	each, data := m.host.Model().Document().Each(), m.host.Model().Data()
	of := model.MatchupQuery{Attacker: m.attacker.Selected, Rival: m.rival.Selected, All: m.all.Checked, Safe: m.safe.Checked}
	var got model.Matchup
	m.host.Task("Judging the match-up", page.Counting("setup"), func(at page.Work) (err error) {
		got, err = of.Judge(at.Context, each, data, at.Tell)
		return err
	}, func(err error) {
		switch {
		case !m.host.Showing(m):
		case errors.Is(err, context.Canceled):
			m.host.Close()
			m.host.Note("Match-up cancelled")
		case err != nil:
			m.host.Close()
			m.host.Dialogs().Fail("The match-up could not be judged", err)
		default:
			m.take(got)
		}
	})
}

// take shows what was judged, with the cursor on the chosen setup.
func (m *Page) take(got model.Matchup) {
	m.got = got
	m.points.Hidden = !got.Grid.Valued
	m.points.Refresh()
	m.tell()
	m.cover.show(&m.got.Grid, got.Fewest)
	m.sort()
	chosen := slices.Index(got.Places, m.host.Model().Chosen())
	if at := slices.Index(m.rows, chosen); at >= 0 {
		m.grid.MoveTo(at, m.grid.Column)
	}
}

// showsPoints reports whether the cells say what they come to.
func (m *Page) showsPoints() bool { return m.points.Checked && m.got.Grid.Valued }

// tell says how much was judged, and what the numbers of a cell are.
func (m *Page) tell() {
	got := &m.got
	words := model.CountOf(len(got.Grid.Rows), "setup") + ", " + model.CountOf(len(got.Grid.Replies), "reply")
	if m.safe.Checked {
		words = model.CountOf(len(got.Grid.Rows), "safe setup") + ", " + model.CountOf(len(got.Grid.Replies), "reply")
	}
	if n := len(got.Left); n > 0 {
		words += fmt.Sprintf("; %s can't be judged", model.CountOf(n, "setup"))
	}
	words += ". Numbers: frames to spare, worst rise"
	if m.showsPoints() {
		words += "; below them points, and the health that it ends"
	}
	m.count.SetText(words + ".")
}

// sort lays the rows: as the project has them, or the fewest that cover
// first.
func (m *Page) sort() {
	marked := map[int]bool{}
	m.rows = make([]int, 0, len(m.got.Grid.Rows))
	for _, i := range m.got.Fewest.Sets {
		marked[i] = true
		if m.first.Checked {
			m.rows = append(m.rows, i)
		}
	}
	for i := range m.got.Grid.Rows {
		if !m.first.Checked || !marked[i] {
			m.rows = append(m.rows, i)
		}
	}
	m.grid.show(&m.got.Grid, m.rows, marked, m.showsPoints())
}

// open shows a setup on the timeline, with the reply of that column where the
// setup names it, on the rise of the cell.
func (m *Page) open(row, column int) {
	i := m.rows[row]
	m.host.Close()
	m.host.Model().Choose(m.got.Places[i])
	if column < 0 {
		return
	}
	want, cell := m.got.Grid.Replies[column].Reply, &m.got.Grid.Rows[i].Cells[column]
	for r, rise := range m.host.Model().Verdict().Rises {
		for l := range rise.Replies {
			if got := &rise.Replies[l]; rise.Rise == cell.Rise && got.Reply == want.Move && got.Late == want.Late {
				if rise, line := m.host.Model().Shown(); m.host.Model().Follows() || rise != r || line != l {
					m.host.Model().Show(r, l)
				}
				return
			}
		}
	}
	m.host.Note(fmt.Sprintf("%s is not among the replies of this setup", m.got.Grid.Replies[column].Title))
}

// point says in words what the pointer or the cursor is on.
func (m *Page) point(row, column int) {
	g := &m.got.Grid
	switch {
	case row >= len(m.rows) || column >= len(g.Replies) || row < 0 && column < 0:
		m.words.Say("", "")
	case row < 0:
		n := 0
		for i := range g.Rows {
			if g.Rows[i].Cells[column].Covers {
				n++
			}
		}
		m.words.Say(g.Replies[column].Title, fmt.Sprintf("covered by %d of %s", n, model.CountOf(len(g.Rows), "setup")))
	case column < 0:
		r := &g.Rows[m.rows[row]]
		m.words.Say(r.Setup, fmt.Sprintf("%s at delay %d", r.Called, r.Delay))
	default:
		r := &g.Rows[m.rows[row]]
		c := &r.Cells[column]
		under := cellWords(c)
		if c.Judged {
			under += fmt.Sprintf(", on the %s rise", c.Rise)
		}
		if g.Valued {
			if say := words.WorthSentence(c.Worth); say != "" {
				under += "; " + say
			}
		}
		if c.Demand != timeline.DemandNone {
			under += fmt.Sprintf("; demand: %s", c.Demand)
		} else if !g.Replies[column].Shown {
			under += "; the setup demands nothing against it"
		}
		m.words.Say(r.Setup+" · "+g.Replies[column].Title, under)
	}
}

// copy puts the grid as shown on the clipboard, a line a setup, its cells
// apart by tabs.
func (m *Page) copy() {
	fyne.CurrentApp().Clipboard().SetContent(m.text())
	m.words.Say("Table copied", model.CountOf(len(m.rows), "setup")+" × "+model.CountOf(len(m.got.Grid.Replies), "reply")+", to paste into a spreadsheet")
}

// text is the grid as shown: outcome and spare a cell, and what it comes to.
func (m *Page) text() string {
	var b strings.Builder
	plain := strings.NewReplacer("\t", " ", "\n", " ", "\r", " ")
	line := func(cells []string) {
		for i := range cells {
			cells[i] = plain.Replace(cells[i])
		}
		b.WriteString(strings.Join(cells, "\t") + "\n")
	}
	head := []string{"setup", "delay", "verdict"}
	for i := range m.got.Grid.Replies {
		head = append(head, m.got.Grid.Replies[i].Title)
	}
	line(head)
	for _, i := range m.rows {
		r := &m.got.Grid.Rows[i]
		cells := []string{r.Setup, strconv.Itoa(r.Delay), string(r.Called)}
		for k := range r.Cells {
			switch c := &r.Cells[k]; {
			case !c.Judged:
				cells = append(cells, "")
			default:
				said := strings.TrimSpace(c.Cell.Outcome.String() + " " + spareText(&c.Cell))
				if worth := words.ShortWorth(c.Worth); worth != "" && m.showsPoints() {
					said += "; " + worth
				}
				cells = append(cells, said)
			}
		}
		line(cells)
	}
	return b.String()
}

func (m *Page) Content() fyne.CanvasObject { return m.box }
func (m *Page) Edits() bool                { return true }

// Cursor is the row and column that the keys are on.
func (m *Page) Cursor() (row, column int) { return m.grid.Row, m.grid.Column }

// Refocus gives the keys to the grid.
func (m *Page) Refocus() { m.host.Canvas().Focus(m.grid) }

// Changed judges anew what an undo, or another window, has changed.
func (m *Page) Changed(c model.Change) {
	if !page.Outdated(m.host, c, page.AnySetup, func() bool { return page.HasFighters(m.host) }) {
		return
	}
	m.choosePair()
	m.Run()
}
