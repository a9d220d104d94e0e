package data

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/page/pagetest"
	"wakeline/ui/paint"
)

// TestAPasteGoesWhereItsHeadingsSay pastes what a spreadsheet's table is like:
// other columns, in another order, with a row of headings over them.
func TestAPasteGoesWhereItsHeadingsSay(t *testing.T) {
	w, d := openData(t, pagetest.Sample())
	d.goTo(t, "", "name")
	pasteIn(d, "Recovery\tOn-Guard\tMove\tNotes\tStartup\tActive\tType\tLevel\tCharacter\n"+
		"11\t-3\thigh reed\tquick\t7\t2(4)1\tstrike\tmid\tOstrel\n\t\t\t\t\t\t\t\t\n"+
		"10\t-2\tlow reed\t\t6\t3\tstrike\tlow\tOstrel\n")
	f := w.Model().Data().Fighter("Ostrel")
	high, low := f.Move("high reed"), f.Move("low reed")
	if edits(w) != 1 || len(f.Moves) != 6 || high == nil || high.Startup != 7 || high.Recovery != 11 || high.OnGuard != timeline.Some(-3) || low.Startup != 6 {
		t.Fatalf("after %d steps: %+v, %+v: %s", edits(w), high, low, d.reason.text)
	}
	if low.OnHit != timeline.Some(5) {
		t.Errorf("a column that was not pasted holds %v", low.OnHit)
	}
	if got := d.foot.words; got != "Pasted 2 rows by their headings. Left out: Notes." {
		t.Errorf("it says %q", got)
	}
	d.goTo(t, "feint palm", "startup") // without names: from the cursor's row on
	pasteIn(d, "Damage\tTravel\n300\t20\n400\t30\n")
	f = w.Model().Data().Fighter("Ostrel")
	if f.Move("feint palm").Damage != 300 || f.Move("falling heel").Travel != 30 || edits(w) != 2 {
		t.Errorf("%+v: %s", f.Moves, d.reason.text)
	}
	d.goTo(t, "feint palm", "startup")
	pasteIn(d, "Startup\n9\n")
	if got := w.Model().Data().Fighter("Ostrel").Move("feint palm").Startup; got != 9 {
		t.Errorf("under the heading of its own column startup is %d: %s", got, d.reason.text)
	}
	d.tabs.Show(int(model.RulesetRow))
	pasteIn(d, "rule\tvalue\nbuffer\t5\n")
	if got := w.Model().Data().Ruleset.Buffer; got != 5 {
		t.Errorf("the buffer is %d: %s", got, d.reason.text)
	}
}

// TestNoHeadingIsTakenForOne pastes rows that only look like headings.
func TestNoHeadingIsTakenForOne(t *testing.T) {
	w, d := openData(t, pagetest.Sample())
	d.goTo(t, "", "name")
	pasteIn(d, "Startup\tdash\t\t\t\t\t\t18\nRecovery\tdash\t\t\t\t\t\t19\n")
	if f := w.Model().Data().Fighter("Ostrel"); f.Move("Startup") == nil || f.Move("Recovery") == nil {
		t.Errorf("moves of such names are not taken: %s", d.reason.text)
	}
}

// TestARefusedPasteSaysWhere holds each refusal to the line, the column and
// what was expected; nothing is changed.
func TestARefusedPasteSaysWhere(t *testing.T) {
	w, d := openData(t, pagetest.Sample())
	for _, tt := range []struct{ text, want string }{
		{"name\tkind\tlevel\tstartup\tactive\na\tstrike\tmid\t5\t2\nb\tstrike\tmud\t5\t2\n", `Line 3 of the paste (row 7), level: expected mid, low, overhead, throw or air throw, got "mud". Nothing was changed.`},
		{"name\tkind\ntotal flow\tdash\n", `Line 2 of the paste (row 6), total: expected `},
		{"name\tfighter\tkind\ttotal\nx\tMaerwyn\tdash\t9\n", "Line 2 of the paste, fighter: expected Ostrel, whose table this is, got \"Maerwyn\""},
		{"name\tkind\n", "Only headings were copied"},
		{"", "There is no text to paste."},
	} {
		d.goTo(t, "", "name")
		painter := test.WidgetRenderer(d.grid).(*paint.PenRenderer)
		before := painter.Pen.Serial
		pasteIn(d, tt.text)
		if painter.Pen.Serial == before {
			t.Errorf("%q: the window is not painted again, and the reason is not seen", tt.text)
		}
		if got := d.reason.text; !strings.HasPrefix(got, tt.want) || !d.reason.Visible() || edits(w) != 0 {
			t.Errorf("%q: it says %q, want %q, after %d steps", tt.text, got, tt.want, edits(w))
		}
	}
	d.tabs.Show(int(model.RulesetRow))
	pasteIn(d, "rule\tvalue\nwind\t5\n")
	if got := d.reason.text; !strings.HasPrefix(got, `Line 2 of the paste, rule: expected one that the table has, got "wind"`) {
		t.Errorf("it says %q", got)
	}
}
