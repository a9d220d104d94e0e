package mix

import (
	"context"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/value/report"
	"wakeline/ui/page/pagetest"
)

func sample(t testing.TB) *timeline.Project {
	t.Helper()
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// openMix shows the mix of the sample's first setup, Plain crossing.
func openMix(t testing.TB, p *timeline.Project) (*pagetest.Host, *Page) {
	t.Helper()
	w := pagetest.Open(t, p)
	m := New(w, func() {})
	w.Show(m)
	m.Run()
	return w, m
}

// told is the mix of those setups of the sample, as package value has it.
func told(t testing.TB, p *timeline.Project, o value.MixOptions, names ...string) *report.Mix {
	t.Helper()
	var setups []timeline.Setup
	for _, name := range names {
		for _, s := range p.Setups {
			if s.Name == name {
				setups = append(setups, s)
			}
		}
	}
	got, err := value.NewBook(p).Mix(context.Background(), timeline.NewIndex(p), setups, o)
	if err != nil {
		t.Fatal(err)
	}
	return &report.Mix{Mix: got}
}

func names(m *Page) (out []string) {
	for i := range m.table.rows {
		out = append(out, m.table.rows[i].name)
	}
	return out
}

func TestTheAnswerIsWhatTheSetupsAreWorth(t *testing.T) {
	p := sample(t)
	_, m := openMix(t, p)
	want := told(t, p, value.MixOptions{}, names(m)...)
	if len(m.table.rows) != 6 || m.answer.Text.Text != want.Answer() || !strings.Contains(m.answer.Text.Text, "665.88") {
		t.Fatalf("%d setups, %q, want %q", len(m.table.rows), m.answer.Text.Text, want.Answer())
	}
	proof, err := want.Proof()
	if err != nil || !strings.Contains(m.answer.About.Text, proof) {
		t.Errorf("%q lacks the proof %q", m.answer.About.Text, proof)
	}
	for _, name := range want.NeverRows() {
		if !strings.Contains(m.answer.About.Text, name) {
			t.Errorf("%q doesn't say that %q is never worth playing", m.answer.About.Text, name)
		}
	}
	m.group.SetSelectedIndex(1)
	if m.got.Ender == "Keel Scrape" && m.got.Position == timeline.Midscreen || m.got.Ender != m.groups[1].ender {
		t.Errorf("another ender was chosen, and %s (%s) is weighed", m.got.Ender, m.got.Position)
	}
}

func TestASetupThatTakesNoPartIsNotWeighed(t *testing.T) {
	p := sample(t)
	_, m := openMix(t, p)
	all := names(m)
	m.table.Names.Tapped(&fyne.PointEvent{Position: fyne.NewPos(tickLeft+3, rowHeight/2)})
	want := told(t, p, value.MixOptions{}, all[1:]...)
	if m.answer.Text.Text != want.Answer() || m.table.rows[0].at != -1 || m.table.rows[0].on || len(m.table.rows) != len(all) {
		t.Errorf("%q, want %q; the first row is %+v", m.answer.Text.Text, want.Answer(), m.table.rows[0])
	}
	m.table.MoveTo(0, 0)
	m.table.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	if want := told(t, p, value.MixOptions{}, all...); m.answer.Text.Text != want.Answer() {
		t.Errorf("with all again: %q, want %q", m.answer.Text.Text, want.Answer())
	}
	for i := range all {
		m.tapName(i, 0)
	}
	if m.got != nil || m.answer.Text.Text != "No setup takes part." {
		t.Errorf("with none: %q", m.answer.Text.Text)
	}
}

func TestGaugeHandAndCarryAreWeighed(t *testing.T) {
	p := sample(t)
	_, m := openMix(t, p)
	full := m.got.Value
	m.gauge.SetText("0")
	want := told(t, p, value.MixOptions{Gauges: value.Gauges{Attacker: timeline.Some(0)}}, names(m)...)
	if m.answer.Text.Text != want.Answer() || m.got.Gauge != 0 {
		t.Errorf("without gauge: %q, want %q", m.answer.Text.Text, want.Answer())
	}
	m.gauge.SetText("99")
	if m.got != nil || !strings.HasPrefix(m.answer.Text.Text, "Gauge: expected 0 to ") {
		t.Errorf("with too much gauge: %q", m.answer.Text.Text)
	}
	m.gauge.SetText("")
	if m.got == nil || m.got.Value.Cmp(full) != 0 {
		t.Errorf("with a full gauge again: %q", m.answer.Text.Text)
	}
	m.carry.SetText("1/2")
	if len(m.got.Rounds) == 0 || !strings.Contains(m.answer.About.Text, m.got.Carried()) {
		t.Errorf("with a carry: %q", m.answer.About.Text)
	}
	m.carry.SetText("1")
	if m.got != nil || !strings.HasPrefix(m.answer.Text.Text, "Carry: expected ") {
		t.Errorf("with a carry of 1: %q", m.answer.Text.Text)
	}
	m.carry.SetText("0")
	m.hand.SetChecked(true)
	if m.got.Exact || !strings.Contains(m.answer.About.Text, "spread") {
		t.Errorf("by hand: exact %v, %q", m.got.Exact, m.answer.About.Text)
	}
}

// TestHabitsAreRead drags two bars to the same place: the reading is that of a
// rival that does each half of the time.
func TestHabitsAreRead(t *testing.T) {
	_, m := openMix(t, sample(t))
	at := placesFor(m.habits.Size().Width)
	for j := range 2 {
		down := fyne.NewPos(at.bar+1, (float32(j)+0.5)*habitRow)
		m.habits.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: down}, Button: desktop.MouseButtonPrimary})
		m.habits.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos((at.bar+at.percent)/2, down.Y)}})
		m.habits.DragEnd()
	}
	weights := make([]int, len(m.got.Columns))
	weights[0], weights[1] = 1, 1
	r, ok := m.got.Reading(weights)
	if !ok || m.reading.Text != m.got.Read(&r) || m.habits.weights[0] < 40 || m.habits.weights[0] != m.habits.weights[1] {
		t.Errorf("%q, want %q; weights %v", m.reading.Text, m.got.Read(&r), m.habits.weights)
	}
	m.gauge.SetText("0")
	if m.habits.weights[0] < 40 {
		t.Error("another gauge loses the habits")
	}
	m.habits.goTo(1)
	m.habits.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
	before := m.habits.weights[0]
	m.habits.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	m.habits.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if m.habits.weights[1] != 0 || m.habits.weights[0] != before+weightStep {
		t.Errorf("by keys: %v, the first was %d", m.habits.weights, before)
	}
	m.fromShares()
	for j, n := range m.habits.weights {
		if (n > 0) != (m.got.Columns[j].Share.Sign() > 0) {
			t.Errorf("from the best shares: %s has %d", m.got.Column(j), n)
		}
	}
	m.clearHabits()
	if !strings.HasPrefix(m.reading.Text, "Drag the bars") {
		t.Errorf("without habits: %q", m.reading.Text)
	}
}

// TestTheNewestCounts: what was begun before the last change is not shown.
func TestTheNewestCounts(t *testing.T) {
	w, m := openMix(t, sample(t))
	var held []func()
	w.Hold = func(do func()) { held = append(held, do) }
	m.gauge.SetText("1")
	m.gauge.SetText("0")
	w.Hold = nil
	held[1]()
	want := m.answer.Text.Text
	if m.got.Gauge != 0 {
		t.Fatalf("weighed with gauge %d", m.got.Gauge)
	}
	held[0]()
	if m.answer.Text.Text != want || m.got.Gauge != 0 {
		t.Errorf("an earlier weighing shows %q", m.answer.Text.Text)
	}
	w.Hold = func(func()) {}
	m.gauge.SetText("1")
	if !m.EndOwn() || m.answer.Text.Text != "Stopped." || m.EndOwn() {
		t.Errorf("stopped: %q", m.answer.Text.Text)
	}
}

func TestACellOpensItsSetupAndReply(t *testing.T) {
	w, m := openMix(t, sample(t))
	column := -1
	for j := range m.got.Columns {
		if m.got.Columns[j].Reply == "Millrace" && m.got.Columns[j].Rise == "normal" {
			column = j
		}
	}
	m.table.Cells.Tapped(&fyne.PointEvent{Position: fyne.NewPos(float32(column*cellWidth)+5, rowHeight/2)})
	if w.Page != nil || w.Model().Setup().Name != "Plain crossing" {
		t.Fatalf("page %v, setup %q", w.Page, w.Model().Setup().Name)
	}
	rise, line := w.Model().Shown()
	if got := w.Model().Verdict().Rises[rise].Replies[line]; got.Reply != "Millrace" {
		t.Errorf("shows %q", got.Reply)
	}
}

func TestAPairWithoutASetupIsSaid(t *testing.T) {
	_, m := openMix(t, sample(t))
	m.rival.SetSelected(m.attacker.Selected)
	if m.got != nil || !strings.HasPrefix(m.answer.Text.Text, "There is no setup of ") || len(m.table.rows) != 0 {
		t.Errorf("%q, %d rows", m.answer.Text.Text, len(m.table.rows))
	}
	m.table.Repaint()
	m.habits.Refresh()
	m.copy()
}
