package export

import (
	"context"
	"os"
	"strings"
	"testing"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/ui/output"
	"wakeline/ui/page"
	"wakeline/ui/page/pagetest"
)

// TestWhatAPageShowsIsExported: as it shows it, until the project changes; of
// another kind it is not asked.
func TestWhatAPageShowsIsExported(t *testing.T) {
	w := pagetest.Open(t, pagetest.Sample())
	e := exportOf(t, w, Strip)
	asked := 0
	e.OpenShown(&page.Shown{Kind: output.Cast, Make: func(_ context.Context, o *output.Order, format string) (*output.Made, error) {
		asked++
		return &output.Made{Format: format, Text: "as shown"}, nil
	}})
	if e.kind.Selected != Cast || asked == 0 {
		t.Fatalf("%s is chosen, asked %d times", e.kind.Selected, asked)
	}
	e.format.SetSelected("csv")
	if b, err := os.ReadFile(writeTo(t, e, t.TempDir())); err != nil || string(b) != "as shown" {
		t.Errorf("the file says %q, %v", b, err)
	}
	before := asked
	e.kind.SetSelected(Mix)
	if asked != before {
		t.Error("another kind asks the page")
	}
	e.kind.SetSelected(Cast)
	e.shown = nil
	e.again()
	if text := e.preview.made.Text; !strings.HasPrefix(text, "setup,rival,holds_against,") || !strings.Contains(text, w.Model().Setup().Name) {
		t.Errorf("without the page: %q", text)
	}
}

// TestAFinishIsOfTheChosenSetup where no page has shown one.
func TestAFinishIsOfTheChosenSetup(t *testing.T) {
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	w := pagetest.Open(t, p)
	e := exportOf(t, w, Finish)
	e.format.SetSelected("json")
	if e.preview.made == nil || !strings.Contains(e.preview.made.Text, `"setup": "`+w.Model().Setup().Name+`"`) {
		t.Errorf("made %+v", e.preview.made)
	}
}

// TestTheMixOfTheEnderFollowsALesson where it is ticked.
func TestTheMixOfTheEnderFollowsALesson(t *testing.T) {
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	w := pagetest.Open(t, p)
	e := exportOf(t, w, Lesson)
	e.format.SetSelected("pdf")
	if n := len(e.preview.made.Sheets); n != 1 {
		t.Fatalf("%d pages without the mix", n)
	}
	e.mixed.SetChecked(true)
	if n := len(e.preview.made.Sheets); n != 2 || !strings.Contains(e.preview.made.Sheets[1].Title, "mix") {
		t.Errorf("%d pages with the mix", n)
	}
	e.kind.SetSelected(Strip)
	if e.rows[e.mixed].box.Visible() && !e.mixed.Disabled() {
		t.Error("a strip takes the mix")
	}
}
