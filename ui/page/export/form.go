package export

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/model"
	"wakeline/ui/output"
)

// formWidth is the width of the form, labelWidth that of its
// labels.
const (
	formWidth  = 364
	labelWidth = 132
)

// row is one row of the form: a control with its label, and why it can't
// be used.
type row struct {
	box     *fyne.Container
	control fyne.Disableable
	why     *widget.Label
	below   *fyne.Container // that holds why
}

// layRows makes the form of its controls.
func (e *Page) layRows() {
	e.form = container.NewVBox()
	row := func(words string, control interface {
		fyne.CanvasObject
		fyne.Disableable
	}) {
		label := widget.NewLabel(words)
		label.Importance = widget.LowImportance
		why := widget.NewLabel("")
		why.Importance, why.SizeName, why.Truncation = widget.LowImportance, theme.SizeNameCaptionText, fyne.TextTruncateEllipsis
		var line fyne.CanvasObject
		switch fyne.CanvasObject(control) {
		case e.times, e.names: // they take the whole width
			label.Wrapping = fyne.TextWrapWord
			line = container.NewVBox(label, control)
		default:
			line = container.NewBorder(nil, nil, container.NewGridWrap(fyne.NewSize(labelWidth, 30), label), nil, control)
		}
		under := container.NewBorder(nil, nil, container.NewGridWrap(fyne.NewSize(labelWidth, 1), layout.NewSpacer()), nil, why)
		under.Hide()
		r := &row{container.NewVBox(line, under), control, why, under}
		e.rows[control] = r
		e.form.Add(r.box)
	}
	row("What", e.kind)
	row("Format", e.format)
	row("Reply shown", e.against)
	row("Draw as", e.draws)
	row("Moving picture", e.motion)
	row("Steps before/after", e.each)
	row("Theme", e.theme)
	row("Shape", e.shape)
	row("Width", e.width)
	row("Scale", e.scale)
	row("Paper", e.paper)
	row("Time per delay", e.hold)
	row("Speed", e.slow)
	row("", e.clear)
	row("", e.stage)
	row("", e.mixed)
	row("", e.exercise)
	row("", e.all)
	row("File names: {n} {setup} {attacker} {rival} {ender} {delay}", e.names)
	row("Setup, from, to: when the recording speaks of each setup, in seconds or 1:15.5", e.times)
	row("", e.chapters)
}

// offer shows the row where shown says so, and greys it out with the reason
// where there is one.
func (r *row) offer(shown bool, reason error) {
	if !shown {
		r.box.Hide()
		return
	}
	r.box.Show()
	if reason == nil {
		r.control.Enable()
		r.below.Hide()
		return
	}
	r.control.Disable()
	r.why.SetText(model.Sentence(reason.Error()))
	r.below.Show()
}

// fit shows the rows that mean something for what is chosen, and greys out
// those that the chosen format has no use for.
func (e *Page) fit() {
	e.quiet = true
	defer func() { e.quiet = false }()
	k := kindNamed(e.kind.Selected)
	format, formats := e.host.Preferences().String("export.format."+k.name), k.formats
	if k.of == output.Film && e.motion.Selected == LessonFilm { // a GIF has no lesson
		formats = slices.Concat(output.FilmFormats, output.SpokenFormats)
	}
	if e.format.SetOptions(formats); !slices.Contains(formats, format) {
		format = formats[0]
	}
	e.format.SetSelected(format)

	target := targetOf(e, k, format)
	e.rows[e.format].offer(len(k.formats) > 1, nil)
	e.rows[e.draws].offer(k.either() && k.mayTake(output.Neighbours), k.target(format, true).Takes(output.Neighbours))
	e.rows[e.motion].offer(k.of == output.Film, nil)
	e.rows[e.times].offer(k.of == output.Captions, nil)
	for control, option := range map[fyne.CanvasObject]output.Option{
		e.against: output.Exchange, e.each: output.Neighbours, e.theme: output.ThemeOption, e.shape: output.Shape, e.width: output.Width,
		e.scale: output.Scale, e.paper: output.Paper, e.hold: output.Hold, e.slow: output.Speed, e.clear: output.Transparent, e.stage: output.SideView, e.mixed: output.WithMix, e.exercise: output.AsExercise,
		e.all: output.EveryReply, e.names: output.FileNames, e.chapters: output.ChapterTitles,
	} {
		e.rows[control].offer(k.mayTake(option), target.Takes(option))
	}
	e.form.Refresh()
}
