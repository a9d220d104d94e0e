package merge

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline/merge"
	"wakeline/ui/grid"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

var (
	_ page.Page    = (*Page)(nil)
	_ page.Ending  = (*Page)(nil)
	_ page.Leaving = (*Page)(nil)

	_ grid.Events = (*Page)(nil)
	_ grid.Opens  = (*Page)(nil)
	_ grid.Events = quiet{}
)

// What the choices of states and kinds let pass.
const (
	openStates = "New and different"
	allStates  = "All states"
	troubled   = "Can't be done"
	allKinds   = "Everything"
)

// stateChoices are the first choices of states; one a state follows.
var stateChoices = [...]string{openStates, allStates, troubled}

// listedStates are the states in the order of their choices.
var listedStates = [...]merge.State{merge.New, merge.Different, merge.Equal, merge.OursAlone, merge.Clash}

// Page shows two projects side by side, and merges them.
type Page struct {
	host   page.Host
	path   string
	theirs merge.Side

	state, kind             *paint.Pick
	filter                  *paint.PageEntry
	answer, told, item      *widget.Label
	keep, take, both, merge *paint.PushButton
	busy                    page.Running
	table                   *table
	grid, fields            *grid.Grid
	sides                   *sides
	split                   *container.Split
	box                     fyne.CanvasObject
	work                    page.Newest
	quiet                   bool // the controls are set without a run
	storing                 bool // the page itself changes the project
	turned                  []merge.Turned
	judged                  bool // turned is what the choices turn
}

// Read reads the project at path and lays it beside the open one, and then shows
// the page, by show.
func Read(host page.Host, path string, show func(p *Page)) {
	var theirs, ours merge.Side
	var c *merge.Comparison
	doc := host.Model().Document()
	host.Task("Comparing with "+filepath.Base(path), page.Counting("setup"), func(at page.Work) (err error) {
		if theirs, err = model.ReadSide(at.Context, path, at.Tell); err != nil {
			return err
		}
		if ours, err = doc.Side(at.Context, at.Tell); err != nil {
			return err
		}
		if !doc.KeepsLists() {
			theirs.Lists, ours.Lists = nil, nil
		}
		c = merge.Compare(ours, theirs)
		return nil
	}, func(err error) {
		if errors.Is(err, context.Canceled) {
			return
		}
		if err != nil {
			host.Dialogs().Fail("This project can't be merged", errors.New(model.ProblemWords(err)))
			return
		}
		show(newPage(host, path, theirs, c))
	})
}

func newPage(host page.Host, path string, theirs merge.Side, c *merge.Comparison) *Page {
	p := &Page{host: host, path: path, theirs: theirs, table: &table{}, sides: &sides{}}
	p.work = page.Newest{Host: host, What: "The merge", Busy: func(on bool) { p.busy.Set(on) }}
	again := func(string) {
		if !p.quiet {
			p.list()
		}
	}
	states := slices.Clone(stateChoices[:])
	for _, s := range listedStates {
		states = append(states, label(stateWords[s]))
	}
	kinds := []string{allKinds}
	for k := range merge.Kind(merge.Kinds) {
		kinds = append(kinds, label(model.KindWord(k)))
	}
	p.state, p.kind = paint.NewPick(host, states, again), paint.NewPick(host, kinds, again)
	p.filter = paint.NewPageEntry(host)
	p.filter.SetPlaceHolder("Filter by name")
	p.filter.OnChanged = paint.GuardedOf("The merge", again)
	title := page.Title("Merge project")
	from := paint.NewLowLabel()
	from.SetText(filepath.Base(path) + " into this project")
	p.answer, p.told, p.item = widget.NewLabel(""), widget.NewLabel(""), widget.NewLabel("")
	p.answer.TextStyle.Bold = true
	for _, l := range []*widget.Label{p.answer, p.told, p.item} {
		l.Wrapping = fyne.TextWrapWord
	}
	p.busy = page.NewRunning(host, "Judging…", nil)
	p.keep = paint.NewPageButton(host, "Keep", nil, func() { p.choose(merge.Ours) })
	p.take = paint.NewPageButton(host, "Take other", nil, func() { p.choose(merge.Theirs) })
	p.both = paint.NewPageButton(host, "Keep both", nil, func() { p.choose(merge.Both) })
	all := paint.NewPageButton(host, "Select all", nil, p.selectAll)
	p.merge = paint.NewPageButton(host, "Merge…", theme.ConfirmIcon(), p.ask)
	p.merge.Importance = widget.HighImportance
	p.grid, p.fields = grid.New(p.table, p), grid.New(p.sides, quiet{p})
	head := container.NewBorder(nil, nil, title, container.NewHBox(p.busy, p.merge, page.CloseButton(host)), from)
	picks := container.NewGridWithColumns(3, p.state, p.kind, p.filter)
	top := container.NewVBox(container.NewPadded(container.NewVBox(head, picks)), widget.NewSeparator(),
		container.New(layout.NewCustomPaddedVBoxLayout(-8), p.answer, p.told))
	bar := container.NewBorder(nil, nil, nil, container.NewHBox(p.keep, p.take, p.both, all), p.item)
	p.split = container.NewVSplit(p.grid, container.NewBorder(bar, nil, nil, nil, p.fields))
	p.split.Offset = 0.6
	p.box = container.NewBorder(top, nil, nil, nil, p.split)
	p.quiet = true
	p.state.SetSelected(openStates)
	p.kind.SetSelected(allKinds)
	p.quiet = false
	p.compared(c)
	return p
}

// label is a word as a choice shows it.
func label(word string) string { return strings.ToUpper(word[:1]) + word[1:] }

// key names an item among those of a comparison.
type key struct {
	kind        merge.Kind
	owner, name string
}

// compared shows a comparison; what was chosen before stays so, where it can.
func (p *Page) compared(c *merge.Comparison) {
	before := map[key]merge.Choice{}
	if old := p.table.of; old != nil {
		for i, it := range old.Items {
			if p.table.choices[i] != it.Choices()[0] {
				before[key{it.Kind, it.Owner, it.Name}] = p.table.choices[i]
			}
		}
	}
	p.table.of, p.table.choices, p.table.wrong = c, c.Defaults(), nil
	for i, it := range c.Items {
		if choice, made := before[key{it.Kind, it.Owner, it.Name}]; made && slices.Contains(it.Choices(), choice) {
			p.table.choices[i] = choice
		}
	}
	n := model.CountMerge(c)
	answer := fmt.Sprintf("%d new, %d different, %d equal, %d only in this project.", n.New, n.Different, n.Equal, n.Alone)
	if n.Clash > 0 {
		answer += fmt.Sprintf(" %d can't be added: another thing here has the name.", n.Clash)
	}
	if n.New+n.Different+n.Clash == 0 {
		answer += " There is nothing to merge."
	}
	if !p.host.Model().Document().KeepsLists() {
		answer += " Saved lists are left out: a project text has none."
	}
	p.answer.SetText(answer)
	p.list()
	p.weigh()
}

// list lists the items that the controls ask for.
func (p *Page) list() {
	words := strings.ToLower(strings.TrimSpace(p.filter.Text))
	var states [len(listedStates)]bool
	for i, s := range listedStates {
		open := s == merge.New || s == merge.Different || s == merge.Clash
		states[s] = i+len(stateChoices) == p.state.SelectedIndex() || p.state.Selected == allStates || p.state.Selected == troubled || p.state.Selected == openStates && open
	}
	kind := merge.Kind(p.kind.SelectedIndex() - 1) // after all kinds
	p.table.lay(func(it *merge.Item, i int) bool {
		return states[it.State] && (p.state.Selected != troubled || p.table.wrong[i] != nil) &&
			(p.kind.Selected == allKinds || it.Kind == kind) &&
			(words == "" || strings.Contains(strings.ToLower(nameOf(it)), words))
	})
	p.grid.Fit()
	p.grid.Begin(grid.Place{})
	p.grid.Refresh()
}

// weigh merges behind the window without storing anything, and tells what can't
// be done, or what the choices turn.
func (p *Page) weigh() {
	c, choices := p.table.of, slices.Clone(p.table.choices)
	p.merge.Disable()
	p.judged = false
	var turned []merge.Turned
	p.work.Run(func(ctx context.Context) error {
		r, err := c.Merge(ctx, choices, nil)
		if err == nil {
			turned, err = c.Turned(ctx, r, nil)
		}
		return err
	}, func(err error) { p.weighed(turned, err) })
}

// offer lets the merge be done, where it does anything.
func (p *Page) offer() {
	if len(model.MergeWords(p.table.of, p.table.choices)) > 0 {
		p.merge.Enable()
	}
}

// weighed tells what came of the choices.
func (p *Page) weighed(turned []merge.Turned, err error) {
	wrong := (*merge.ProblemsError)(nil)
	had := len(p.table.wrong)
	p.table.wrong, p.turned = nil, turned
	switch {
	case errors.Is(err, context.Canceled):
		return
	case errors.As(err, &wrong):
		p.table.wrong = map[int]error{}
		for _, one := range wrong.Problems {
			p.table.wrong[one.Item] = one.Err
		}
		text := "Can't be merged like this: " + model.ProblemWords(wrong.Problems[0].Err)
		if more := wrong.Others(); more > 0 {
			text += fmt.Sprintf(" And %d more: choose “%s” to see them.", more, troubled)
		}
		p.told.SetText(text)
	case err != nil:
		p.told.SetText("Can't be merged like this: " + model.Sentence(err.Error()))
	default:
		p.told.SetText(turnedWords(turned, 3))
		p.judged = true
		p.offer()
	}
	if p.state.Selected == troubled || had > 0 || wrong != nil {
		at := p.grid.At()
		if p.state.Selected == troubled {
			p.list()
		}
		p.grid.Place(at)
	}
	p.grid.Refresh()
}

// turnedWords name the first setups whose verdicts the choices turn.
func turnedWords(turned []merge.Turned, most int) string {
	if len(turned) == 0 {
		return "With these choices no setup's verdict turns."
	}
	var out []string
	for _, t := range turned[:min(most, len(turned))] {
		out = append(out, turnedWord(&t))
	}
	text := fmt.Sprintf("With these choices %s: %s", turnCount(len(turned)), strings.Join(out, "; "))
	if more := len(turned) - len(out); more > 0 {
		text += fmt.Sprintf("; and %d more", more)
	}
	return text + "."
}

func turnCount(n int) string {
	if n == 1 {
		return "1 setup turns"
	}
	return model.CountOf(n, "setup") + " turn"
}

// turnedWord says how one setup turns.
func turnedWord(t *merge.Turned) string {
	name := "“" + model.CutText(t.Setup, 50) + "”"
	if t.Theirs {
		name += " of the other project"
	}
	return fmt.Sprintf("%s from %s to %s", name, model.NameOr(string(t.Before), "not judged"), model.NameOr(string(t.After), "not judged"))
}

// Moved shows both sides of the item under the cursor.
func (p *Page) Moved() {
	p.sides.of = nil
	for _, b := range []*paint.PushButton{p.keep, p.take, p.both} {
		b.Disable()
	}
	if row := p.grid.At().Row; row >= 0 && row < len(p.table.shown) {
		i := p.table.shown[row]
		p.sides.of = p.table.of.Details(i)
		p.item.SetText(p.itemWords(i))
		p.offerChoices()
	} else {
		p.item.SetText("Nothing is listed.")
	}
	p.fields.Fit()
	p.fields.Begin(grid.Place{})
	p.fields.Refresh()
}

// offerChoices lets those choices be made that one of the selected items has.
func (p *Page) offerChoices() {
	var has [3]bool
	from, to := p.grid.Selection()
	for row := max(from.Row, 0); row <= to.Row && row < len(p.table.shown); row++ {
		if of := p.table.of.Items[p.table.shown[row]].Choices(); len(of) > 1 {
			for _, c := range of {
				has[c] = true
			}
		}
		if has == [3]bool{true, true, true} {
			break
		}
	}
	for c, b := range []*paint.PushButton{merge.Ours: p.keep, merge.Theirs: p.take, merge.Both: p.both} {
		if has[c] {
			b.Enable()
		}
	}
}

// itemWords say what becomes of an item, or why nothing can.
func (p *Page) itemWords(i int) string {
	it := &p.table.of.Items[i]
	name := model.CutText(nameOf(it), 60)
	switch {
	case p.table.wrong[i] != nil:
		return model.ProblemWords(p.table.wrong[i])
	case it.State == merge.Equal:
		return name + " is the same in both."
	case it.State == merge.OursAlone:
		return name + " is only in this project, and stays."
	case it.State == merge.Clash:
		return name + " can't be added: another move or jump here has the name."
	}
	return fmt.Sprintf("%s: %s", name, choiceWord(it, p.table.choices[i]))
}

// Open gives the item under the cursor its next choice.
func (p *Page) Open() {
	row := p.grid.At().Row
	if row < 0 || row >= len(p.table.shown) {
		return
	}
	i := p.table.shown[row]
	of := p.table.of.Items[i].Choices()
	if len(of) < 2 {
		return
	}
	p.table.choices[i] = of[(slices.Index(of, p.table.choices[i])+1)%len(of)]
	p.chosen()
}

// choose gives all selected items a choice, as far as they have it.
func (p *Page) choose(c merge.Choice) {
	from, to := p.grid.Selection()
	for row := max(from.Row, 0); row <= to.Row && row < len(p.table.shown); row++ {
		i := p.table.shown[row]
		if slices.Contains(p.table.of.Items[i].Choices(), c) {
			p.table.choices[i] = c
		}
	}
	p.chosen()
	p.Refocus()
}

// chosen shows the choices anew and what they come to.
func (p *Page) chosen() {
	p.grid.Refresh()
	if row := p.grid.At().Row; row >= 0 && row < len(p.table.shown) {
		p.item.SetText(p.itemWords(p.table.shown[row]))
	}
	p.weigh()
}

// selectAll selects all items that are listed.
func (p *Page) selectAll() {
	p.Refocus()
	p.grid.TypedShortcut(&fyne.ShortcutSelectAll{})
}

// Copy implements grid.Events: the listed items.
func (p *Page) Copy(to fyne.Clipboard) {
	var b strings.Builder
	b.WriteString(strings.Join(p.table.Heads(), "\t") + "\n")
	for row := range p.table.shown {
		cells := make([]string, columns)
		for col := range cells {
			cells[col] = strings.Join(strings.Fields(p.table.Text(row, col)), " ")
		}
		b.WriteString(strings.Join(cells, "\t") + "\n")
	}
	to.SetContent(b.String())
}

// Escape implements grid.Events.
func (p *Page) Escape() { p.host.PageKey(&fyne.KeyEvent{Name: fyne.KeyEscape}) }

func (p *Page) Content() fyne.CanvasObject { return p.box }
func (p *Page) Edits() bool                { return false }

// Refocus gives the keys to the table.
func (p *Page) Refocus() { p.host.Canvas().Focus(p.grid) }

// EndOwn ends the judging.
func (p *Page) EndOwn() bool {
	if !p.work.Stop() {
		return false
	}
	p.told.SetText("Stopped: whether the choices turn verdicts is not known.")
	p.offer()
	return true
}

// Left ends the judging too.
func (p *Page) Left() { p.work.Stop() }

// Changed compares anew what another window has changed.
func (p *Page) Changed(what model.Change) {
	if p.storing || what&(page.AnySetup) == 0 {
		return
	}
	ours, err := p.host.Model().Document().Side(p.host.Context(), func(int, int) {})
	if err != nil {
		p.host.Close()
		p.host.Dialogs().Fail("The projects can't be compared any more", err)
		return
	}
	if !p.host.Model().Document().KeepsLists() {
		ours.Lists = nil
	}
	p.compared(merge.Compare(ours, p.theirs))
}

// quiet is what a hand asks of the fields, which are only looked at.
type quiet struct{ p *Page }

func (quiet) Moved() {}

// Copy implements grid.Events: both sides of the item.
func (q quiet) Copy(to fyne.Clipboard) {
	lines := []string{strings.Join(q.p.sides.Heads(), "\t")}
	for row := range q.p.sides.of {
		lines = append(lines, q.p.sides.Text(row, 0)+"\t"+q.p.sides.Text(row, 1)+"\t"+q.p.sides.Text(row, 2))
	}
	to.SetContent(strings.Join(lines, "\n") + "\n")
}

// Escape implements grid.Events.
func (q quiet) Escape() { q.p.Escape() }
