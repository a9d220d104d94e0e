package present

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/page/pagetest"
	"wakeline/ui/sheet"
)

func presented(t *testing.T) (*pagetest.Host, *Page, *[]bool) {
	w := pagetest.Open(t, pagetest.Sample())
	var whole []bool
	p := New(w, func(on bool) { whole = append(whole, on) })
	w.Show(p)
	if w.Canvas().Focused() != fyne.Focusable(p.board) {
		t.Fatalf("the keys are with %T", w.Canvas().Focused())
	}
	return w, p, &whole
}

func press(p *Page, keys ...fyne.KeyName) {
	for _, k := range keys {
		p.board.TypedKey(&fyne.KeyEvent{Name: k})
	}
}

// texts are what the board shows.
func texts(p *Page) string {
	test.WidgetRenderer(p.board).Objects()
	said := ""
	for _, s := range p.board.drawn.Shapes {
		if text, ok := s.(sheet.Text); ok {
			said += text.Str + " "
		}
	}
	return said
}

// TestKeysLeadThroughTheSetups: next, earlier, later and why; nothing of it is an
// edit.
func TestKeysLeadThroughTheSetups(t *testing.T) {
	w, p, whole := presented(t)
	plan := w.Model().Plan()
	own := plan.Setup.Delay
	if got := p.where(plan); got != "1 of 3 setups · as it is, delay 3" {
		t.Errorf("it says %q", got)
	}
	press(p, fyne.KeyRight, fyne.KeyRight, fyne.KeyLeft)
	if got := p.where(plan); p.step(plan).Delay != own+1 || got != "1 of 3 setups · 1 frame later, delay 4" || w.Model().Setup().Delay != own {
		t.Errorf("one later is delay %d, %q; the setup's is %d", p.step(plan).Delay, got, w.Model().Setup().Delay)
	}
	if got := texts(p); !strings.Contains(got, strings.ToUpper(string(words.VerdictAt(plan, own+1).Called))) && !strings.Contains(p.Text(), string(words.VerdictAt(plan, own+1).Called)) {
		t.Errorf("it shows %q", got)
	}
	why := strings.Fields(p.step(plan).Sentence)
	first := strings.Join(why[:3], " ")
	if strings.Contains(texts(p), first) {
		t.Error("why is said unasked")
	}
	press(p, fyne.KeyW)
	if got := texts(p); !strings.Contains(got, first) {
		t.Errorf("why says nothing: %q has no %q", got, first)
	}
	for range own + 9 {
		press(p, fyne.KeyLeft)
	}
	if p.step(plan).Delay != 0 || p.where(plan) != "1 of 3 setups · 3 frames earlier, delay 0" {
		t.Errorf("before delay 0: %d, %s", p.step(plan).Delay, p.where(plan))
	}
	if press(p, fyne.KeyHome); p.step(plan).Delay != own {
		t.Errorf("Home shows delay %d, want %d", p.step(plan).Delay, own)
	}
	press(p, fyne.KeyRight, fyne.KeySpace)
	if w.Model().Chosen() != 1 || p.at.Given || p.why {
		t.Errorf("setup %d, at %v, why %v; want the next one, as it is", w.Model().Chosen(), p.at, p.why)
	}
	press(p, fyne.KeyPageDown, fyne.KeyReturn, fyne.KeySpace)
	if w.Model().Chosen() != 2 {
		t.Errorf("after the last setup comes %d", w.Model().Chosen())
	}
	press(p, fyne.KeyBackspace, fyne.KeyPageUp, fyne.KeyPageUp)
	if w.Model().Chosen() != 0 {
		t.Errorf("before the first setup comes %d", w.Model().Chosen())
	}
	if press(p, fyne.KeyEscape); w.Page != nil || len(*whole) != 2 || !(*whole)[0] || (*whole)[1] {
		t.Errorf("Escape: page %v, the screen %v", w.Page, *whole)
	}
}

// TestItsTypeIsLarge: on a projector's 1920 by 1080 no text is smaller than 24
// pixels, and on a laptop it is larger than the window's own.
func TestItsTypeIsLarge(t *testing.T) {
	w, p, _ := presented(t)
	for _, c := range []struct {
		size  fyne.Size
		least float64
	}{{fyne.NewSize(1920, 1080), 24}, {fyne.NewSize(1280, 800), 17}} {
		w.Window.Resize(c.size)
		p.board.Resize(c.size)
		press(p, fyne.KeyW)
		texts(p)
		for _, s := range p.board.drawn.Shapes {
			if text, ok := s.(sheet.Text); ok && text.Size < c.least {
				t.Errorf("%v: %q has %.1f units", c.size, text.Str, text.Size)
			}
		}
	}
}

// TestWhyIsSaidInFull: of every setup of the sample, as it is and some frames
// earlier and later, every word of the sentence is on the board.
func TestWhyIsSaidInFull(t *testing.T) {
	demo, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	w := pagetest.Open(t, demo)
	p := New(w, func(bool) {})
	w.Show(p)
	p.why = true
	for _, size := range []fyne.Size{fyne.NewSize(1024, 640), fyne.NewSize(1920, 1080), fyne.NewSize(2560, 1440), fyne.NewSize(1080, 1920)} {
		w.Window.Resize(size)
		p.board.Resize(size)
		for i := range demo.Setups {
			w.Model().Choose(i)
			own := w.Model().Setup().Delay
			for d := max(0, own-2); d <= own+2; d++ {
				p.at = timeline.Some(d)
				p.board.Refresh()
				if got, want := texts(p), p.step(w.Model().Plan()).Sentence; !strings.Contains(got, want) {
					t.Errorf("%v, %q at delay %d: %q is not on it whole", size, demo.Setups[i].Name, d, want)
				}
			}
		}
	}
}
