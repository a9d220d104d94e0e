package ui

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
	"wakeline/ui/page/lesson"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var _ page.Page = (*exportPage)(nil)

// The choices of the form. The first word of a choice is its number, where it
// has one.
var (
	exportThemes     = []string{paint.PaperName, paint.NightName}
	exportWidths     = []string{"480 (a phone)", "640", "960", "1280", "1920"}
	exportScales     = []string{"1", "2", "3", "4"}
	exportPages      = []string{"A4", "Letter"}
	exportHolds      = []string{"0.4 s", "0.8 s", "1.5 s", "3 s"}
	exportSlows      = []string{"1 (as in the game)", "2 times slower", "4 times slower", "10 times slower", "20 times slower"}
	exportNeighbours = []string{"1", "2", "3"}
	exportDraws      = []string{"Strips", "Lessons"}
	exportAgainst    = []string{decidingReply, shownReply}
)

const (
	decidingReply = "Deciding reply"
	shownReply    = "Reply on the sheet"
)

// exportPage is where the user chooses what to export and how, and sees it
// before it is written.
type exportPage struct {
	w *window

	kind, format                                                 *paint.Pick
	against, each, draws, theme, width, scale, paper, hold, slow *paint.Pick
	clear, stage, all, chapters                                  *paint.PageTick
	names, times                                                 *paint.PageEntry
	rows                                                         map[fyne.CanvasObject]*exportRow
	form                                                         *fyne.Container
	preview                                                      *exportPreview
	path                                                         *paint.PageEntry
	say                                                          *widget.Label
	write                                                        *paint.PushButton
	box                                                          fyne.CanvasObject

	offered string // the path as it was offered last
	turn    int    // of the making that counts
	cancel  context.CancelFunc
	last    *order // that was made last, or is being made
	quiet   bool   // the controls are set by the program
}

// showExport shows the page with the kind that was exported last.
func (w *window) showExport() {
	kind := ""
	if l, ok := w.page.(*lesson.Page); ok {
		if _, _, _, ok := l.Taught(); ok {
			kind = exportLesson
		}
	}
	w.showExportOf(kind)
}

// showExportOf shows the page for one kind of thing.
func (w *window) showExportOf(kind string) {
	e := newExportPage(w)
	taught, _ := w.page.(*lesson.Page)
	w.showPage(e)
	if kind != "" {
		e.kind.SetSelected(kind)
	}
	if taught != nil && kind == exportLesson {
		rise, line, each, _ := taught.Taught()
		e.each.SetSelectedIndex(each - 1)
		e.against.SetSelected(decidingReply)
		if line != words.Breaking {
			if r, k := w.model.Shown(); w.model.Follows() || r != rise || k != line {
				w.model.Show(rise, line)
			}
			e.against.SetSelected(shownReply)
		}
	}
	e.again()
	e.Refocus()
}

func newExportPage(w *window) *exportPage {
	e := &exportPage{w: w, rows: map[fyne.CanvasObject]*exportRow{}}
	choose := func(options []string, pref, first string) *paint.Pick {
		s := paint.NewPick(w, options, nil)
		s.Selected = w.Preferences().StringWithFallback(pref, first)
		if !slices.Contains(options, s.Selected) {
			s.Selected = first
		}
		s.OnChanged = func(to string) {
			defer paint.Survive("The export")
			w.Preferences().SetString(pref, to)
			e.again()
		}
		return s
	}
	tick := func(words, pref string) *paint.PageTick {
		c := paint.NewPageTick(w, words, nil)
		c.Checked = w.Preferences().Bool(pref)
		c.OnChanged = func(on bool) {
			defer paint.Survive("The export")
			w.Preferences().SetBool(pref, on)
			e.again()
		}
		return c
	}
	e.kind = choose(exportNames(), "export.kind", exportStrip)
	e.format = paint.NewPick(w, nil, func(to string) {
		if !e.quiet {
			w.Preferences().SetString("export.format."+e.kind.Selected, to)
			e.again()
		}
	})
	e.against = choose(exportAgainst, "export.against", decidingReply)
	e.each = choose(exportNeighbours, "export.neighbours", exportNeighbours[0])
	e.draws = choose(exportDraws, "export.draws", exportDraws[0])
	e.theme = choose(exportThemes, "export.theme", paint.Colours().Name)
	e.width = choose(exportWidths, "export.width", exportWidths[3])
	e.scale = choose(exportScales, "export.scale", exportScales[1])
	e.paper = choose(exportPages, "export.page", exportPages[0])
	e.hold = choose(exportHolds, "export.hold", exportHolds[1])
	e.slow = choose(exportSlows, "export.slow", exportSlows[3])
	e.clear = tick("Transparent background", "export.clear")
	e.stage = tick("Side view under each strip", "export.stage")
	e.all = tick("All replies of the rival", "export.all")
	e.chapters = tick("Chapters: setup names only", "export.chapters")
	e.names = paint.NewPageEntry(w)
	e.names.SetText(w.Preferences().StringWithFallback("export.names", string(output.DefaultPattern)))
	e.names.OnChanged = func(to string) {
		defer paint.Survive("The export")
		w.Preferences().SetString("export.names", to)
		e.again()
	}
	e.times = paint.NewPageEntry(w)
	e.times.MultiLine = true
	e.times.SetMinRowsVisible(8)
	e.times.SetText(w.firstTimes())
	e.times.OnChanged = paint.GuardedOf("The export", func(string) { e.again() })
	e.preview = newExportPreview(w)

	e.layRows()

	e.path = paint.NewPageEntry(w)
	e.path.OnChanged = paint.GuardedOf("The export", func(string) { e.sayPath() })
	e.path.OnSubmitted = paint.GuardedOf("The export", func(string) { e.ask() })
	e.say = widget.NewLabel("")
	e.say.Importance, e.say.Truncation = widget.LowImportance, fyne.TextTruncateEllipsis
	e.write = paint.NewPageButton(w, "Export", theme.DocumentSaveIcon(), e.ask)
	e.write.Importance = widget.HighImportance
	title := widget.NewLabel("Export")
	title.TextStyle.Bold = true
	top := container.NewVBox(container.NewPadded(container.NewHBox(title, layout.NewSpacer(),
		paint.NewPageButton(w, "Copy picture", nil, w.copyPicture), paint.NewPageButton(w, "Copy text", nil, w.copyText),
		paint.NewPageButton(w, "Close", theme.CancelIcon(), w.Close))), widget.NewSeparator())
	below := container.NewVBox(widget.NewSeparator(), container.NewPadded(container.NewVBox(
		container.NewBorder(nil, nil, widget.NewLabel("Save to"), container.NewHBox(paint.NewPageButton(w, "Folder…", nil, e.askFolder), e.write), e.path), e.say)))
	form := container.NewVScroll(container.NewPadded(e.form))
	left := container.NewHBox(container.New(paint.FixedWidth{Width: exportFormWidth}, form), widget.NewSeparator())
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
func (e *exportPage) order() *order {
	m := e.w.model
	a := &order{Order: output.Standard(), kind: kindNamed(e.kind.Selected), format: e.format.Selected}
	a.screen, a.setup, a.chosen, a.data = e.w.sheet.Drawing(), m.Setup(), m.Plan() != nil, m.Data()
	a.each, a.listed = m.Document().Each(), slices.Clone(e.w.setups.Shown)
	a.title = e.w.listTitle()
	a.all, a.chapters, a.times, a.names = e.all.Checked, e.chapters.Checked, e.times.Text, output.Pattern(e.names.Text)
	o := &a.Order
	o.Theme = paint.PaletteNamed(e.theme.Selected).Theme
	o.W, o.Scale = firstNumber(e.width.Selected), firstNumber(e.scale.Selected)
	o.H = max(sheet.MinH+60, o.W*stripShape)
	o.Clear, o.Stage = e.clear.Checked, e.stage.Checked
	if o.Page = sheet.A4; e.paper.Selected != exportPages[0] {
		o.Page = sheet.Letter
	}
	if e.against.Selected == shownReply && a.chosen && !a.kind.listed() {
		o.Rise, o.Line = m.Shown()
	}
	if a.kind.name == exportLesson || a.kind.listed() && e.draws.Selected == exportDraws[1] {
		o.Neighbours = int(firstNumber(e.each.Selected))
	}
	o.Hold = int(math.Round(100 * firstNumber(e.hold.Selected)))
	if a.kind.name == exportPlay {
		o.Slow = int(firstNumber(e.slow.Selected))
	}
	e.w.source(o)
	return a
}

// stripShape is how high a strip is to its width.
const stripShape = 0.4375

// again offers what fits the choices, and makes it anew for the preview.
func (e *exportPage) again() {
	if e.quiet || !e.w.Showing(e) {
		return
	}
	e.fit()
	e.offer()
	e.make()
}

// make makes what is asked for behind the window, and shows it.
func (e *exportPage) make() {
	e.halt()
	a := e.order()
	ctx, cancel := context.WithCancel(e.w.Context())
	e.cancel, e.last = cancel, a
	turn := e.turn
	e.write.Disable()
	e.preview.busy()
	e.w.Run(func() {
		var made *output.Made
		err := guard.Try("The preview", func() (err error) {
			made, err = a.kind.make(a, ctx)
			return err
		})
		e.w.Later(func() {
			if cancel(); turn != e.turn || !e.w.Showing(e) {
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
func (e *exportPage) halt() {
	e.turn++
	if e.cancel != nil {
		e.cancel()
	}
}

// Picture is what the preview shows, where it can be copied.
func (e *exportPage) Picture() *output.Made {
	if m := e.preview.made; m != nil && m.Format == "png" {
		return m
	}
	if m := e.preview.made; m != nil && len(m.Sheets) > 0 {
		return page.Picture(m.Sheets[e.preview.at])
	}
	return nil
}

// Text is what the preview says.
func (e *exportPage) Text() string {
	if m := e.preview.made; m != nil {
		return m.Text
	}
	return ""
}

func (e *exportPage) Note(text string)           { e.say.SetText(text) }
func (e *exportPage) Content() fyne.CanvasObject { return e.box }
func (e *exportPage) Edits() bool                { return false }
func (e *exportPage) Recolour()                  { e.preview.again() }
func (e *exportPage) Refocus()                   { e.w.Canvas().Focus(e.kind) }

// Changed makes anew what another window has changed.
func (e *exportPage) Changed(c model.Change) {
	if c&(model.ListChanged|model.DataChanged|model.SetupChanged|model.ChoiceChanged) != 0 {
		e.again()
	}
}
