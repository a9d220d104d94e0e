package panel

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/ui/editor"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var _ fyne.Widget = (*Shelf)(nil)

// Shelf is the list of blocks that the chosen setup can be built of, with a
// field that filters it. A block is dragged onto the sheet, or put where it
// belongs by Enter or a double click.
type Shelf struct {
	widget.BaseWidget

	OnHint func(string) // what the block under the pointer is
	OnDone func()       // when the keys are to go back to the sheet

	model   *model.Model
	wrapper paint.Wrapper
	sheet   *editor.Timeline

	lines []model.ShelfLine
	of    [3]string // the attacker, rival and place that they are for
	Shown []int     // lines that pass the filter
	at    int       // of shown: the one chosen, -1: none

	Field *shelfEntry
	count *canvas.Text
	List  *shelfList
	Box   *fyne.Container
	drag  *shelfDrag
	Slip  *shelfSlip // lies over the window
}

// shelfDrag is a block in the hand.
type shelfDrag struct {
	block model.Block
	at    fyne.Position // the pointer, in the window
	over  bool          // taken back
}

// NewShelf returns the shelf of m's chosen setup, for that sheet.
func NewShelf(m *model.Model, t *editor.Timeline) *Shelf {
	s := &Shelf{model: m, wrapper: paint.Wrapper{Size: paint.TextSize}, sheet: t, at: -1}
	s.Field = &shelfEntry{s: s}
	s.Field.ExtendBaseWidget(s.Field)
	s.Field.SetPlaceHolder("Find a block")
	s.Field.OnChanged = paint.GuardedOf("The blocks", func(string) { s.Filter() })
	s.Field.OnSubmitted = paint.GuardedOf("The blocks", func(string) { s.Put() })
	s.count = canvas.NewText("", paint.Colours().Ink[sheet.Soft])
	s.count.TextSize = paint.CaptionSize
	s.List = &shelfList{s: s}
	s.List.ExtendBaseWidget(s.List)
	s.List.OnRows = func() { s.List.Rows = nil }
	s.List.HideSeparators = true
	s.List.Fill("The blocks", func() int { return len(s.Shown) }, func() fyne.CanvasObject { return newShelfRow(s) }, paint.SetRow)
	s.List.OnSelected = paint.GuardedOf("The blocks", func(i widget.ListItemID) { s.Choose(i) })
	s.Slip = newShelfSlip(s)
	head := container.NewBorder(nil, container.NewPadded(s.count), nil, nil, s.Field)
	s.Box = container.NewBorder(container.NewPadded(head), nil, nil, nil, s.List)
	s.ExtendBaseWidget(s)
	s.Update()
	return s
}

// CreateRenderer implements fyne.Widget.
func (s *Shelf) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(s.Box) }

// MinSize leaves room for a name.
func (s *Shelf) MinSize() fyne.Size { return fyne.NewSize(200, 160) }

// Recolour draws in the colours of the theme that is shown.
func (s *Shelf) Recolour() {
	s.count.Color = paint.Colours().Ink[sheet.Soft]
	s.Refresh()
}

// Changed shows what has changed in the model.
func (s *Shelf) Changed(c model.Change) {
	if c&model.ProjectChanged != 0 && s.Field.Text != "" {
		s.Field.SetText("")
	}
	if c&(model.DataChanged|model.ProjectChanged) != 0 {
		s.lines = nil
	}
	if c&(model.DataChanged|model.ProjectChanged|model.ChoiceChanged|model.SetupChanged) != 0 {
		s.Update()
	}
}

// Update shows the blocks of the chosen setup's fighters, and which of them
// it uses.
func (s *Shelf) Update() {
	setup := s.model.Setup()
	of := [3]string{setup.Attacker, setup.Rival, string(setup.Position)}
	if of != s.of || s.lines == nil {
		s.of = of
		s.lines = nil
		if s.model.Chosen() >= 0 {
			s.lines = model.ShelfLines(s.model.Data(), &setup)
		}
		s.Filter()
		return
	}
	for _, r := range s.List.Rows {
		if l := r.Line(); l != nil && l.Block.Uses(&setup) != r.used {
			r.Refresh()
		}
	}
}

// Filter shows the blocks that have every typed word.
func (s *Shelf) Filter() {
	s.Shown = model.Matching(s.lines, strings.Fields(s.Field.Text))
	n := 0
	for _, i := range s.Shown {
		if s.lines[i].Head == "" {
			n++
		}
	}
	s.count.Text = model.CountOf(n, "block")
	if s.model.Chosen() < 0 {
		s.count.Text = "no setup selected"
	}
	s.count.Refresh()
	s.at = -1
	s.List.UnselectAll()
	s.List.Refresh()
	s.List.ScrollToTop()
	if s.Field.Text != "" {
		s.Choose(s.first())
	}
}

// first is the place of the block that Enter takes while none is chosen: the
// first shown, but a setup without a jump takes a jump as that, and not as a
// filler. It is -1 where no block is shown.
func (s *Shelf) first() int {
	first, jumps := -1, s.model.Setup().Jump == ""
	for i := range s.Shown {
		l := s.Line(i)
		switch {
		case l.Head != "":
		case first < 0:
			first = i
		case jumps && l.Block.As == model.AsJump && l.Block.Name == s.Line(first).Block.Name && s.Line(first).Block.As == model.AsFiller:
			return i
		}
	}
	return first
}

// Line is the line shown at place i.
func (s *Shelf) Line(i int) *model.ShelfLine { return &s.lines[s.Shown[i]] }

// Choose chooses the block at place i; a head can't be.
func (s *Shelf) Choose(i int) {
	if i < 0 || i >= len(s.Shown) || s.Line(i).Head != "" || i == s.at {
		return
	}
	s.at = i
	s.List.Select(i)
	s.hint(i)
}

// Step chooses the block n further on, past the heads.
func (s *Shelf) Step(n int) {
	way := 1
	if n < 0 {
		way = -1
	}
	to, last := s.at, -1
	for n != 0 {
		if to += way; to < 0 || to >= len(s.Shown) {
			break
		}
		if s.Line(to).Head == "" {
			last = to
			n -= way
		}
	}
	s.Choose(last)
}

// Put puts the chosen block where it belongs. It reports whether it could.
func (s *Shelf) Put() bool {
	return s.at >= 0 && s.at < len(s.Shown) && s.sheet.Put(&s.Line(s.at).Block)
}

// overwrite has what is typed next take the place of the words in the field.
func (s *Shelf) overwrite() {
	if s.Field.Text != "" {
		s.Field.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// hint says what the block at place i is, and how it is used.
func (s *Shelf) hint(i int) {
	if s.OnHint == nil {
		return
	}
	l := s.Line(i)
	said := l.Block.Title()
	if l.About != "" {
		said += ": " + l.About
	}
	if l.Block.As == model.AsEnder && l.Block.Frames.Given {
		said += fmt.Sprintf("; knockdown advantage %d at %s", l.Block.Frames.N, placeWords(s.model.Setup().Position))
	}
	s.OnHint(said + ". Drag it onto the sheet, or press Enter.")
}

func placeWords(p timeline.Position) string {
	if p == timeline.Wall {
		return "the wall"
	}
	return "midscreen"
}

// Dragging shows what becomes of b with the pointer at pos of the window.
func (s *Shelf) Dragging(b *model.Block, pos fyne.Position) {
	if s.drag == nil {
		s.drag = &shelfDrag{block: *b}
	}
	if s.drag.over {
		return
	}
	s.drag.at = pos
	if on, ok := s.onSheet(s.drag); ok {
		s.sheet.DragOver(&s.drag.block, on)
	} else {
		s.sheet.DragOut()
	}
	s.Slip.Refresh()
}

// Dropped lets go of the block in the hand.
func (s *Shelf) Dropped() {
	d := s.drag
	s.drag = nil
	s.Slip.Refresh()
	if d == nil || d.over {
		return
	}
	if on, ok := s.onSheet(d); !ok {
		s.sheet.DragOut()
	} else if s.sheet.Drop(&d.block, on) && s.OnDone != nil {
		s.OnDone()
	}
}

// onSheet is where on the sheet the pointer is; ok is false where it is not.
func (s *Shelf) onSheet(d *shelfDrag) (fyne.Position, bool) {
	on := d.at.Subtract(fyne.CurrentApp().Driver().AbsolutePositionForObject(s.sheet))
	size := s.sheet.Size()
	return on, s.sheet.Drawing() != nil && on.X >= 0 && on.Y >= 0 && on.X < size.Width && on.Y < size.Height
}

// takeBack gives up a running drag. It reports whether there was one.
func (s *Shelf) takeBack() bool {
	if s.drag == nil || s.drag.over {
		return false
	}
	s.drag.over = true
	s.sheet.DragOut()
	s.Slip.Refresh()
	return true
}

// key does what a key does in the field and in the list alike. It reports
// whether it did.
func (s *Shelf) key(name fyne.KeyName) bool {
	defer paint.Survive("The shelf")
	switch name {
	case fyne.KeyDown:
		s.Step(1)
	case fyne.KeyUp:
		s.Step(-1)
	case fyne.KeyPageDown:
		s.Step(10)
	case fyne.KeyPageUp:
		s.Step(-10)
	case fyne.KeyReturn, fyne.KeyEnter:
		if s.Put() {
			s.overwrite()
		}
	case fyne.KeyEscape:
		switch {
		case s.takeBack():
		case s.Field.Text != "":
			s.Field.SetText("")
		case s.OnDone != nil:
			s.OnDone()
		}
	default:
		return false
	}
	return true
}

// shelfEntry is the field.
type shelfEntry struct {
	widget.Entry
	s *Shelf
}

// TypedKey implements fyne.Focusable.
func (e *shelfEntry) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The blocks")
	if !e.s.key(ev.Name) {
		e.Entry.TypedKey(ev)
	}
}

// shelfList is the list; letters typed in it go to the field.
type shelfList struct {
	paint.RowList
	s    *Shelf
	Rows paint.FilledRows[*ShelfRow]
	keys bool // it has them
}

// FocusGained shows where the keys are on the chosen block.
func (l *shelfList) FocusGained() {
	defer paint.Survive("The blocks")
	l.focus(true)
}

// FocusLost implements fyne.Focusable.
func (l *shelfList) FocusLost() {
	defer paint.Survive("The blocks")
	l.focus(false)
}

func (l *shelfList) focus(on bool) {
	if l.keys = on; on && l.s.at < 0 {
		l.s.Step(1)
	}
	for _, r := range l.Rows {
		r.Refresh()
	}
}

// TypedKey implements fyne.Focusable.
func (l *shelfList) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The blocks")
	if ev.Name == fyne.KeySpace {
		l.s.Put()
	} else if !l.s.key(ev.Name) {
		l.List.TypedKey(ev)
	}
}

// TypedRune implements fyne.Focusable.
func (l *shelfList) TypedRune(r rune) {
	defer paint.Survive("The blocks")
	if c := fyne.CurrentApp().Driver().CanvasForObject(l); c != nil && r != ' ' && r != '/' {
		c.Focus(l.s.Field)
		l.s.Field.TypedRune(r)
	}
}

// Seek gives the keys to the filter, whose words the next ones replace.
func (s *Shelf) Seek() {
	paint.FocusOn(s.Field)
	s.overwrite()
}
