package export

import (
	"context"
	"math"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage/guard"
	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/output"
	"wakeline/ui/page"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ page.Page       = (*Page)(nil)
	_ page.Noting     = (*Page)(nil)
	_ page.Recoloured = (*Page)(nil)
	_ page.Copied     = (*Page)(nil)
)

// The choices of the form. The first word of a choice is its number, where it
// has one.
var (
	themes     = []string{paint.PaperName, paint.NightName}
	widths     = []string{"480 (a phone)", "640", "960", "1280", "1920"}
	scales     = []string{"1", "2", "3", "4"}
	papers     = []string{"A4", "Letter", "Phone"}
	holds      = []string{"0.4 s", "0.8 s", "1.5 s", "3 s"}
	slows      = []string{"1 (as in the game)", "2 times slower", "4 times slower", "10 times slower", "20 times slower"}
	neighbours = []string{"1", "2", "3"}
	draws      = []string{"Strips", "Lessons"}
	motions    = []string{Sweep, Playback, LessonFilm}
	against    = []string{decidingReply, shownReply}
	shapes     = []string{"Any", "Wide (16:9)", "Tall (9:16)", "Square (1:1)", "Band (lower third)"}
)

const (
	decidingReply = "Deciding reply"
	shownReply    = "Reply on the sheet"
)

// Page is where the user chooses what to export and how, and sees it
// before it is written.
type Page struct {
	host page.Host
	asks Asks

	kind, format                                                        *paint.Pick
	against, each, draws, theme, shape, width, scale, paper, hold, slow *paint.Pick
	motion                                                              *paint.Pick // of a film of several setups
	clear, stage, mixed, exercise, all, chapters                        *paint.PageTick
	names, times                                                        *paint.PageEntry
	rows                                                                map[fyne.CanvasObject]*row
	form                                                                *fyne.Container
	preview                                                             *preview
	path                                                                *paint.PageEntry
	say                                                                 *widget.Label
	write                                                               *paint.PushButton
	box                                                                 fyne.CanvasObject

	offered string // the path as it was offered last
	turn    int    // of the making that counts
	cancel  context.CancelFunc
	last    *order // that was made last, or is being made
	quiet   bool   // the controls are set by the program

	shown *page.Shown // that another page showed; nil: what the chosen setup has of it
}

// Asks is what the page asks of the window.
type Asks struct {
	Screen                func() *sheet.Drawing // the sheet as it is shown; nil: there is none
	Title                 func() string         // heads what is made of the setups listed
	Folder                func() string         // where a file is offered until one was exported
	Busy                  func() bool           // something runs, or lies over the window
	CopyPicture, CopyText func()                // of what the page shows
}

// New returns the page. It makes nothing before it is opened.
func New(host page.Host, asks Asks) *Page {
	e := &Page{host: host, asks: asks, rows: map[fyne.CanvasObject]*row{}}
	choose := func(options []string, pref, first string) *paint.Pick {
		s := paint.NewPick(host, options, nil)
		s.Selected = host.Preferences().StringWithFallback(pref, first)
		if !slices.Contains(options, s.Selected) {
			s.Selected = first
		}
		s.OnChanged = func(to string) {
			defer paint.Survive("The export")
			host.Preferences().SetString(pref, to)
			e.again()
		}
		return s
	}
	tick := func(words, pref string) *paint.PageTick {
		c := paint.NewPageTick(host, words, nil)
		c.Checked = host.Preferences().Bool(pref)
		c.OnChanged = func(on bool) {
			defer paint.Survive("The export")
			host.Preferences().SetBool(pref, on)
			e.again()
		}
		return c
	}
	e.kind = choose(kindNames(), "export.kind", Strip)
	e.format = paint.NewPick(host, nil, func(to string) {
		if !e.quiet {
			host.Preferences().SetString("export.format."+e.kind.Selected, to)
			e.again()
		}
	})
	e.against = choose(against, "export.against", decidingReply)
	e.each = choose(neighbours, "export.neighbours", neighbours[0])
	e.draws = choose(draws, "export.draws", draws[0])
	e.motion = choose(motions, "export.motion", motions[0])
	e.theme = choose(themes, "export.theme", paint.Colours().Name)
	e.shape = choose(shapes, "export.shape", shapes[0])
	e.width = choose(widths, "export.width", widths[3])
	e.scale = choose(scales, "export.scale", scales[1])
	e.paper = choose(papers, "export.page", papers[0])
	e.hold = choose(holds, "export.hold", holds[1])
	e.slow = choose(slows, "export.slow", slows[3])
	e.clear = tick("Transparent background", "export.clear")
	e.stage = tick("Side view with each strip", "export.stage")
	e.mixed = tick("Mix of the ender", "export.mix")
	e.exercise = tick("Exercise: hide the answer first", "export.exercise")
	e.all = tick("All replies of the rival", "export.all")
	e.chapters = tick("Chapters: names only", "export.chapters")
	e.names = paint.NewPageEntry(host)
	e.names.SetText(host.Preferences().StringWithFallback("export.names", string(output.DefaultPattern)))
	e.names.OnChanged = func(to string) {
		defer paint.Survive("The export")
		host.Preferences().SetString("export.names", to)
		e.again()
	}
	e.times = paint.NewPageEntry(host)
	e.times.MultiLine = true
	e.times.SetMinRowsVisible(8)
	e.times.SetText(firstTimes(host))
	e.times.OnChanged = paint.GuardedOf("The export", func(string) { e.again() })
	e.preview = newPreview(host)

	e.layRows()

	e.path = paint.NewPageEntry(host)
	e.path.OnChanged = paint.GuardedOf("The export", func(string) { e.sayPath() })
	e.path.OnSubmitted = paint.GuardedOf("The export", func(string) { e.ask() })
	e.say = widget.NewLabel("")
	e.say.Importance, e.say.Truncation = widget.LowImportance, fyne.TextTruncateEllipsis
	e.write = paint.NewPageButton(host, "Export", theme.DocumentSaveIcon(), e.ask)
	e.write.Importance = widget.HighImportance
	title := page.Title("Export")
	top := container.NewVBox(container.NewPadded(container.NewHBox(title, layout.NewSpacer(),
		paint.NewPageButton(host, "Copy picture", nil, asks.CopyPicture), paint.NewPageButton(host, "Copy text", nil, asks.CopyText),
		page.CloseButton(host))), widget.NewSeparator())
	below := container.NewVBox(widget.NewSeparator(), container.NewPadded(container.NewVBox(
		container.NewBorder(nil, nil, widget.NewLabel("Save to"), container.NewHBox(paint.NewPageButton(host, "Folder…", nil, e.askFolder), e.write), e.path), e.say)))
	form := container.NewVScroll(container.NewPadded(e.form))
	left := container.NewHBox(container.New(paint.FixedWidth{Width: formWidth}, form), widget.NewSeparator())
	// Tab goes from the form on to the preview, the path, and what stands above.
	e.box = container.New(layout.NewBorderLayout(top, below, left, nil), left, e.preview.box, below, top)
	return e
}

// firstNumber is the number that a choice begins with.
func firstNumber(choice string) float64 {
	digits, _, _ := strings.Cut(choice, " ")
	n, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		return 0
	}
	return n
}

// order is what the form asks for now.
func (e *Page) order() *order {
	m := e.host.Model()
	a := &order{Order: output.Standard(), kind: kindNamed(e.kind.Selected), format: e.format.Selected}
	a.screen, a.setup, a.chosen, a.data = e.asks.Screen(), m.Setup(), m.Plan() != nil, m.Data()
	listed, _ := e.host.Listed()
	a.andMix = e.mixed.Checked
	a.each, a.listed, a.title = m.Document().Each(), slices.Clone(listed), e.asks.Title()
	a.all, a.times, a.names = e.all.Checked, e.times.Text, output.Pattern(e.names.Text)
	if e.shown != nil && e.shown.Kind == a.kind.of {
		a.shown = e.shown
	}
	o := &a.Order
	o.Theme = paint.PaletteNamed(e.theme.Selected).Theme
	o.W, o.Scale = firstNumber(e.width.Selected), firstNumber(e.scale.Selected)
	o.H = max(sheet.MinH+60, o.W*stripShape)
	o.Clear, o.Stage, o.Chapters = e.clear.Checked, e.stage.Checked, e.chapters.Checked
	o.Exercise = e.exercise.Checked
	o.Page = []sheet.Page{sheet.A4, sheet.Letter, sheet.Phone}[max(0, e.paper.SelectedIndex())]
	if e.against.Selected == shownReply && a.chosen && !a.kind.listed() {
		o.Rise, o.Line = m.Shown()
	}
	target := targetOf(e, a.kind, a.format)
	if target.Lesson {
		o.Neighbours = int(firstNumber(e.each.Selected))
	}
	o.Shape = sheet.VideoShapeNamed(target.Shape)
	o.Stage = o.Stage && target.Takes(output.SideView) == nil
	o.Hold = int(math.Round(100 * firstNumber(e.hold.Selected)))
	if target.Play {
		o.Slow = int(firstNumber(e.slow.Selected))
	}
	page.Source(m, o)
	return a
}

// targetOf is what the form asks for, of a kind in one format.
func targetOf(e *Page, k *kind, format string) output.Target {
	t := k.target(format, e.draws.Selected == draws[1])
	if k.of == output.Film {
		t = films(format)[e.motion.Selected]
	}
	if t.Takes(output.Shape) == nil {
		t.Shape = shapeName(e.shape.Selected)
	}
	return t
}

// shapeName is the name of a shape that is chosen, empty for any.
func shapeName(chosen string) string {
	if chosen == shapes[0] {
		return ""
	}
	name, _, _ := strings.Cut(chosen, " ")
	return strings.ToLower(name)
}

// stripShape is how high a strip is to its width.
const stripShape = 0.4375

// Open shows the page for one kind of thing, the empty one for that which was
// exported last. The window shows it already.
func (e *Page) Open(kind string) {
	if kind != "" {
		e.kind.SetSelected(kind)
	}
	e.again()
	e.Refocus()
}

// OpenLesson shows it for the lesson that is taught: of an exchange, with so
// many neighbours each way.
func (e *Page) OpenLesson(rise, line, neighbours int) {
	e.kind.SetSelected(Lesson)
	e.each.SetSelectedIndex(neighbours - 1)
	e.against.SetSelected(decidingReply)
	if m := e.host.Model(); line != words.Breaking {
		if r, k := m.Shown(); m.Follows() || r != rise || k != line {
			m.Show(rise, line)
		}
		e.against.SetSelected(shownReply)
	}
	e.Open(Lesson)
}

// OpenShown shows it for what another page shows.
func (e *Page) OpenShown(shown *page.Shown) {
	e.shown = shown
	e.Open(KindOf(shown))
}

// again offers what fits the choices, and makes it anew for the preview.
func (e *Page) again() {
	if e.quiet || !e.host.Showing(e) {
		return
	}
	e.fit()
	e.offer()
	e.make()
}

// make makes what is asked for behind the window, and shows it.
func (e *Page) make() {
	e.halt()
	a := e.order()
	ctx, cancel := context.WithCancel(e.host.Context())
	e.cancel, e.last = cancel, a
	turn := e.turn
	e.write.Disable()
	e.preview.busy()
	e.host.Run(func() {
		var made *output.Made
		err := guard.Try("The preview", func() (err error) {
			made, err = a.kind.make(a, ctx)
			return err
		})
		e.host.Later(func() {
			if cancel(); turn != e.turn || !e.host.Showing(e) {
				return
			}
			if err != nil {
				e.preview.fail(err)
				return
			}
			e.write.Enable()
			e.preview.show(made, e.about(a, made))
			e.sayPath()
		})
	})
}

// halt gives up what is being made.
func (e *Page) halt() {
	e.turn++
	if e.cancel != nil {
		e.cancel()
	}
}

// Picture is what the preview shows, where it can be copied.
func (e *Page) Picture() *output.Made {
	if m := e.preview.made; m != nil && m.Format == "png" {
		return m
	}
	if m := e.preview.made; m != nil && len(m.Sheets) > 0 {
		return page.Picture(m.Sheets[e.preview.at])
	}
	return nil
}

// Text is what the preview says.
func (e *Page) Text() string {
	if m := e.preview.made; m != nil && m.Format != "html" {
		return m.Text
	}
	return ""
}

func (e *Page) Note(text string)           { e.say.SetText(text) }
func (e *Page) Content() fyne.CanvasObject { return e.box }
func (e *Page) Edits() bool                { return false }
func (e *Page) Recolour()                  { e.preview.again() }
func (e *Page) Refocus()                   { e.host.Canvas().Focus(e.kind) }

// Changed makes anew what another window has changed.
func (e *Page) Changed(c model.Change) {
	if c&(page.AnySetup|model.ChoiceChanged) != 0 {
		e.shown = nil
		e.again()
	}
}
