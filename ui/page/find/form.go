package find

import (
	"fmt"
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/timeline"
	"wakeline/timeline/find"
	"wakeline/ui/model"
	"wakeline/ui/page"
	"wakeline/ui/paint"
)

// form asks what a search starts from and what limits it. What is chosen
// in it always makes a query, or says in words what it lacks.
type form struct {
	OnChange func()

	m     *model.Model
	of    timeline.Setup // the setup that it starts from
	quiet bool           // the controls are set by the program

	ender, where, most, wait, gauge *paint.Pick
	limited, ordered                *paint.PageTick
	rivals, rises                   *tickList // a rise is named with its rival
	jumps, attacks, fillers         *tickList
	box                             *fyne.Container
	ownAdvantage                    string // the option of the ender that keeps the setup's advantage; empty: none
}

// The choices of the form's numbers.
var (
	mostChoices = []string{"0", "1", "2", "3", "4", "5", "6", "8", "12", "16", "24", "32"}
	waitChoices = []int{1, 2, 3, 4, 5, 6, 8, 10, 15, 20, 30, 60}
)

const (
	mostAtFirst    = "3"
	includeLimited = "Include limited"
	anyWait        = "any counted wait"
	noWaiting      = "no counted wait"
)

func waitChoice(n int) string { return "a wait of at most " + strconv.Itoa(n) }

func newForm(w page.Host) *form {
	f := &form{m: w.Model()}
	changed := func() {
		if !f.quiet && f.OnChange != nil {
			f.OnChange()
		}
	}
	choose := func(options []string, at string) *paint.Pick {
		s := paint.NewPick(w, options, func(string) { changed() })
		s.Selected = at
		return s
	}
	f.ender = choose(nil, "")
	f.where = paint.NewPick(w, model.Positions, func(string) {
		if !f.quiet {
			f.fillEnders()
			changed()
		}
	})
	f.most = choose(mostChoices, mostAtFirst)
	waits := []string{noWaiting, anyWait}
	for _, n := range waitChoices {
		waits = append(waits, waitChoice(n))
	}
	f.wait = choose(waits, anyWait)
	f.gauge = choose(nil, "0")
	f.limited = paint.NewPageTick(w, includeLimited, func(bool) { changed() })
	f.ordered = paint.NewPageTick(w, "Count each order", func(bool) { changed() })
	f.rivals = newTickList(w, "Rivals", func() { f.fillRises(); changed() })
	f.rises = newTickList(w, "Rises", changed)
	f.jumps = newTickList(w, "Jumps", changed)
	f.attacks = newTickList(w, "Attacks in the jump", changed)
	f.fillers = newTickList(w, "Fillers", changed)

	row := func(words string, o fyne.CanvasObject) fyne.CanvasObject {
		l := widget.NewLabel(words)
		l.Importance = widget.LowImportance
		return container.NewBorder(nil, nil, container.NewGridWrap(fyne.NewSize(94, 30), l), nil, o)
	}
	f.box = container.NewVBox(
		row("Ender", f.ender), row("Position", f.where), f.rivals.box, f.rises.box,
		widget.NewSeparator(),
		row("Max fillers", f.most), row("Wait", f.wait), row("Max gauge", f.gauge), f.limited, f.ordered,
		widget.NewSeparator(),
		f.jumps.box, f.attacks.box, f.fillers.box)
	f.fill()
	return f
}

// fill offers what the chosen setup's fighter has; what a hand has set stays,
// as far as the setup still has the ender and place that it was set for.
func (f *form) fill() {
	f.quiet = true
	defer func() { f.quiet = false }()
	before := f.of
	f.of = f.m.Setup()
	attacker := f.m.Data().Fighter(f.of.Attacker)
	if o := &f.of; o.Attacker != before.Attacker || o.Ender != before.Ender || o.Position != before.Position || o.Advantage != before.Advantage {
		f.where.SetSelected(string(f.of.Position))
		f.ender.ClearSelected()
	}
	f.fillEnders()
	var gauge []string
	for n := range f.m.Data().Ruleset.Gauge + 1 {
		if n <= 64 {
			gauge = append(gauge, strconv.Itoa(n))
		}
	}
	f.gauge.SetOptions(gauge)
	if !slices.Contains(gauge, f.gauge.Selected) {
		f.gauge.SetSelected("0")
	}
	f.rivals.fill(model.FighterNames(f.m.Data()), func(name string) bool { return name == f.of.Rival })
	f.fillRises()
	all := func(string) bool { return true }
	var jumps, attacks, fillers []string
	for i := range attacker.Moves {
		if m := &attacker.Moves[i]; !m.Air {
			fillers = append(fillers, m.Name)
		} else if m.Hits() {
			attacks = append(attacks, m.Name)
		}
	}
	for i := range attacker.Jumps {
		jumps = append(jumps, attacker.Jumps[i].Name)
	}
	f.jumps.fill(jumps, all)
	f.attacks.fill(attacks, all)
	f.fillers.fill(append(fillers, jumps...), all)
}

// fillRises offers the rises of the rivals that are ticked; those that a search
// claims unless it is told others are ticked at first.
func (f *form) fillRises() {
	var names []string
	first := map[string]bool{}
	for _, rival := range f.rivals.ticked() {
		claimed := find.Claims(f.m.Data(), &f.of, rival)
		for _, r := range f.m.Data().Fighter(rival).Rises {
			name := riseOf(rival, r.Name)
			names = append(names, name)
			first[name] = slices.Contains(claimed, r.Name)
		}
	}
	f.rises.fill(names, func(name string) bool { return first[name] })
}

func riseOf(rival, rise string) string { return rival + ", " + rise + " rise" }

// claimed are the rises ticked of a rival.
func (f *form) claimed(rival string) (out []string) {
	ticked := f.rises.ticked()
	for _, r := range f.m.Data().Fighter(rival).Rises {
		if slices.Contains(ticked, riseOf(rival, r.Name)) {
			out = append(out, r.Name)
		}
	}
	return out
}

// fillEnders offers the enders at the chosen position, and the setup's own
// advantage where it has one.
func (f *form) fillEnders() {
	names := model.Enders(f.m.Data().Fighter(f.of.Attacker), timeline.Position(f.where.Selected))
	f.ownAdvantage = ""
	if f.of.Advantage.Given {
		f.ownAdvantage = fmt.Sprintf("knockdown advantage %d (set manually)", f.of.Advantage.N)
		names = append([]string{f.ownAdvantage}, names...)
	}
	was := f.quiet
	f.quiet = true
	f.ender.SetOptions(names)
	switch {
	case slices.Contains(names, f.ender.Selected):
	case f.ownAdvantage != "":
		f.ender.SetSelected(f.ownAdvantage)
	case slices.Contains(names, f.of.Ender):
		f.ender.SetSelected(f.of.Ender)
	case len(names) > 0:
		f.ender.SetSelected(names[0])
	default:
		f.ender.ClearSelected()
	}
	f.quiet = was
}

// start has the form search for one ender, place, jump and attack.
func (f *form) start(ender string, at timeline.Position, jump, attack string) {
	f.quiet = true
	f.where.SetSelected(string(at))
	f.fillEnders()
	f.ender.SetSelected(ender)
	f.jumps.only(jump)
	f.attacks.only(attack)
	f.quiet = false
}

// query is what the form asks for, less the targets, of which it gives the
// rivals and their rises; lacks says in words what is missing. A search by
// ender needs none.
func (f *form) query(byEnder bool) (q find.Query, rivals []find.Target, lacks string) {
	q = find.Query{Setup: f.of, List: mostAnswers, Limited: f.limited.Checked, Ordered: f.ordered.Checked}
	if q.Setup.Position = timeline.Position(f.where.Selected); f.ownAdvantage == "" || f.ender.Selected != f.ownAdvantage {
		q.Setup.Ender, q.Setup.Advantage = f.ender.Selected, timeline.Maybe{}
	}
	q.Most, _ = strconv.Atoi(f.most.Selected)
	q.Gauge, _ = strconv.Atoi(f.gauge.Selected)
	switch f.wait.Selected {
	case anyWait:
	case noWaiting:
		q.Wait = timeline.Some(0)
	default:
		for _, n := range waitChoices {
			if f.wait.Selected == waitChoice(n) {
				q.Wait = timeline.Some(n)
			}
		}
	}
	for _, name := range f.rivals.ticked() {
		t := find.Target{Rival: name, Rises: f.claimed(name)}
		if rivals = append(rivals, t); len(t.Rises) == 0 {
			lacks = "Tick at least one rise of " + name + "."
		}
	}
	q.Jumps, q.Attacks, q.Not = f.jumps.ticked(), f.attacks.ticked(), f.fillers.unticked()
	switch {
	case len(rivals) == 0:
		lacks = "Tick at least one rival."
	case len(f.jumps.names) > 0 && len(q.Jumps) == 0:
		lacks = "Tick at least one jump."
	case len(f.attacks.names) > 0 && len(q.Attacks) == 0:
		lacks = "Tick at least one attack."
	case !byEnder && q.Setup.Ender == "" && !q.Setup.Advantage.Given:
		lacks = fmt.Sprintf("%s has no ender at this position: no move with a knockdown there.", f.of.Attacker)
	}
	return q, rivals, lacks
}

// mostAnswers is how many answers are listed.
const mostAnswers = 100

// tickList is a titled list of names, each ticked or not. What is ticked is
// remembered by name.
type tickList struct {
	w      paint.KeyTaker
	names  []string
	checks []*paint.PageTick
	set    map[string]bool // by name, where a hand has set it
	on     func()
	quiet  bool
	title  *widget.Label
	box    *fyne.Container
}

func newTickList(w paint.KeyTaker, title string, on func()) *tickList {
	l := &tickList{w: w, on: on, set: map[string]bool{}, title: widget.NewLabel(title)}
	l.title.TextStyle.Bold = true
	l.box = container.NewVBox(l.title)
	return l
}

// fill lists those names, ticked at first where first says so.
func (l *tickList) fill(names []string, first func(name string) bool) {
	same := slices.Equal(names, l.names)
	l.names = names
	if !same {
		l.checks, l.box.Objects = nil, []fyne.CanvasObject{l.title}
		for _, name := range names {
			c := paint.NewPageTick(l.w, name, func(on bool) {
				if !l.quiet {
					l.set[name] = on
					l.on()
				}
			})
			l.checks = append(l.checks, c)
			l.box.Add(c)
		}
	}
	if len(names) > 0 {
		l.box.Show()
	} else {
		l.box.Hide()
	}
	l.tick(func(name string) bool {
		if on, ok := l.set[name]; ok {
			return on
		}
		return first(name)
	})
}

// only ticks one name.
func (l *tickList) only(name string) {
	for _, n := range l.names {
		l.set[n] = n == name
	}
	l.tick(func(n string) bool { return l.set[n] })
}

func (l *tickList) tick(on func(name string) bool) {
	l.quiet = true
	for i, c := range l.checks {
		c.SetChecked(on(l.names[i]))
	}
	l.quiet = false
}

func (l *tickList) ticked() (out []string)   { return l.those(true) }
func (l *tickList) unticked() (out []string) { return l.those(false) }

func (l *tickList) those(on bool) (out []string) {
	for i, c := range l.checks {
		if c.Checked == on {
			out = append(out, l.names[i])
		}
	}
	return out
}
