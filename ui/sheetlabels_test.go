package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/ui/sheet"
)

// eachSheet draws every setup of the sample, against the deciding reply and
// every other, in windows of the sizes that people have, with the numbers
// beside the sheet and without.
func eachSheet(t *testing.T, look func(where string, d *sheet.Drawing)) {
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	for _, size := range []fyne.Size{small, laptop, {Width: 1920, Height: 1080}} {
		w := open(t, p, size)
		for _, numbers := range []string{"shown", "hidden"} {
			w.Preferences().SetString(prefNumbers, numbers)
			w.panes.Layout(nil, w.main.Size())
			for i := range p.Setups {
				w.model.Choose(i)
				for l := range w.model.Plan().Lines() {
					w.model.Show(0, l)
					w.sheet.Draw(w.sheet.Size())
					where := p.Setups[i].Name + ", " + w.model.Verdict().Rises[0].Replies[l].Reply
					look(where+", numbers "+numbers, w.sheet.Drawing())
				}
			}
		}
	}
}

// textSpan is where a text lies from side to side.
func textSpan(t *sheet.Text) (from, to float64) {
	w := sheet.TextWidth(t.Str, t.Size, t.Bold)
	switch t.Anchor {
	case sheet.AtEnd:
		return t.At.X - w, t.At.X
	case sheet.AtMiddle:
		return t.At.X - w/2, t.At.X + w/2
	}
	return t.At.X, t.At.X + w
}

func TestNoLabelOnTheSheetIsCut(t *testing.T) {
	cut := 0
	eachSheet(t, func(where string, d *sheet.Drawing) {
		for _, s := range d.Shapes {
			if text, ok := s.(sheet.Text); ok && strings.Contains(text.Str, "…") {
				if cut++; cut < 10 {
					t.Errorf("%s, %gx%g: %q", where, d.W, d.H, text.Str)
				}
			}
		}
	})
	if cut > 0 {
		t.Errorf("%d labels are cut", cut)
	}
}

func TestTheTouchdownStandsBesideTheMeeting(t *testing.T) {
	over := 0
	eachSheet(t, func(where string, d *sheet.Drawing) {
		from, to := 0.0, 0.0
		for _, s := range d.Shapes {
			switch s := s.(type) {
			case sheet.Box:
				if s.Texture == sheet.Tint && s.Max.Y-s.Min.Y > d.H/4 {
					from, to = s.Min.X, s.Max.X
				}
			case sheet.Text:
				if a, b := textSpan(&s); strings.HasPrefix(s.Str, "lands on ") && a < to && b > from {
					if over++; over < 10 {
						t.Errorf("%s, %gx%g: %q lies from %.0f to %.0f, the meeting from %.0f to %.0f", where, d.W, d.H, s.Str, a, b, from, to)
					}
				}
			}
		}
	})
}
