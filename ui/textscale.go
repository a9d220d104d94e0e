package ui

import (
	"math"
	"os"
	"strconv"
	"time"

	"fyne.io/fyne/v2"

	"wakeline/storage/guard"
	"wakeline/ui/paint"
)

// prefText is the text size that was asked for, in percent; empty: as suits
// the window.
const prefText = "text.size"

// scaleEnv is the variable by which the toolkit takes a scale for everything
// in a window: letters, rows, icons and the sheet grow alike.
const scaleEnv = "FYNE_SCALE"

// sizeStep is a size of the text.
type sizeStep struct {
	percent int
	label   string
	from    fyne.Size // the window, in units at 100 %, that it suits from on
}

// sizeSteps are the sizes, the smallest first.
var sizeSteps = [...]sizeStep{
	{100, "Small (100 %)", fyne.Size{}},
	{120, "Medium (120 %)", fyne.NewSize(1700, 940)},
	{150, "Large (150 %)", fyne.NewSize(2200, 1200)},
}

// What a window must have left, in its own units, at a size that was asked
// for; and how much smaller than a step asks for it must be to fall back.
var leastUnits = fyne.NewSize(1000, 620)

const fallBack = 0.94

// textScale keeps the text at a size that suits the window, or at the one that
// was asked for.
type textScale struct {
	w       *window
	base    float32 // what the system's scale is multiplied by at 100 %
	percent int     // now
	turn    int     // of the window's sizes
	off     bool    // for tests: no size is followed
}

// newTextScale begins with the size for a window as it was left. It must be
// called before the window is shown.
func newTextScale(w *window) *textScale {
	s := &textScale{w: w, base: 1}
	if v, err := strconv.ParseFloat(os.Getenv(scaleEnv), 32); err == nil && v > 0 {
		s.base = float32(v)
	} else if v := w.app.Settings().Scale(); v > 0 {
		s.base = v
	}
	s.percent = stepFor(w.Preferences().String(prefText), w.rememberedSize(), sizeSteps[0].percent)
	s.tell()
	return s
}

// stepFor is the step for a window of that many units at 100 %, which is at
// another now: the one asked for, as far as it leaves the window room, and
// else the one that suits.
func stepFor(asked string, size fyne.Size, now int) int {
	want, err := strconv.Atoi(asked)
	out := sizeSteps[0].percent
	for _, s := range sizeSteps {
		share := float32(1)
		if s.percent <= now {
			share = fallBack
		}
		if err == nil {
			k := float32(s.percent) / 100
			if s.percent <= want && size.Width/k >= leastUnits.Width*share && size.Height/k >= leastUnits.Height*share {
				out = s.percent
			}
		} else if size.Width >= s.from.Width*share && size.Height >= s.from.Height*share {
			out = s.percent
		}
	}
	return out
}

// step is the size as a factor.
func (s *textScale) step() float32 { return float32(s.percent) / 100 }

// tell has the toolkit know the scale.
func (s *textScale) tell() {
	os.Setenv(scaleEnv, strconv.FormatFloat(float64(s.base*s.step()), 'g', 4, 32))
}

// whole is the window's size in units at 100 %.
func (s *textScale) whole() fyne.Size {
	size := s.w.Canvas().Size()
	round := func(v float32) float32 { return float32(math.Round(float64(v * s.step()))) }
	return fyne.NewSize(round(size.Width), round(size.Height))
}

// settle shows the text at the size that it should have now. The window keeps
// its own.
func (s *textScale) settle() {
	asked, size := s.w.Preferences().String(prefText), s.whole()
	percent := stepFor(asked, size, s.percent)
	if percent == s.percent {
		return
	}
	s.percent = percent
	s.tell()
	if c, ok := s.w.Canvas().(interface{ Resize(fyne.Size) }); ok { // else the toolkit has the window grow
		floor := func(v float32) float32 { return float32(math.Floor(float64(v / s.step()))) }
		c.Resize(fyne.NewSize(floor(size.Width), floor(size.Height)))
	}
	s.w.app.Settings().SetTheme(paint.Theme{Palette: paint.Colours()}) // the toolkit reads the scale anew with it
}

// resize gives the window another size, in units at 100 %, with the text that
// suits it.
func (s *textScale) resize(size fyne.Size) {
	if percent := stepFor(s.w.Preferences().String(prefText), size, s.percent); percent != s.percent && !s.off {
		s.percent = percent
		s.tell()
		s.w.app.Settings().SetTheme(paint.Theme{Palette: paint.Colours()})
	}
	s.w.win.Resize(fyne.NewSize(size.Width/s.step(), size.Height/s.step()))
}

// ask asks for a size, 0 for the one that suits.
func (s *textScale) ask(percent int) {
	asked := ""
	if percent > 0 {
		asked = strconv.Itoa(percent)
	}
	s.w.Preferences().SetString(prefText, asked)
	s.settle()
	s.w.menu.update()
}

// settleAfter is how long the window keeps a size before the text follows it.
const settleAfter = 250 * time.Millisecond

// sized follows another size of the window, once it rests.
func (s *textScale) sized() {
	if s.off {
		return
	}
	s.turn++
	turn := s.turn
	guard.After(settleAfter, "The text size", func() {
		s.w.Later(func() {
			if turn == s.turn {
				s.settle()
			}
		})
	})
}

// whenSized gives all it holds the whole window, and tells of another size.
type whenSized struct {
	tell func()
	last *fyne.Size
}

// Layout implements fyne.Layout.
func (l whenSized) Layout(of []fyne.CanvasObject, size fyne.Size) {
	defer paint.Survive("The layout")
	for _, o := range of {
		o.Move(fyne.Position{})
		o.Resize(size)
	}
	if *l.last != size {
		*l.last = size
		l.tell()
	}
}

// MinSize implements fyne.Layout.
func (l whenSized) MinSize(of []fyne.CanvasObject) (least fyne.Size) {
	for _, o := range of {
		least = least.Max(o.MinSize())
	}
	return least
}
