package finish

import (
	"context"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/value/report"
	"wakeline/ui/output"
	"wakeline/ui/page/pagetest"
)

// openFinish shows the page of the sample's first setup, Plain crossing.
func openFinish(t *testing.T) (*pagetest.Host, *Page, *timeline.Project) {
	t.Helper()
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	w := pagetest.Open(t, p)
	f := New(w, func() {})
	w.Show(f)
	f.Run()
	return w, f, p
}

// found is what package value finds.
func found(t *testing.T, p *timeline.Project, reply string, health, gauge int) report.Finish {
	t.Helper()
	q := value.FinishQuery{Begin: p.Setups[0], Setups: p.Setups, Reply: reply, Health: timeline.Some(health), Gauge: timeline.Some(gauge)}
	got, err := value.NewBook(p).Finish(context.Background(), timeline.NewIndex(p), q)
	if err != nil {
		t.Fatal(err)
	}
	return report.Finish{Finish: &got}
}

func TestTwoRoundsFinishFromHalfHealth(t *testing.T) {
	_, f, p := openFinish(t)
	f.reply.SetSelected("Millrace")
	f.health.SetValue(5000)
	want := found(t, p, "Millrace", 5000, p.Ruleset.Gauge)
	if f.points.Text != "5000" || f.answer.Text.Text != want.Answer() || len(f.got.Rounds) != 2 || !f.got.Ends {
		t.Fatalf("health %s: %q, %d rounds, want %q", f.points.Text, f.answer.Text.Text, len(f.got.Rounds), want.Answer())
	}
	for i := range f.got.Rounds {
		if s := f.got.Scenes[i]; s.Cell.Outcome != f.got.Rounds[i].Outcome {
			t.Errorf("round %d is drawn as %v, told as %v", i+1, s.Cell.Outcome, f.got.Rounds[i].Outcome)
		}
	}
	if d := f.draw(700); !strings.Contains(d.Desc, "1. "+want.Rounds[0].Setup) || !strings.Contains(d.Desc, want.Left(1)) {
		t.Errorf("drawn: %s", d.Desc)
	}
}

// TestWhatStopsItIsDrawn: where nothing ends it, the drawing says why.
func TestWhatStopsItIsDrawn(t *testing.T) {
	_, f, p := openFinish(t)
	f.reply.SetSelected("Waterwheel")
	f.gauge.SetText("0")
	want := found(t, p, "Waterwheel", p.Ruleset.Health, 0)
	if want.Ends {
		t.Fatal("it ends, and so the test tells nothing")
	}
	if f.answer.Text.Text != want.Answer() || !strings.HasSuffix(f.draw(700).Desc, want.Because) || !strings.Contains(want.Because, "this setup isn't safe") {
		t.Errorf("%q, want %q; drawn %q", f.answer.Text.Text, want.Answer(), f.draw(700).Desc)
	}
}

// TestTheFinishShownIsExported: as the page has it, and nothing where there is
// none.
func TestTheFinishShownIsExported(t *testing.T) {
	_, f, p := openFinish(t)
	f.reply.SetSelected("Millrace")
	f.health.SetValue(5000)
	shown := f.Shown()
	if shown == nil || shown.Kind != output.Rounds {
		t.Fatalf("shown: %+v", shown)
	}
	var want strings.Builder
	if err := found(t, p, "Millrace", 5000, p.Ruleset.Gauge).JSON(&want); err != nil {
		t.Fatal(err)
	}
	o := output.Standard()
	if made, err := shown.Make(context.Background(), &o, "json"); err != nil || made.Text != want.String() {
		t.Errorf("%v, %v, want %s", made, err, want.String())
	}
	made, err := shown.Make(context.Background(), &o, "svg")
	if err != nil || !strings.HasPrefix(made.Sheets[0].Desc, "1. "+p.Setups[0].Name) {
		t.Errorf("drawn: %v, %v", made, err)
	}
	f.points.SetText("0")
	if f.Shown() != nil {
		t.Error("nothing was found, and something is exported")
	}
}

func TestHealthIsTypedToo(t *testing.T) {
	_, f, _ := openFinish(t)
	f.points.SetText("1234")
	if f.health.Value != 1234 || f.query.Health.N != 1234 {
		t.Errorf("typed 1234: the slider is at %g, searched for %d", f.health.Value, f.query.Health.N)
	}
	f.points.SetText("0")
	if f.got != nil || !strings.HasPrefix(f.answer.Text.Text, "Rival's health: expected 1 to ") || f.view.Drawing != nil {
		t.Errorf("typed 0: %q", f.answer.Text.Text)
	}
	f.points.SetText("10")
	f.gauge.SetText("x")
	if !strings.HasPrefix(f.answer.Text.Text, "Gauge: expected 0 to ") {
		t.Errorf("typed no number: %q", f.answer.Text.Text)
	}
}

// TestADragCancelsTheSearchBefore: of two searches the newest counts.
func TestADragCancelsTheSearchBefore(t *testing.T) {
	w, f, _ := openFinish(t)
	var held []func()
	w.Hold = func(do func()) { held = append(held, do) }
	f.health.SetValue(3000)
	f.health.SetValue(2000)
	w.Hold = nil
	held[1]()
	held[0]()
	if f.query.Health.N != 2000 {
		t.Errorf("shown for %d", f.query.Health.N)
	}
}

func TestEscapeLeavesTheSlider(t *testing.T) {
	w, f, _ := openFinish(t)
	f.health.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.Page != nil {
		t.Error("the page stays")
	}
}
