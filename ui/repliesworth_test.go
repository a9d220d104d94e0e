package ui

import (
	"strconv"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/words"
	"wakeline/ui/panel"
)

// textsOf counts what a widget writes.
func textsOf(o fyne.Widget) map[string]int {
	out := map[string]int{}
	for _, obj := range test.WidgetRenderer(o).Objects() {
		if t, ok := obj.(*canvas.Text); ok {
			out[t.Text]++
		}
	}
	return out
}

// TestRepliesShowPoints: each exchange's points stand in the table, and under the
// pointer how they come about; where moves have no damage there is no column.
func TestRepliesShowPoints(t *testing.T) {
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	w := open(t, p, laptop)
	w.showReplies()
	plan := w.model.Plan()
	worth := value.OfPlan(plan)
	got := textsOf(w.replies.Body)
	want := map[string]int{}
	for _, rise := range worth.Rises {
		for _, e := range rise {
			want[strconv.Itoa(e.Points.N)]++
		}
	}
	for text, n := range want {
		if got[text] < 1 || got[text] > n {
			t.Errorf("%q is written %d times, want it for each of %d exchanges in view", text, got[text], n)
		}
	}
	name, cell := w.replies.Columns(w.replies.Body.Size().Width)
	if cell < panel.ReplyCell+30 {
		t.Errorf("a column with points is %g wide", cell)
	}
	line := timeline.FirstReply
	w.replies.Body.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(name+cell/2, (float32(line)+0.5)*panel.ReplyRow)}})
	if want := words.WorthSentence(worth.Rises[0][line]); want == "" || w.status.Hinted != want {
		t.Errorf("the hint is %q, want %q", w.status.Hinted, want)
	}

	w.model.SetDelay(1)
	if _, known := w.model.Worth.Answer(); !known {
		t.Fatal("what the other delay is worth isn't known")
	}
	for i := range p.Fighters {
		for k := range p.Fighters[i].Moves {
			p.Fighters[i].Moves[k].Damage = 0
		}
		p.Fighters[i].Routes = nil
	}
	for i := range p.Setups {
		s := &p.Setups[i]
		s.OnHit, s.Punish, s.Pressure = "", nil, 0
		for k := range s.Replies {
			s.Replies[k].Costs = timeline.Maybe{}
		}
	}
	p.Setups, p.Ruleset.GaugeWorth = p.Setups[:1], 0
	w = open(t, p, laptop)
	w.showReplies()
	if n := textsOf(w.replies.Body)["0"]; n != 0 {
		t.Errorf("without damage %d cells say 0", n)
	}
}
