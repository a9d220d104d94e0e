package ui

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/paint"
	"wakeline/ui/panel"
)

// clickCell clicks the middle of a cell of the replies.
func clickCell(w *window, rise, line int) {
	b := w.replies.Body
	name, cell := w.replies.Columns(b.Size().Width)
	ev := &fyne.PointEvent{Position: fyne.NewPos(name+(float32(rise)+0.5)*cell, (float32(line)+0.5)*panel.ReplyRow)}
	b.Tapped(ev)
}

func TestClickShowsTheReply(t *testing.T) {
	w := open(t, sample(), laptop)
	w.model.Choose(1)
	clickCell(w, 1, 4)
	if rise, line := w.model.Shown(); rise != 1 || line != 4 || w.model.Follows() {
		t.Fatalf("shows %d, %d, follows %v", rise, line, w.model.Follows())
	}
	if got := w.sheet.Scene; got.Rise != "back roll" || got.Reply != "quick jab" {
		t.Errorf("the sheet shows %s, %s", got.Rise, got.Reply)
	}
	key(w, fyne.KeyRight, 1)
	if rise, line := w.model.Shown(); rise != 1 || line != 4 {
		t.Errorf("after an edit it shows %d, %d", rise, line)
	}
	clickCell(w, 1, 4)
	if !w.model.Follows() {
		t.Error("a second click doesn't follow the deciding reply")
	}
}

func TestTableOrderAndWords(t *testing.T) {
	w := open(t, sample(), laptop)
	w.model.SetDelay(4)
	v := w.model.Verdict()
	if got, want := len(v.Rises[0].Replies), w.model.Plan().Lines(); got != want {
		t.Fatalf("%d replies, want %d", got, want)
	}
	for _, tt := range []struct {
		line         int
		title, words string
	}{
		{0, "guard high", "advantage +13"},
		{3, "rising gale", "3 to spare"},
		{8, "rising gale late 2", "5 to spare"},
	} {
		got := &v.Rises[0].Replies[tt.line]
		if got.Title() != tt.title || words.MainNumber(got) != tt.words {
			t.Errorf("row %d says %q, %q, want %q, %q (%+v)", tt.line, got.Title(), words.MainNumber(got), tt.title, tt.words, got)
		}
	}
	late := timeline.ReplyVerdict{Spare: timeline.Some(-2)}
	if got := words.MainNumber(&late); got != "2 too late" {
		t.Errorf("%q", got)
	}
}

func TestManyRisesScrollSideways(t *testing.T) {
	p := sample()
	f := &p.Fighters[1]
	for _, name := range []string{"a", "b", "c", "d"} {
		f.Rises = append(f.Rises, timeline.Rise{Name: name, Extra: 2})
	}
	p.Setups[0].Rises = nil
	w := open(t, p, fyne.NewSize(1024, 640))
	b := w.replies.Body
	_, cell := w.replies.Columns(b.Size().Width)
	if cell < panel.ReplyCell {
		t.Errorf("a column is %g wide, want at least %d", cell, panel.ReplyCell)
	}
	if b.Size().Width <= w.replies.Size().Width {
		t.Errorf("six rises in %g units", b.Size().Width)
	}
	clickCell(w, 5, 0)
	if rise, _ := w.model.Shown(); rise != 5 {
		t.Errorf("shows rise %d, want 5", rise)
	}
}

func TestWrap(t *testing.T) {
	open(t, sample(), laptop)
	w := paint.Wrapper{Size: paint.TextSize}
	const s = "Meets the wake-up on 58, lands on 59 and guards; Unbreakable"
	for _, width := range []float32{20, 60, 130, 400, 4000} {
		lines := w.Wrap(nil, s, width)
		all := ""
		for i, l := range lines {
			if n := w.WidthOf(l); n > width+0.5 {
				t.Errorf("at %g the line %q is %g wide", width, l, n)
			}
			if i > 0 && len(all) < len(s) && s[len(all)] == ' ' {
				all += " "
			}
			all += l
		}
		if all != s {
			t.Errorf("at %g the lines make %q", width, all)
		}
	}
	if got := w.Wrap(nil, "", 100); len(got) != 0 {
		t.Errorf("nothing makes %q", got)
	}
	if got := w.Fit(s, 100); w.WidthOf(got) > 100 || got == s {
		t.Errorf("fit makes %q", got)
	}
}

// TestTextWithoutRoomIsBroken breaks words into letters where there is no room.
func TestTextWithoutRoomIsBroken(t *testing.T) {
	w := paint.Wrapper{Size: paint.TextSize}
	for _, width := range []float32{0, -20} {
		if got := strings.Join(w.Wrap(nil, "to be", width), ""); got != "tobe" {
			t.Errorf("in %g units the text reads %q", width, got)
		}
	}
}

// TestTheWordsOfACellHaveRoom: in the narrowest column no outcome, frame or
// number runs into the next.
func TestTheWordsOfACellHaveRoom(t *testing.T) {
	w := open(t, sample(), laptop)
	r := w.replies
	meets, number, place := r.CellColumns()
	for o := range timeline.Outcome(timeline.Outcomes) {
		if end := panel.CellOutcome + r.Wrapper.WidthOf(o.String()); end > meets {
			t.Errorf("%v ends at %g, the frame begins at %g", o, end, meets)
		}
	}
	some := timeline.Some
	for _, got := range []timeline.ReplyVerdict{{Spare: some(-12)}, {Spare: some(128)}, {AfterWake: some(88)}, {Advantage: some(-100)}, {ToPunish: some(-100)}} {
		if end := number + r.Wrapper.WidthOf(words.MainNumber(&got)); end > panel.ReplyCell {
			t.Errorf("%q ends at %g of a column of %d", words.MainNumber(&got), end, panel.ReplyCell)
		}
		if end := number + r.Wrapper.WidthOf(words.MainNumber(&got)); end > place {
			t.Errorf("%q ends at %g, the places begin at %g", words.MainNumber(&got), end, place)
		}
	}
}

// TestARowTellsWhereBothStand: how far apart on the meeting, or that a reply is
// answered only because it is out of reach; in a narrow cell neither.
func TestARowTellsWhereBothStand(t *testing.T) {
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	setup := slices.IndexFunc(p.Setups, func(s timeline.Setup) bool { return s.Name == "Short of the hitch" })
	s := &p.Setups[setup]
	s.Rises = []string{"normal"}
	w := open(t, p, fyne.NewSize(1440, 900))
	w.model.Choose(setup)
	v := w.model.Verdict()
	places := map[string]bool{"out of reach": true}
	for i := range v.Rises[0].Replies {
		r := &v.Rises[0].Replies[i]
		switch {
		case r.Reply == "Chain Hitch":
			if r.Meeting.Given {
				t.Fatalf("the throw meets on %v", r.Meeting)
			}
		case r.Apart.Given:
			places[words.Place(r)] = true
		}
	}
	if len(places) < 2 {
		t.Fatal("no reply meets the attacker")
	}
	for place := range places {
		if told := paintedNames(w.replies.Body); !slices.Contains(told, place) {
			t.Errorf("no row says %q: %q", place, told)
		}
	}
	var rises []string
	for _, r := range p.Fighter(s.Rival).Rises {
		rises = append(rises, r.Name)
	}
	edited := w.model.Setup()
	edited.Rises = rises
	w.model.Edit(edited)
	if v = w.model.Verdict(); len(v.Rises) < 2 {
		t.Fatalf("%d rises", len(v.Rises))
	}
	w.win.Resize(fyne.NewSize(1024, 640))
	for place := range places {
		if slices.Contains(paintedNames(w.replies.Body), place) {
			t.Errorf("in cells without room a row says %q", place)
		}
	}
}
