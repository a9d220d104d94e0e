package report

import (
	"bufio"
	"fmt"
	"io"
	"math/big"
	"strconv"

	"wakeline/timeline/value"
	"wakeline/timeline/words"
)

// Mix is a mix to be told, and how it was weighed.
type Mix struct {
	*value.Mix
	Gauge int    // that the attacker has
	Hand  string // whose timing waits are weighed by, in words; empty: they are counted as they are set
}

// Ender names an ender, or says that there is none.
func Ender(name string) string {
	if name == "" {
		return "no ender"
	}
	return name
}

// longFraction is how long a fraction may be that is read by people: those of
// a large mix have hundreds of digits. The JSON has each in full.
const longFraction = 30

// fraction is an exact number as a fraction in brackets; empty where it is a
// whole one, isn't exact, or is too long to read.
func (m *Mix) fraction(r *big.Rat) string {
	if !m.Exact || r.IsInt() || r.Denom().BitLen() > 4*longFraction {
		return ""
	}
	if text := r.RatString(); len(text) <= longFraction {
		return " (" + text + ")"
	}
	return ""
}

// Points writes points to two places, and, where the mix is exact, as a
// fraction too.
func (m *Mix) Points(r *big.Rat) string { return Short(r) + m.fraction(r) }

// Short writes points to two places, whole ones without.
func Short(r *big.Rat) string {
	if r.IsInt() {
		return r.RatString()
	}
	f, _ := r.Float64()
	return strconv.FormatFloat(f, 'f', 2, 64)
}

// Share writes a share in percent, and, where the mix is exact, as a fraction
// too.
func (m *Mix) Share(r *big.Rat) string {
	return Percent(r) + m.fraction(r)
}

// Percent writes a share in whole percent.
func Percent(r *big.Rat) string {
	f, _ := r.Float64()
	return words.Percent(f)
}

// Reply names what column j does, without the rise: "Snap rise late 2".
func (m *Mix) Reply(j int) string {
	c := &m.Columns[j]
	if c.Late > 0 {
		return c.Reply + " late " + strconv.Itoa(c.Late)
	}
	return c.Reply
}

// Column names a column: what the rival does, and on which rise.
func (m *Mix) Column(j int) string { return m.Reply(j) + ", " + m.Columns[j].Rise + " rise" }

// Answer says what a round is worth.
func (m *Mix) Answer() string {
	return fmt.Sprintf("A round is worth %s points to %s, against %s after %s (%s).", m.Points(m.Value), m.Attacker, m.Rival, Ender(m.Ender), m.Position)
}

// Heading names a mix: whose setups, and after what.
func (m *Mix) Heading() string {
	return fmt.Sprintf("%s vs %s after %s (%s)", m.Attacker, m.Rival, Ender(m.Ender), m.Position)
}

// neverNamed is how many setups that are never worth playing Notes names: the
// table beside them says it of each.
const neverNamed = 8

// Notes say what belongs to the answer: what is never worth playing, whose hand
// it is, what later rounds are worth, and the proof. It is an error where that
// fails.
func (m *Mix) Notes() (out []string, err error) {
	proof, err := m.Proof()
	if err != nil {
		return nil, err
	}
	if never := m.NeverRows(); len(never) > 0 {
		if more := len(never) - neverNamed; more > 1 {
			never = append(never[:neverNamed:neverNamed], fmt.Sprintf("%d more", more))
		}
		out = append(out, "Never worth playing: "+words.List(never)+".")
	}
	if m.Hand != "" {
		out = append(out, m.ByHand())
	}
	if carried := m.Carried(); carried != "" {
		var rounds []string
		for _, r := range m.Rounds {
			rounds = append(rounds, fmt.Sprintf("%s (%s) %s", r.Ender, r.Position, m.Points(r.Value)))
		}
		out = append(out, carried+" "+words.List(rounds)+".")
	}
	if !m.Unique {
		proof += " " + m.NotAlone()
	}
	return append(out, proof), nil
}

// ByHand says whose timing counted waits are weighed by; empty without a hand.
func (m *Mix) ByHand() string {
	if m.Hand == "" {
		return ""
	}
	return m.Hand + ": counted waits are weighed by where its presses land."
}

// Plays says how often to play row i, and what it makes alone.
func (m *Mix) Plays(i int) string {
	r := &m.Rows[i]
	return fmt.Sprintf("%s; if it is played every time, it may make as little as %s", m.Share(r.Share), m.Points(r.Worst))
}

// NeverRows are the setups that are never worth playing.
func (m *Mix) NeverRows() (out []string) {
	for i := range m.Rows {
		if m.Rows[i].Never {
			out = append(out, m.Rows[i].Setup)
		}
	}
	return out
}

// NeverColumns names what is never worth it for the rival.
func (m *Mix) NeverColumns() (out []string) {
	for j := range m.Columns {
		if m.Columns[j].Never {
			out = append(out, m.Column(j))
		}
	}
	return out
}

// Gain is what it costs the rival, a round, to do column j every time.
func (m *Mix) Gain(j int) *big.Rat { return new(big.Rat).Sub(m.Columns[j].Best, m.Value) }

// Habit says what to do against a rival that does column j every time, and
// what that makes.
func (m *Mix) Habit(j int) string {
	c := &m.Columns[j]
	return fmt.Sprintf("always %s: %s makes %s, %s more", m.Column(j), m.Rows[c.BestRow].Setup, Short(c.Best), Short(m.Gain(j)))
}

// Read says what to do against a rival of known habits, and what it gains.
func (m *Mix) Read(r *value.Reading) string {
	best := m.Rows[r.Row].Setup
	if r.Gain.Sign() == 0 {
		return fmt.Sprintf("Against these habits %s makes %s, and the mix makes as much.", best, Short(r.Makes))
	}
	return fmt.Sprintf("Against these habits %s makes %s, %s more than the mix.", best, Short(r.Makes), Short(r.Gain))
}

// Proof says why the value is the value. It is an error where it isn't.
func (m *Mix) Proof() (string, error) {
	if err := m.Check(); err != nil {
		return "", err
	}
	return fmt.Sprintf("Proof: against %s's shares no reply makes a round worth less than %s, and against %s's no setup makes more.", m.Attacker, m.Points(m.Value), m.Rival), nil
}

// NotAlone says that there are other best shares; empty where there are none.
func (m *Mix) NotAlone() string {
	if m.Unique {
		return ""
	}
	return "These are not the only best shares."
}

// Carried says what of later rounds is counted; empty without a carry.
func (m *Mix) Carried() string {
	if len(m.Rounds) == 0 {
		return ""
	}
	bound, _ := m.Bound.Float64()
	return fmt.Sprintf("%s of the next round is added; what a round is worth after each ender, to within %.1g points:", m.Carry, bound)
}

// Text writes a mix for people: the value, the shares, what is never worth
// doing, what each habit costs, and the proof.
func (m *Mix) Text(to io.Writer) error {
	proof, err := m.Proof()
	if err != nil {
		return err
	}
	out := bufio.NewWriter(to)
	fmt.Fprintln(out, m.Answer())
	if m.Hand != "" {
		fmt.Fprintln(out, m.ByHand())
	}
	fmt.Fprintf(out, "\n%s plays:\n", m.Attacker)
	for i := range m.Rows {
		if r := &m.Rows[i]; r.Share.Sign() > 0 {
			fmt.Fprintf(out, "  %s: %s\n", r.Setup, m.Plays(i))
		}
	}
	fmt.Fprintf(out, "%s plays:\n", m.Rival)
	for j := range m.Columns {
		if c := &m.Columns[j]; c.Share.Sign() > 0 {
			fmt.Fprintf(out, "  %s: %s\n", m.Column(j), m.Share(c.Share))
		}
	}
	if never := m.NeverRows(); len(never) > 0 {
		fmt.Fprintf(out, "Never worth playing: %s.\n", words.List(never))
	}
	if never := m.NeverColumns(); len(never) > 0 {
		fmt.Fprintf(out, "Never worth it for %s:\n", m.Rival)
		for _, n := range never {
			fmt.Fprintf(out, "  %s\n", n)
		}
	}
	fmt.Fprintf(out, "\nWhat a habit costs %s:\n", m.Rival)
	for j := range m.Columns {
		fmt.Fprintf(out, "  %s\n", m.Habit(j))
	}
	for i, r := range m.Rounds {
		if i == 0 {
			fmt.Fprintf(out, "\n%s\n", m.Carried())
		}
		fmt.Fprintf(out, "  %s (%s): %s\n", r.Ender, r.Position, m.Points(r.Value))
	}
	fmt.Fprintf(out, "\n%s\n", proof)
	if !m.Unique {
		fmt.Fprintln(out, m.NotAlone())
	}
	return out.Flush()
}
