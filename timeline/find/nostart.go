package find

import (
	"errors"
	"fmt"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// whyNoStart says which demand or rise leaves a jump and attack without a good
// start, of which these are the plans.
func (s *search) whyNoStart(plans []*timeline.Plan) string {
	var each []string // windows of the targets, where every one has its own
	for _, plan := range plans {
		good := s.starts(plan)
		if good.Empty() {
			out := s.whyNoWindow(plan)
			if len(plans) > 1 {
				out = "Against " + plan.Setup.Rival + ": " + out
			}
			return out
		}
		each = append(each, fmt.Sprintf("%s by a start on %s", plan.Setup.Rival, words.Runs(good)))
	}
	return "Each rival alone is met, " + words.List(each) + ", but no start meets all of them."
}

// whyNoWindow says what empties a plan's window: the meeting, a reply that no
// timing covers, rises, or demands that go against each other.
func (s *search) whyNoWindow(plan *timeline.Plan) string {
	v := words.VerdictAt(plan, 0)
	if good := plan.WindowSet(); !good.Empty() {
		out := "No timing covers " + words.List(v.Uncovered)
		if plan.Word(good.First()) == timeline.Limited {
			return out + fmt.Sprintf("; without that demand the jump may start on %s.", words.Runs(good))
		}
		return out + ", which is all that is demanded."
	}
	bare := plan.Setup
	bare.Replies = []timeline.Reply{}
	meaty := s.window(bare)
	if !meaty.Empty() {
		return "The wake-up is met by a start on " + words.Runs(meaty) + ", but no start there meets every demand: " + s.demands(plan) + "."
	}
	if len(v.Rises) == 1 {
		return words.NoMeeting(plan)
	}
	var each []string
	for _, r := range v.Rises {
		one := bare
		one.Rises = []string{r.Rise}
		met := s.window(one)
		if met.Empty() {
			return s.missed(plan, one, r.Rise)
		}
		each = append(each, fmt.Sprintf("%s by a start on %s", r.Rise, words.Runs(met)))
	}
	return "Each rise alone is met, " + words.List(each) + ", but no start meets all of them."
}

// demands says on which starts each demand would be met by itself. Those met
// on every meaty start are left out.
func (s *search) demands(plan *timeline.Plan) string {
	bare := plan.Setup
	bare.Replies = []timeline.Reply{}
	meaty := s.window(bare)
	var out []string
	for _, r := range plan.Asked() {
		one := plan.Setup
		one.Replies = []timeline.Reply{r}
		met := s.window(one)
		if r.Demand != timeline.DemandNone && !met.Empty() && met != meaty {
			out = append(out, fmt.Sprintf("%s asks for %s", r.Title(), words.Runs(met)))
		}
	}
	return words.List(out)
}

// window is the core's window of a setup whose frames fit the width.
func (s *search) window(setup timeline.Setup) timeline.Set {
	plan, err := s.ix.Compile(setup)
	if err != nil {
		return timeline.Set{}
	}
	return plan.WindowSet()
}

// missed says why nothing meets the wake-up of one rise, where one is the
// plan's setup on that rise alone; the rise is named unless it's the same on
// all of them.
func (s *search) missed(plan *timeline.Plan, one timeline.Setup, rise string) string {
	why := words.NoMeeting(plan)
	if alone, err := s.ix.Compile(one); err == nil && words.NoMeeting(alone) != why {
		why = words.NoMeeting(alone)
		why = "On the " + rise + " rise: " + strings.ToLower(why[:1]) + why[1:]
	}
	return why
}

// tooLong says what of a plan against t passes the last frame.
func (s *search) tooLong(t Target, err error) string {
	over := (*timeline.PlanError)(nil)
	if !errors.As(err, &over) {
		return err.Error() + "."
	}
	what, on, last := s.attacker.Name+"'s jump and landing end", over.End, timeline.Width // frames that are over, as ends are told
	var reply int
	if over.Field == "rises" {
		what, on, last = t.Rival+" wakes up", over.End-1, timeline.Width-1
	} else if _, err := fmt.Sscanf(over.Field, "replies[%d]", &reply); err == nil {
		setup := timeline.Setup{Replies: t.Replies}
		what = t.Rival + "'s " + setup.Asked(s.p.Fighter(t.Rival))[reply].Title() + " ends"
	}
	return fmt.Sprintf("%s on frame %d, past the last frame that can be judged, %d.", what, on, last)
}
