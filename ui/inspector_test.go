package ui

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"wakeline/timeline"
	"wakeline/ui/editor"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/panel"
)

// rowNamed is the row of that name, of the thing or else of the setup.
func rowNamed(t testing.TB, w *window, name string) *panel.InspectorRow {
	t.Helper()
	for _, r := range append(slices.Clone(w.numbers.Thing.Rows), w.numbers.Rows...) {
		if r.Label.Text == name && !r.Box.Hidden {
			return r
		}
	}
	t.Fatalf("no row %q", name)
	return nil
}

func entryNamed(t testing.TB, w *window, name string) *panel.FieldEntry {
	t.Helper()
	return rowNamed(t, w, name).Field.(*panel.TypedField).Entry
}

// put types a text into a field and leaves it.
func putIn(t testing.TB, w *window, name, text string) {
	t.Helper()
	e := entryNamed(t, w, name)
	w.Canvas().Focus(e)
	e.SetText(text)
	w.refocus()
}

func choose(t testing.TB, w *window, name, option string) {
	t.Helper()
	c := rowNamed(t, w, name).Field.(*panel.Choice)
	c.Fill()
	if !slices.Contains(c.Options, option) {
		t.Fatalf("%s offers %q, not %q", name, c.Options, option)
	}
	c.SetSelected(option)
}

// TestNumbersOfASetup puts each number in, and takes it back.
func TestNumbersOfASetup(t *testing.T) {
	for _, w := range []*window{open(t, sample(), laptop), openFile(t, sample())} {
		for _, c := range []struct {
			name string
			put  func()
			want func(s *timeline.Setup)
			step string // as undo names it
		}{
			{"Name", func() { putIn(t, w, "Name", "low tide") }, func(s *timeline.Setup) { s.Name = "low tide" }, "name low tide"},
			{"Delay", func() { putIn(t, w, "Delay", " 5 ") }, func(s *timeline.Setup) { s.Delay = 5 }, "delay 5"},
			{"Knockdown advantage", func() { putIn(t, w, "Knockdown advantage", "60") }, func(s *timeline.Setup) { s.Advantage = timeline.Some(60) }, "knockdown advantage 60"},
			{"Press", func() { putIn(t, w, "Press", "30") }, func(s *timeline.Setup) { s.Press = timeline.Some(30) }, "press on air frame 30"},
			{"Tags", func() { putIn(t, w, "Tags", " corner,, safe jump ") }, func(s *timeline.Setup) { s.Tags = []string{"corner", "safe jump"} }, "tags corner, safe jump"},
			{"Note", func() { putIn(t, w, "Note", "two\nlines") }, func(s *timeline.Setup) { s.Note = "two\nlines" }, "note"},
			{"Position", func() { choose(t, w, "Position", "wall") }, func(s *timeline.Setup) { s.Position = timeline.Wall }, "wall"},
			{"Landing", func() { choose(t, w, "Landing", "low reed") }, func(s *timeline.Setup) { s.Landing = "low reed" }, "low reed on landing"},
			{"Attack", func() { choose(t, w, "Attack", panel.NoAttack) }, func(s *timeline.Setup) { s.Attack = "" }, "no attack"},
			{"Jump", func() { choose(t, w, "Jump", panel.NoJump) }, func(s *timeline.Setup) { s.Jump, s.Attack = "", "" }, "no jump"},
			{"a filler more", func() { choose(t, w, "", "feint palm") }, func(s *timeline.Setup) { s.Fillers = []string{"short step", "feint palm"} }, "short step, feint palm"},
			{"a filler out", func() {
				rowNamed(t, w, "Fillers").Field.(*panel.FillerList).TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
			}, func(s *timeline.Setup) { s.Fillers = nil }, "without short step"},
			{"another rise", func() { rowNamed(t, w, "Rises").Field.(*panel.RisePicks).All[1].SetChecked(true) }, func(s *timeline.Setup) { s.Rises = nil }, "all rises"},
		} {
			before := w.model.Setup()
			want := before
			c.want(&want)
			c.put()
			if got := w.model.Setup(); !model.SameSetup(&got, &want) {
				t.Errorf("%s: %+v, want %+v", c.name, got, want)
			}
			if undo, _ := w.model.Document().Next(); undo.What != c.step {
				t.Errorf("%s: the step is called %q, want %q", c.name, undo.What, c.step)
			}
			w.undo()
			if got := w.model.Setup(); !model.SameSetup(&got, &before) {
				t.Errorf("%s taken back: %+v, want %+v", c.name, got, before)
			}
		}
		if w.model.CanUndo() {
			t.Error("something was more than one step")
		}
	}
}

// TestAWrongNumberStays types what can't stand: it is refused, and stays until
// it is mended or given up.
func TestAWrongNumberStays(t *testing.T) {
	w := open(t, sample(), laptop)
	before := w.model.Setup()
	for _, c := range []struct{ name, text, why string }{
		{"Delay", "513", "Expected"},
		{"Delay", "three", "Expected a whole number, got “three”."},
		{"Knockdown advantage", "-1", "Expected"},
		{"Press", "39", "Expected auto or an air frame of the jump, 0 to 38, got 39."},
		{"Name", " ", "A setup needs a name."},
		{"Name", w.model.Document().Head(1).Name, "Another setup has that name already."},
	} {
		putIn(t, w, c.name, c.text)
		r := rowNamed(t, w, c.name)
		if got := w.model.Setup(); !model.SameSetup(&got, &before) || w.model.CanUndo() {
			t.Fatalf("%s %q was taken", c.name, c.text)
		}
		if !strings.HasPrefix(r.Reason.Text, c.why) || r.Reason.Hidden {
			t.Errorf("%s %q is refused with %q, want %q", c.name, c.text, r.Reason.Text, c.why)
		}
		e := entryNamed(t, w, c.name)
		key(w, fyne.KeyRight, 1) // another edit leaves it there
		if e.Text != c.text || r.Reason.Text == "" {
			t.Errorf("%s shows %q after another edit, with %q", c.name, e.Text, r.Reason.Text)
		}
		w.undo()
		e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		if e.Text != e.Shows() || r.Reason.Text != "" || !r.Reason.Hidden {
			t.Errorf("%s given up shows %q, with %q", c.name, e.Text, r.Reason.Text)
		}
	}
	putIn(t, w, "Delay", "600")
	putIn(t, w, "Delay", "6")
	if got := rowNamed(t, w, "Delay").Reason.Text; w.delay() != 6 || got != "" {
		t.Errorf("mended, the delay is %d, with %q", w.delay(), got)
	}
	putIn(t, w, "Delay", "600")
	w.model.Choose(1)
	if got := entryNamed(t, w, "Delay"); got.Text != "4" || got.Row.Reason.Text != "" {
		t.Errorf("with another setup the field shows %q, with %q", got.Text, got.Row.Reason.Text)
	}
}

func TestSteppers(t *testing.T) {
	w := open(t, sample(), laptop)
	e := entryNamed(t, w, "Delay")
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	if w.delay() != 4 || edits(w.model) != 3 {
		t.Errorf("delay %d in %d steps, want 4 in 3", w.delay(), edits(w.model))
	}
	w.numbers.Keys = func() fyne.KeyModifier { return fyne.KeyModifierShift }
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	if w.delay() != 14 {
		t.Errorf("delay %d with Shift, want 14", w.delay())
	}
	w.numbers.Keys = func() fyne.KeyModifier { return 0 }
	for _, name := range []string{"Knockdown advantage", "Press"} { // from what stands there unsaid
		e := entryNamed(t, w, name)
		from, _, _ := strings.Cut(e.PlaceHolder, ",")
		s := panel.NewStepper(e)
		s.Resize(fyne.NewSize(18, 30))
		s.Tapped(&fyne.PointEvent{Position: fyne.NewPos(9, 25)})
		got, own := w.model.Setup().Advantage, 58
		if name == "Press" {
			got, own = w.model.Setup().Press, w.model.Plan().Press()+1
		}
		if got != timeline.Some(own-1) {
			t.Errorf("%s is %v a step down from %s", name, got, from)
		}
	}
	e = entryNamed(t, w, "Delay")
	putIn(t, w, "Delay", "0")
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	if w.delay() != 0 || e.Row.Reason.Text == "" {
		t.Errorf("below 0: delay %d, %q", w.delay(), e.Row.Reason.Text)
	}
}

// TestAnotherFighter takes other fighters, and keeps what goes with them.
func TestAnotherFighter(t *testing.T) {
	w := open(t, sample(), laptop)
	choose(t, w, "Rival", "Ostrel")
	if s := w.model.Setup(); w.model.Plan() == nil || s.Rival != "Ostrel" || len(s.Replies) != 0 || s.Jump == "" || !slices.Equal(s.Rises, []string{"normal"}) {
		t.Errorf("against Ostrel: %+v, %v", s, w.model.Err())
	}
	w.undo()
	choose(t, w, "Attacker", "Maerwyn")
	if why := rowNamed(t, w, "Attacker").Reason.Text; why == "" || w.model.Setup().Attacker != "Ostrel" {
		t.Errorf("Maerwyn knocks nobody down: %q", why)
	}
	putIn(t, w, "Knockdown advantage", "50")
	choose(t, w, "Attacker", "Maerwyn")
	if s := w.model.Setup(); w.model.Plan() == nil || s.Attacker != "Maerwyn" || s.Ender != "" || s.Jump != "" || s.Landing != timeline.DoGuard {
		t.Errorf("as Maerwyn: %+v, %v", s, w.model.Err())
	}
}

func TestFillersOfTheList(t *testing.T) {
	w := open(t, sample(), laptop)
	w.model.Choose(2)
	l := rowNamed(t, w, "Fillers").Field.(*panel.FillerList)
	l.Resize(fyne.NewSize(150, 60))
	at := func(sign float32, line int) fyne.Position {
		return fyne.NewPos(150-3*panel.FillerSign+(sign+0.5)*panel.FillerSign, float32(line)*panel.FillerLine+10)
	}
	for _, c := range []struct {
		what string
		do   func()
		want []string
	}{
		{"down", func() { l.Tapped(&fyne.PointEvent{Position: at(1, 0)}) }, []string{"short step", "feint palm"}},
		{"up", func() { l.Tapped(&fyne.PointEvent{Position: at(0, 1)}) }, []string{"feint palm", "short step"}},
		{"out", func() { l.Tapped(&fyne.PointEvent{Position: at(2, 1)}) }, []string{"feint palm"}},
	} {
		c.do()
		if got := w.model.Setup().Fillers; !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
}

// TestTheLastRiseStays holds a setup to one rise at least.
func TestTheLastRiseStays(t *testing.T) {
	w := open(t, sample(), laptop)
	p := rowNamed(t, w, "Rises").Field.(*panel.RisePicks)
	p.All[0].SetChecked(false)
	if !p.All[0].Checked || p.Row.Reason.Text == "" || w.model.CanUndo() {
		t.Errorf("ticked %v, %q", p.All[0].Checked, p.Row.Reason.Text)
	}
}

// TestWhatFollows holds what is shown to the core's verdict.
func TestWhatFollows(t *testing.T) {
	w := open(t, sample(), laptop)
	of := func() map[string]string {
		out := map[string]string{}
		for _, f := range w.numbers.Facts.Facts {
			out[f.Name] = f.Value
		}
		return out
	}
	for range 3 {
		v := w.model.Verdict()
		got := of()
		for name, want := range map[string]string{
			"verdict": string(v.Word), "lands on": v.Touchdown.String(), "guards from": v.GuardsFrom.String(), "window": "4 to 7", "wake-up, normal rise": "58",
			"best aim": "between delay 5 and 6", "your spread": "25 ms, assumed",
		} {
			if got[name] != want {
				t.Errorf("delay %d: %s is %q, want %q", w.delay(), name, got[name], want)
			}
		}
		if by := w.Timing().Words(); got["lands by hand"] == "" || !strings.Contains(by, got["lands by hand"]) {
			t.Errorf("delay %d: lands by hand %q, in words %q", w.delay(), got["lands by hand"], by)
		}
		key(w, fyne.KeyRight, 1)
	}
	w.timing.Choose(model.Choice{Source: model.TimingTyped, Spread: 8})
	if got := of()["your spread"]; got != "8 ms, set by hand" {
		t.Errorf("of another hand: %q", got)
	}
	w.model.Show(0, 5)
	r := w.model.Verdict().Rises[0].Replies[5]
	if got := of(); got["outcome"] != r.Outcome.String() || got["meeting"] != r.Meeting.String() {
		t.Errorf("of the reply shown it says %v, want %+v", got, r)
	}
}

// TestNumbersOfABlock edits the move data of what is chosen on the sheet.
func TestNumbersOfABlock(t *testing.T) {
	for _, w := range []*window{open(t, sample(), laptop), openFile(t, sample())} {
		w.sheet.Select(editor.One(timeline.PartJump, 0))
		if got := w.numbers.Thing.Used.Text; got != "Move data: an edit changes 3 setups." {
			t.Errorf("of the jump it says %q", got)
		}
		putIn(t, w, "Airborne", "41")
		if got := w.model.Data().Fighter("Ostrel").Jump("forward jump").Airborne; got != 41 {
			t.Errorf("the jump is %d frames in the air", got)
		}
		putIn(t, w, "Guard after", "9")
		if got := rowNamed(t, w, "Guard after").Reason.Text; got == "" || w.model.Data().Fighter("Ostrel").Jump("forward jump").GuardAfter != 0 {
			t.Errorf("a guard after the landing: %q", got)
		}
		w.undo()
		if got := w.model.Data().Fighter("Ostrel").Jump("forward jump").Airborne; got != 39 || entryNamed(t, w, "Airborne").Text != "39" {
			t.Errorf("taken back, the jump is %d frames in the air, and the field shows %q", got, entryNamed(t, w, "Airborne").Text)
		}

		w.sheet.Select(editor.One(timeline.PartAttack, 0))
		putIn(t, w, "Active", "2(1)4")
		if got := w.model.Data().Fighter("Ostrel").Move("falling heel").Active; !slices.Equal(got, []int{2, 1, 4}) {
			t.Errorf("the attack is active %v", got)
		}
		if undo, _ := w.model.Document().Next(); undo.What != "active of falling heel: 2(1)4" {
			t.Errorf("the step is called %q", undo.What)
		}
		putIn(t, w, "Name", "steep heel")
		if got := w.model.Setup().Attack; got != "steep heel" || w.numbers.Thing.Of.Name != got {
			t.Errorf("renamed, the setup's attack is %q and the numbers are of %+v", got, w.numbers.Thing.Of)
		}
		w.undo()
		w.sheet.Select(editor.Selection{})
		if w.numbers.Thing.Of != nil || len(w.numbers.Thing.List.Objects) > 1 || w.numbers.Thing.Used.Text != panel.NoBlock {
			t.Error("nothing is selected, and its numbers are shown")
		}
		w.sheet.Select(editor.One(timeline.PartReply, 0))
		w.model.Show(0, 5)
		if of := w.numbers.Thing.Of; of == nil || *of != (model.DataRow{Owner: "Maerwyn", Kind: model.MoveRow, Name: "grip"}) {
			t.Errorf("with another reply shown the numbers are of %+v", of)
		}
		w.sheet.Select(editor.One(timeline.PartRise, 0))
		putIn(t, w, "Extra", "2")
		if got := w.model.Verdict().Rises[0].Wake; got != 60 {
			t.Errorf("the rival is up on %d", got)
		}
	}
}

// TestNumbersFit lays the pane out at its least width: no row is wider.
func TestNumbersFit(t *testing.T) {
	w := open(t, sample(), fyne.NewSize(1024, 640))
	if w.numbers.Visible() {
		t.Error("the numbers are shown in a narrow window")
	}
	w.goNumbers()
	w.model.Show(0, timeline.FirstReply) // whose points have a row too
	w.sheet.Select(editor.One(timeline.PartEnder, 0))
	w.right.SetOffset(1)
	if wide := w.numbers.Size().Width; !w.numbers.Visible() || wide > 250 {
		t.Fatalf("shown %v, %g wide", w.numbers.Visible(), wide)
	}
	left, right := w.app.Driver().AbsolutePositionForObject(w.numbers).X, w.Canvas().Size().Width
	d := w.app.Driver()
	for tab, rows := range [][]*panel.InspectorRow{w.numbers.Rows, w.numbers.Thing.Rows} {
		w.numbers.ShowTab(tab)
		for _, r := range rows {
			at := d.AbsolutePositionForObject(r.Field.Object()).X
			if end := at + r.Field.Object().Size().Width; at < left || end > right {
				t.Errorf("%s lies from %g to %g, the pane from %g to %g", r.Label.Text, at, end, left, right)
			}
			if need := r.Label.Wrapper.WidthOf(r.Label.Text); need > r.Label.Size().Width-paint.WordPad {
				t.Errorf("the name %s is cut: %g of %g", r.Label.Text, r.Label.Size().Width-paint.WordPad, need)
			}
		}
	}
	if again := open(t, sample(), laptop); !again.numbers.Visible() {
		t.Error("the numbers are not shown in a wide window")
	}
}

// TestTypingIsTakenBackFirst holds Ctrl+Z in a field to what is typed, and
// then to the project's last step.
func TestTypingIsTakenBackFirst(t *testing.T) {
	w := open(t, sample(), laptop)
	key(w, fyne.KeyRight, 1)
	e := entryNamed(t, w, "Delay")
	w.Canvas().Focus(e)
	test.Type(e, "9")
	w.undo()
	if e.Text != "4" || w.delay() != 4 {
		t.Errorf("the field shows %q, the delay is %d", e.Text, w.delay())
	}
	w.undo()
	if e.Text != "3" || w.delay() != 3 {
		t.Errorf("the field shows %q, the delay is %d", e.Text, w.delay())
	}
	w.redo()
	if w.delay() != 4 {
		t.Errorf("done again, the delay is %d", w.delay())
	}
}

// TestNoNameInTheNumbersIsCut reads the name of every row, of a setup and of
// each block.
func TestNoNameInTheNumbersIsCut(t *testing.T) {
	w := open(t, sample(), small)
	w.Preferences().SetString(prefNumbers, "shown")
	w.panes.Layout(nil, w.main.Size())
	seen := map[string]bool{}
	for i := range w.model.Len() {
		w.model.Choose(i)
		for _, h := range w.sheet.Drawing().Hots {
			w.sheet.Select(editor.One(h.Part, h.Index))
			for _, r := range append(slices.Clone(w.numbers.Thing.Rows), w.numbers.Rows...) {
				name := r.Label.Text
				seen[name] = true
				if got := r.Label.Wrapper.Fit(name, r.Label.Size().Width-paint.WordPad); r.Box.Visible() && r.Label.Size().Width > 0 && got != name {
					t.Errorf("%q is written %q", name, got)
				}
			}
		}
	}
	for _, want := range []string{"Knockdown midscreen", "Knockdown wall", "Airborne from"} {
		if !seen[want] {
			t.Errorf("%q was never shown", want)
		}
	}
}
