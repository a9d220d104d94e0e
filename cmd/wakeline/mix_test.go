package main

import (
	"encoding/json"
	"errors"
	"math/big"
	"path/filepath"
	"strings"
	"testing"

	"wakeline/storage"
)

// mixAnswer is what `mix --json` prints.
type mixAnswer struct {
	Attacker, Rival, Ender, Position string
	Gauge                            int
	Rows                             []struct {
		Setup                 string
		Share, Against, Worst json.RawMessage
	}
	Columns []struct {
		Rise, Reply    string
		Late           int
		Share, Against json.RawMessage
	}
	Payoff        [][]json.RawMessage
	Value         json.RawMessage
	Unique, Exact bool
	Carry         string
	Bound         *float64
	Rounds        []struct {
		Ender, Position string
		Value           float64
	}
}

func mixJSON(t *testing.T, args ...string) (m mixAnswer) {
	t.Helper()
	code, out, progress := runIt(t, append([]string{"mix", sample, "--json"}, args...)...)
	if code != 0 {
		t.Fatalf("%v: exit %d, %s", args, code, progress)
	}
	if err := json.Unmarshal([]byte(out), &m); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return m
}

// exactly reads a number, or a text that is one.
func exactly(t *testing.T, raw json.RawMessage) *big.Rat {
	t.Helper()
	r, ok := new(big.Rat).SetString(strings.Trim(string(raw), `"`))
	if !ok {
		t.Fatalf("%s is no number", raw)
	}
	return r
}

// TestMixCommand: the answer's own shares prove its value, and without a carry
// a payoff is what judge says of that exchange.
func TestMixCommand(t *testing.T) {
	m := mixJSON(t, "--setup", "Plain crossing")
	if m.Attacker != "Brenno" || m.Rival != "Ishka" || m.Ender != "Keel Scrape" || !m.Exact || m.Carry != "0" || m.Bound != nil || m.Rounds != nil || len(m.Rows) < 3 {
		t.Fatalf("%+v", m)
	}
	value := exactly(t, m.Value)
	for i, r := range m.Rows {
		sum := new(big.Rat)
		for j, c := range m.Columns {
			sum.Add(sum, new(big.Rat).Mul(exactly(t, c.Share), exactly(t, m.Payoff[i][j])))
		}
		if sum.Cmp(value) > 0 || sum.Cmp(exactly(t, r.Against)) != 0 {
			t.Errorf("%s makes %v, says %s, value %v", r.Setup, sum, r.Against, value)
		}
	}
	for j, c := range m.Columns {
		sum := new(big.Rat)
		for i, r := range m.Rows {
			sum.Add(sum, new(big.Rat).Mul(exactly(t, r.Share), exactly(t, m.Payoff[i][j])))
		}
		if sum.Cmp(value) < 0 || sum.Cmp(exactly(t, c.Against)) != 0 {
			t.Errorf("%s leaves %v, says %s, value %v", c.Reply, sum, c.Against, value)
		}
	}
	_, out, _ := runIt(t, "judge", sample, "--setup", "Plain crossing", "--json")
	var judged struct {
		Setups []struct {
			Rises []struct {
				Rise    string
				Replies []struct {
					Reply  string
					Late   int
					Points int64
				}
			}
		}
	}
	if err := json.Unmarshal([]byte(out), &judged); err != nil {
		t.Fatal(err)
	}
	same := 0
	for _, rise := range judged.Setups[0].Rises {
		for _, r := range rise.Replies {
			for j, c := range m.Columns {
				if m.Rows[0].Setup == "Plain crossing" && c.Rise == rise.Rise && c.Reply == r.Reply && c.Late == r.Late {
					if same++; exactly(t, m.Payoff[0][j]).Cmp(big.NewRat(r.Points, 1)) != 0 {
						t.Errorf("%s: %s points, judge says %d", r.Reply, m.Payoff[0][j], r.Points)
					}
				}
			}
		}
	}
	if same < 4 {
		t.Errorf("%d payoffs were compared", same)
	}
	_, said, _ := runIt(t, "mix", sample, "--setup", "Plain crossing")
	for _, want := range []string{"A round is worth ", "Brenno plays:", "if it is played every time, ", "What a habit costs Ishka:", "Proof: "} {
		if !strings.Contains(said, want) {
			t.Errorf("%q isn't in\n%s", want, said)
		}
	}
}

// TestMixByHandAndWithRounds: numbers that aren't exact are numbers.
func TestMixByHandAndWithRounds(t *testing.T) {
	if m := mixJSON(t, "--setup", "Plain crossing", "--hand"); m.Exact || m.Value[0] == '"' || m.Rounds != nil {
		t.Errorf("by hand: %+v", m)
	}
	m := mixJSON(t, "--setup", "Plain crossing", "--carry", "0.5")
	if m.Carry != "1/2" || m.Bound == nil || *m.Bound > 1e-5 || m.Rounds == nil {
		t.Errorf("rounds: %+v", m)
	}
}

// TestMixTakesTheHandOfTheDrills: a project file's drills say whose hand a mix is
// weighed for; its bias is aimed against, so the spread alone counts.
func TestMixTakesTheHandOfTheDrills(t *testing.T) {
	file := filepath.Join(t.TempDir(), "s.wakeline")
	runIt(t, "new", file, "--sample")
	weigh := func(args ...string) (payoff string, said string) {
		t.Helper()
		args = append([]string{"mix", file, "--setup", "Counted crossing"}, args...)
		code, said, progress := runIt(t, args...)
		if code != 0 {
			t.Fatalf("%v: exit %d, %s", args, code, progress)
		}
		_, out, _ := runIt(t, append(args, "--json")...)
		var m mixAnswer
		if err := json.Unmarshal([]byte(out), &m); err != nil {
			t.Fatal(err)
		}
		for _, row := range m.Payoff {
			for _, p := range row {
				payoff += exactly(t, p).FloatString(0) + " "
			}
		}
		return payoff, said
	}
	counted, _ := weigh()
	assumed, said := weigh("--hand")
	if !strings.Contains(said, "25 ms spread (assumed)") || assumed == counted {
		t.Errorf("without drills: %s", said)
	}
	f, err := storage.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	d := storage.Drill{Date: "2026-03-04T10:00:00Z", Setup: "Counted crossing", Hand: "Ann"}
	for i := range 12 { // median 5, each 10 from it: a spread of 14.826
		d.Presses = append(d.Presses, storage.Press{What: "jump", Late: 5 + 10*float64(2*(i%2)-1)})
	}
	if err := errors.Join(f.AddDrill(d), f.Close()); err != nil {
		t.Fatal(err)
	}
	drilled, said := weigh("--hand")
	if want, _ := weigh("--spread", "14.826"); drilled != want || drilled == assumed {
		t.Errorf("drilled: %s\nwith its spread: %s\nassumed: %s", drilled, want, assumed)
	}
	if !strings.Contains(said, "14.8 ms spread, 5 ms late (measured in 12 presses of Ann)") {
		t.Errorf("whose hand isn't said:\n%s", said)
	}
	if again, _ := weigh(); again != counted {
		t.Error("without --hand a drill changes the mix")
	}
}

func TestMixBadInput(t *testing.T) {
	for want, args := range map[string][]string{
		"expected --setup NAME":              {},
		"expected the name of a setup":       {"--setup", "none"},
		"each setup once":                    {"--setup", "Plain crossing", "--setup", "Plain crossing"},
		`got "Counted crossing", after Tow`:  {"--setup", "Plain crossing", "--setup", "Counted crossing"},
		"--carry: expected 0 or more and le": {"--setup", "Plain crossing", "--carry", "1"},
		"--gauge: expected 0 to":             {"--setup", "Plain crossing", "--gauge", "99"},
		"--rival-gauge: expected 0 to":       {"--setup", "Plain crossing", "--rival-gauge", "-1"},
		"--spread: expected 0 to":            {"--setup", "Plain crossing", "--spread", "-1"},
	} {
		code, out, progress := runIt(t, append([]string{"mix", sample}, args...)...)
		if code != 2 || out != "" || !strings.Contains(progress, want) {
			t.Errorf("%v: exit %d, %q, %q; want %q", args, code, out, progress, want)
		}
	}
}
