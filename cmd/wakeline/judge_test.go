package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/words"
)

// A project file answers as its project text does, to the byte.
func TestJudgeAndDrawAreAlikeForTextAndFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "s.wakeline")
	runIt(t, "new", path, "--sample")
	for _, args := range [][]string{{"--json"}, {}, {"--strict"}, {"--setup", "Plain crossing", "--delay", "1"}, {"--setup", "Low water", "--json"}} {
		code1, out1, progress1 := runIt(t, append([]string{"judge", sample}, args...)...)
		code2, out2, progress2 := runIt(t, append([]string{"judge", path}, args...)...)
		if code1 != code2 || out1 != out2 || progress1 != "" || progress2 != "" {
			t.Errorf("judge %v: %d, %q and %d, %q; %d and %d bytes", args, code1, progress1, code2, progress2, len(out1), len(out2))
		}
	}
	a, b := filepath.Join(t.TempDir(), "a.svg"), filepath.Join(t.TempDir(), "b.svg")
	runIt(t, "draw", sample, "--setup", "Plain crossing", "--out", a)
	runIt(t, "draw", path, "--setup", "Plain crossing", "--out", b)
	one, err1 := os.ReadFile(a)
	two, err2 := os.ReadFile(b)
	if err1 != nil || err2 != nil || len(one) == 0 || !bytes.Equal(one, two) {
		t.Errorf("draw: %d and %d bytes, %v, %v; want the same", len(one), len(two), err1, err2)
	}
	if code, _, progress := runIt(t, "judge", path, "--setup", "none"); code != 2 || !strings.Contains(progress, `"none"; there are: "Plain crossing"`) {
		t.Errorf("judge of no setup = %d, %q", code, progress)
	}
	wide := fileOf(t, wide)
	if code, out, progress := runIt(t, "judge", wide, "--setup", "bad"); code != 2 || out != "" || !strings.Contains(progress, wide+": delay: setup \"bad\"") {
		t.Errorf("judge past the width = %d, %q, %q, want 2 and which setup", code, out, progress)
	}
}

// The JSON written by hand is what encoding/json makes of the same verdicts.
func TestJudgeJSONIsEncodingJSONs(t *testing.T) {
	p, err := storage.ReadText(sample)
	if err != nil {
		t.Fatal(err)
	}
	p.Setups[0].Name = "<a> & \"b\" \\ \u2028 é\n"
	p.Fighters[0].Rises[0].Name, p.Setups[5].Rises, p.Setups[6].Rises = "q\tx", nil, nil
	for i := range p.Setups {
		if p.Setups[i].Rival == p.Fighters[0].Name {
			p.Setups[i].Rises = nil
		}
	}
	var verdicts []words.Verdict
	r := newRoll(nil, true)
	var got bytes.Buffer
	r.out.Reset(&got)
	for i := range p.Setups {
		for _, d := range []int{0, 3} {
			s := p.Setups[i]
			s.Delay = d
			plan, err := timeline.Compile(p, s)
			if err != nil {
				t.Fatal(err)
			}
			v := words.VerdictAt(plan, d)
			verdicts = append(verdicts, v)
			text, err := r.text(&v, worthless(&v.Verdict), "")
			if err != nil {
				t.Fatal(err)
			}
			if err := r.add(text); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := r.end(); err != nil {
		t.Fatal(err)
	}
	want, err := json.Marshal(map[string]any{"setups": verdicts})
	if err != nil {
		t.Fatal(err)
	}
	var is, wanted any
	if err := errors.Join(json.Unmarshal(got.Bytes(), &is), json.Unmarshal(want, &wanted)); err != nil || !reflect.DeepEqual(withoutWorth(is), wanted) {
		t.Errorf("JSON = %s\nwant %s, %v", got.Bytes(), want, err)
	}
	first, _ := r.text(&verdicts[0], worthless(&verdicts[0].Verdict), "") // the fields are in the order of the page
	at := -1
	for _, name := range strings.Fields("setup advantage distance room delay verdict because jump_on touchdown guards_from acts_from window uncovered earlier later holds_advantage holds_distance holds_startup forgone kills_on_hit string rises rise wake replies reply late demand outcome meeting spare after_wake advantage to_punish apart side points route kills_from") {
		next := bytes.Index(first[at+1:], []byte(`"`+name+`": `))
		if next < 0 {
			t.Fatalf("no %q after byte %d of %s", name, at, first)
		}
		at += 1 + next
	}
}

func many(n int) *source {
	p := &timeline.Project{}
	for i := range n {
		p.Setups = append(p.Setups, timeline.Setup{Name: fmt.Sprint(i)})
	}
	return &source{data: p}
}

// An answer that breaks off says so: nothing is flushed of it, no end is
// written, nothing is half made, and the exit code is none of the answers'.
func TestInterruptedCommands(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	whole, empty, folder := patchedSample(t), filepath.Join(t.TempDir(), "e.wakeline"), t.TempDir()
	runIt(t, "new", empty)
	before := textOf(t, empty)
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"judge", sample, "--json"}, "stopped after 0 setups"},
		{[]string{"compare", whole, "first", "1.1"}, "stopped after 0 setups"},
		{[]string{"import", empty, sample}, "canceled"},
		{[]string{"check", whole}, "canceled"},
		{[]string{"check", damagedFile(t), "--salvage", filepath.Join(folder, "new.wakeline")}, "canceled"},
		{[]string{"export", whole, filepath.Join(folder, "p.json")}, "canceled"},
	} {
		i := slices.IndexFunc(commands, func(known command) bool { return known.name == c.args[0] })
		var out, progress bytes.Buffer
		if code := commands[i].call(ctx, c.args[1:], &out, &progress); code != exitStopped || out.Len() > 0 || !strings.Contains(progress.String(), c.says) {
			t.Errorf("%v = %d, %q, %q, want %d", c.args, code, out.String(), progress.String(), exitStopped)
		}
	}
	if left, err := os.ReadDir(folder); err != nil || len(left) > 0 {
		t.Errorf("left behind: %v, %v", left, err)
	}
	if textOf(t, empty) != before {
		t.Error("a stopped import took something in")
	}
}

// failing is a full disk.
type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, errors.New("no room") }

func TestAnAnswerThatCantBeWrittenIsNoAnswer(t *testing.T) {
	path := patchedSample(t)
	for _, args := range [][]string{{"judge", sample}, {"judge", sample, "--json"}, {"compare", path, "first", "1.1"}, {"check", path}, {"export", path, t.TempDir()}} {
		var progress bytes.Buffer
		if code := run(args, failing{}, &progress); code != 2 || !strings.Contains(progress.String(), "no room") {
			t.Errorf("%v = %d, %q, want 2 and why", args, code, progress.String())
		}
	}
}

func TestMeter(t *testing.T) {
	var out bytes.Buffer
	now := time.Unix(0, 0)
	m := &meter{out: &out, now: func() time.Time { return now }, start: now}
	for i := range 50 {
		now = time.Unix(0, 0).Add(time.Duration(i) * 100 * time.Millisecond)
		m.tell(func() string { return fmt.Sprint(i) })
	}
	m.end()
	if out.String() != "20\n40\n" {
		t.Errorf("told %q, want a line at 2 and at 4 seconds", out.String())
	}
	out.Reset()
	m = &meter{out: &out, terminal: true, now: func() time.Time { return now }, start: now.Add(-time.Second)}
	m.tell(func() string { return "a" })
	m.tell(func() string { return "b" })
	m.end()
	if out.String() != "\r\x1b[Ka\r\x1b[K" {
		t.Errorf("told %q on a terminal, want one line, and it cleared", out.String())
	}
}

func TestHelpOfEachCommand(t *testing.T) {
	_, all, _ := runIt(t, "help")
	for _, c := range commands {
		code, out, progress := runIt(t, c.name, "--help")
		if code != 0 || progress != "" || !strings.HasPrefix(out, "wakeline "+c.usage+"\n") || !strings.Contains(out, c.more) {
			t.Errorf("%s --help = %d, %q, %q", c.name, code, out, progress)
		}
		if !strings.Contains(all, "wakeline "+c.usage) {
			t.Errorf("help lacks %s", c.name)
		}
	}
}

// asProgram in the environment makes the test binary the program itself.
const asProgram = "WAKELINE_AS_PROGRAM"

func TestMain(m *testing.M) {
	if os.Getenv(asProgram) != "" {
		main()
	}
	os.Exit(m.Run())
}

// midway starts the program on judge --json of a project file and reads the
// first byte of its answer, the brace: it judges on, and waits for its reader.
func midway(t *testing.T, path string) (program *exec.Cmd, out io.Reader, progress *bytes.Buffer) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	program = exec.Command(self, "judge", path, "--json")
	program.Env = append(os.Environ(), asProgram+"=1")
	progress = &bytes.Buffer{}
	program.Stderr = progress
	if out, err = program.StdoutPipe(); err != nil {
		t.Fatal(err)
	}
	if err := program.Start(); err != nil {
		t.Fatal(err)
	}
	if _, err := io.ReadFull(out, make([]byte, 1)); err != nil {
		t.Fatal(err)
	}
	return program, out, progress
}

func TestAWindowEditsWhileSetupsAreJudged(t *testing.T) {
	path := manyFile(t, 2000)
	program, out, progress := midway(t, path)
	inFile(t, path, func(f *storage.File) {
		if why := f.ReadOnly(); why != "" {
			t.Errorf("a file that is judged is read-only: %s", why)
		}
		fighter := f.Data().Fighters[0].Name
		fresh := timeline.Setup{Name: "new", Attacker: fighter, Rival: fighter, Position: timeline.Midscreen, Advantage: timeline.Some(40), Landing: timeline.DoGuard}
		if err := f.Edit("meanwhile", func(s *storage.Step) error { return s.PutSetup("", &fresh) }); err != nil {
			t.Error(err)
		}
		rest, err := io.ReadAll(out)
		if err != nil {
			t.Fatal(err)
		}
		if program.Wait(); program.ProcessState.ExitCode() != exitUnsafe || !json.Valid(append([]byte("{"), rest...)) {
			t.Errorf("judge beside the window ended with %v, %q", program.ProcessState, progress)
		}
	})
}

// Ctrl+C in the midst of a long answer: the program ends by itself, says how
// far it came, and leaves neither a whole document nor a lock.
func TestCtrlC(t *testing.T) {
	path := manyFile(t, 2000)
	program, out, progress := midway(t, path)
	if err := program.Process.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	time.Sleep(50 * time.Millisecond)
	rest, err := io.ReadAll(out)
	if err != nil {
		t.Fatal(err)
	}
	if err := program.Wait(); program.ProcessState.ExitCode() != exitStopped || !strings.Contains(progress.String(), "stopped after") {
		t.Errorf("program ended with %v, %q, want %d", err, progress.String(), exitStopped)
	}
	if json.Valid(append([]byte("{"), rest...)) {
		t.Error("a part of the answer is a whole document")
	}
	inFile(t, path, func(f *storage.File) {
		if why := f.ReadOnly(); why != "" {
			t.Errorf("after it the file is read-only: %s", why)
		}
	})
}

// manyFile makes a project file of n setups, the sample's over and over.
func manyFile(tb testing.TB, n int) string {
	tb.Helper()
	p, err := storage.ReadText(sample)
	if err != nil {
		tb.Fatal(err)
	}
	few := p.Setups
	p.Setups = nil
	for i := range n {
		s := few[i%len(few)]
		s.Name = fmt.Sprintf("%s %d", s.Name, i)
		p.Setups = append(p.Setups, s)
	}
	path := filepath.Join(tb.TempDir(), "p.wakeline")
	f, err := storage.Create(path, p)
	if err != nil {
		tb.Fatal(err)
	}
	if err := f.Close(); err != nil {
		tb.Fatal(err)
	}
	return path
}

// BenchmarkJudgeAll judges 2,000 setups of a project file, with what is
// printed of them.
func BenchmarkJudgeAll(b *testing.B) {
	path := manyFile(b, 2000)
	for _, args := range [][]string{{"judge", path}, {"judge", path, "--json"}} {
		b.Run(strings.Join(append([]string{"as"}, args[2:]...), " "), func(b *testing.B) {
			for b.Loop() {
				if code := run(args, io.Discard, io.Discard); code != exitUnsafe {
					b.Fatal(code)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/2000, "µs/setup")
		})
	}
}

// withoutWorth takes out of what judge --json prints what package value tells,
// and asks that all of it stands there.
func withoutWorth(doc any) any {
	of := func(v any, names ...string) map[string]any {
		m := v.(map[string]any)
		for _, name := range names {
			if _, ok := m[name]; !ok {
				return nil
			}
			delete(m, name)
		}
		return m
	}
	for _, s := range doc.(map[string]any)["setups"].([]any) {
		for _, r := range of(s, "forgone", "kills_on_hit", "string")["rises"].([]any) {
			for _, reply := range r.(map[string]any)["replies"].([]any) {
				of(reply, "points", "route", "kills_from")
			}
		}
	}
	return doc
}

// TestJudgeTellsWhereBothStand: the ground in a line, and a column of places,
// where the distance is known; else neither.
func TestJudgeTellsWhereBothStand(t *testing.T) {
	_, out, _ := runIt(t, "judge", sample, "--setup", "Short of the hitch")
	for _, want := range []string{"knockdown advantage 44, distance 200, delay 0", "to punish  place\n", " out of reach\n", " 90 apart\n"} {
		if !strings.Contains(out, want) {
			t.Errorf("%q is missing:\n%s", want, out)
		}
	}
	_, out, _ = runIt(t, "judge", sample, "--setup", "Over the lock, walled")
	if !strings.Contains(out, "distance 140, room 0, delay") {
		t.Errorf("no room is told:\n%s", out)
	}
	_, out, _ = runIt(t, "judge", sample, "--setup", "Plain crossing")
	if !strings.Contains(out, "to punish\n") || strings.Contains(out, "distance ") {
		t.Errorf("without a distance:\n%s", out)
	}
}
