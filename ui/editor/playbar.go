package editor

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

var (
	_ fyne.Focusable     = (*PlayBar)(nil)
	_ fyne.Tappable      = (*PlayBar)(nil)
	_ desktop.Cursorable = (*PlayBar)(nil)
)

// PlayBar is the strip under the sheet: what plays it and how quick, and the
// scrub line's frame in words. Like the words of the verdict it grows with its
// text, but shrinks only when the line goes, or with another width or setup.
type PlayBar struct {
	paint.Keyed
	paint.Pointed

	OnHeight func() // when it needs another height
	OnHint   func(string)
	OnKey    func(ev *fyne.KeyEvent) // a key that does nothing here

	player  *Player
	wrapper paint.Wrapper

	Lines []string
	Said  string // that lines are of
	high  float32
	width float32 // that high is for
	setup int     // that high is for
	shown bool    // the line, that high is for
	hover int     // the control under the pointer, -1: none
}

// The measures of the strip, in units.
const (
	playRow   = 22
	playPad   = 10
	PlayLine  = 16 // of the words
	playLines = 6  // the most of them
	playFirst = 0  // the first control, play or pause; the speeds follow

	playFirstWide = 112
)

func NewPlayBar(p *Player) *PlayBar {
	b := &PlayBar{player: p, wrapper: paint.Wrapper{Size: paint.CaptionSize}, hover: -1}
	b.Extend(b, b.paint, b.MinSize)
	b.OnPointer("The player", func(at fyne.Position) { b.setHover(b.at(at)) }, func() { b.setHover(-1) })
	return b
}

// Say shows the words of the line's frame, where they are others.
func (b *PlayBar) Say() {
	if b.player.scrub.Words() != b.Said || b.player.scrub.sheet.model.Chosen() != b.setup {
		b.Refresh()
	}
}

// MinSize is the height that the words need at the present width.
func (b *PlayBar) MinSize() fyne.Size {
	b.ExtendBaseWidget(b)
	return fyne.NewSize(360, max(b.high, playRow))
}

// playHints say how to read a frame; the first that fits is shown.
var playHints = [...]string{
	"Click the ruler, or press the comma or period key, to read one frame in words.",
	"Click the ruler to read one frame in words.",
	"Click the ruler to read a frame.",
	"",
}

func (b *PlayBar) paint(p *paint.Pen, size fyne.Size) {
	b.Said = b.player.scrub.Words()
	words, role := b.Said, sheet.Ink
	if words == "" {
		role = sheet.Soft
	}
	left := b.wide() + playPad
	room := size.Width - left - playPad
	if role == sheet.Soft {
		for _, words = range playHints {
			if b.wrapper.WidthOf(words) <= room {
				break
			}
		}
	}
	b.Lines = b.wrapper.Wrap(b.Lines[:0], words, room)
	if len(b.Lines) > playLines {
		b.Lines[playLines-1] = b.wrapper.Fit(b.Lines[playLines-1]+" "+b.Lines[playLines], room)
		b.Lines = b.Lines[:playLines]
	}
	before := b.high
	if c, on := b.player.scrub.sheet.model.Chosen(), b.Said != ""; c != b.setup || size.Width != b.width || on != b.shown {
		b.setup, b.width, b.shown, b.high = c, size.Width, on, playRow
	}
	b.high = max(b.high, float32(len(b.Lines)*PlayLine+6))
	for i, l := range b.Lines {
		t := paint.ColumnText(l, left, float32(i*PlayLine)+15, role)
		t.Size = paint.CaptionSize
		p.Text(&t)
	}
	b.controls(p)
	if b.high != before && b.OnHeight != nil {
		b.OnHeight()
	}
}

// span is where control i lies along the strip.
func (b *PlayBar) span(i int) (from, to float32) {
	from, to = playPad-4, playPad-4+playFirstWide
	for k := 1; k <= i; k++ {
		from, to = to, to+b.wrapper.WidthOf(speeds[k-1].name)+12
	}
	return from, to
}

// wide is the room of all controls.
func (b *PlayBar) wide() float32 {
	_, to := b.span(len(speeds))
	return to
}

func (b *PlayBar) controls(p *paint.Pen) {
	ink := paint.Colours().Ink[sheet.Ink]
	write := func(s string, x, base float32, role sheet.Role) {
		p.Text(&sheet.Text{At: sheet.Point{X: float64(x), Y: float64(base)}, Str: s, Size: paint.CaptionSize, Role: role})
	}
	for i := 0; i <= len(speeds); i++ {
		x0, x1 := b.span(i)
		y0, y1 := float32(1), float32(playRow-1)
		if i == b.hover {
			p.Rect(p.Px(float64(x0)), p.Px(float64(y0)), p.Px(float64(x1)), p.Px(float64(y1)), paint.Colours().Blend(sheet.Ink, 0.08), nil, 0)
		}
		if i == playFirst {
			word := "Play"
			x, y := float64(x0)+5, float64(y0)+5
			if b.player.Playing() {
				word = "Pause"
				p.Rect(p.Px(x), p.Px(y), p.Px(x+3), p.Px(y+10), ink, nil, 0)
				p.Rect(p.Px(x+6), p.Px(y), p.Px(x+9), p.Px(y+10), ink, nil, 0)
			} else {
				p.Path(&sheet.Path{Points: []sheet.Point{{X: x, Y: y}, {X: x + 10, Y: y + 5}, {X: x, Y: y + 10}}, Closed: true, Fill: sheet.Ink})
			}
			write(word+" (Space)", x0+21, y0+14, sheet.Ink)
			continue
		}
		role, chosen := sheet.Soft, speeds[i-1].slow == b.player.Slow
		if chosen {
			role = sheet.Ink
			p.Rect(p.Px(float64(x0+6)), p.Px(float64(y1-2)), p.Px(float64(x1-6)), p.Px(float64(y1)), ink, nil, 0)
		}
		write(speeds[i-1].name, x0+6, y0+14, role)
	}
	if b.Focused {
		p.Rect(p.Px(2), p.Px(0), p.Px(float64(b.wide())+2), p.Px(playRow), nil, ink, p.Thick(1))
	}
}

// at is the control at a place, -1 where there is none.
func (b *PlayBar) at(pos fyne.Position) int {
	for i := 0; i <= len(speeds); i++ {
		if x0, x1 := b.span(i); pos.X >= x0 && pos.X < x1 && pos.Y >= 0 && pos.Y < playRow {
			return i
		}
	}
	return -1
}

// Tapped plays, pauses, or takes a speed.
func (b *PlayBar) Tapped(ev *fyne.PointEvent) {
	defer paint.Survive("The player")
	switch i := b.at(ev.Position); {
	case i == playFirst:
		b.player.Toggle()
	case i > 0:
		b.player.SetSpeed(speeds[i-1].slow)
	}
}

func (b *PlayBar) setHover(i int) {
	if i == b.hover {
		return
	}
	b.hover = i
	b.Refresh()
	hint := ""
	switch {
	case i == playFirst:
		hint = "Play the scene from the line on, or pause it (Space)"
	case i > 0:
		hint = "How fast the scene is played, of the game's own speed (Ctrl+Space takes the next)"
	}
	if b.OnHint != nil {
		b.OnHint(hint)
	}
}

// TypedKey plays, pauses, or takes another speed.
func (b *PlayBar) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The player")
	at := b.player.speed(b.player.Slow)
	switch ev.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		b.player.Toggle()
	case fyne.KeyLeft:
		b.player.SetSpeed(speeds[max(at-1, 0)].slow)
	case fyne.KeyRight:
		b.player.SetSpeed(speeds[min(at+1, len(speeds)-1)].slow)
	default:
		if b.OnKey != nil {
			b.OnKey(ev)
		}
	}
}

// Cursor implements desktop.Cursorable.
func (b *PlayBar) Cursor() desktop.Cursor {
	if b.hover >= 0 {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}
