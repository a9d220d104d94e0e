package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"wakeline/storage"
	"wakeline/timeline"
)

// castCell is a cell as interfaces.md has it.
type castCell struct {
	Rival        string            `json:"rival"`
	Verdict      *timeline.Word    `json:"verdict"`
	Window       []timeline.Bounds `json:"window"`
	Uncovered    []string          `json:"uncovered"`
	HoldsStartup *int              `json:"holds_startup"`
	Because      string            `json:"because"`
}

// A cell of cast is what judge says of the setup aimed at that rival by hand.
func TestCastIsJudgeOfSetupsAimedAtEachRival(t *testing.T) {
	p, err := storage.ReadText(sample)
	if err != nil {
		t.Fatal(err)
	}
	for a := range p.Fighters {
		attacker := p.Fighters[a].Name
		code, out, progress := runIt(t, "cast", sample, "--attacker", attacker, "--json")
		var got struct {
			Attacker string
			Rivals   []string
			Setups   []struct {
				Setup string
				Cells []castCell
			}
		}
		if err := json.Unmarshal([]byte(out), &got); err != nil {
			t.Fatalf("cast of %s = %d, %v, %s", attacker, code, err, progress)
		}
		// The same by hand: a project of the setups aimed at one rival.
		row := map[string]int{}
		for i, s := range got.Setups {
			row[s.Setup] = i
		}
		cells, unsafe := 0, false
		for at, rival := range p.Fighters {
			aimed := *p
			aimed.Setups = nil
			for _, s := range p.Setups {
				if s.Attacker != attacker {
					continue
				}
				if s.Rival != rival.Name {
					s.Rival, s.Rises, s.Replies = rival.Name, nil, nil
				}
				aimed.Setups = append(aimed.Setups, s)
			}
			if len(aimed.Setups) == 0 {
				continue
			}
			path := filepath.Join(t.TempDir(), "aimed.json")
			if err := os.WriteFile(path, timeline.WriteText(&aimed), 0o600); err != nil {
				t.Fatal(err)
			}
			_, out, _ := runIt(t, "judge", path, "--json")
			var want struct {
				Setups []struct {
					Setup        string            `json:"setup"`
					Error        string            `json:"error"`
					Verdict      *timeline.Word    `json:"verdict"`
					Window       []timeline.Bounds `json:"window"`
					Uncovered    []string          `json:"uncovered"`
					HoldsStartup *int              `json:"holds_startup"`
					Because      string            `json:"because"`
				} `json:"setups"`
			}
			if err := json.Unmarshal([]byte(out), &want); err != nil {
				t.Fatal(err)
			}
			for _, w := range want.Setups {
				c := got.Setups[row[w.Setup]].Cells[at]
				if w.Error != "" {
					if c.Verdict != nil || c.Because == "" {
						t.Errorf("%s against %s: verdict %v, want null and why", w.Setup, rival.Name, c.Verdict)
					}
					continue
				}
				expected := castCell{rival.Name, w.Verdict, w.Window, w.Uncovered, w.HoldsStartup, w.Because}
				if !reflect.DeepEqual(c, expected) {
					t.Errorf("%s against %s = %+v, want %+v", w.Setup, rival.Name, c, expected)
				}
				unsafe = unsafe || *w.Verdict == timeline.Unsafe
				cells++
			}
		}
		if want := len(got.Setups) * len(p.Fighters); cells != want || len(got.Rivals) != len(p.Fighters) {
			t.Errorf("cast of %s: %d cells compared, want %d; rivals %v", attacker, cells, want, got.Rivals)
		}
		if (code == exitUnsafe) != unsafe {
			t.Errorf("cast of %s ends with %d, want 1 where a cell is unsafe: %v", attacker, code, unsafe)
		}
	}
}

// A rival that was given no replies is unknown, and not counted as covered.
func TestCastTellsUnknownRivals(t *testing.T) {
	p, err := storage.ReadText(sample)
	if err != nil {
		t.Fatal(err)
	}
	for i := range p.Fighters {
		p.Fighters[i].Replies = nil
	}
	for i := range p.Setups {
		p.Setups[i].Replies = nil
	}
	path := filepath.Join(t.TempDir(), "bare.json")
	if err := os.WriteFile(path, timeline.WriteText(p), 0o600); err != nil {
		t.Fatal(err)
	}
	_, out, _ := runIt(t, "cast", path, "--attacker", "Brenno")
	if !strings.Contains(out, "unknown: this rival has no replies") || strings.Contains(out, "  Ishka: safe") || !strings.Contains(out, "holds against 0 of 3 rivals") {
		t.Errorf("cast without replies:\n%s", out)
	}
	_, out, _ = runIt(t, "cast", sample, "--attacker", "Brenno", "--filter", "plain crossing")
	if n := strings.Count(out, "holds against "+"1 of") + strings.Count(out, "holds against 2 of") + strings.Count(out, "holds against 3 of"); n != 1 || !strings.Contains(out, "The fewest setups") {
		t.Errorf("cast of one setup:\n%s", out)
	}
}

func TestCastErrors(t *testing.T) {
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{sample}, "--attacker: expected"},
		{[]string{sample, "--attacker", "Nobody"}, `--attacker: expected a fighter of the project, got "Nobody"; there are: "Brenno"`},
		{[]string{"x.txt", "--attacker", "Brenno"}, "expected a project file"},
	} {
		if code, out, progress := runIt(t, append([]string{"cast"}, c.args...)...); code != 2 || out != "" || !strings.Contains(progress, c.want) {
			t.Errorf("cast %v = %d, %q, %q, want 2 and %q", c.args, code, out, progress, c.want)
		}
	}
}

// A saved list can be named wherever a filter is taken; a text has none.
func TestAFilterNamesASavedList(t *testing.T) {
	p, err := storage.ReadText(sample)
	if err != nil {
		t.Fatal(err)
	}
	p.Setups[0].Tags = append(p.Setups[0].Tags, "listed")
	path := filepath.Join(t.TempDir(), "lists"+storage.Ext)
	f, err := storage.Create(path, p)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Edit("list", func(s *storage.Step) error {
		return s.PutList("", timeline.SavedList{Name: "My list", Search: "tag:=listed"})
	}); err != nil {
		t.Fatal(err)
	}
	f.Close()
	attacker := p.Setups[0].Attacker
	_, all, _ := runIt(t, "cast", path, "--attacker", attacker, "--filter", "tag:=listed", "--json")
	_, out, progress := runIt(t, "cast", path, "--attacker", attacker, "--filter", `list:"my list"`, "--json")
	if out != all || strings.Count(out, `"setup"`) != 1 {
		t.Errorf("by the list: %s, %s", out, progress)
	}
	folder := filepath.Join(t.TempDir(), "out")
	if code, out, progress := runIt(t, "draw", path, "--filter", `list:"My list"`, "--out", folder); code != 0 || !strings.Contains(out, "wrote 1 setup into") {
		t.Errorf("draw = %d, %s, %s", code, out, progress)
	}
	for of, want := range map[string]string{path: `--filter: letter 1: expected a saved list ("My list") after "list:", got "other"`, sample: "and there is none"} {
		if code, _, progress := runIt(t, "cast", of, "--attacker", attacker, "--filter", "list:other"); code != exitInvalid || !strings.Contains(progress, want) {
			t.Errorf("%s: %d, %s, want %s", of, code, progress, want)
		}
	}
}
