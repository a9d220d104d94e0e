package ui

import (
	"math"
	"os"
	"strconv"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// TestTheTextSuitsTheWindow holds the steps, and that a window on the edge of
// one doesn't flicker between two.
func TestTheTextSuitsTheWindow(t *testing.T) {
	for _, c := range []struct {
		asked         string
		width, height float32
		now, want     int
	}{
		{"", 1024, 640, 100, 100}, {"", 1280, 800, 100, 100}, {"", 1920, 1080, 100, 120}, {"", 2560, 1440, 100, 150}, {"", 3840, 2160, 100, 150},
		{"", 2560, 800, 100, 100}, {"", 800, 1440, 100, 100}, // wide, or high, alone
		{"", 1690, 940, 100, 100}, {"", 1690, 940, 120, 120}, {"", 1560, 900, 120, 100},
		{"", 1280, 800, 150, 100}, {"nonsense", 2560, 1440, 100, 150},
		{"100", 2560, 1440, 150, 100}, {"120", 1280, 800, 100, 120}, {"150", 1920, 1080, 100, 150},
		{"150", 1280, 800, 100, 120}, {"150", 1024, 640, 100, 100}, {"120", 1024, 640, 100, 100}, // as far as there is room
	} {
		if got := stepFor(c.asked, fyne.NewSize(c.width, c.height), c.now); got != c.want {
			t.Errorf("asked for %q at %gx%g, at %d %%: %d %%, want %d", c.asked, c.width, c.height, c.now, got, c.want)
		}
	}
	for width := float32(900); width < 2700; width += 7 {
		for _, asked := range []string{"", "120", "150"} {
			for _, now := range []int{100, 120, 150} {
				size := fyne.NewSize(width, width*0.6)
				got := stepFor(asked, size, now)
				// The toolkit rounds scales to tenths: the window may look a little
				// smaller once the step is taken.
				if again := stepFor(asked, fyne.NewSize(size.Width*0.97, size.Height*0.97), got); again < got && again == now {
					t.Errorf("asked for %q at %v, at %d %%: to %d and back", asked, size, now, got)
				}
			}
		}
	}
}

// TestTheTextSizeIsAskedFor goes through the menu, and opens the next window.
func TestTheTextSizeIsAskedFor(t *testing.T) {
	w := open(t, sample(), laptop)
	defer os.Unsetenv(scaleEnv)
	ticked := func() (out []string) {
		for _, i := range w.menu.sizes {
			if i.Checked {
				out = append(out, i.Label)
			}
		}
		return out
	}
	for i, want := range []struct {
		percent int
		env     string
	}{{100, "1"}, {100, "1"}, {120, "1.2"}, {120, "1.2"}} { // the window has no room for the largest
		w.menu.sizes[i].Action()
		if got := os.Getenv(scaleEnv); w.text.percent != want.percent || got != want.env {
			t.Errorf("%s: %d %%, the toolkit takes %q, want %d", w.menu.sizes[i].Label, w.text.percent, got, want.percent)
		}
		if got := ticked(); len(got) != 1 || got[0] != w.menu.sizes[i].Label {
			t.Errorf("%s: ticked are %q", w.menu.sizes[i].Label, got)
		}
	}
	w.Preferences().SetFloat(prefWidth, 2560)
	w.Preferences().SetFloat(prefHeight, 1440)
	os.Unsetenv(scaleEnv)
	next := newWindow(w.app, Start{Project: sample(), inline: true})
	defer next.win.Close()
	if got := os.Getenv(scaleEnv); next.text.percent != 150 || got != "1.5" {
		t.Errorf("the next window begins with %d %%, the toolkit takes %q", next.text.percent, got)
	}
}

// TestTheToolkitsOwnScaleIsKept begins with a scale of the environment's.
func TestTheToolkitsOwnScaleIsKept(t *testing.T) {
	t.Setenv(scaleEnv, "1.5")
	a := test.NewTempApp(t)
	a.Preferences().SetString(prefText, "120")
	w := newWindow(a, Start{Project: sample(), inline: true})
	defer w.win.Close()
	if got, _ := strconv.ParseFloat(os.Getenv(scaleEnv), 64); math.Abs(got-1.8) > 1e-6 {
		t.Errorf("the toolkit takes %g, want 1.8", got)
	}
}

// TestAWindowIsRememberedAtItsWholeSize leaves one with larger letters.
func TestAWindowIsRememberedAtItsWholeSize(t *testing.T) {
	w := open(t, sample(), laptop)
	defer os.Unsetenv(scaleEnv)
	w.text.percent = 120
	w.rememberWindow()
	if got := w.rememberedSize(); got != fyne.NewSize(1536, 960) {
		t.Errorf("remembered is %v", got)
	}
}
