package data

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"wakeline/timeline"
	"wakeline/ui/page/pagetest"
	"wakeline/ui/paint"
)

// What is pasted may be written as the trade does; what was taken for something
// else than its letters say is listed.
func TestAPasteIsReadInTheTradesWritings(t *testing.T) {
	w, d := openData(t, pagetest.Sample())
	d.goTo(t, "low reed", "name")
	pasteIn(d, "Move\tType\tLevel\tStart-up (f)\tActive\tRecovery\tOn hit\tBlock\n"+
		"low reed\tspecial\tL\t12+3\t2(5)1\t20-24\tKD +31\t-4~-2\nheel turn\tstrike\tM\t6f\t3\t14\t+4\t-\n")
	f := w.Model().Data().Fighter("Ostrel")
	m, other := f.Move("low reed"), f.Move("heel turn")
	if m.Startup != 15 || m.Recovery != 24 || m.OnHit.Given || m.OnGuard != timeline.Some(-4) || m.Knockdown.Midscreen != timeline.Some(31) {
		t.Errorf("low reed is %+v: %s", m, d.reason.text)
	}
	if other == nil || other.Startup != 6 || other.OnHit != timeline.Some(4) || other.OnGuard.Given || other.Knockdown.Midscreen.Given {
		t.Errorf("heel turn is %+v", other)
	}
	if edits(w) != 1 {
		t.Errorf("%d steps", edits(w))
	}
	var said string
	for _, o := range test.LaidOutObjects(w.Canvas().Overlays().Top()) {
		if box, ok := o.(*paint.TextBox); ok {
			said = box.Text
		}
	}
	for _, want := range []string{`Line 2 of the paste (row 5), on hit: "KD +31" taken as knockdown midscreen 31: a knockdown with that advantage`, `startup: "12+3" taken as 15`, `level: "M" taken as mid`} {
		if !strings.Contains(said, want) {
			t.Errorf("the notes lack %q:\n%s", want, said)
		}
	}
}

// Two cells that contradict one another are refused.
func TestAPasteThatContradictsItself(t *testing.T) {
	w, d := openData(t, pagetest.Sample())
	d.goTo(t, "low reed", "name")
	pasteIn(d, "name\ton hit\tknockdown midscreen\nlow reed\tKD +31\t30\n")
	if got := d.reason.text; !strings.Contains(got, "knockdown midscreen: expected 31, as another cell of the row says, got 30") || edits(w) != 0 {
		t.Errorf("it says %q after %d steps", got, edits(w))
	}
}
