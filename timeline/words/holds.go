package words

import (
	"fmt"
	"strings"

	"wakeline/timeline"
)

// Holds says what the game must show for a setup to hold: a sentence each for
// the advantage, the distance and the reversals, where they have a meaning.
func Holds(v *timeline.Verdict) (out []string) {
	if a := byAdvantage(v.Advantage, &v.Holds); len(a.Spans) == 0 {
		out = append(out, "Holds at no advantage near this one.")
	} else {
		out = append(out, "Holds while the game shows an advantage of "+a.List()+".")
	}
	if v.Distance.Given {
		if d := byDistance(v.Distance.N, v.HoldsDistance); len(d.Spans) == 0 {
			out = append(out, "Holds at no distance near this one.")
		} else {
			out = append(out, "Holds "+units(d.Spans, d.Tried.To)+".")
		}
	}
	if v.HoldsStartup.Given {
		out = append(out, "Holds against reversals of "+OrSlower(v.HoldsStartup.N)+".")
	}
	return out
}

// OrSlower names the reversals from a startup on.
func OrSlower(startup int) string { return Frames(startup) + " or slower" }

// Holding is where a setup holds by one of its numbers.
type Holding struct {
	By    string            // the number: advantage, distance
	At    int               // where it stands
	Tried timeline.Bounds   // what was tried; both ends belong to it
	Spans []timeline.Bounds // where it holds, of what was tried
}

// Holdings tells where the plan holds by its advantage, and by its distance
// where that is known.
func Holdings(p *timeline.Plan, h *timeline.Holds) []Holding {
	out := []Holding{byAdvantage(p.K, h)}
	if d := p.Distance(); d.Given {
		out = append(out, byDistance(d.N, h.HoldsDistance))
	}
	return out
}

func byAdvantage(k int, h *timeline.Holds) Holding {
	return Holding{"advantage", k, timeline.Bounds{From: max(0, k-timeline.AdvantageTried), To: h.MostAdvantage}, h.HoldsAdvantage}
}

func byDistance(d int, spans []timeline.Bounds) Holding {
	return Holding{"distance", d, timeline.Bounds{To: d + timeline.DistanceTried}, spans}
}

// OrLess and OrMore report whether the span may go on below, or above, what was
// tried.
func (h *Holding) OrLess(b timeline.Bounds) bool { return b.From == h.Tried.From && b.From > 0 }

// OrMore: see OrLess.
func (h *Holding) OrMore(b timeline.Bounds) bool { return b.To == h.Tried.To }

// List writes the spans: "47 to 48", "60 or more", "none".
func (h *Holding) List() string {
	var out []string
	for _, b := range h.Spans {
		less, more := h.OrLess(b), h.OrMore(b)
		switch {
		case less && more:
			out = append(out, fmt.Sprintf("%d or less to %d or more", b.From, b.To))
		case more:
			out = append(out, fmt.Sprintf("%d or more", b.From))
		case less:
			out = append(out, fmt.Sprintf("%d or less", b.To))
		case b.From == b.To:
			out = append(out, fmt.Sprint(b.From))
		default:
			out = append(out, fmt.Sprintf("%d to %d", b.From, b.To))
		}
	}
	if len(out) == 0 {
		return "none"
	}
	return List(out)
}

// units writes runs of distances, of which those up to most were tried.
func units(of []timeline.Bounds, most int) string {
	var out []string
	for _, b := range of {
		switch {
		case b.To == most:
			out = append(out, fmt.Sprintf("at %d units or more", b.From))
		case b.From == b.To:
			out = append(out, "at "+Count(b.From, "unit"))
		default:
			out = append(out, fmt.Sprintf("from %d to %d units", b.From, b.To))
		}
	}
	return List(out)
}

// Here reports whether it holds where it stands.
func (h *Holding) Here() bool { return h.span() != nil }

// span is the span in which it stands, nil where there is none.
func (h *Holding) span() *timeline.Bounds {
	for i := range h.Spans {
		if b := &h.Spans[i]; b.From <= h.At && h.At <= b.To {
			return b
		}
	}
	return nil
}

// Slack is how much less and how much more changes whether it holds: where it
// holds, the least that breaks it, and where it doesn't, the least with which
// it would. A side on which nothing that was tried does is absent.
func (h *Holding) Slack() (less, more timeline.Maybe) {
	if b := h.span(); b != nil {
		if b.From > h.Tried.From {
			less = timeline.Some(h.At - b.From + 1)
		}
		if !h.OrMore(*b) {
			more = timeline.Some(b.To - h.At + 1)
		}
		return less, more
	}
	for _, b := range h.Spans {
		if b.To < h.At {
			less = timeline.Some(h.At - b.To)
		} else if !more.Given {
			more = timeline.Some(b.From - h.At)
		}
	}
	return less, more
}

// slackWords says what Slack tells.
func (h *Holding) slackWords() string {
	var by []string
	less, more := h.Slack()
	if less.Given {
		by = append(by, fmt.Sprintf("%d less", less.N))
	}
	if more.Given {
		by = append(by, fmt.Sprintf("%d more", more.N))
	}
	either := strings.Join(by, " or ")
	switch {
	case either == "" && h.Here():
		return "nothing tried breaks it"
	case either == "":
		return ""
	case !h.Here():
		return "it needs " + either
	case len(by) > 1:
		return either + " break it"
	}
	return either + " breaks it"
}

// Say tells it in words that begin within a sentence, the longest first: where
// it holds, and what would change that.
func (h *Holding) Say() []string {
	if len(h.Spans) == 0 {
		return []string{fmt.Sprintf("holds at no %s near this one", h.By), "holds at none near", "none near"}
	}
	list, slack := h.List(), h.slackWords()
	return []string{"holds at " + list + "; " + slack, list + "; " + slack, "holds at " + list, list}
}
