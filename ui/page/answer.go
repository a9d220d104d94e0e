package page

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/paint"
)

// Answer is what a page found, in large letters, and under it what there is to
// say about it. It takes a part of its page; what is longer scrolls.
type Answer struct {
	Text, About *widget.Label

	scroll *container.Scroll
	box    *fyne.Container // the whole page
}

// NewAnswer returns an empty answer.
func NewAnswer() *Answer {
	a := &Answer{Text: widget.NewLabel(""), About: widget.NewLabel("")}
	a.Text.SizeName, a.Text.TextStyle.Bold = theme.SizeNameSubHeadingText, true
	a.About.Importance = widget.LowImportance
	for _, l := range []*widget.Label{a.Text, a.About} {
		l.Wrapping = fyne.TextWrapWord // not selectable: such a label takes the keys on a click, and Escape with them
	}
	a.scroll = container.NewVScroll(container.NewVBox(a.Text, a.About))
	return a
}

// Say shows other words.
func (a *Answer) Say(text, about string) {
	a.Text.SetText(text)
	a.About.SetText(about)
	a.scroll.ScrollToTop()
	if a.box != nil {
		a.box.Refresh()
	}
}

// Between lays out a page: what is asked for, the answer, and the rest.
func (a *Answer) Between(asked, rest fyne.CanvasObject) *fyne.Container {
	a.box = container.New(answerLayout{}, asked, a.scroll, rest)
	return a.box
}

// answerLayout gives the answer the height that it needs, up to a part of the
// page.
type answerLayout struct{}

const (
	answerLeast = 76
	answerPart  = 0.27
)

// Layout implements fyne.Layout.
func (answerLayout) Layout(of []fyne.CanvasObject, size fyne.Size) {
	defer paint.Survive("The layout")
	asked, scroll, rest := of[0], of[1].(*container.Scroll), of[2]
	y := asked.MinSize().Height
	asked.Resize(fyne.NewSize(size.Width, y))
	scroll.Move(fyne.NewPos(0, y))
	scroll.Resize(fyne.NewSize(size.Width, answerLeast)) // its words are wrapped for the width
	most := max(answerLeast, min(size.Height*answerPart, size.Height-y-rest.MinSize().Height))
	high := min(max(scroll.Content.MinSize().Height, answerLeast), most)
	scroll.Resize(fyne.NewSize(size.Width, high))
	rest.Move(fyne.NewPos(0, y+high))
	rest.Resize(fyne.NewSize(size.Width, size.Height-y-high))
}

// MinSize implements fyne.Layout.
func (answerLayout) MinSize(of []fyne.CanvasObject) fyne.Size {
	defer paint.Survive("The layout")
	asked, rest := of[0].MinSize(), of[2].MinSize()
	return fyne.NewSize(max(asked.Width, rest.Width), asked.Height+answerLeast+rest.Height)
}
