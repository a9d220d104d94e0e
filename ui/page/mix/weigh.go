package mix

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/value/report"
	"wakeline/timeline/words"
	"wakeline/ui/model"
)

// Run reads the setups of the pair behind the window, and weighs those of the
// chosen ender.
func (m *Page) Run() {
	each, attacker, rival := m.host.Model().Document().Each(), m.attacker.Selected, m.rival.Selected
	var got model.Pair
	m.work.Run(func(ctx context.Context) (err error) {
		got, err = model.PairOf(ctx, each, attacker, rival)
		return err
	}, func(err error) {
		if err != nil {
			m.say("The setups can't be read.", model.Sentence(err.Error()))
			return
		}
		m.pair = got
		m.chooseGroup()
		m.weigh()
	})
}

// options are how the controls say that setups are weighed; wrong says what
// can't be taken.
func (m *Page) options(rules timeline.Ruleset) (o value.MixOptions, hand, wrong string) {
	segments := func(name, text string) timeline.Maybe {
		text = strings.TrimSpace(text)
		if text == "" {
			return timeline.Maybe{}
		}
		n, err := strconv.Atoi(text)
		if err != nil || n < 0 || n > rules.Gauge {
			wrong = fmt.Sprintf("%s: expected 0 to %s, got %q.", name, words.Count(rules.Gauge, "segment"), text)
		}
		return timeline.Some(n)
	}
	o.Gauges.Attacker, o.Gauges.Rival = segments("Gauge", m.gauge.Text), segments("Rival's gauge", m.rivals.Text)
	o.Carry = rules.Carry
	if text := strings.TrimSpace(m.carry.Text); text != "" {
		c, ok := timeline.ParseCarry(text)
		if !ok {
			wrong = fmt.Sprintf("Carry: expected 0 or more and less than 1, as 1/2 or 0.5, got %q.", text)
		}
		o.Carry = c
	}
	if m.hand.Checked {
		person := m.host.Timing().Person()
		of := person.Timing(rules).Hand
		o.Hand, hand = &of, person.Words()
	}
	return o, hand, wrong
}

// weigh weighs the setups that take part, behind the window, in place of what
// is weighed there.
func (m *Page) weigh() {
	m.work.Stop()
	members := m.members()
	var setups []timeline.Setup
	for _, i := range members {
		if !m.off[m.pair.Setups[i].Name] {
			setups = append(setups, m.pair.Setups[i])
		}
	}
	data := m.host.Model().Data().Bare()
	o, hand, wrong := m.options(data.Ruleset)
	switch {
	case wrong != "":
		m.say(wrong, "")
	case len(members) == 0:
		m.say(fmt.Sprintf("There is no setup of %s against %s.", m.attacker.Selected, m.rival.Selected), "Choose other fighters, or make a setup first.")
	case len(setups) == 0:
		m.say("No setup takes part.", "Tick setups in the table.")
	}
	if wrong != "" || len(setups) == 0 {
		return
	}
	o.Pair = m.pair.Setups
	gauge := o.Gauges.Attacker.Or(data.Ruleset.Gauge)
	var got *value.Mix
	m.work.Run(func(ctx context.Context) (err error) {
		got, err = value.NewBook(data).Mix(ctx, timeline.NewIndex(data), setups, o)
		return err
	}, func(err error) {
		switch {
		case errors.Is(err, context.Canceled):
		case err != nil:
			m.say("These setups can't be weighed.", model.Sentence(err.Error()))
		default:
			m.take(&report.Mix{Mix: got, Gauge: gauge, Hand: hand})
		}
	})
}

// say shows words in place of an answer.
func (m *Page) say(answer, about string) {
	m.got = nil
	m.answer.Say(answer, about)
	m.lay(nil)
}

// take shows what was weighed: the value first, then what belongs to it.
func (m *Page) take(got *report.Mix) {
	notes, err := got.Notes()
	if err != nil {
		m.say("These setups can't be weighed.", model.Sentence(err.Error()))
		return
	}
	m.got = got
	m.answer.Say(got.Answer(), strings.Join(notes, "\n"))
	out := map[string]string{}
	for _, l := range got.LeftOut {
		out[l.Setup] = "left out: " + l.Because
	}
	m.lay(out)
}

// lay lays the table and the habits out; out says why a setup is left out.
func (m *Page) lay(out map[string]string) {
	at := map[string]int{}
	if m.got != nil {
		for i := range m.got.Rows {
			at[m.got.Rows[i].Setup] = i
		}
	}
	var rows []tableRow
	for _, place := range m.members() {
		r := tableRow{name: m.pair.Setups[place].Name, place: place, at: -1}
		r.on = !m.off[r.name]
		if i, ok := at[r.name]; ok {
			r.at = i
		} else if r.why = out[r.name]; !r.on {
			r.why = "takes no part: click its box"
		}
		rows = append(rows, r)
	}
	m.table.show(m.got, rows)
	m.habits.show(m.got)
	m.readHabits()
}

// setWeight says how often the rival does column j.
func (m *Page) setWeight(j, n int) {
	m.weight[habitOf(&m.got.Columns[j])] = n
	m.readHabits()
}

// fromShares takes the rival's best shares for its habits.
func (m *Page) fromShares() {
	if m.got == nil {
		return
	}
	clear(m.weight)
	most := 0.0
	for j := range m.got.Columns {
		f, _ := m.got.Columns[j].Share.Float64()
		most = max(most, f)
	}
	for j := range m.got.Columns {
		f, _ := m.got.Columns[j].Share.Float64()
		m.weight[habitOf(&m.got.Columns[j])] = int(f/most*mostWeight + 0.5)
	}
	m.readHabits()
}

func (m *Page) clearHabits() {
	clear(m.weight)
	m.readHabits()
}

// readHabits tells, behind the window, what is best against the rival's habits.
func (m *Page) readHabits() {
	m.read.Stop()
	if m.got == nil {
		m.reading.SetText("")
		return
	}
	weights := make([]int, len(m.got.Columns))
	for j := range weights {
		weights[j] = m.weight[habitOf(&m.got.Columns[j])]
	}
	m.habits.weigh(weights)
	got := m.got
	var r value.Reading
	known := false
	m.read.Run(func(context.Context) error {
		r, known = got.Reading(weights)
		return nil
	}, func(err error) {
		switch {
		case err != nil:
			m.reading.SetText(model.Sentence(err.Error()))
		case known:
			m.reading.SetText(got.Read(&r))
		default:
			m.reading.SetText("Drag the bars: what does your rival do, and how often?")
		}
	})
}

// EndOwn stops what is weighed.
func (m *Page) EndOwn() bool {
	if !m.work.Stop() {
		return false
	}
	m.say("Stopped.", "Any change weighs anew.")
	return true
}

// Left gives up what is weighed.
func (m *Page) Left() {
	m.work.Stop()
	m.read.Stop()
}
