package model

import (
	"fmt"
	"slices"
	"strings"

	"wakeline/storage"
	"wakeline/timeline/odds"
	"wakeline/timeline/words"
)

// The names of what is remembered of the person's hand.
const (
	prefHand   = "hand"        // one of the sources below; empty: the drill
	prefSpread = "hand.spread" // milliseconds
	prefBias   = "hand.bias"

	prefHandName = "hand.name" // whose record is taken
)

// Where the numbers of a hand come from.
const (
	TimingDrilled = "drill" // the project's drill, and until there is one the assumption
	TimingAssumed = "assumed"
	TimingTyped   = "typed"
)

// Preferences are what is remembered on this machine from one run to the next.
type Preferences interface {
	String(key string) string
	StringWithFallback(key, fallback string) string
	SetString(key, value string)
	Float(key string) float64
	FloatWithFallback(key string, fallback float64) float64
	SetFloat(key string, value float64)
}

// Timing knows whose timing the odds are of.
type Timing struct {
	OnChange func()             // it is another's, or was measured anew
	OnFail   func(words string) // the record can't be read

	model  *Model
	prefs  Preferences
	doc    *Document
	drills []storage.Drill // of doc
}

// NewTiming returns the timing that is remembered.
func NewTiming(m *Model, prefs Preferences) *Timing { return &Timing{model: m, prefs: prefs} }

// Choice is what the odds are taken from.
type Choice struct {
	Source       string  // one of the sources; empty: the drill
	Spread, Bias float64 // milliseconds, where they are typed
	Hand         string
}

// Choice is the present one.
func (h *Timing) Choice() Choice {
	return Choice{h.prefs.String(prefHand), h.prefs.FloatWithFallback(prefSpread, odds.DefaultSpread), h.prefs.Float(prefBias), h.Name()}
}

// Choose takes the odds from something else.
func (h *Timing) Choose(c Choice) {
	h.prefs.SetString(prefHand, c.Source)
	h.prefs.SetFloat(prefSpread, c.Spread)
	h.prefs.SetFloat(prefBias, c.Bias)
	if c.Hand != h.Name() {
		h.prefs.SetString(prefHandName, c.Hand)
	}
	h.OnChange()
}

// record is the project's drills.
func (h *Timing) record() []storage.Drill {
	if doc := h.model.Document(); h.doc != doc {
		h.doc, h.drills = doc, nil
		drills, err := doc.Drills()
		if err != nil {
			h.OnFail("The drill's record can't be read: " + err.Error())
		}
		h.drills = drills
	}
	return h.drills
}

// Drilled is by how much the presses of the chosen hand came late.
func (h *Timing) Drilled() []float64 { return storage.Late(h.record(), h.Name()) }

// Name is whose hand is chosen, on this machine; until one is, that of the
// project's last drill. It is empty for the hand without a name.
func (h *Timing) Name() string {
	last := ""
	if of := storage.Hands(h.record()); len(of) > 0 {
		last = of[0]
	}
	return h.prefs.StringWithFallback(prefHandName, last)
}

// Names are the hands to choose from, that without a name among them.
func (h *Timing) Names() []string {
	out := append(storage.Hands(h.record()), h.Name(), "")
	slices.Sort(out)
	return slices.Compact(out)
}

// ChooseHand chooses whose hand is drilled, and whose record the odds are of.
func (h *Timing) ChooseHand(name string) {
	if name != h.Name() {
		h.prefs.SetString(prefHandName, name)
		h.OnChange()
	}
}

// Again has the drill's record read anew, and shows the odds that come of it.
func (h *Timing) Again() {
	h.doc = nil
	h.OnChange()
}

// Person is the hand that odds are of.
func (h *Timing) Person() odds.Person {
	switch h.prefs.String(prefHand) {
	case TimingAssumed:
		return odds.Anyone()
	case TimingTyped:
		return odds.Person{Spread: h.prefs.FloatWithFallback(prefSpread, odds.DefaultSpread), Bias: h.prefs.Float(prefBias)}
	}
	if p, ok := odds.Measured(h.Drilled()); ok {
		p.Name = h.Name()
		return p
	}
	return odds.Anyone()
}

// Wait is what the chosen setup asks of a hand; ok is false where it can't be
// judged.
func (h *Timing) Wait(p odds.Person) (w odds.Wait, ok bool) {
	plan := h.model.Plan()
	if plan == nil {
		return w, false
	}
	return odds.WaitOf(plan, h.model.Setup().Delay, p.Timing(h.model.Data().Ruleset)), true
}

// Words says how likely the chosen setup's wait lands; empty where there is
// nothing to say.
func (h *Timing) Words() string {
	p := h.Person()
	w, ok := h.Wait(p)
	if !ok {
		return ""
	}
	return w.Words(p)
}

// Facts says it in short.
func (h *Timing) Facts() []words.Fact {
	p := h.Person()
	w, ok := h.Wait(p)
	if !ok {
		return nil
	}
	return w.Facts(p)
}

// DrillWords says what the project's drills have measured of a hand.
func (h *Timing) DrillWords(name string) string {
	late := storage.Late(h.record(), name)
	e, err := odds.Measure(late)
	of := ""
	if name != "" {
		of = " of " + name
	}
	switch {
	case len(late) == 0:
		return fmt.Sprintf("There is no drill%s yet. Until there are %d presses, odds by the drill assume %g ms.", of, odds.FewestPresses, odds.DefaultSpread)
	case err != nil || len(late) < odds.FewestPresses:
		return fmt.Sprintf("The record has %s%s so far. Until there are %d, odds by the drill assume %g ms.", CountOf(len(late), "press"), of, odds.FewestPresses, odds.DefaultSpread)
	}
	return fmt.Sprintf("The record has %s%s. ", CountOf(len(late), "press"), of) + strings.Join(e.Lines(), " ") + " Odds by the drill take the robust numbers."
}
