package panel

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"

	"wakeline/timeline"
	"wakeline/timeline/words"
	"wakeline/ui/model"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// factList is what follows from a setup's numbers: the core's own, only read.
type factList struct {
	paint.Painted
	n       *Inspector
	wrapper paint.Wrapper
	Facts   []words.Fact // one without a value is a line of its own
	lines   int
}

const factLine = 18 // units

func newFactList(n *Inspector) *factList {
	l := &factList{n: n, wrapper: paint.Wrapper{Size: paint.CaptionSize}}
	l.Extend(l, l.paint, func() fyne.Size { return fyne.NewSize(100, float32(l.lines)*factLine+6) })
	return l
}

// Update takes the facts as they stand.
func (l *factList) Update() (moved bool) {
	l.Facts = l.n.worthFacts(setupFacts(l.n.model, l.n, l.Facts[:0]))
	moved = len(l.Facts) != l.lines
	l.lines = len(l.Facts)
	l.Refresh()
	return moved
}

func (l *factList) paint(p *paint.Pen, size fyne.Size) {
	for i, f := range l.Facts {
		base := float32(i+1)*factLine - 4
		name, role := f.Name, sheet.Soft
		if f.Value == "" {
			role = sheet.Ink
		}
		value := l.wrapper.Fit(f.Value, size.Width*0.62)
		t := paint.ColumnText(l.wrapper.Fit(name, size.Width-l.wrapper.WidthOf(value)-12), 4, base, role)
		t.Size = paint.CaptionSize
		p.Text(&t)
		t = paint.ColumnText(value, size.Width-2, base, sheet.Ink)
		t.Size, t.Anchor = paint.CaptionSize, sheet.AtEnd
		p.Text(&t)
	}
}

// setupFacts lists what follows from the chosen setup, and from it and the
// reply that is shown.
func setupFacts(m *model.Model, n *Inspector, out []words.Fact) []words.Fact {
	if m.Plan() == nil {
		if m.Err() != nil {
			out = append(out, words.Fact{Name: "This setup can't be judged"})
		}
		return out
	}
	v := m.Verdict()
	add := func(ok bool, name, form string, with ...any) {
		if ok {
			out = append(out, words.Fact{Name: name, Value: fmt.Sprintf(form, with...)})
		}
	}
	add(true, "verdict", "%s", v.Called)
	add(true, "knockdown advantage", "%d", v.Advantage)
	add(v.Distance.Given, "distance", "%v", v.Distance)
	add(v.Room.Given, "room to the wall", "%v", v.Room)
	add(v.JumpOn.Given, "jumps on", "%v", v.JumpOn)
	add(v.Touchdown.Given, "lands on", "%v", v.Touchdown)
	add(v.GuardsFrom.Given, "guards from", "%v", v.GuardsFrom)
	add(true, "acts from", "%d", v.ActsFrom)
	add(v.Called != timeline.Blank, "window", "%s", windowWords(v.Window))
	add(len(v.Uncovered) > 0, "uncovered", "%s", strings.Join(v.Uncovered, ", "))
	if v.Called != timeline.Blank {
		out = holdingFacts(m.Plan(), v.Delay, n.Holds, out)
	}
	spare := v.Spare()
	add(spare.Given, "least to spare", "%v", spare)
	if v.Called != timeline.Blank {
		out = append(out, n.Odds()...)
	}
	for i := range v.Rises {
		add(true, "wake-up, "+v.Rises[i].Rise+" rise", "%d", v.Rises[i].Wake)
	}
	if m.Rise >= len(v.Rises) || m.Line >= len(v.Rises[m.Rise].Replies) {
		return out
	}
	r := &v.Rises[m.Rise].Replies[m.Line]
	out = append(out, words.Fact{Name: "Against " + r.Title() + ", " + v.Rises[m.Rise].Rise + " rise"})
	add(true, "outcome", "%s", r.Outcome)
	add(r.Meeting.Given, "meeting", "%v", r.Meeting)
	add(r.Spare.Given, "to spare", "%v", r.Spare)
	add(r.AfterWake.Given, "after wake-up", "%v", r.AfterWake)
	add(r.Advantage.Given, "advantage", "%+d", r.Advantage.N)
	add(r.ToPunish.Given, "to punish", "%+d", r.ToPunish.N)
	add(r.Apart.Given, "apart on the meeting", "%d, rival %s", max(r.Apart.N, -r.Apart.N), sideWords[r.Side])
	return out
}

// unknown stands for a value that is being worked out.
const unknown = "…"

// holdingFacts lists for what else the setup is good. The rows stay while that
// is being worked out.
func holdingFacts(p *timeline.Plan, delay int, now func() (timeline.Holds, bool), out []words.Fact) []words.Fact {
	holds, ok := now()
	for _, h := range words.Holdings(p, &holds) {
		f := words.Fact{Name: "holds at " + h.By, Value: unknown}
		if ok {
			f.Value = h.List()
		}
		out = append(out, f)
	}
	if s := p.HoldsStartup(delay); s.Given { // this one costs nothing
		out = append(out, words.Fact{Name: "holds at reversals of", Value: words.OrSlower(s.N)})
	}
	return out
}

// sideWords say where the rival is, by the attacker's facing.
var sideWords = map[timeline.Bearing]string{timeline.InFront: "in front", timeline.Behind: "behind", timeline.Over: "on its spot"}

// windowWords writes delays the trade's way: "4 to 7, 9".
func windowWords(window []timeline.Bounds) string {
	var out []string
	for _, b := range window {
		out = append(out, timeline.Window(b).String())
	}
	return model.NameOr(strings.Join(out, ", "), "none")
}
