package panel

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/storage/guard"
	"wakeline/timeline"
	"wakeline/ui/model"
	"wakeline/ui/paint"
)

// SetupFilter is what the list is narrowed to beside what is typed; an empty
// part lets everything pass.
type SetupFilter struct{ Tag, Attacker, Rival, Verdict string }

// NoVerdict is what a setup is called that can't be judged.
const NoVerdict = "not judged"

// Words name what is filtered.
func (f *SetupFilter) Words() string {
	var out []string
	for _, part := range [][2]string{{"", f.Verdict}, {"tag ", f.Tag}, {"as ", f.Attacker}, {"vs ", f.Rival}} {
		if part[1] != "" {
			out = append(out, part[0]+part[1])
		}
	}
	return strings.Join(out, ", ")
}

// filterPick is one choice of the filter.
type filterPick struct {
	widget.Select
	s   *Setups
	any string
	at  *string
}

// TypedKey shows the list, or chooses the one before or after; Escape gives the
// keys back.
func (f *filterPick) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The filter")
	if ev.Name == fyne.KeyEscape {
		f.s.leftOver(ev)
		return
	}
	f.Select.TypedKey(ev)
}

// filterPicks are the choices, which stand in two rows when they are asked
// for.
type filterPicks struct {
	Tag, attacker, rival, verdict *filterPick
	box                           *fyne.Container
	filling                       bool
}

func newFilterPicks(s *Setups) *filterPicks {
	p := &filterPicks{}
	pick := func(any string, at *string) *filterPick {
		f := &filterPick{s: s, any: any, at: at}
		f.ExtendBaseWidget(f)
		f.PlaceHolder = "(none)"
		f.OnChanged = func(chosen string) {
			defer paint.Survive("The filter")
			if p.filling {
				return
			}
			if *at = chosen; chosen == any {
				*at = ""
			}
			s.Filter()
		}
		return f
	}
	p.verdict, p.Tag = pick("any verdict", &s.By.Verdict), pick("any tag", &s.By.Tag)
	p.attacker, p.rival = pick("any attacker", &s.By.Attacker), pick("any rival", &s.By.Rival)
	p.box = container.NewGridWithColumns(2, p.verdict, p.Tag, p.attacker, p.rival)
	return p
}

// show offers what there is to choose, and shows what is chosen.
func (p *filterPicks) show(m *model.Model) {
	var fighters []string
	for i := range m.Data().Fighters {
		fighters = append(fighters, m.Data().Fighters[i].Name)
	}
	tags, _ := m.Document().Tags() // where the file can't say, the count says so
	p.filling = true
	p.verdict.offer([]string{string(timeline.Safe), string(timeline.Limited), string(timeline.Unsafe), string(timeline.Blank), NoVerdict})
	p.Tag.offer(tags)
	p.attacker.offer(fighters)
	p.rival.offer(fighters)
	p.filling = false
}

func (f *filterPick) offer(of []string) {
	f.Options = append([]string{f.any}, of...)
	f.SetSelected(model.NameOr(*f.at, f.any))
}

// manyToFilter is from how many setups on the filter waits for the hand to
// pause.
const manyToFilter = 5000

// filterSoon filters at once, or when the typing pauses.
func (s *Setups) filterSoon() {
	s.typed++
	if s.Later == nil || s.model.Len() < manyToFilter {
		s.Filter()
		return
	}
	typed := s.typed
	guard.After(paint.TypingPause, "The filter", func() {
		s.Later(func() {
			if s.typed == typed {
				s.Ahead(func() {
					if s.typed == typed {
						s.Filter()
					}
				})
			}
		})
	})
}

// Ahead looks what is typed up behind the window, and then goes on.
func (s *Setups) Ahead(then func()) {
	of, _ := s.model.Document().ReadSearch(s.Field.Text) // of what can't be read nothing is looked up
	find, keep := s.model.Document().Ahead(of)
	s.Verdicts.Spawn(func() {
		find()
		s.Later(func() {
			keep()
			then()
		})
	})
}

// Filtered reports whether not all setups are asked for.
func (s *Setups) Filtered() bool {
	return s.By != SetupFilter{} || len(strings.Fields(s.Field.Text)) > 0
}

// Clear asks for all setups again.
func (s *Setups) Clear() {
	s.By = SetupFilter{}
	if s.Picks.box.Visible() {
		s.Picks.show(s.model)
	}
	if s.Field.Text != "" {
		s.typed++
		s.Field.Text = ""
		s.Field.CursorColumn = 0
		s.Field.Refresh()
	}
	s.Filter()
}

// Filter shows the setups that the typed search finds, and that are what else
// is asked for. What needs the verdicts of all has them judged, and shows those
// known so far. While what is typed can't be read, the search before stands.
func (s *Setups) Filter() {
	if of, err := s.model.Document().ReadSearch(s.Field.Text); err == nil {
		s.search, s.unread = of, nil
	} else {
		s.unread = err
	}
	if s.asksVerdicts() {
		s.Verdicts.Want()
	} else {
		s.Verdicts.End()
	}
	pass, err := s.passing()
	s.failed = err
	if s.places == nil && !(s.order.judges() && s.Verdicts.Running()) {
		s.places = s.sorted(s.order)
	}
	s.Shown = s.Shown[:0]
	for k := range s.model.Len() {
		i := k
		if s.places != nil {
			i = s.places[k]
		}
		if pass == nil || pass[i] {
			s.Shown = append(s.Shown, i)
		}
	}
	s.sayCount()
	s.Choice()
	s.List.Refresh()
}

// passing marks the setups that pass, nil where all do.
func (s *Setups) passing() (pass []bool, err error) {
	only := func(found []int, failed error) {
		if err = failed; err != nil {
			found = nil
		}
		next := make([]bool, s.model.Len())
		for _, i := range found {
			next[i] = pass == nil || pass[i]
		}
		pass = next
	}
	if !s.search.Empty() {
		pass, err = s.model.Document().Search(s.search, func(i int, word timeline.Word) bool { return s.has(i, string(word)) })
		if err != nil {
			pass = make([]bool, s.model.Len())
		}
	}
	if s.By.Tag != "" && err == nil {
		only(s.model.Document().Tagged(s.By.Tag))
	}
	if s.By.Attacker == "" && s.By.Rival == "" && s.By.Verdict == "" {
		return pass, err
	}
	if pass == nil {
		pass = slices.Repeat([]bool{true}, s.model.Len())
	}
	for i := range pass {
		if pass[i] {
			h := s.model.Document().Head(i)
			pass[i] = (s.By.Attacker == "" || s.By.Attacker == h.Attacker) &&
				(s.By.Rival == "" || s.By.Rival == h.Rival) && s.has(i, s.By.Verdict)
		}
	}
	return pass, err
}

// byVerdict reports whether verdicts are asked for, by choice or by a typed
// word.
func (s *Setups) byVerdict() bool {
	return s.By.Verdict != "" || slices.ContainsFunc(s.search.Terms(), func(t timeline.Term) bool { _, asks := t.IsVerdict(); return asks })
}

// asksVerdicts reports whether the verdicts of all setups are needed.
func (s *Setups) asksVerdicts() bool { return s.byVerdict() || s.order.judges() }

// has reports whether setup i is known to have that verdict.
func (s *Setups) has(i int, verdict string) bool {
	if verdict == "" {
		return true
	}
	j, known := s.Verdicts.Of(i)
	return known && model.NameOr(string(j.Word), NoVerdict) == verdict
}

// sayCount says how many setups there are, what is filtered, and how far the
// judging is.
func (s *Setups) sayCount() {
	n := s.model.Len()
	text := model.CountOf(n, "setup")
	if s.Filtered() {
		text = fmt.Sprintf("%d of %s", len(s.Shown), text)
	}
	if s.failed != nil {
		text = "the file can't be searched"
	}
	if selected := len(s.Marks.Places()); selected > 0 {
		text += fmt.Sprintf("; %d selected", selected)
	}
	s.Count.Text = text
	s.Count.Refresh()

	what, do := s.By.Words(), "clear"
	switch {
	case s.unread != nil:
		what = "Can't be read: " + s.unread.Error()
	case s.Verdicts.Running():
		what, do = fmt.Sprintf("judged %d of %d", s.Verdicts.Done, n), "stop"
	case s.Verdicts.Err != nil && s.asksVerdicts():
		what = "not all can be judged: " + s.Verdicts.Err.Error()
	case what == "" && s.Filtered():
		what = "“" + strings.Join(strings.Fields(s.Field.Text), " ") + "”"
		for _, l := range s.model.Document().Lists() {
			if strings.TrimSpace(s.Field.Text) == timeline.ListSearch(l.Name) {
				what = "list “" + l.Name + "”"
			}
		}
	}
	s.ClearWord.Say(do)
	s.What.Say(what)
	if what == "" {
		s.Narrowed.Hide()
	} else {
		s.Narrowed.Show()
	}
}

// clearOrStop takes the filter away, or stops the judging and what asked for
// it.
func (s *Setups) clearOrStop() {
	if !s.Verdicts.Running() {
		s.Clear()
		return
	}
	s.Verdicts.End()
	s.By.Verdict = ""
	if s.byVerdict() { // a typed word asked
		s.typed++
		s.Field.SetText("")
	}
	if s.order.judges() {
		s.order, s.places = ByAge, nil
		s.sort.Say(OrderWords[s.order])
	}
	if s.Picks.box.Visible() {
		s.Picks.show(s.model)
	}
	s.Filter()
}

// more shows what was judged meanwhile.
func (s *Setups) more() {
	if !s.Verdicts.Running() {
		s.places = nil
	}
	if s.byVerdict() || !s.Verdicts.Running() {
		s.Filter()
	} else {
		s.sayCount()
	}
}
