package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var _ fyne.Widget = (*Welcome)(nil)

// Welcome leads to the first drag: three sentences under the sample, each
// ticked when it is done. It stands under everything that answers a drag.
type Welcome struct {
	widget.BaseWidget

	OnDone func() // it was closed, or all of it was done

	model   *model.Model
	wrapper paint.Wrapper
	setup   string // where it began
	delay   int
	word    timeline.Word
	Done    [len(welcomeSteps)]bool
	lines   [len(welcomeSteps)][]string
	wrapped float32 // the width that lines are for
	Close   *paint.WordButton
	Body    *welcomeBody
	ground  *canvas.Rectangle
	box     *fyne.Container
}

// The sentences; a drag makes the first true, and so on.
var welcomeSteps = [...]string{
	"Drag the delay on the sheet to the right, or press Right, until the verdict changes.",
	"Click the reply below that has the break mark, and see where it meets you.",
	"Undo with Ctrl+Z until the setup is as it was.",
}

const welcomeEnd = "That is all it takes. Close this, and look at the other setups."

const (
	welcomePad  = 10
	welcomeLine = 17
	welcomeTick = 20
)

// NewWelcome returns the strip for m, hidden.
func NewWelcome(m *model.Model) *Welcome {
	w := &Welcome{model: m, wrapper: paint.Wrapper{Size: paint.TextSize}}
	w.Close = paint.NewWordButton("close", func() { w.OnDone() })
	w.Body = &welcomeBody{w: w}
	w.Body.Extend(w.Body, w.Body.paint, func() fyne.Size { return fyne.NewSize(100, 20) })
	w.ground = canvas.NewRectangle(paint.Colours().Blend(sheet.Ink, 0.05))
	w.box = container.NewStack(w.ground, container.NewBorder(nil, nil, nil, container.NewPadded(container.NewVBox(w.Close)), w.Body))
	w.ExtendBaseWidget(w)
	w.Hide()
	return w
}

// CreateRenderer implements fyne.Widget.
func (w *Welcome) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(w.box) }

// Recolour draws in the colours of the theme that is shown.
func (w *Welcome) Recolour() {
	w.ground.FillColor = paint.Colours().Blend(sheet.Ink, 0.05)
	w.Refresh()
}

// Begin shows the strip for the setup on screen.
func (w *Welcome) Begin() {
	s := w.model.Setup()
	w.setup, w.delay, w.word = s.Name, s.Delay, w.model.Verdict().Word
	w.Done = [len(welcomeSteps)]bool{}
	w.Show()
}

// Changed ticks what has been done.
func (w *Welcome) Changed(c model.Change) {
	if !w.Visible() || w.model.Plan() == nil {
		return
	}
	before := w.Done
	s := w.model.Setup()
	if s.Name == w.setup {
		switch {
		case w.model.Verdict().Word != w.word:
			w.Done[0] = true
		case w.Done[0] && s.Delay == w.delay:
			w.Done[2] = true
		}
	}
	rise, line := w.model.Shown()
	if c&model.ShownChanged != 0 && !w.model.Follows() && w.model.Mark(rise, line) == timeline.JudgedUnsafe {
		w.Done[1] = true
	}
	if w.Done != before {
		w.Body.Refresh()
	}
}

// All reports whether everything has been done.
func (w *Welcome) All() bool { return w.Done[0] && w.Done[1] && w.Done[2] }

// column is the room of a sentence.
func (w *Welcome) column(width float32) float32 {
	return (width - w.Close.MinSize().Width - 2*welcomePad) / float32(len(welcomeSteps))
}

// wrap breaks the sentences for a width.
func (w *Welcome) wrap(width float32) {
	if width == w.wrapped {
		return
	}
	w.wrapped = width
	for i, s := range welcomeSteps {
		w.lines[i] = w.wrapper.Wrap(w.lines[i][:0], s, w.column(width)-welcomeTick-2*welcomePad)
	}
}

// High is the height that the strip needs in a width.
func (w *Welcome) High(width float32) float32 {
	w.wrap(width)
	most := 0
	for i := range w.lines {
		most = max(most, len(w.lines[i]))
	}
	return float32(most)*welcomeLine + 2*welcomePad
}

// welcomeBody draws the sentences beside each other.
type welcomeBody struct {
	paint.Painted
	w *Welcome
}

func (b *welcomeBody) paint(p *paint.Pen, size fyne.Size) {
	w := b.w
	p.Line(&sheet.Line{To: sheet.Point{X: float64(size.Width)}, Stroke: sheet.Rule, Width: 1})
	if w.All() {
		t := paint.ColumnText(welcomeEnd, welcomePad+welcomeTick, welcomePad+13, sheet.Ink)
		p.Text(&t)
		return
	}
	w.wrap(w.Size().Width) // another width may have been asked for its height
	wide := w.column(w.wrapped)
	for i, lines := range w.lines {
		x := float32(i)*wide + welcomePad
		role := sheet.Ink
		box := sheet.Box{Min: sheet.Point{X: float64(x), Y: welcomePad + 2}, Max: sheet.Point{X: float64(x) + 12, Y: welcomePad + 14}, Stroke: sheet.Soft, Width: 1}
		p.Box(&box)
		if w.Done[i] {
			role = sheet.Soft
			p.Path(&sheet.Path{Points: []sheet.Point{{X: float64(x) + 2, Y: welcomePad + 8}, {X: float64(x) + 5, Y: welcomePad + 12}, {X: float64(x) + 11, Y: welcomePad + 1}}, Stroke: sheet.Ink, Width: 1.8})
		}
		for k, line := range lines {
			t := paint.ColumnText(line, x+welcomeTick, welcomePad+13+float32(k)*welcomeLine, role)
			p.Text(&t)
		}
	}
}
