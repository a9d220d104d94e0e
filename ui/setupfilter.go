package ui

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

// setupFilter is what the list is narrowed to beside what is typed; an empty
// part lets everything pass.
type setupFilter struct{ tag, attacker, rival, verdict string }

// noVerdict is what a setup is called that can't be judged.
const noVerdict = "not judged"

// words name what is filtered.
func (f *setupFilter) words() string {
	var out []string
	for _, part := range [][2]string{{"", f.verdict}, {"tag ", f.tag}, {"as ", f.attacker}, {"vs ", f.rival}} {
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
	tag, attacker, rival, verdict *filterPick
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
	p.verdict, p.tag = pick("any verdict", &s.by.verdict), pick("any tag", &s.by.tag)
	p.attacker, p.rival = pick("any attacker", &s.by.attacker), pick("any rival", &s.by.rival)
	p.box = container.NewGridWithColumns(2, p.verdict, p.tag, p.attacker, p.rival)
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
	p.verdict.offer([]string{string(timeline.Safe), string(timeline.Limited), string(timeline.Unsafe), string(timeline.Blank), noVerdict})
	p.tag.offer(tags)
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
	if s.later == nil || s.model.Len() < manyToFilter {
		s.Filter()
		return
	}
	typed := s.typed
	guard.After(paint.TypingPause, "The filter", func() {
		s.later(func() {
			if s.typed == typed {
				s.ahead(func() {
					if s.typed == typed {
						s.Filter()
					}
				})
			}
		})
	})
}

// ahead looks the typed words up behind the window, and then goes on.
func (s *Setups) ahead(then func()) {
	d, ok := s.model.Document().(*model.FileDocument)
	if !ok {
		then()
		return
	}
	find, keep := d.Ahead(strings.Fields(s.filter.Text))
	s.verdicts.Spawn(func() {
		find()
		s.later(func() {
			keep()
			then()
		})
	})
}

// Filtered reports whether not all setups are asked for.
func (s *Setups) Filtered() bool {
	return s.by != setupFilter{} || len(strings.Fields(s.filter.Text)) > 0
}

// Clear asks for all setups again.
func (s *Setups) Clear() {
	s.by = setupFilter{}
	if s.picks.box.Visible() {
		s.picks.show(s.model)
	}
	if s.filter.Text != "" {
		s.typed++
		s.filter.Text = ""
		s.filter.CursorColumn = 0
		s.filter.Refresh()
	}
	s.Filter()
}

// Filter shows the setups that have every typed word, in any case of letters,
// where the document looks for it or as their verdict, and that are what else
// is asked for. What
// needs the verdicts of all has them judged, and shows those known so far.
func (s *Setups) Filter() {
	if s.asksVerdicts() {
		s.verdicts.Want()
	} else {
		s.verdicts.End()
	}
	pass, err := s.passing()
	s.failed = err
	if s.places == nil && !(s.order.judges() && s.verdicts.Running()) {
		s.places = s.sorted(s.order)
	}
	s.shown = s.shown[:0]
	for k := range s.model.Len() {
		i := k
		if s.places != nil {
			i = s.places[k]
		}
		if pass == nil || pass[i] {
			s.shown = append(s.shown, i)
		}
	}
	s.sayCount()
	s.Choice()
	s.list.Refresh()
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
	for _, word := range strings.Fields(s.filter.Text) {
		if err == nil {
			only(s.having(word))
		}
	}
	if s.by.tag != "" && err == nil {
		only(s.model.Document().Tagged(s.by.tag))
	}
	if s.by.attacker == "" && s.by.rival == "" && s.by.verdict == "" {
		return pass, err
	}
	if pass == nil {
		pass = slices.Repeat([]bool{true}, s.model.Len())
	}
	for i := range pass {
		if pass[i] {
			h := s.model.Document().Head(i)
			pass[i] = (s.by.attacker == "" || s.by.attacker == h.Attacker) &&
				(s.by.rival == "" || s.by.rival == h.Rival) && s.has(i, s.by.verdict)
		}
	}
	return pass, err
}

// typedVerdict is the verdict that a typed word is, empty where it is none.
func typedVerdict(word string) string {
	word = strings.ToLower(word)
	for _, v := range []timeline.Word{timeline.Safe, timeline.Limited, timeline.Unsafe} {
		if word == string(v) {
			return word
		}
	}
	return ""
}

// byVerdict reports whether verdicts are asked for, by choice or by a typed
// word.
func (s *Setups) byVerdict() bool {
	return s.by.verdict != "" || slices.ContainsFunc(strings.Fields(s.filter.Text), func(word string) bool { return typedVerdict(word) != "" })
}

// asksVerdicts reports whether the verdicts of all setups are needed.
func (s *Setups) asksVerdicts() bool { return s.byVerdict() || s.order.judges() }

// having are the setups that have a typed word: where the document looks for
// it, or as their verdict, as far as that is known.
func (s *Setups) having(word string) ([]int, error) {
	found, err := s.model.Document().Search([]string{word})
	verdict := typedVerdict(word)
	if verdict == "" || err != nil {
		return found, err
	}
	in := make([]bool, s.model.Len())
	for _, i := range found {
		in[i] = true
	}
	for i := range in {
		if !in[i] && s.has(i, verdict) {
			found = append(found, i)
		}
	}
	return found, nil
}

// has reports whether setup i is known to have that verdict.
func (s *Setups) has(i int, verdict string) bool {
	if verdict == "" {
		return true
	}
	j, known := s.verdicts.Of(i)
	return known && model.NameOr(string(j.Word), noVerdict) == verdict
}

// sayCount says how many setups there are, what is filtered, and how far the
// judging is.
func (s *Setups) sayCount() {
	n := s.model.Len()
	text := model.CountOf(n, "setup")
	if s.Filtered() {
		text = fmt.Sprintf("%d of %s", len(s.shown), text)
	}
	if s.failed != nil {
		text = "the file can't be searched"
	}
	s.count.Text = text
	s.count.Refresh()

	what, do := s.by.words(), "clear"
	switch {
	case s.verdicts.Running():
		what, do = fmt.Sprintf("judged %d of %d", s.verdicts.Done, n), "stop"
	case s.verdicts.Err != nil && s.asksVerdicts():
		what = "not all can be judged: " + s.verdicts.Err.Error()
	case what == "" && s.Filtered():
		what = "“" + strings.Join(strings.Fields(s.filter.Text), " ") + "”"
	}
	s.clear.Say(do)
	s.what.Say(what)
	if what == "" {
		s.narrowed.Hide()
	} else {
		s.narrowed.Show()
	}
}

// clearOrStop takes the filter away, or stops the judging and what asked for
// it.
func (s *Setups) clearOrStop() {
	if !s.verdicts.Running() {
		s.Clear()
		return
	}
	s.verdicts.End()
	s.by.verdict = ""
	if s.byVerdict() { // a typed word asked
		s.typed++
		s.filter.SetText("")
	}
	if s.order.judges() {
		s.order, s.places = byAge, nil
		s.sort.Say(orderWords[s.order])
	}
	if s.picks.box.Visible() {
		s.picks.show(s.model)
	}
	s.Filter()
}

// more shows what was judged meanwhile.
func (s *Setups) more() {
	if !s.verdicts.Running() {
		s.places = nil
	}
	if s.byVerdict() || !s.verdicts.Running() {
		s.Filter()
	} else {
		s.sayCount()
	}
}
