package exercise

import (
	"math/rand/v2"
	"slices"
	"testing"

	"wakeline/samples"
	"wakeline/timeline"
)

func sample(t testing.TB) *timeline.Project {
	t.Helper()
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// each makes every kind of question about every setup of the sample, several
// times at other delays, and counts those of each kind.
func each(t *testing.T, check func(p *timeline.Project, q *Question)) {
	t.Helper()
	p := sample(t)
	r := rand.New(rand.NewPCG(7, 7))
	made := map[Kind]int{}
	for i := range p.Setups {
		for range 12 {
			for _, kind := range Kinds {
				if q, ok := Make(p, p.Setups, i, kind, r.IntN); ok {
					made[kind]++
					check(p, &q)
				}
			}
			p.Setups[i].Delay = r.IntN(8)
		}
	}
	for _, kind := range Kinds {
		if made[kind] < 20 {
			t.Errorf("%d questions of the kind %q", made[kind], kind)
		}
	}
}

// met reports whether a judged reply meets its demand, by the table of outcomes
// of frames.md.
func met(r *timeline.ReplyVerdict) bool {
	survived := map[string]bool{"attack hits": true, "attack blocked": true, "reply blocked": true, "reply parried": true, "no contact": true, "attack whiffs": true}
	beaten := map[string]bool{"attack hits": true, "attack blocked": true, "reply parried": true, "reply blocked": r.ToPunish.Given && r.ToPunish.N > 0}
	switch r.Demand {
	case timeline.Survive:
		return survived[r.Outcome.String()]
	case timeline.Beat:
		return beaten[r.Outcome.String()]
	}
	return true
}

// TestRightAnswersAreThoseOfTheVerdict weighs every possible answer against the
// verdict at its delay.
func TestRightAnswersAreThoseOfTheVerdict(t *testing.T) {
	each(t, func(p *timeline.Project, q *Question) {
		switch q.Kind {
		case WhereSafe:
			any := false
			for d := range q.Plan.LastDelay() + 1 {
				safe := q.Plan.Word(d) != timeline.Unsafe
				any = any || safe
				if got := q.Weigh(Answer{Delay: d}); got.Right != safe {
					t.Errorf("%s, delay %d is %s, and the answer %v", q.Setup, d, q.Plan.Word(d), got.Right)
				}
			}
			if got := q.Weigh(Answer{None: true}); got.Right == any {
				t.Errorf("%s: that none is safe is %v", q.Setup, got.Right)
			}
		case WhatBreaks, OneMore:
			d := q.Delay
			if q.Kind == OneMore {
				d++
			}
			v := q.Plan.Verdict(d)
			broken := map[string]bool{nothingBreaks: v.Word == timeline.Safe}
			for _, rise := range v.Rises {
				for i := range rise.Replies {
					r := &rise.Replies[i]
					if r.Reply == timeline.Nothing && (r.Outcome.String() != "attack hits" || r.AfterWake != timeline.Some(0)) {
						broken[missesWakeUp] = true
					}
					if r.Demand != timeline.DemandNone && !met(r) {
						broken[r.Title()+" breaks it"] = true
					}
				}
			}
			for i, choice := range q.Choices {
				if got := q.Weigh(Answer{Choice: i}); got.Right != broken[choice] {
					t.Errorf("%s at delay %d, %q: right %v, want %v", q.Setup, d, choice, got.Right, broken[choice])
				}
			}
			if len(q.RightChoices()) == 0 {
				t.Errorf("%s: no choice is right", q.Setup)
			}
		case ReadStrip:
			v := q.Plan.Verdict(q.Delay)
			r := v.Rises[0].Replies[q.Line]
			want := []int{v.Advantage, r.Meeting.N}
			if len(q.Fields) == 3 {
				want = append(want, r.Spare.N)
			}
			if got := q.Weigh(Answer{Numbers: want}); !got.Right {
				t.Errorf("%s: %v is wrong: %s", q.Setup, want, got.Whole)
			}
			for i := range want {
				other := slices.Clone(want)
				other[i]++
				if got := q.Weigh(Answer{Numbers: other}); got.Right || got.Short != "Not right: "+q.Fields[i]+"." {
					t.Errorf("%s: %v is right or told as %q", q.Setup, other, got.Short)
				}
			}
			if q.Weigh(Answer{Numbers: want[:1]}).Right {
				t.Errorf("%s: one number is enough", q.Setup)
			}
		case WhichSetup:
			held := 0
			for i, name := range q.Choices {
				at := slices.IndexFunc(p.Setups, func(s timeline.Setup) bool { return s.Name == name })
				right := q.Weigh(Answer{Choice: i}).Right
				if right {
					held++
				}
				if at < 0 || right != (name == q.Setup) {
					t.Errorf("%q is right: %v; asked of %q", name, right, q.Setup)
				}
			}
			if held != 1 || len(q.Choices) < 2 {
				t.Errorf("%d of %d choices hold", held, len(q.Choices))
			}
		}
		for _, wrong := range []Answer{{Choice: -1}, {Choice: 99}} {
			if q.Kind != WhereSafe && q.Weigh(wrong).Right {
				t.Errorf("%s: %+v is right", q.Setup, wrong)
			}
		}
		if q.Ask == "" || q.Weigh(Answer{}).Whole == "" {
			t.Errorf("%+v asks or tells nothing", q)
		}
	})
}

// TestWhichSetupOffersOneThatHolds judges the setups that are offered.
func TestWhichSetupOffersOneThatHolds(t *testing.T) {
	each(t, func(p *timeline.Project, q *Question) {
		if q.Kind != WhichSetup {
			return
		}
		var reply string
		for i := range p.Setups {
			if p.Setups[i].Name != q.Setup {
				continue
			}
			plan, err := timeline.Compile(p, p.Setups[i])
			if err != nil {
				t.Fatal(err)
			}
			for line := timeline.FirstReply; line < plan.Lines(); line++ {
				if r := plan.Reply(line); q.Ask == p.Setups[i].Rival+" gets up with "+r.Title()+". Which of these setups of "+p.Setups[i].Attacker+" comes through unhurt?" {
					reply = r.Title()
				}
			}
		}
		if reply == "" {
			t.Fatalf("%q asks of no reply of %q", q.Ask, q.Setup)
		}
		for i, name := range q.Choices {
			at := slices.IndexFunc(p.Setups, func(s timeline.Setup) bool { return s.Name == name })
			plan, err := timeline.Compile(p, p.Setups[at])
			if err != nil {
				t.Fatal(err)
			}
			holds := true
			for _, rise := range plan.Verdict(plan.Setup.Delay).Rises {
				for k := range rise.Replies {
					r := &rise.Replies[k]
					if !plan.Bait() && r.Reply == timeline.Nothing && (r.Outcome.String() != "attack hits" || r.AfterWake != timeline.Some(0)) {
						holds = false
					}
					if r.Title() == reply && !map[string]bool{"attack hits": true, "attack blocked": true, "reply blocked": true, "reply parried": true, "no contact": true}[r.Outcome.String()] {
						holds = false
					}
				}
			}
			if got := q.Weigh(Answer{Choice: i}).Right; got != holds {
				t.Errorf("%s, %q against %s: right %v, want %v", q.Ask, name, reply, got, holds)
			}
		}
	})
}

// TestAQuestionShowsNoAnswer covers the scene of each question.
func TestAQuestionShowsNoAnswer(t *testing.T) {
	each(t, func(_ *timeline.Project, q *Question) {
		if q.Plan == nil {
			return
		}
		s := q.Scene(q.Delay)
		if !s.Hidden || s.Verdict != "" || s.Window != nil || s.Setup != "" {
			t.Errorf("%s: the scene tells %q, %v", q.Setup, s.Verdict, s.Window)
		}
		for _, d := range s.Dimensions {
			if d.Kind == timeline.DimSpare || d.Kind == timeline.DimAfterWake || q.Kind == ReadStrip && d.Kind == timeline.DimAdvantage {
				t.Errorf("%s, %s: a dimension tells %d", q.Setup, q.Kind, d.Value)
			}
		}
	})
}

func TestSetupsWithNothingToAsk(t *testing.T) {
	p := sample(t)
	p.Setups[0].Delay, p.Setups[0].Replies = 0, []timeline.Reply{}
	p.Setups[1].Delay = timeline.MaxFrames
	for _, kind := range []Kind{WhatBreaks, OneMore, ReadStrip} {
		if _, ok := Make(p, p.Setups, 0, kind, rand.IntN); ok {
			t.Errorf("%s asks of a setup without replies", kind)
		}
	}
	for _, kind := range Kinds[:4] {
		if _, ok := Make(p, p.Setups, 1, kind, rand.IntN); ok {
			t.Errorf("%s asks of a setup that can't be judged", kind)
		}
	}
	if _, ok := Make(p, p.Setups[:1], 0, WhichSetup, rand.IntN); ok {
		t.Error("one setup is to be chosen among one")
	}
}
