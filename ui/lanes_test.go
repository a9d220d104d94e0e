package ui

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"wakeline/timeline"
	"wakeline/ui/editor"
	"wakeline/ui/sheet"
)

// crowd is the sample with n replies on three rises in setup 0.
func crowd(n int) *timeline.Project {
	p := sample()
	f := &p.Fighters[1]
	f.Rises = append(f.Rises, timeline.Rise{Name: "slow", Extra: 6})
	s := &p.Setups[0]
	s.Rises = nil
	s.Replies = nil
	for i := range n {
		m := f.Moves[i%5]
		m.Name = fmt.Sprintf("%s %d", m.Name, i)
		if m.Hits() {
			m.Startup += i % 7
		}
		f.Moves = append(f.Moves, m)
		s.Replies = append(s.Replies, timeline.Reply{Move: m.Name, Demand: timeline.Survive})
	}
	return p
}

func openLanes(t testing.TB, p *timeline.Project, size fyne.Size) *window {
	w := open(t, p, size)
	w.showLanes()
	if !w.lanes.Visible() || w.Canvas().Focused() != fyne.Focusable(w.lanes.Body) {
		t.Fatal("the lanes are not shown, or have not the keys")
	}
	return w
}

func lineOrder(l *editor.Lanes) (out []int) {
	for i := range l.Lanes {
		out = append(out, l.Lanes[i].Line)
	}
	return out
}

func TestLanesInOrderOfDanger(t *testing.T) {
	w := openLanes(t, crowd(20), laptop)
	for _, worst := range []bool{true, false} {
		w.lanes.SetWorst(worst)
		rise, _ := w.model.Shown()
		if worst {
			rise = -1
		}
		want := w.model.Plan().Danger(w.delay(), rise, nil)
		if len(want) != len(w.lanes.Lanes) {
			t.Fatalf("%d lanes, want %d", len(w.lanes.Lanes), len(want))
		}
		for i := range want {
			if w.lanes.Lanes[i] != want[i] {
				t.Fatalf("worst %v: lane %d is %+v, want %+v", worst, i, w.lanes.Lanes[i], want[i])
			}
		}
		if got := w.Preferences().BoolWithFallback(prefWorst, !worst); got != worst {
			t.Errorf("remembers %v, want %v", got, worst)
		}
	}
}

// TestLanesKeepTheirOrderInAHand drags the delay: no lane changes its place,
// each says the new verdict, and all are sorted when the hand lets go.
func TestLanesKeepTheirOrderInAHand(t *testing.T) {
	w := openLanes(t, crowd(20), laptop)
	before := lineOrder(w.lanes)
	p := grip(t, w, timeline.PartDelay, 0)
	press(w, p)
	move(w, p, 4, 0, 4)
	held := lineOrder(w.lanes)
	for i := range before {
		if held[i] != before[i] {
			t.Fatalf("lane %d shows line %d in the hand, showed %d", i, held[i], before[i])
		}
	}
	danger := w.model.Plan().Danger(w.delay(), -1, nil)
	changed := false
	for i := range danger {
		changed = changed || danger[i].Line != before[i]
		for _, lane := range w.lanes.Lanes {
			if lane.Line == danger[i].Line && lane != danger[i] {
				t.Errorf("in the hand line %d is %+v, want %+v", lane.Line, lane, danger[i])
			}
		}
	}
	if !changed {
		t.Fatal("the drag changes no order: the test says nothing")
	}
	release(w)
	for i, line := range lineOrder(w.lanes) {
		if line != danger[i].Line {
			t.Fatalf("let go, lane %d shows line %d, want %d", i, line, danger[i].Line)
		}
	}
}

// TestLanesStandUnderTheSheet holds a lane's frames to the sheet's, zoomed and
// panned.
func TestLanesStandUnderTheSheet(t *testing.T) {
	w := openLanes(t, sample(), laptop)
	check := func(when string) {
		t.Helper()
		d, lane := w.sheet.Drawing(), w.lanes.Strip(0)
		at := fyne.CurrentApp().Driver().AbsolutePositionForObject
		shift := float64(at(w.lanes.Body).X - at(w.sheet).X)
		if w.lanes.Body.Size().Width != w.sheet.Size().Width {
			t.Errorf("%s: %g wide, the sheet %g", when, w.lanes.Body.Size().Width, w.sheet.Size().Width)
		}
		for _, f := range []int{0, 30, 58} {
			if x, _ := lane.X(f); x+shift != d.X(float64(f)) {
				t.Errorf("%s: frame %d at %g, on the sheet %g", when, f, x+shift, d.X(float64(f)))
			}
		}
	}
	check("fitted")
	w.sheet.Zoom(3, 500)
	check("zoomed")
	w.sheet.LookAt(21)
	check("panned")
	w.win.Resize(fyne.NewSize(1024, 640))
	check("smaller")
}

// paintedNames are the texts that a widget shows.
func paintedNames(o fyne.Widget) (out []string) {
	for _, o := range test.WidgetRenderer(o).Objects() {
		if t, ok := o.(*canvas.Text); ok {
			out = append(out, t.Text)
		}
	}
	return out
}

func TestLaneShowsItsReply(t *testing.T) {
	w := openLanes(t, crowd(60), laptop)
	ev := &fyne.PointEvent{Position: fyne.NewPos(40, 2*editor.LaneRow+5)}
	want := w.lanes.Lanes[2]
	w.lanes.Body.Tapped(ev)
	if rise, line := w.model.Shown(); line != want.Line || rise != want.Rise {
		t.Errorf("shows %d, %d, want %d, %d", rise, line, want.Rise, want.Line)
	}
	typed := func(name fyne.KeyName) { w.lanes.Body.TypedKey(&fyne.KeyEvent{Name: name}) }
	typed(fyne.KeyDown)
	typed(fyne.KeyDown)
	typed(fyne.KeyUp)
	if _, line := w.model.Shown(); line != w.lanes.Lanes[3].Line {
		t.Errorf("after the keys line %d is shown, want %d", line, w.lanes.Lanes[3].Line)
	}
	typed(fyne.KeyEnd)
	if _, line := w.model.Shown(); line != w.lanes.Lanes[len(w.lanes.Lanes)-1].Line {
		t.Error("End doesn't show the last")
	}
	names, most := paintedNames(w.lanes.Body), int(w.lanes.Rows.Size().Height)/editor.LaneRow+2
	if last := w.lanes.Lanes[len(w.lanes.Lanes)-1].Title; !slices.Contains(names, last) {
		t.Errorf("the last lane, %q, is not among those painted: %q", last, names)
	}
	if n := len(names); n > 2*most {
		t.Errorf("%d texts are painted in %d lanes", n, most)
	}
	d := w.delay()
	typed(fyne.KeyRight)
	if w.delay() != d+1 {
		t.Error("Right is not the sheet's")
	}
	w.lanes.Body.TypedRune('r')
	if w.lanes.Worst {
		t.Error("R keeps the worst rise")
	}
}

func TestLaneTellsItsNumbers(t *testing.T) {
	w := openLanes(t, sample(), laptop)
	w.model.SetDelay(4)
	told := ""
	w.lanes.OnHint = func(s string) { told = s }
	for i := range w.lanes.Lanes {
		if w.lanes.Lanes[i].Title != "rising gale" {
			continue
		}
		ev := &desktop.MouseEvent{}
		ev.Position = fyne.NewPos(200, float32(i)*editor.LaneRow+8)
		w.lanes.Body.MouseMoved(ev)
		if want := "rising gale, normal rise, wake-up on 58: reply blocked on 62, 3 to spare, to punish +28, to survive"; told != want {
			t.Errorf("it says %q, want %q", told, want)
		}
		w.lanes.Body.MouseOut()
		if told != "" {
			t.Errorf("the words stay: %q", told)
		}
		return
	}
	t.Fatal("no such lane")
}

// TestLanesKeepColourForJudgement looks for any other ink in what a lane
// draws.
func TestLanesKeepColourForJudgement(t *testing.T) {
	w := openLanes(t, crowd(20), laptop)
	for i := range w.lanes.Lanes {
		lane := &w.lanes.Lanes[i]
		s := w.lanes.Strip(i)
		for _, shape := range s.Draw(nil, w.lanes.Rival(lane)) {
			var roles []sheet.Role
			switch q := shape.(type) {
			case sheet.Box:
				roles = []sheet.Role{q.Fill, q.Stroke}
			case sheet.Line:
				roles = []sheet.Role{q.Stroke}
			case sheet.Path:
				roles = []sheet.Role{q.Fill, q.Stroke}
			}
			for _, r := range roles {
				if r > sheet.Rule {
					t.Errorf("%s: a phase in role %d", lane.Title, r)
				}
			}
		}
	}
}

func TestTabIsRemembered(t *testing.T) {
	w := openLanes(t, sample(), laptop)
	if got := w.Preferences().String(prefBelow); got != "Lanes" {
		t.Errorf("remembers %q", got)
	}
	again := newWindow(w.app, Start{Project: sample(), inline: true})
	defer again.win.Close()
	if !again.lanes.Visible() || again.replies.Visible() {
		t.Error("the next window shows the replies")
	}
}

// TestPanesAreRemembered moves one divider by hand: it alone is kept.
func TestPanesAreRemembered(t *testing.T) {
	w := open(t, sample(), laptop)
	own := listWidth / float64(w.main.Size().Width)
	if w.sides.Offset != own {
		t.Errorf("a first window has its list at %g, want %g", w.sides.Offset, own)
	}
	w.upDown.SetOffset(0.7)
	w.keepPanes()
	again := newWindow(w.app, Start{Project: sample(), inline: true})
	defer again.win.Close()
	again.win.Resize(laptop)
	if again.upDown.Offset != 0.7 || again.sides.Offset != own {
		t.Errorf("the next window has its dividers at %g and %g, want 0.7 and %g", again.upDown.Offset, again.sides.Offset, own)
	}
	again.upDown.SetOffset(again.main.Layout.(*proportions).drawing)
	again.keepPanes()
	if got := again.app.Preferences().Float(prefUpDown); got != 0 {
		t.Errorf("the window's own choice is kept as %g", got)
	}
}

// TestLanesNameTheirLines holds the names over the lanes to the order of their
// frames, whole and apart, also where both lines lie at the right edge.
func TestLanesNameTheirLines(t *testing.T) {
	for _, delay := range []int{4, 40} {
		p := sample()
		p.Setups[1].Attack, p.Setups[1].Landing = "", "low reed" // guards before it can touch
		for i := range p.Setups[:2] {
			w := openLanes(t, p, fyne.NewSize(1024, 640))
			w.model.Choose(i)
			w.model.SetDelay(delay)
			var ends []float32
			var names []string
			before := -1
			for _, o := range test.WidgetRenderer(w.lanes.Head).Objects() {
				if text, ok := o.(*canvas.Text); ok && (strings.HasPrefix(text.Text, "can touch") || strings.HasPrefix(text.Text, "guards")) {
					names = append(names, text.Text)
					frame, err := strconv.Atoi(text.Text[strings.LastIndexByte(text.Text, ' ')+1:])
					if err != nil || frame < before {
						t.Errorf("setup %d, delay %d: %q stands after %d", i, delay, text.Text, before)
					}
					before = frame
					if n := len(ends); n > 0 && text.Position().X < ends[n-1] {
						t.Errorf("setup %d, delay %d: %q begins at %g, over the name before", i, delay, text.Text, text.Position().X)
					}
					ends = append(ends, text.Position().X+text.MinSize().Width)
				}
			}
			if len(names) != 2 || ends[1] > w.lanes.Head.Size().Width {
				t.Errorf("setup %d, delay %d: named %q, up to %g of %g", i, delay, names, ends, w.lanes.Head.Size().Width)
			}
		}
	}
}
