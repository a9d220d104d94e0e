package ui

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"wakeline/timeline"
	"wakeline/ui/editor"
	"wakeline/ui/model"
	"wakeline/ui/panel"
	"wakeline/ui/sheet"
)

// onShelf scrolls to a block of the shelf and returns its row.
func onShelf(t testing.TB, w *window, as model.Slot, name string) *panel.ShelfRow {
	t.Helper()
	for i := range w.shelf.Shown {
		if b := &w.shelf.Line(i).Block; w.shelf.Line(i).Head == "" && b.As == as && b.Name == name {
			w.shelf.List.ScrollTo(i)
			for _, r := range w.shelf.List.Rows {
				if r.At == i && r.Visible() {
					return r
				}
			}
			t.Fatalf("no row shows %q", name)
		}
	}
	t.Fatalf("no %q on the shelf as %d", name, as)
	return nil
}

// carry drags a row of the shelf to the place p of the sheet.
func carry(w *window, r *panel.ShelfRow, p sheet.Point) {
	r.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary})
	to := fyne.CurrentApp().Driver().AbsolutePositionForObject(w.sheet).Add(position(p))
	from := fyne.CurrentApp().Driver().AbsolutePositionForObject(r)
	for i := float32(1); i <= 4; i++ {
		ev := &fyne.DragEvent{}
		ev.AbsolutePosition = fyne.NewPos(from.X+(to.X-from.X)*i/4, from.Y+(to.Y-from.Y)*i/4)
		r.Dragged(ev)
	}
}

func showShelf(t testing.TB, p *timeline.Project, setup int) *window {
	t.Helper()
	w := open(t, p, laptop)
	w.model.Choose(setup)
	w.showShelf()
	return w
}

func TestShelfHasWhatASetupIsBuiltOf(t *testing.T) {
	w := showShelf(t, sample(), 0)
	var got []string
	for i := range w.shelf.Shown {
		l := w.shelf.Line(i)
		if l.Head != "" {
			got = append(got, strings.ToUpper(l.Head))
		} else {
			got = append(got, fmt.Sprint(l.Block.Title(), " ", l.Block.Frames))
		}
	}
	want := []string{
		"ENDERS OF OSTREL", "tide sweep 58",
		"FILLERS", "tide sweep 32", "short step 12", "feint palm 11", "low reed 16", "forward jump 46",
		"JUMPS", "no jump none", "forward jump 46",
		"AIR ATTACKS", "no attack none", "falling heel 12",
		"ON LANDING", "guard none", "parry none", "tide sweep 32", "short step 12", "feint palm 11", "low reed 16",
		"REPLIES OF MAERWYN", "rising gale 47", "slow anchor 30", "grip 31", "quick jab 12", "back step 24", "back jump 43",
	}
	if !slices.Equal(got, want) {
		t.Errorf("on the shelf\n%q\nwant\n%q", got, want)
	}
	test.Type(w.shelf.Field, "ST re")
	got = nil
	for i := range w.shelf.Shown {
		got = append(got, w.shelf.Line(i).Head+w.shelf.Line(i).Block.Name)
	}
	if want := []string{"Enders of Ostrel", "tide sweep", "Replies of Maerwyn", "back step"}; !slices.Equal(got, want) {
		t.Errorf("filtered: %q, want %q", got, want)
	}
}

func TestFromShelfToSheet(t *testing.T) {
	// Places on the sheet of the sample's third setup: palm, step, delay 0, jump.
	filler := func(i int, share float64) func(w *window) sheet.Point {
		return func(w *window) sheet.Point {
			h := w.sheet.Hot(timeline.PartFiller, i)
			return sheet.Point{X: h.Min.X + share*(h.Max.X-h.Min.X), Y: (h.Min.Y + h.Max.Y) / 2}
		}
	}
	on := func(part timeline.Part) func(w *window) sheet.Point {
		return func(w *window) sheet.Point {
			h := w.sheet.Hot(part, 0)
			return sheet.Point{X: (h.Min.X + h.Max.X) / 2, Y: (h.Min.Y + h.Max.Y) / 2}
		}
	}
	fillers := func(want ...string) func(s timeline.Setup) bool {
		return func(s timeline.Setup) bool { return slices.Equal(s.Fillers, want) }
	}
	for _, tt := range []struct {
		name  string
		as    model.Slot
		block string
		to    func(w *window) sheet.Point
		want  func(s timeline.Setup) bool // nil: it may not go there
		why   string
	}{
		{"a filler before the first", model.AsFiller, "low reed", filler(0, 0.1), fillers("low reed", "feint palm", "short step"), ""},
		{"a filler between", model.AsFiller, "low reed", filler(0, 0.9), fillers("feint palm", "low reed", "short step"), ""},
		{"a filler over another", model.AsFiller, "low reed", filler(1, 0.5), fillers("feint palm", "low reed"), ""},
		{"a filler last", model.AsFiller, "low reed", on(timeline.PartLanding), fillers("feint palm", "short step", "low reed"), ""},
		{"a jump as filler", model.AsFiller, "forward jump", filler(0, 0.1), fillers("forward jump", "feint palm", "short step"), ""},
		{"no attack", model.AsAttack, "", on(timeline.PartJump), func(s timeline.Setup) bool { return s.Attack == "" && s.Jump != "" }, ""},
		{"no jump", model.AsJump, "", on(timeline.PartEnder), func(s timeline.Setup) bool { return s.Attack == "" && s.Jump == "" }, ""},
		{"a landing move", model.AsLanding, "low reed", on(timeline.PartLanding), func(s timeline.Setup) bool { return s.Landing == "low reed" }, ""},
		{"an ender", model.AsEnder, "tide sweep", filler(0, 0.5), func(s timeline.Setup) bool { return !s.Advantage.Given && s.Ender == "tide sweep" }, ""},
		{"a reply", model.AsReply, "back jump", on(timeline.PartRise), func(s timeline.Setup) bool { return len(s.Replies) == 7 && s.Replies[6].Move == "back jump" }, ""},
		{"a reply over the shown", model.AsReply, "back jump", on(timeline.PartReply), func(s timeline.Setup) bool {
			return len(s.Replies) == 6 && s.Replies[2] == timeline.Reply{Move: "back jump", Demand: timeline.Survive}
		}, ""},
		{"a reply on the upper track", model.AsReply, "back jump", filler(0, 0.5), nil, "A reply goes on the rival's track"},
		{"a filler on the lower track", model.AsFiller, "low reed", on(timeline.PartRise), nil, "low reed is Ostrel's"},
		{"a filler on the head", model.AsFiller, "low reed", func(*window) sheet.Point { return sheet.Point{X: 300, Y: 20} }, nil, "A block is dropped on a track"},
		{"a reply that is judged already", model.AsReply, "grip", on(timeline.PartRise), nil, "each reply once"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			w := showShelf(t, sample(), 2)
			w.model.Show(0, 5) // grip
			before := w.model.Setup()
			r := onShelf(t, w, tt.as, tt.block)
			carry(w, r, tt.to(w))
			g := w.sheet.Ghost
			if g == nil || (g.Why == "") != (tt.want != nil) || !strings.HasPrefix(w.status.Hinted, tt.why) && !strings.Contains(w.status.Hinted, tt.why) {
				t.Fatalf("held over the sheet: %+v, hint %q", g, w.status.Hinted)
			}
			if tt.want != nil && !strings.HasPrefix(w.status.Hinted, "Drop ") {
				t.Errorf("hint %q", w.status.Hinted)
			}
			if s := w.model.Setup(); !model.SameSetup(&s, &before) {
				t.Error("edited before it was let go")
			}
			r.DragEnd()
			if w.sheet.Ghost != nil {
				t.Error("its ghost stays")
			}
			s := w.model.Setup()
			if tt.want == nil {
				if !model.SameSetup(&s, &before) || w.model.CanUndo() {
					t.Errorf("edited: %+v", s)
				}
				return
			}
			if !tt.want(s) {
				t.Errorf("the setup is %+v", s)
			}
			if _, _, ok := w.sheet.Selected(); !ok && tt.block != "" {
				t.Error("the block is not chosen")
			}
			if w.undo(); w.model.CanUndo() {
				t.Error("more than one step")
			}
			if s := w.model.Setup(); !model.SameSetup(&s, &before) {
				t.Errorf("undo leaves %+v", s)
			}
		})
	}
}

func TestCarriedOffAndTakenBack(t *testing.T) {
	w := showShelf(t, sample(), 2)
	r := onShelf(t, w, model.AsFiller, "low reed")
	carry(w, r, sheet.Point{X: 400, Y: 250})
	over := &desktop.MouseEvent{}
	over.Position = position(grip(t, w, timeline.PartDelay, 0))
	if w.sheet.MouseMoved(over); w.sheet.Hover != nil || w.sheet.Card != nil {
		t.Error("what lies under a carried block is marked as ready to be taken")
	}
	ev := &fyne.DragEvent{}
	ev.AbsolutePosition = fyne.NewPos(20, 300)
	r.Dragged(ev)
	if w.sheet.Ghost != nil {
		t.Error("off the sheet its ghost stays")
	}
	slip := test.WidgetRenderer(w.shelf.Slip)
	if n := len(slip.Objects()); n < 2 {
		t.Error("off the sheet no slip follows the pointer")
	}
	r.DragEnd()
	if n := len(slip.Objects()); n > 1 {
		t.Error("let go, the slip stays")
	}
	carry(w, r, sheet.Point{X: 400, Y: 250})
	w.shelf.List.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	carry(w, r, sheet.Point{X: 420, Y: 250})
	if w.sheet.Ghost != nil {
		t.Error("taken back, its ghost stays")
	}
	r.DragEnd()
	if w.model.CanUndo() {
		t.Error("edited")
	}
}

func TestShelfByKeys(t *testing.T) {
	w := openChain(t)
	w.sheet.Select(editor.One(timeline.PartFiller, 0))
	w.sheet.TypedRune('/')
	field := w.shelf.Field
	if w.Canvas().Focused() != fyne.Focusable(field) || !w.shelf.Visible() {
		t.Fatal("/ doesn't lead to the field")
	}
	test.Type(field, "step")
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	wantFillers(t, w, "fssl") // behind the one chosen
	wantChosen(t, w, 1)
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if field.Text != "" || w.Canvas().Focused() != fyne.Focusable(field) {
		t.Errorf("Escape leaves %q in the field", field.Text)
	}
	test.Type(field, "no att")
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnter})
	if got := w.model.Setup().Attack; got != "" {
		t.Errorf("attack %q, want none", got)
	}
	field.SetText("")
	test.Type(field, "replies")
	for range 5 {
		field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	}
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	replies := w.model.Setup().Replies
	if last := replies[len(replies)-1]; len(replies) != 7 || last.Move != "back jump" {
		t.Errorf("replies %v", replies)
	}
	if _, line := w.model.Shown(); line != 9 {
		t.Errorf("shows line %d, want the new reply's, 9", line)
	}
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if len(w.model.Setup().Replies) != 7 || !strings.Contains(w.status.Hinted, "each reply once") {
		t.Errorf("again: hint %q", w.status.Hinted)
	}
	if got := edits(w.model); got != 3 {
		t.Errorf("%d steps, want 3", got)
	}
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.Canvas().Focused() != fyne.Focusable(w.sheet) {
		t.Error("a second Escape doesn't lead back to the sheet")
	}
	w.Canvas().Focus(w.shelf.List)
	w.shelf.List.TypedRune('g')
	if field.Text != "g" || w.Canvas().Focused() != fyne.Focusable(field) {
		t.Errorf("a letter in the list: %q in the field", field.Text)
	}
}

func TestShelfByDoubleClick(t *testing.T) {
	w := showShelf(t, sample(), 0)
	onShelf(t, w, model.AsFiller, "feint palm").DoubleTapped(&fyne.PointEvent{})
	wantFillers(t, w, "sf")
	onShelf(t, w, model.AsLanding, timeline.DoParry).DoubleTapped(&fyne.PointEvent{})
	if got := w.model.Setup().Landing; got != timeline.DoParry {
		t.Errorf("landing %q", got)
	}
	if got := edits(w.model); got != 2 {
		t.Errorf("%d steps, want 2", got)
	}
}

func TestShelfFollowsTheModel(t *testing.T) {
	p := sample()
	back := p.Setups[0]
	back.Name, back.Attacker, back.Rival, back.Ender, back.Fillers = "the other way", "Maerwyn", "Ostrel", "", nil
	back.Advantage, back.Jump, back.Attack, back.Replies = timeline.Some(40), "back jump", "", nil
	p.Setups = append(p.Setups, back)
	w := showShelf(t, p, 0)
	w.model.Choose(3)
	if got := w.shelf.Line(len(w.shelf.Shown) - 1).Block; got.As != model.AsReply || got.Name != "forward jump" {
		t.Errorf("the last on the shelf is %+v", got)
	}
	move := p.Fighters[0].Moves[1]
	move.Name, move.Length = "shuffle", 9
	if err := w.model.Apply("rename", timeline.MoveEdit{Owner: "Ostrel", Before: "short step", To: &move}); err != nil {
		t.Fatal(err)
	}
	if b := onShelf(t, w, model.AsReply, "shuffle").Line().Block; b.Frames != timeline.Some(9) {
		t.Errorf("renamed: %+v", b)
	}
}

// TestShelfMendsASetup: also one that can't be judged, and has no sheet, is
// edited from the shelf.
func TestShelfMendsASetup(t *testing.T) {
	p := sample()
	p.Setups[1].Fillers = slices.Repeat([]string{"tide sweep"}, 15)
	w := open(t, p, laptop)
	w.model.Choose(1)
	if w.model.Err() == nil || w.sheet.Drawing() != nil {
		t.Fatal("the setup can be judged")
	}
	w.showShelf()
	r := onShelf(t, w, model.AsJump, "")
	carry(w, r, sheet.Point{X: 300, Y: 300})
	r.DragEnd()
	if w.model.CanUndo() {
		t.Error("edited by a drop on no sheet")
	}
	r.DoubleTapped(&fyne.PointEvent{})
	if got := w.model.Setup().Jump; got != "" || w.model.Err() != nil {
		t.Errorf("jump %q, %v", got, w.model.Err())
	}
}

// TestLargeShelfBuildsOnlyWhatIsInView: a fighter may have a thousand moves.
func TestLargeShelfBuildsOnlyWhatIsInView(t *testing.T) {
	p := sample()
	for f := range p.Fighters {
		for i := range 1000 {
			p.Fighters[f].Moves = append(p.Fighters[f].Moves, timeline.Move{Name: fmt.Sprintf("step no. %d", i), Kind: timeline.Dash, Length: 5 + i%30})
		}
	}
	w := showShelf(t, p, 0)
	if len(w.shelf.Shown) < 3000 || len(w.shelf.List.Rows) > 60 {
		t.Errorf("%d rows built for %d blocks", len(w.shelf.List.Rows), len(w.shelf.Shown))
	}
	test.Type(w.shelf.Field, "no. 998")
	w.shelf.Field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got := w.model.Setup().Fillers; !slices.Equal(got, []string{"short step", "step no. 998"}) {
		t.Errorf("fillers %q", got)
	}
}

// TestAJumpIsTakenAsOneFirst types a jump's name, which is a filler's too.
func TestAJumpIsTakenAsOneFirst(t *testing.T) {
	w := openChain(t)
	name := w.model.Setup().Jump
	field := w.shelf.Field
	w.showShelf()
	test.Type(field, name)
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if s := w.model.Setup(); s.Jump != name || !slices.Contains(s.Fillers, name) {
		t.Errorf("with a jump, its name gives %q after %v", s.Jump, s.Fillers)
	}
	w.model.Undo()
	s := w.model.Setup()
	s.Jump, s.Attack = "", ""
	if err := w.model.Change(s); err != nil {
		t.Fatal(err)
	}
	w.showShelf() // chooses what was typed before
	test.Type(field, name)
	if field.Text != name {
		t.Fatalf("the field holds %q", field.Text)
	}
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if s := w.model.Setup(); s.Jump != name || slices.Contains(s.Fillers, name) {
		t.Errorf("without a jump, its name gives %q after %v", s.Jump, s.Fillers)
	}
	if test.Type(field, "no"); field.Text != "no" {
		t.Errorf("after a block is put in the field holds %q", field.Text)
	}
}

func TestShelfForgetsAnotherProject(t *testing.T) {
	w := showShelf(t, sample(), 0)
	w.shelf.Field.SetText("reed")
	w.model.Open(inMemory(t, &timeline.Project{Ruleset: timeline.DefaultRuleset()}))
	if n := len(w.shelf.Shown); n != 0 || w.shelf.Field.Text != "" {
		t.Errorf("an empty project lists %d blocks under the filter %q", n, w.shelf.Field.Text)
	}
}
