package compare

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/timeline/patch"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

// detail is what is told of the chosen row: its words, the setups concerned,
// and one of them before and after.
type detail struct {
	page *Page

	title, because     *widget.Label
	lines              *widget.Label // one for each field or setup
	linesBox           *fyne.Container
	which              *paint.Pick
	whose              *fyne.Container
	show, others, mix  *paint.PushButton
	sheets             *sheetPair
	nothing            *widget.Label
	sheetsBox, noSheet *fyne.Container
	box                *fyne.Container

	setup string // whose sheets are shown; empty: none
	route string // that is at work in it
	quiet bool   // which is set without showing
}

func newDetail(c *Page) *detail {
	d := &detail{page: c, sheets: newSheetPair()}
	label := func() *widget.Label {
		l := page.Wrapped("")
		return l
	}
	d.title, d.because, d.lines, d.nothing = label(), label(), label(), label()
	d.title.TextStyle.Bold = true
	d.title.Wrapping, d.title.Truncation = fyne.TextWrapOff, fyne.TextTruncateEllipsis
	d.nothing.Alignment = fyne.TextAlignCenter
	d.which = paint.NewPick(c.host, nil, func(name string) {
		if !d.quiet {
			d.sheetsOf(name)
		}
	})
	d.show = paint.NewPageButton(c.host, "Show setup", nil, c.showSetup)
	d.others = paint.NewPageButton(c.host, "Find others…", nil, c.find)
	d.mix = paint.NewPageButton(c.host, "Mix…", nil, c.openMix)
	d.whose = container.NewBorder(nil, nil, widget.NewLabel("Setup"), nil, d.which)
	head := container.NewBorder(nil, nil, nil, container.NewHBox(d.show, d.others, d.mix), d.title)
	lines := container.NewVScroll(d.lines)
	lines.SetMinSize(fyne.NewSize(0, 108))
	d.linesBox = container.NewStack(lines)
	d.sheetsBox = container.NewStack(container.NewVScroll(d.sheets))
	d.noSheet = container.NewVBox(layout.NewSpacer(), d.nothing, layout.NewSpacer())
	d.box = container.NewBorder(container.NewVBox(head, d.because, d.linesBox, d.whose), nil, nil, nil, container.NewStack(d.sheetsBox, d.noSheet))
	return d
}

// tell says words of the chosen row, and offers the setups concerned; where
// there is none, it says why.
func (d *detail) tell(title, because, lines string, setups []string, none string) {
	d.title.SetText(title)
	d.because.SetText(because)
	d.lines.SetText(lines)
	shown(d.because, because != "")
	shown(d.linesBox, lines != "")
	shown(d.whose, len(setups) > 1)
	d.nothing.SetText(none)
	d.quiet = true
	d.which.SetOptions(setups)
	if len(setups) > 0 {
		d.which.SetSelected(setups[0])
	} else {
		d.which.ClearSelected()
	}
	d.quiet = false
	if len(setups) > 0 {
		d.sheetsOf(setups[0])
	} else {
		d.sheetsOf("")
	}
}

// sheetsOf shows one setup before and after.
func (d *detail) sheetsOf(name string) {
	c := d.page
	d.setup = name
	for _, b := range []*paint.PushButton{d.show, d.others} {
		shown(b, name != "")
	}
	shown(d.mix, name != "" && c.chosen().section == patch.Mixes)
	if name == "" {
		d.sheetsBox.Hide()
		d.noSheet.Show()
		return
	}
	s, err := c.setup(name)
	if err != nil {
		d.nothing.SetText(err.Error())
		d.sheetsBox.Hide()
		d.noSheet.Show()
		return
	}
	d.noSheet.Hide()
	d.sheetsBox.Show()
	d.sheets.show(pairOf(c.patch.Patch, s, c.patch.Change(name), d.route, "Before: "+c.patch.From, "After: "+c.patch.To))
}

func shown(o fyne.CanvasObject, is bool) {
	if is {
		o.Show()
	} else {
		o.Hide()
	}
}

// choose tells of row i.
func (c *Page) choose(i int) {
	c.at = i
	d, at, day := c.detail, c.rows[i], &c.patch.Day
	d.route = ""
	switch {
	case at.head:
		d.tell(c.headWords(at.section), at.section.About(), "", nil, "")
	case at.section == patch.MoveData:
		d.part(&day.Parts[at.at])
	case at.section == patch.Mixes:
		d.mixed(&day.Mixes[at.at])
	case at.section == patch.RoutesBroke, at.section == patch.RoutesMended, at.section == patch.RoutesChanged:
		d.routed(&day.Routes[at.at])
	default:
		s := &day.Setups[at.at]
		d.tell(s.Setup, s.Because, "", []string{s.Setup}, "")
	}
}

// chosen is the row that is told of; of no section where there is none.
func (c *Page) chosen() entry {
	if c.at < len(c.rows) {
		return c.rows[c.at]
	}
	return entry{}
}

// part tells of a part of the move data.
func (d *detail) part(p *compare.Cause) {
	lines := ""
	if len(p.Fields) > 1 {
		var fields []string
		for _, f := range p.Fields {
			fields = append(fields, fmt.Sprintf("%s: from %s to %s", f.Noun, f.Before, f.After))
		}
		lines = strings.Join(fields, "\n")
	}
	because := p.Became()
	if lines != "" {
		because = ""
	}
	d.tell(sentence(p.Title()), because, lines, first(d.page.patch.TurnedBy(p)), "No setup changed because of this alone.")
}

// routed tells of a route.
func (d *detail) routed(r *patch.Route) {
	var lines []string
	for i, s := range []*patch.RouteState{r.Before, r.After} {
		if s != nil {
			lines = append(lines, []string{"Before: ", "After: "}[i]+s.Words())
		}
	}
	d.route = r.Name
	d.tell(r.Title(), sentence(r.Became())+".", strings.Join(lines, "\n"), first(d.page.patch.SetupsOf(r)), "No setup names this route, or begins after it.")
}

// mixed tells of a mix.
func (d *detail) mixed(m *patch.Mix) {
	var lines []string
	for _, name := range m.Setups {
		lines = append(lines, fmt.Sprintf("%s: %s, it was %s", name, m.After.Share(name), m.Before.Share(name)))
	}
	d.tell(m.Title(), "Worth "+m.Became()+".", strings.Join(lines, "\n"), m.Setups, "")
}

// mostOffered is how many setups are offered in a list.
const mostOffered = 200

func first(names []string) []string { return names[:min(len(names), mostOffered)] }

func sentence(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// setup reads a setup as it is now.
func (c *Page) setup(name string) (timeline.Setup, error) {
	at := c.host.Model().Find(name)
	if at < 0 {
		return timeline.Setup{}, fmt.Errorf("the setup %q no longer exists", name)
	}
	return c.doc.Setup(at)
}

// showSetup shows the setup on the timeline.
func (c *Page) showSetup() {
	if at := c.place(); at >= 0 {
		c.host.Close()
		c.host.Model().Choose(at)
	}
}

// find searches for other setups of the same ender, rival and position.
func (c *Page) find() {
	if at := c.place(); at >= 0 {
		c.asks.Find(at)
	}
}

// openMix weighs the setup's ender on the page of the mix.
func (c *Page) openMix() {
	if at := c.place(); at >= 0 {
		c.asks.Mix(at)
	}
}

// place is where the setup whose sheets are shown stands; -1: none is.
func (c *Page) place() int {
	if c.detail.setup == "" {
		return -1
	}
	return c.host.Model().Find(c.detail.setup)
}
