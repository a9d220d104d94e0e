package export

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage/guard"
	"wakeline/ui/model"
	"wakeline/ui/output"
	"wakeline/ui/page"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// preview shows what will be written: the pixels of a picture, one of a
// GIF's, a page of a PDF, or the text.
type preview struct {
	host page.Host

	made *output.Made // nil: nothing is shown
	at   int          // the picture that is shown
	turn int          // of the picture that counts
	got  image.Image  // the picture's own pixels
	more string       // what else is to be said

	caption      *widget.Label
	before, next *paint.PushButton
	whole        *paint.PageTick
	fitted       *canvas.Image
	own          *canvas.Image // a pixel of it is one of the screen
	sized        *container.Scroll
	text         *paint.TextBox
	why          *widget.Label
	nav          *fyne.Container
	ground       *canvas.Rectangle // that the picture stands out from
	box          fyne.CanvasObject
}

// groundShare is how much ink lies on the ground under a preview.
const groundShare = 0.12

func newPreview(host page.Host) *preview {
	p := &preview{host: host, caption: widget.NewLabel(""), why: widget.NewLabel("")}
	p.caption.Wrapping = fyne.TextWrapWord
	p.why.Wrapping = fyne.TextWrapWord
	p.before = paint.NewPageButton(host, "", theme.NavigateBackIcon(), func() { p.turnTo(p.at - 1) })
	p.next = paint.NewPageButton(host, "", theme.NavigateNextIcon(), func() { p.turnTo(p.at + 1) })
	p.whole = paint.NewPageTick(host, "Actual size", func(bool) { p.lay() })
	p.fitted, p.own = canvas.NewImageFromImage(nil), canvas.NewImageFromImage(nil)
	p.fitted.FillMode = canvas.ImageFillContain
	p.own.ScaleMode = canvas.ImageScalePixels
	p.sized = container.NewScroll(p.own)
	p.text = paint.NewTextBox(host)
	p.text.TextStyle.Monospace, p.text.Wrapping = true, fyne.TextWrapOff
	p.ground = canvas.NewRectangle(paint.Colours().Blend(sheet.Ink, groundShare))
	p.nav = container.NewHBox(p.whole, p.before, p.next)
	head := container.NewBorder(nil, nil, nil, p.nav, p.caption)
	p.box = container.NewBorder(container.NewPadded(head), nil, nil, nil, container.NewStack(p.ground, container.NewPadded(container.NewStack(p.fitted, p.sized, p.text, p.why))))
	p.only(nil)
	return p
}

// only shows one of the things that a preview may be.
func (p *preview) only(shown fyne.CanvasObject) {
	p.ground.Hidden = shown != p.fitted && shown != fyne.CanvasObject(p.sized)
	p.ground.Refresh()
	for _, o := range []fyne.CanvasObject{p.fitted, p.sized, p.text, p.why} {
		if o == shown {
			o.Show()
		} else {
			o.Hide()
		}
	}
}

// busy says that the next is being made; what is shown stays until it is.
func (p *preview) busy() {
	p.made = nil
	p.caption.SetText("…")
}

// fail says why there is nothing to show.
func (p *preview) fail(err error) {
	p.turn++
	p.made, p.got = nil, nil
	p.caption.SetText("")
	p.nav.Hide()
	p.why.SetText(paint.Shortened(model.Sentence(err.Error()), "\n", paint.ShownMost))
	p.only(p.why)
}

// show shows what was made; more is said beside it.
func (p *preview) show(m *output.Made, more string) {
	p.made, p.more = m, more
	if len(m.Sheets) == 0 {
		p.turn++
		p.got = nil
		p.nav.Hide()
		p.say()
		return
	}
	p.turnTo(min(p.at, len(m.Sheets)-1))
}

// again paints what is shown anew.
func (p *preview) again() {
	p.ground.FillColor = paint.Colours().Blend(sheet.Ink, groundShare)
	p.ground.Refresh()
	if p.made != nil {
		p.show(p.made, p.more)
	}
}

// How much of a text is shown.
const (
	linesLooked = 500
	lineLooked  = 400 // letters of a line
)

// say shows the text.
func (p *preview) say() {
	lines := strings.SplitAfter(strings.TrimRight(p.made.Text, "\n"), "\n")
	said := model.CountOf(len(lines), "line")
	cut, room := false, paint.ListMost
	for i, l := range lines {
		short := paint.Beginning(l, lineLooked)
		if room -= len(short); i == linesLooked || room < 0 && i > 0 {
			said = fmt.Sprintf("the first %d of %s", i, said)
			lines = lines[:i]
			break
		}
		if short != l && short != strings.TrimSuffix(l, "\n") {
			lines[i], cut = short+"…\n", true
		}
	}
	if cut {
		said += fmt.Sprintf(", shortened to %d letters each", lineLooked)
	}
	p.caption.SetText(strings.TrimSpace(p.more + " " + model.Sentence(said)))
	p.text.SetText(strings.ReplaceAll(strings.Join(lines, ""), "\r", ""))
	p.only(p.text)
}

// turnTo shows picture i.
func (p *preview) turnTo(i int) {
	m := p.made
	if m == nil || i < 0 || i >= len(m.Sheets) {
		return
	}
	p.at = i
	p.turn++
	turn := p.turn
	p.host.Run(func() {
		var got image.Image
		err := guard.Try("The preview", func() (err error) {
			got, err = m.Picture(i)
			return err
		})
		p.host.Later(func() {
			switch {
			case turn != p.turn || p.made != m:
			case err != nil:
				p.fail(err)
			default:
				p.took(got)
			}
		})
	})
}

// took shows a picture.
func (p *preview) took(got image.Image) {
	p.got = got
	p.caption.SetText(strings.TrimSpace(p.pictureWords() + " " + p.more))
	shown := onChequers(got)
	p.fitted.Image, p.own.Image = shown, shown
	p.nav.Show()
	many := len(p.made.Sheets) > 1
	p.before.Hidden, p.next.Hidden = !many, !many
	p.before.Refresh()
	p.next.Refresh()
	p.lay()
}

// lay shows the picture fitted to the room, or at its actual size.
func (p *preview) lay() {
	if p.got == nil {
		return
	}
	p.fitted.Refresh()
	if !p.whole.Checked {
		p.only(p.fitted)
		return
	}
	scale, size := p.host.Canvas().Scale(), p.got.Bounds().Size()
	p.own.SetMinSize(fyne.NewSize(float32(size.X)/scale, float32(size.Y)/scale))
	p.own.Refresh()
	p.sized.Refresh()
	p.only(p.sized)
}

// pictureWords says what the picture is.
func (p *preview) pictureWords() string {
	m, size := p.made, p.got.Bounds().Size()
	if slices.Contains(output.FilmFormats, m.Format) {
		shown, whole := m.Seconds(p.at)
		return fmt.Sprintf("Picture %d of %d, %d × %d pixels, shown for %.2f s; %.1f s in all.", p.at+1, len(m.Sheets), size.X, size.Y, shown, whole)
	}
	switch n := len(m.Sheets); m.Format {
	case "gif":
		whole := 0
		for _, t := range m.Times {
			whole += t
		}
		return fmt.Sprintf("Picture %d of %d, %d × %d pixels, shown for %.2f s; %.1f s in all.", p.at+1, n, size.X, size.Y, float64(m.Times[p.at])/100, float64(whole)/100)
	case "pdf":
		return fmt.Sprintf("Page %d of %d. Vector graphics: sharp at any size.", p.at+1, n)
	case "html":
		return fmt.Sprintf("One file of %d kB for a browser. The picture shows its first setup.", (len(m.Text)+999)/1000)
	case "svg":
		return fmt.Sprintf("%.0f × %.0f units. Vector graphics: sharp at any size.", m.Sheets[0].W, m.Sheets[0].H)
	}
	return fmt.Sprintf("%d × %d pixels.", size.X, size.Y)
}

// chequer is the side of a square under a transparent picture, in pixels.
const chequer = 8

// onChequers lays a picture that isn't opaque on squares; the picture itself
// stays as it is.
func onChequers(img image.Image) image.Image {
	if o, ok := img.(interface{ Opaque() bool }); ok && o.Opaque() {
		return img
	}
	out := image.NewRGBA(img.Bounds())
	tones := [...]image.Image{image.NewUniform(color.Gray{0xff}), image.NewUniform(color.Gray{0xd8})}
	for y := out.Rect.Min.Y; y < out.Rect.Max.Y; y += chequer {
		for x := out.Rect.Min.X; x < out.Rect.Max.X; x += chequer {
			draw.Draw(out, image.Rect(x, y, x+chequer, y+chequer), tones[(x/chequer+y/chequer)%2], image.Point{}, draw.Src)
		}
	}
	draw.Draw(out, out.Rect, img, img.Bounds().Min, draw.Over)
	return out
}
