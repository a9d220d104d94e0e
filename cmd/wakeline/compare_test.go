package main

import (
	"encoding/json"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"wakeline/samples"
	"wakeline/storage"
	"wakeline/timeline"
)

// unusedMove is one of Dovra that no setup of the sample uses.
const unusedMove = "Balance Beam"

// patchedSample is the sample with a revision after it, in which Millrace is
// active one frame sooner and a move that nothing uses is gone.
func patchedSample(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "s.wakeline")
	runIt(t, "new", path, "--sample")
	inFile(t, path, func(f *storage.File) {
		p, err := f.Project()
		if err != nil {
			t.Fatal(err)
		}
		m := p.Fighter("Ishka").Move("Millrace")
		m.Startup--
		m.Damage += 50
		dovra := p.Fighter("Dovra")
		dovra.Moves = slices.DeleteFunc(slices.Clone(dovra.Moves), func(m timeline.Move) bool { return m.Name == unusedMove })
		text := filepath.Join(filepath.Dir(path), "patch.json")
		if err := storage.WriteText(text, p); err != nil {
			t.Fatal(err)
		}
	})
	code, _, progress := runIt(t, "import", path, filepath.Join(filepath.Dir(path), "patch.json"), "--revision", "1.1")
	if code != 0 {
		t.Fatal(progress)
	}
	return path
}

func TestCompareSaysWhatChangedAndByWhat(t *testing.T) {
	path := patchedSample(t)
	code, out, progress := runIt(t, "compare", path, storage.FirstRevision, "1.1")
	if code != 1 || progress != "" {
		t.Fatalf("compare = %d, %q, want 1", code, progress)
	}
	for _, want := range []string{
		"Plain crossing: The window shrank (0, it was 0 to 1): Millrace's startup went from 3 to 2.\n  before, safe: window 0 to 1\n  now, safe: window 0\n",
		"Nothing to spare: Safe turned limited,", `From "first" to "1.1": `,
		"Move data (2)\n\nDovra's " + unusedMove + ": gone\nIshka's Millrace: startup from 3 to 2; damage from 1300 to 1350\n",
		"\nMixes moved (", "\nWindows shrank (",
	} {
		if !strings.Contains(out, want) {
			t.Errorf("out lacks %q:\n%s", want, out)
		}
	}
	_, judged, _ := strings.Cut(out, "Setups turned (")
	judged, _, _ = strings.Cut(judged, "\nOther routes changed (")
	if judged == "" || strings.Contains(judged, "damage") || strings.Contains(judged, unusedMove) {
		t.Errorf("what no verdict reads is blamed:\n%s", out)
	}
	if code, out, _ := runIt(t, "compare", path, "1.1", "1.1"); code != 0 || out != "From \"1.1\" to \"1.1\": 0 setups changed, 26 did not.\n" {
		t.Errorf("compare with itself = %d, %q", code, out)
	}
	if code, out, _ := runIt(t, "compare", path, "1.1", "1.1", "--json"); code != 0 || !strings.HasPrefix(out, "{\n \"from\": \"1.1\",\n \"to\": \"1.1\",\n \"changed\": [],\n \"unchanged\": 26,\n") ||
		!strings.HasSuffix(out, "\"data\": [],\n \"routes\": [],\n \"mixes\": []\n}\n") {
		t.Errorf("compare with itself = %d, %q", code, out)
	}
}

func TestCompareJSON(t *testing.T) {
	path := patchedSample(t)
	code, out, _ := runIt(t, "compare", "--json", path, storage.FirstRevision, "1.1")
	type state struct {
		Verdict   *string
		Window    []timeline.Bounds
		Uncovered []string
		Reason    *string
	}
	type worked struct {
		Steps         string
		Links, Counts bool
		Margins       []*int
		Damage        int
		Cost          int
		Gain          int
		Needs         *int
	}
	type weighed struct {
		Value  any
		Exact  bool
		Reason *string
		Rows   []struct {
			Setup string
			Share any
		}
	}
	var got struct {
		From, To string
		Changed  []struct {
			Setup, Because string
			Before, After  state
			Together       bool
			Moves          []struct {
				Kind, Fighter, Name, State string
				Fields                     []struct{ Field, Before, After string }
			}
		}
		Unchanged int
		Answer    string
		Data      []struct {
			Kind, Fighter, Name, State string
			Fields                     []struct{ Field, Before, After string }
		}
		Routes []struct {
			Fighter, Name, State string
			Before, After        *worked
		}
		Mixes []struct {
			Attacker, Rival, Ender, Position string
			Before, After                    weighed
		}
	}
	dec := json.NewDecoder(strings.NewReader(out))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&got); err != nil || code != 1 {
		t.Fatalf("compare = %d, %v in %s", code, err, out)
	}
	if got.From != "first" || got.To != "1.1" || len(got.Changed) == 0 || len(got.Changed)+got.Unchanged != 26 {
		t.Fatalf("compare = %+v", got)
	}
	if len(got.Data) != 2 || got.Data[1].Name != "Millrace" || len(got.Data[1].Fields) != 2 || got.Data[0].State != "gone" || !strings.Contains(got.Answer, "2 parts of the move data changed") {
		t.Errorf("data = %+v, %q", got.Data, got.Answer)
	}
	// Each value of a mix is what mix says of that state, and of those that
	// aren't listed it says the same of both.
	valueOf := func(path, setup string) any {
		_, out, progress := runIt(t, "mix", path, "--setup", setup, "--json")
		var m struct{ Value any }
		if err := json.Unmarshal([]byte(out), &m); err != nil {
			t.Fatalf("%v: %s", err, progress)
		}
		return m.Value
	}
	moved := map[string]bool{}
	for _, m := range got.Mixes {
		moved[m.Attacker+m.Rival+m.Ender+m.Position] = true
		first := m.Before.Rows[0].Setup
		if before, after := valueOf(sample, first), valueOf(path, first); before != m.Before.Value || after != m.After.Value || before == after {
			t.Errorf("the mix after %s: %v and %v, want %v and %v", m.Ender, m.Before.Value, m.After.Value, before, after)
		}
	}
	text, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	still := 0
	for _, s := range text.Setups {
		if s.Ender == "" || moved[s.Attacker+s.Rival+s.Ender+string(s.Position)] {
			continue
		}
		still++
		if before, after := valueOf(sample, s.Name), valueOf(path, s.Name); before != after {
			t.Errorf("the mix of %s is worth %v and %v, and isn't listed", s.Name, before, after)
		}
	}
	if len(got.Mixes) == 0 || still == 0 {
		t.Errorf("%d mixes moved, %d setups are in others", len(got.Mixes), still)
	}
	// Each of the two verdicts is what judge says of that state.
	verdicts := func(path string) map[string]string {
		_, out, _ := runIt(t, "judge", path, "--json")
		var all struct {
			Setups []struct{ Setup, Verdict string }
		}
		if err := json.Unmarshal([]byte(out), &all); err != nil {
			t.Fatal(err)
		}
		by := map[string]string{}
		for _, s := range all.Setups {
			by[s.Setup] = s.Verdict
		}
		return by
	}
	before, after := verdicts(sample), verdicts(path)
	listed := map[string]bool{}
	for _, c := range got.Changed {
		listed[c.Setup] = true
		if *c.Before.Verdict != before[c.Setup] || *c.After.Verdict != after[c.Setup] {
			t.Errorf("%s: %s, %s; judge says %s, %s", c.Setup, *c.Before.Verdict, *c.After.Verdict, before[c.Setup], after[c.Setup])
		}
		if len(c.Moves) != 1 || c.Moves[0].Kind != "move" || c.Moves[0].Fighter != "Ishka" || c.Moves[0].Name != "Millrace" || c.Moves[0].State != "changed" ||
			len(c.Moves[0].Fields) != 1 || c.Moves[0].Fields[0].Field != "startup" || c.Moves[0].Fields[0].Before != "3" || c.Moves[0].Fields[0].After != "2" {
			t.Errorf("%s: moves = %+v, want Millrace's startup, 3 and 2", c.Setup, c.Moves)
		}
	}
	for name := range before {
		if before[name] != after[name] && !listed[name] {
			t.Errorf("%s turned %s to %s and isn't listed", name, before[name], after[name])
		}
	}
}

// A setup that uses what the earlier revision lacks can't be judged there,
// and says so.
func TestCompareWithARevisionThatLacksAMove(t *testing.T) {
	path := fileOf(t, little)
	inFile(t, path, func(f *storage.File) {
		if err := f.Edit("patch", func(s *storage.Step) error {
			if err := s.BeginRevision("2", ""); err != nil {
				return err
			}
			if err := s.PutMove("A", "", &timeline.Move{Name: "Fresh", Kind: timeline.Dash, Length: 1}); err != nil {
				return err
			}
			return s.PutSetup("", &timeline.Setup{Name: "new", Attacker: "A", Rival: "A", Advantage: timeline.Some(43), Position: timeline.Midscreen,
				Fillers: []string{"Fresh"}, Jump: "over", Attack: "Drop", Landing: timeline.DoGuard})
		}); err != nil {
			t.Fatal(err)
		}
	})
	code, out, progress := runIt(t, "compare", path, "first", "2")
	want := "1 setup turned: 1 not judged to safe. 1 part of the move data changed.\n\nMove data (1)\n\nA's Fresh: new\n\nSetups turned (1)\n\n" +
		"new: Safe now, where it could not be judged before (fillers[0]: expected a move or jump of A, got \"Fresh\"): Fresh is new.\n" +
		"  before, can't be judged: fillers[0]: expected a move or jump of A, got \"Fresh\"\n  now, safe: window 0 to 2\n\n" +
		"From \"first\" to \"2\": 1 setup changed, 3 did not.\n"
	if code != 1 || out != want {
		t.Errorf("compare = %d, %q, %q; want %q", code, out, progress, want)
	}
	if _, out, _ := runIt(t, "compare", path, "first", "2", "--json"); !strings.Contains(out, "\"verdict\": null") || !strings.Contains(out, "\"reason\": \"fillers[0]: expected") {
		t.Errorf("compare --json = %s", out)
	}
}

func TestCompareWrongWords(t *testing.T) {
	path := fileOf(t, little)
	for _, c := range []struct {
		args []string
		say  string
	}{
		{[]string{path}, "expected three arguments"},
		{[]string{path, "first"}, "expected three arguments"},
		{[]string{path, "first", "2.0"}, `expected a revision, got "2.0"; there are: "first"`},
		{[]string{write(t, little), "a", "b"}, "named .wakeline"},
		{[]string{path + ".wakeline", "a", "b"}, "no such file"},
	} {
		if code, out, progress := runIt(t, append([]string{"compare"}, c.args...)...); code != 2 || out != "" || !strings.Contains(progress, c.say) {
			t.Errorf("compare %v = %d, %q, %q; want 2 and %q", c.args, code, out, progress, c.say)
		}
	}
}
