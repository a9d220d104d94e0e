package main

import (
	"encoding/json"
	"math/big"
	"path/filepath"
	"strings"
	"testing"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/words"
)

// What find lists, judge finds safe; a project file answers as its text does.
func TestFindListsWhatJudgeFindsSafe(t *testing.T) {
	p, err := storage.ReadText(sample)
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "s.wakeline")
	runIt(t, "new", file, "--sample")
	listed := 0
	for _, s := range p.Setups {
		code, out, progress := runIt(t, "find", sample, "--setup", s.Name, "--json", "--limited", "--most", "25")
		if code != 0 || progress != "" {
			t.Fatalf("find %q = %d, %q", s.Name, code, progress)
		}
		if code2, out2, _ := runIt(t, "find", file, "--setup", s.Name, "--json", "--limited", "--most", "25"); code2 != code || out2 != out {
			t.Errorf("find %q in the file differs", s.Name)
		}
		var found foundText
		if err := json.Unmarshal([]byte(out), &found); err != nil {
			t.Fatal(err)
		}
		if (found.Count.Sign() == 0) != (len(found.Because) > 0) || (found.Count.Sign() == 0) != (len(found.Answers) == 0) {
			t.Errorf("find %q: %v answers, %d listed, because %q", s.Name, found.Count, len(found.Answers), found.Because)
		}
		for _, a := range found.Answers {
			one := s
			one.Fillers, one.Delay, one.Jump, one.Attack, one.Press = a.Fillers, a.Delay, a.Jump, a.Attack, timeline.Maybe{}
			plan, err := timeline.Compile(p, one)
			if err != nil {
				t.Fatal(err)
			}
			v := words.VerdictAt(plan, one.Delay)
			if v.Word == timeline.Unsafe || len(a.Verdicts) != 1 || a.Verdicts[0].Verdict != v.Word || a.Verdicts[0].Because != v.Because {
				t.Errorf("find %q: answer %d is %s, told as %+v", s.Name, a.Rank, v.Word, a.Verdicts)
			}
			listed++
		}
	}
	if listed < 100 {
		t.Errorf("%d answers in all: too few to prove much", listed)
	}
}

// foundText is what is read of a search's JSON.
type foundText struct {
	Count   big.Int
	Because []string
	Answers []struct {
		Rank     int
		Fillers  []string
		Delay    int
		Jump     string
		Attack   string
		Verdicts []struct {
			Rival   string
			Verdict timeline.Word
			Because string
		}
	}
}

func TestFindWords(t *testing.T) {
	for _, c := range []struct {
		args []string
		code int
		want []string // in the output, or for code 2 in the progress
	}{
		{[]string{"--setup", "Plain crossing", "--wait", "0"}, 0, []string{
			"Plain crossing: ", " without a counted wait", "  forward Leeboard may start on 0 to 1: 1 answer\n", "(the spread is an assumption: --spread sets yours)",
			"1. Keel Scrape, forward Leeboard\n   jumps on 0\n   No counted wait: the chain is exact; ", "\n   Ishka, safe: Meets the wake-up on 44, lands on 45 and guards; "}},
		{[]string{"--setup", "Plain crossing", "--spread", "20", "--bias", "-3"}, 0, []string{"spread of 20 ms and a bias of -3 ms"}},
		{[]string{"--setup", "One frame under", "--jump", "forward", "--attack", "Leeboard", "--wait", "0", "--fillers", "1"}, 0, []string{
			"One frame under: no answer\n", "Without a counted wait there is no answer; one of 1 frame would do.", "0: 1 frame short; a filler of "}},
		{[]string{"--setup", "Plain crossing", "--also", "Normal rise only", "--fillers", "0"}, 0, []string{"1. Keel Scrape, forward Leeboard vs Ishka", "   Ishka, safe: ", "   Dovra, safe: "}},
		{[]string{"--setup", "Step and prod", "--not", "Thole", "--not", "Quant", "--not", "Sounding", "--ordered", "--most", "30"}, 0, []string{"Pole Step"}},
		{[]string{"--setup", "Plain crossing", "--enders"}, 0, []string{"Keel Scrape, midscreen, knockdown advantage 44\n  forward Leeboard: Keel Scrape, forward Leeboard\n", "Keel Scrape, wall, knockdown advantage 46\n", ": none. "}},
		{[]string{"--setup", "Plain crossing", "--enders", "--json"}, 0, []string{`"enders": [`, `"position": "wall"`, `"shortest": null`}},
		{nil, 2, []string{"expected --setup NAME", "use: wakeline find"}},
		{[]string{"--setup", "none"}, 2, []string{`--setup: expected the name of a setup of the project, got "none"`}},
		{[]string{"--setup", "Plain crossing", "--also", "none"}, 2, []string{`--also: expected the name of a setup of the project, got "none"`}},
		{[]string{"--setup", "Plain crossing", "--also", "Plain crossing"}, 2, []string{`--also: expected another setup than "Plain crossing"`}},
		{[]string{"--setup", "Plain crossing", "--also", "Against the gate"}, 2, []string{`--also: expected a setup of Brenno, got "Against the gate", a setup of Dovra`}},
		{[]string{"--setup", "Plain crossing", "--also", "Normal rise only", "--also", "Normal rise only"}, 2, []string{`--also: expected each setup once, got "Normal rise only" twice`}},
		{[]string{"--setup", "Plain crossing", "--rival", "none"}, 2, []string{`--rival: expected the name of a fighter of the project, got "none"`}},
		{[]string{"--setup", "Plain crossing", "--rival", "Ishka"}, 2, []string{`--rival: expected another fighter than the setup's own rival, got "Ishka"`}},
		{[]string{"--setup", "Into the wheel"}, 0, []string{"No timing covers Waterwheel", "  forward Net Haul: No delay meets the wake-up: an air throw can't touch a body on the ground.\n",
			"  With --limited there would be 8 answers, safe but for replies that no timing covers.\n"}},
		{[]string{"--setup", "Into the wheel", "--json"}, 0, []string{`"limited": 8,`}},
		{[]string{"--setup", "Into the wheel", "--limited"}, 0, []string{"Into the wheel: 8 answers, "}},
		{[]string{"--setup", "Into the wheel", "--enders"}, 0, []string{"may start on 0 to 1. With --limited there is one.\n"}},
		{[]string{"--setup", "Plain crossing", "--rival", "Dovra"}, 0, []string{"forward Leeboard: Against Dovra: No timing covers Paddle Gear"}},
		{[]string{"--setup", "Plain crossing", "--fillers", "99"}, 2, []string{"--fillers: expected a whole number from 0 to 32, got 99"}},
		{[]string{"--setup", "Plain crossing", "--most", "-1"}, 2, []string{"--most: expected a whole number from 0 to 1000, got -1"}},
		{[]string{"--setup", "Plain crossing", "--wait", "-1"}, 2, []string{"--wait: expected a whole number from 0 to 512, got -1"}},
		{[]string{"--setup", "Plain crossing", "--not", "Foo"}, 2, []string{`--not: expected a move done on the ground or a jump of Brenno, got "Foo"`}},
		{[]string{"--setup", "Plain crossing", "--attack", "Thole"}, 2, []string{`--attack: expected an air move that hits of Brenno, got "Thole"`}},
		{[]string{"--setup", "Plain crossing", "--spread", "-1"}, 2, []string{"--spread: expected 0 to 10000 milliseconds, got -1"}},
		{[]string{"--setup", "Plain crossing", "--spread", "NaN"}, 2, []string{"--spread: expected 0 to 10000 milliseconds, got NaN"}},
		{[]string{"--setup", "Plain crossing", "--bias", "-1e300"}, 2, []string{"--bias: expected -10000 to 10000 milliseconds, got -1e+300"}},
		{[]string{"--setup", "Plain crossing", "--bias", "late"}, 2, []string{`--bias: expected a number, got "late"`}},
	} {
		code, out, progress := runIt(t, append([]string{"find", sample}, c.args...)...)
		text := out
		if c.code == 2 {
			text = progress
		}
		if code != c.code || c.code == 0 && progress != "" || c.code == 2 && out != "" {
			t.Errorf("find %v = %d, %q, want %d", c.args, code, progress, c.code)
		}
		for _, want := range c.want {
			if !strings.Contains(text, want) {
				t.Errorf("find %v lacks %q:\n%s", c.args, want, text)
			}
		}
	}
	if _, out, _ := runIt(t, "find", sample, "--setup", "Step and prod", "--not", "Thole"); strings.Contains(out, "Thole") {
		t.Errorf("what was left out is there:\n%s", out)
	}
}

// The document has the fields that the command's help promises, in order.
func TestFindJSONIsAsHelpSays(t *testing.T) {
	_, out, _ := runIt(t, "find", sample, "--setup", "Step and prod", "--json", "--most", "1", "--spread", "30")
	at := 0
	for _, field := range strings.Fields(`setup advantage fillers wait gauge spread_ms bias_ms assumed presses hand count exact orders passed because limited ways jump attack starts from to count because
		answers rank fillers delay jump attack jump_on chance spare gauge travel place orders why verdicts rival verdict because`) {
		next := strings.Index(out[at:], `"`+field+`": `)
		if next < 0 {
			t.Fatalf("%q is missing after %q", field, out[:at])
		}
		at += next + 1
		if !strings.Contains(findMore, `"`+field+`"`) {
			t.Errorf("help says nothing of %q", field)
		}
	}
	if !strings.Contains(out, `"wait": null,`) || !strings.Contains(out, `"spread_ms": 30,`) || !strings.Contains(out, `"assumed": false,`) {
		t.Errorf("out:\n%s", out)
	}
}

// A project file's drills say whose hand the chances are for, unless the words
// of the command do.
func TestFindTakesTheHandOfTheDrills(t *testing.T) {
	file := filepath.Join(t.TempDir(), "s.wakeline")
	runIt(t, "new", file, "--sample")
	drill := func(hand string, presses int) {
		f, err := storage.Open(file)
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		d := storage.Drill{Date: "2026-03-04T10:00:00Z", Setup: "Plain crossing", Hand: hand}
		for i := range presses { // median 5, each 10 from it: a spread of 14.826
			d.Presses = append(d.Presses, storage.Press{What: "jump", Late: 5 + 10*float64(2*(i%2)-1)})
		}
		if err := f.AddDrill(d); err != nil {
			t.Fatal(err)
		}
	}
	says := func(want string, args ...string) {
		t.Helper()
		if code, out, _ := runIt(t, append([]string{"find", file, "--setup", "Out in the yard"}, args...)...); code != 0 || !strings.Contains(out, want) {
			t.Errorf("find %v = %d, lacks %q:\n%s", args, code, want, out)
		}
	}
	drill("", 4)
	says("a spread of 25 ms and a bias of 0 ms (the spread is an assumption") // too few to believe
	drill("", 6)
	says("a spread of 14.8 ms and a bias of 5 ms, as the drills of this project measured in 10 presses")
	says("\"presses\": 10,", "--json")
	says("\"assumed\": false,", "--json")
	says("A counted wait of 13 frames, which lands 97 % of the time")                                                                            // starts 12 to 15, aimed at 13.5: 0.97179 by the series of Phi in GNU bc
	says("which lands 91 % of the time; 1 frame to spare; no filler; no gauge. It comes after a better chance, 97 %. Best aim: delay 13, 98 %.") // at 13.7, the middle of 12 to 15 less 0.3 frames: 0.97544, by bc too
	// What isn't given stays as measured.
	says("a spread of 40 ms and a bias of 5 ms (the bias is what the drills of this project measured in 10 presses)", "--spread", "40")
	says("a spread of 14.8 ms and a bias of -3 ms (the spread is what the drills of this project measured in 10 presses)", "--bias", "-3")
	says("\"bias_ms\": -3,\n \"assumed\": false,\n \"presses\": 10,", "--bias", "-3", "--json")
	says("a spread of 40 ms and a bias of -3 ms\n", "--bias", "-3", "--spread", "40")
	// Several hands: the one named, else the one of the last drill.
	drill("Ann", 12)
	says("as the drills of this project measured in 12 presses of Ann (--spread")
	says("\"presses\": 12,\n \"hand\": \"Ann\",", "--json")
	says("as the drills of this project measured in 10 presses (--spread", "--hand", "")
	drill("", 1)
	says("as the drills of this project measured in 12 presses of Ann (--spread", "--hand", "Ann")
	says("as the drills of this project measured in 11 presses (--spread")
	for _, project := range []string{file, sample} {
		want := map[string]string{file: `--hand: expected a hand that was drilled in this project, got "Bea"; there are: "", "Ann"`,
			sample: `--hand: expected a hand that was drilled in this project, got "Bea"; there is no drill`}[project]
		if code, _, progress := runIt(t, "find", project, "--setup", "Out in the yard", "--hand", "Bea"); code != 2 || !strings.Contains(progress, want) {
			t.Errorf("of nobody = %d, %q, want %q", code, progress, want)
		}
	}
}
