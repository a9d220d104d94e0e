package value_test

import (
	"testing"

	"wakeline/samples"
	"wakeline/timeline"
	. "wakeline/timeline/value"
)

func sample(t *testing.T) *timeline.Project {
	t.Helper()
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// eachSequel hands over the sequels of every exchange of the sample, at a few
// delays.
func eachSequel(t *testing.T, do func(name string, b *Book, m *timeline.Meetings, answer *Answer, e timeline.Exchange, q *timeline.Sequel)) {
	t.Helper()
	p := sample(t)
	b := NewBook(p)
	for _, s := range p.Setups {
		plan, err := timeline.Compile(p, s)
		if err != nil {
			t.Fatal(err)
		}
		for d := max(0, s.Delay-2); d <= min(s.Delay+3, plan.Fits()); d++ {
			m := plan.Meetings(d, nil)
			answer := b.Of(&m, Gauges{})
			for r := range plan.Rises() {
				for i := range plan.Lines() {
					e := timeline.Exchange{Rise: r, Line: i}
					do(s.Name, b, &m, &answer, e, b.Sequel(&m, Gauges{}, e))
				}
			}
		}
	}
}

// TestSequelOfARouteIsTheOneThatPays holds the route drawn to the one that the
// points count, and its frames to the margins of its links and to the frame on
// which the rival is free again.
func TestSequelOfARouteIsTheOneThatPays(t *testing.T) {
	punishes, hits := 0, 0
	eachSequel(t, func(name string, b *Book, m *timeline.Meetings, answer *Answer, e timeline.Exchange, q *timeline.Sequel) {
		c, w := m.Cell(e), answer.Rises[e.Rise][e.Line]
		if q == nil || q.Kind == timeline.Guarded {
			if q == nil && w.Route != "" && c.Outcome != timeline.ReplyParried {
				t.Errorf("%s %v: the points count %s, and nothing follows", name, e, w.Route)
			}
			return
		}
		if q.Name != w.Route || q.Outcome != c.Outcome || q.Meeting != c.Meeting {
			t.Errorf("%s %v: %s follows, of %v on %v; want %s, of %v on %v", name, e, q.Name, q.Outcome, q.Meeting, w.Route, c.Outcome, c.Meeting)
		}
		attacker, _ := m.Plan.Fighters()
		var route *Route
		for _, r := range Routes(m.Plan.Rules(), attacker) {
			if r.Name == q.Name && route == nil {
				route = &r
			}
		}
		first := &q.Steps[0]
		switch q.Kind {
		case timeline.Punish:
			punishes++
			if end := m.Ends(e).N; first.Touch.N >= end || q.Points != w.Kills.N {
				t.Errorf("%s %v: touches on %v, the rival is free on %d; %d points, want %v", name, e, first.Touch, end, q.Points, w.Kills)
			}
			if n := c.ToPunish; n.Given && c.Outcome == timeline.ReplyBlocked && first.Span.From < m.Ends(e).N-n.N {
				t.Errorf("%s %v: begins on %d, is free on %d", name, e, first.Span.From, m.Ends(e).N-n.N)
			}
		case timeline.HitOn:
			hits++
			_, free := m.Touching(e)
			if first.By == timeline.Link && (first.Span.From != free || first.Touch.N+1-free > c.Advantage.N) {
				t.Errorf("%s %v: begins on %d, free on %d; touches on %v at %v", name, e, first.Span.From, free, first.Touch, c.Advantage)
			}
			if w.Kills.N <= q.Points {
				t.Errorf("%s %v: %d points of %v", name, e, q.Points, w.Kills)
			}
		}
		for k, margin := range route.Margins {
			before, step := &q.Steps[k], &q.Steps[k+1]
			if got := before.Rival.N - step.Touch.N - 1; margin.Given && got != margin.N {
				t.Errorf("%s %v: %s comes %d before the rival is free, want %v", name, e, step.Name, got, margin)
			}
			if step.By == timeline.Cancel && step.Span.From != before.Touch.N+1 {
				t.Errorf("%s %v: %s begins on %d, want right after the touch on %v", name, e, step.Name, step.Span.From, before.Touch)
			}
		}
	})
	if punishes < 100 || hits < 100 {
		t.Errorf("only %d punishes and %d routes after a hit", punishes, hits)
	}
}

// TestSequelOfAStringHasItsGaps holds the frames of a string to the numbers of
// value.md, counted from the attacker's first free frame.
func TestSequelOfAStringHasItsGaps(t *testing.T) {
	n := 0
	eachSequel(t, func(name string, b *Book, m *timeline.Meetings, answer *Answer, e timeline.Exchange, q *timeline.Sequel) {
		s := answer.String
		if q == nil || q.Kind != timeline.Guarded {
			return
		}
		_, free := m.Touching(e)
		c := m.Cell(e)
		if q.Rival.N != free+c.Advantage.N {
			t.Errorf("%s %v: the rival is free on %v, want %d", name, e, q.Rival, free+c.Advantage.N)
		}
		rival := q.Rival.N
		for i := range q.Steps {
			step := &q.Steps[i]
			if step.Gap.Given {
				if want := max(0, step.Touch.N+1-rival); step.Gap.N != want {
					t.Errorf("%s %v: %s leaves %v, the rival has %d frames", name, e, step.Name, step.Gap, want)
				}
			}
			rival = step.Rival.N
		}
		if s == nil || s.Steps[0].Before != c.Advantage { // another touch than the one that the answer is about
			return
		}
		n++
		for i := range q.Steps {
			step, want := &q.Steps[i], &s.Steps[i]
			if step.Name != want.Move || step.Gap != want.Gap || step.BeatenBy != want.BeatenBy {
				t.Errorf("%s %v: %s with %v, %q; want %s with %v, %q", name, e, step.Name, step.Gap, step.BeatenBy, want.Move, want.Gap, want.BeatenBy)
			}
			if want.Touches.Given && step.Touch.N-free != want.Touches.N {
				t.Errorf("%s %v: %s touches %d after the attacker is free, want %v", name, e, step.Name, step.Touch.N-free, want.Touches)
			}
			free = step.Span.To
		}
		if q.Advantage != s.Advantage || q.PunishedBy != s.PunishedBy || s.Advantage.Given && rival-q.Free() != s.Advantage.N {
			t.Errorf("%s %v: ends at %v, %q, the rival free on %d, the attacker on %d; want %v, %q", name, e, q.Advantage, q.PunishedBy, rival, q.Free(), s.Advantage, s.PunishedBy)
		}
	})
	if n < 20 {
		t.Errorf("only %d strings", n)
	}
}

// TestFollowedSceneFitsTogether draws on from every exchange: on each side one
// block ends where the next begins, and the scene holds them all.
func TestFollowedSceneFitsTogether(t *testing.T) {
	n := 0
	eachSequel(t, func(name string, b *Book, m *timeline.Meetings, answer *Answer, e timeline.Exchange, q *timeline.Sequel) {
		s := m.Plan.Scene(m.Delay, e.Rise, e.Line)
		before := s.Span
		s.Follow(q)
		if q == nil {
			if s.After != nil || s.Span != before {
				t.Errorf("%s %v: nothing follows, and the scene has changed", name, e)
			}
			return
		}
		n++
		if s.Span.From != before.From || s.Span.To < before.To || s.Span.To < min(q.Free(), timeline.Width) {
			t.Errorf("%s %v: the scene is %v, was %v; the attacker is free on %d", name, e, s.Span, before, q.Free())
		}
		at := 0
		for i, block := range s.Bottom {
			if block.Span.From != at && i > 0 {
				t.Errorf("%s %v: the rival's %s begins on %d, what is before it ends on %d", name, e, block.Name, block.Span.From, at)
			}
			at = block.Span.To
			for _, piece := range block.Pieces {
				if piece.Span.Len() > 0 && (piece.Span.From < block.Span.From || piece.Span.To > block.Span.To) {
					t.Errorf("%s %v: a piece of %s at %v lies outside %v", name, e, block.Name, piece.Span, block.Span)
				}
			}
		}
		if at != s.Span.To {
			t.Errorf("%s %v: the rival's blocks end on %d, the scene on %d", name, e, at, s.Span.To)
		}
		steps := 0
		for _, block := range s.Top {
			if block.Part == timeline.PartStep {
				steps++
			} else if block.Span.To > q.From() {
				t.Errorf("%s %v: %s goes on up to %d, past %d", name, e, block.Name, block.Span.To, q.From())
			}
		}
		if steps != len(q.Steps) {
			t.Errorf("%s %v: %d steps drawn of %d", name, e, steps, len(q.Steps))
		}
	})
	if n < 200 {
		t.Errorf("only %d", n)
	}
}

// TestStringByHand: Plain crossing touches on 44 and is free on 49, the rival
// on 58. Thole is active on its 5th frame: it touches on 53, in time. It takes
// 15 frames, and the rival is free 2 later, on 66; the second touches on 68,
// which leaves frames 66 to 68, and ends on 79.
func TestStringByHand(t *testing.T) {
	p := sample(t)
	plan, err := timeline.Compile(p, p.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	m := plan.Meetings(0, nil)
	q := NewBook(p).Sequel(&m, Gauges{}, timeline.Exchange{Line: timeline.LineGuardHigh})
	if q == nil || len(q.Steps) != 2 {
		t.Fatalf("the string is %+v", q)
	}
	a, b := &q.Steps[0], &q.Steps[1]
	span := func(from, to int) timeline.Span { return timeline.Span{From: from, To: to} }
	if q.Rival != timeline.Some(58) || a.Span != span(49, 64) || a.Touch != timeline.Some(53) || a.Gap != timeline.Some(0) || a.Rival != timeline.Some(66) {
		t.Errorf("the rival is free on %v; then %+v", q.Rival, a)
	}
	if b.Span != span(64, 79) || b.Touch != timeline.Some(68) || b.Gap != timeline.Some(3) || b.BeatenBy != "Millrace" || q.Advantage != timeline.Some(2) {
		t.Errorf("then %+v, in the end %v", b, q.Advantage)
	}
	later := q.At(timeline.Some(49))
	if later.Steps[1].Span != span(69, 84) || later.Steps[1].Touch != timeline.Some(73) || later.Meeting != timeline.Some(49) || b.Span != span(64, 79) {
		t.Errorf("five frames later: %+v; it itself %+v", later.Steps[1], b)
	}
	if q.At(timeline.Some(44)) != q || q.At(timeline.Maybe{}) != nil {
		t.Error("after the same meeting, and after none")
	}
}
