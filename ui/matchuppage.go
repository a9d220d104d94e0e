package ui

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
	"wakeline/timeline/compare"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

// matchupPage shows all setups of one attacker and rival against all replies,
// and the fewest setups that cover all that can be covered.
type matchupPage struct {
	w *window

	attacker, rival  *paint.Pick
	all, safe, first *paint.PageTick
	count            *widget.Label
	grid             *matchupGrid
	words            *matchupWords
	cover            *matchupCover
	box              *fyne.Container

	got   matchup
	rows  []int // of got.grid, as shown
	quiet bool  // the controls are set without a run
}

// matchup is what was judged of one pair.
type matchup struct {
	grid   compare.Grid
	places []int    // of the grid's rows, among all setups
	left   []string // why some setups are not in it
	fewest compare.Cover
}

// showMatchup shows the page of the chosen setup's pair.
func (w *window) showMatchup() {
	if len(w.model.Data().Fighters) == 0 {
		w.Dialogs().Lines("No fighters yet", []string{"A match-up shows the setups of one fighter against another. Add fighters in the move data first."})
		return
	}
	m := newMatchupPage(w)
	w.showPage(m)
	m.Refocus()
	m.run()
}

func newMatchupPage(w *window) *matchupPage {
	m := &matchupPage{w: w}
	again := func(string) { m.again() }
	m.attacker, m.rival = paint.NewPick(w, nil, again), paint.NewPick(w, nil, again)
	m.all = paint.NewPageTick(w, "All replies of the rival", func(bool) { m.again() })
	m.safe = paint.NewPageTick(w, "Safe setups only", func(bool) { m.again() })
	m.first = paint.NewPageTick(w, "Minimum set first", func(bool) { m.sort() })
	m.count = widget.NewLabel("")
	m.count.Importance, m.count.Truncation = widget.LowImportance, fyne.TextTruncateEllipsis
	title := widget.NewLabel("Match-up")
	title.TextStyle.Bold = true
	m.grid, m.words, m.cover = newMatchupGrid(), newMatchupWords(), newMatchupCover()
	m.grid.OnOpen, m.grid.OnPoint, m.grid.OnCopy = m.open, m.point, m.copy
	m.grid.OnKey = func(ev *fyne.KeyEvent) { w.PageKey(ev) }
	m.cover.OnChoose = func(row int) {
		if at := slices.Index(m.rows, row); at >= 0 {
			m.grid.moveTo(at, m.grid.column)
		}
	}
	copied := paint.NewPageButton(w, "Copy table", theme.ContentCopyIcon(), m.copy)
	shut := paint.NewPageButton(w, "Close", theme.CancelIcon(), w.Close)
	pair := container.NewHBox(title, m.attacker, widget.NewLabel("vs"), m.rival, layout.NewSpacer(), copied, shut)
	switches := container.NewBorder(nil, nil, container.NewHBox(m.all, m.safe, m.first), nil, m.count)
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
func (m *matchupPage) choosePair() {
	m.quiet = true
	defer func() { m.quiet = false }()
	names := model.FighterNames(m.w.model.Data())
	s := m.w.model.Setup()
	choose := func(at *paint.Pick, want, otherwise string) {
		at.SetOptions(names)
		if !slices.Contains(names, at.Selected) {
			if want == "" {
				want = otherwise
			}
			at.SetSelected(want)
		}
	}
	choose(m.attacker, s.Attacker, names[0])
	choose(m.rival, s.Rival, names[len(names)-1])
}

// again judges the match-up anew after a control was used.
func (m *matchupPage) again() {
	if !m.quiet {
		m.run()
	}
}

// run judges the match-up behind the window, and shows it.
func (m *matchupPage) run() {
	each, data := m.w.model.Document().Each(), m.w.model.Data()
	attacker, rival, all, safe := m.attacker.Selected, m.rival.Selected, m.all.Checked, m.safe.Checked
	var got matchup
	m.w.Task("Judging the match-up", page.Counting("setup"), func(at page.Work) (err error) {
		got, err = judgeMatchup(at, each, data, attacker, rival, all, safe)
		return err
	}, func(err error) {
		switch {
		case !m.w.Showing(m):
		case errors.Is(err, context.Canceled):
			m.w.status.Hint("Match-up cancelled")
			m.w.Close()
		case err != nil:
			m.w.Close()
			m.w.Dialogs().Fail("The match-up could not be judged", err)
		default:
			m.take(got)
		}
	})
}

// judgeMatchup judges every setup of the pair, or the safe ones alone.
func judgeMatchup(at page.Work, each func(context.Context, func(*timeline.Setup) error) error, data *timeline.Project, attacker, rival string, all, safe bool) (got matchup, err error) {
	p := *data.Bare()
	var places []int
	place := 0
	err = each(at.Context, func(s *timeline.Setup) error {
		if s.Attacker == attacker && s.Rival == rival {
			p.Setups, places = append(p.Setups, *s), append(places, place)
		}
		place++
		return at.Context.Err()
	})
	if err != nil {
		return got, err
	}
	m, err := compare.NewMatchup(&p, attacker, rival, all)
	if err != nil {
		return got, err
	}
	for i := range p.Setups {
		if at.Context.Err() != nil {
			return got, at.Context.Err()
		}
		if err := m.Add(p.Setups[i]); err != nil {
			got.left = append(got.left, err.Error())
		} else {
			got.places = append(got.places, places[i])
		}
		at.Tell(i+1, len(p.Setups))
	}
	got.grid = m.Grid()
	if safe {
		got.keepSafe()
	}
	got.fewest = got.grid.Fewest(compare.CoverLimit)
	return got, nil
}

// keepSafe leaves the safe setups.
func (m *matchup) keepSafe() {
	rows, places := m.grid.Rows, m.places
	m.grid.Rows, m.places = nil, nil
	for i := range rows {
		if rows[i].Word == timeline.Safe {
			m.grid.Rows, m.places = append(m.grid.Rows, rows[i]), append(m.places, places[i])
		}
	}
}

// take shows what was judged, with the cursor on the chosen setup.
func (m *matchupPage) take(got matchup) {
	m.got = got
	words := model.CountOf(len(got.grid.Rows), "setup") + ", " + model.CountOf(len(got.grid.Replies), "reply")
	if m.safe.Checked {
		words = model.CountOf(len(got.grid.Rows), "safe setup") + ", " + model.CountOf(len(got.grid.Replies), "reply")
	}
	if n := len(got.left); n > 0 {
		words += fmt.Sprintf("; %s can't be judged", model.CountOf(n, "setup"))
	}
	m.count.SetText(words + ". Numbers: frames to spare, worst rise.")
	m.cover.show(&m.got.grid, got.fewest)
	m.sort()
	chosen := slices.Index(got.places, m.w.model.Chosen())
	if at := slices.Index(m.rows, chosen); at >= 0 {
		m.grid.moveTo(at, m.grid.column)
	}
}

// sort lays the rows: as the project has them, or the fewest that cover
// first.
func (m *matchupPage) sort() {
	marked := map[int]bool{}
	m.rows = make([]int, 0, len(m.got.grid.Rows))
	for _, i := range m.got.fewest.Sets {
		marked[i] = true
		if m.first.Checked {
			m.rows = append(m.rows, i)
		}
	}
	for i := range m.got.grid.Rows {
		if !m.first.Checked || !marked[i] {
			m.rows = append(m.rows, i)
		}
	}
	m.grid.show(&m.got.grid, m.rows, marked)
}

// open shows a setup on the timeline, with the reply of that column where the
// setup names it, on the rise of the cell.
func (m *matchupPage) open(row, column int) {
	i := m.rows[row]
	m.w.Close()
	m.w.model.Choose(m.got.places[i])
	if column < 0 {
		return
	}
	want, cell := m.got.grid.Replies[column].Reply, &m.got.grid.Rows[i].Cells[column]
	for r, rise := range m.w.model.Verdict().Rises {
		for l := range rise.Replies {
			if got := &rise.Replies[l]; rise.Rise == cell.Rise && got.Reply == want.Move && got.Late == want.Late {
				if rise, line := m.w.model.Shown(); m.w.model.Follows() || rise != r || line != l {
					m.w.model.Show(r, l)
				}
				return
			}
		}
	}
	m.w.status.Hint(fmt.Sprintf("%s is not among the replies of this setup", m.got.grid.Replies[column].Title))
}

// point says in words what the pointer or the cursor is on.
func (m *matchupPage) point(row, column int) {
	g := &m.got.grid
	switch {
	case row >= len(m.rows) || column >= len(g.Replies) || row < 0 && column < 0:
		m.words.say("", "")
	case row < 0:
		n := 0
		for i := range g.Rows {
			if g.Rows[i].Cells[column].Covers {
				n++
			}
		}
		m.words.say(g.Replies[column].Title, fmt.Sprintf("covered by %d of %s", n, model.CountOf(len(g.Rows), "setup")))
	case column < 0:
		r := &g.Rows[m.rows[row]]
		m.words.say(r.Setup, fmt.Sprintf("%s at delay %d", r.Called, r.Delay))
	default:
		r := &g.Rows[m.rows[row]]
		c := &r.Cells[column]
		under := cellWords(c)
		if c.Judged {
			under += fmt.Sprintf(", on the %s rise", c.Rise)
		}
		if c.Demand != timeline.DemandNone {
			under += fmt.Sprintf("; demand: %s", c.Demand)
		} else if !g.Replies[column].Shown {
			under += "; the setup demands nothing against it"
		}
		m.words.say(r.Setup+" · "+g.Replies[column].Title, under)
	}
}

// copy puts the grid as shown on the clipboard, a line a setup, its cells
// apart by tabs.
func (m *matchupPage) copy() {
	m.w.app.Clipboard().SetContent(m.text())
	m.words.say("Table copied", model.CountOf(len(m.rows), "setup")+" × "+model.CountOf(len(m.got.grid.Replies), "reply")+", to paste into a spreadsheet")
}

// text is the grid as shown: outcome and spare a cell.
func (m *matchupPage) text() string {
	var b strings.Builder
	plain := strings.NewReplacer("\t", " ", "\n", " ", "\r", " ")
	line := func(cells []string) {
		for i := range cells {
			cells[i] = plain.Replace(cells[i])
		}
		b.WriteString(strings.Join(cells, "\t") + "\n")
	}
	head := []string{"setup", "delay", "verdict"}
	for i := range m.got.grid.Replies {
		head = append(head, m.got.grid.Replies[i].Title)
	}
	line(head)
	for _, i := range m.rows {
		r := &m.got.grid.Rows[i]
		cells := []string{r.Setup, strconv.Itoa(r.Delay), string(r.Called)}
		for k := range r.Cells {
			switch c := &r.Cells[k]; {
			case !c.Judged:
				cells = append(cells, "")
			default:
				cells = append(cells, strings.TrimSpace(c.Cell.Outcome.String()+" "+spareText(&c.Cell)))
			}
		}
		line(cells)
	}
	return b.String()
}

func (m *matchupPage) Content() fyne.CanvasObject { return m.box }
func (m *matchupPage) Edits() bool                { return true }

// Refocus gives the keys to the grid.
func (m *matchupPage) Refocus() { m.w.Canvas().Focus(m.grid) }

// Changed judges anew what an undo, or another window, has changed.
func (m *matchupPage) Changed(c model.Change) {
	if c&(model.ListChanged|model.DataChanged|model.SetupChanged) == 0 {
		return
	}
	if len(m.w.model.Data().Fighters) == 0 {
		m.w.Close()
		return
	}
	m.choosePair()
	m.run()
}
