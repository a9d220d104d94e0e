package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"wakeline/storage"
	"wakeline/timeline"
)

// windowProject is a jump that needs a delay of 4 to meet the wake-up with its
// last air frame, and may wait until 7 for a reversal with 4 frames before its
// first active one.
const windowProject = `{"wakeline": 1,
 "fighters": [
  {"name": "Ostrel",
   "moves": [
    {"name": "tide sweep", "kind": "strike", "level": "low", "startup": 8, "active": [3], "recovery": 22, "knockdown": {"midscreen": 46}},
    {"name": "falling heel", "kind": "strike", "air": true, "level": "overhead", "startup": 7, "active": [6], "hitstun": 20, "guardstun": 16}],
   "jumps": [{"name": "forward jump", "prejump": 4, "airborne": 39, "landing": 3}]},
  {"name": "Maerwyn",
   "moves": [
    {"name": "rising gale", "kind": "strike", "level": "mid", "startup": 5, "active": [4], "recovery": 30, "on_guard": -28,
     "immune": [{"from": 1, "to": 8}]}]}],
 "setups": [
  {"name": "counted heel", "attacker": "Ostrel", "rival": "Maerwyn", "ender": "tide sweep", "delay": 2,
   "jump": "forward jump", "attack": "falling heel", "replies": [{"move": "rising gale"}]}]}`

// seen is what the test reads of a line of the window's trace.
type seen struct {
	Setup        string
	Delay        int
	Verdict      string
	PixelsAFrame float64 `json:"pixels_a_frame"`
	DelayAt      *[4]int `json:"delay_at"`
}

// screen is a display of its own, and what it takes to work on it.
type screen struct {
	t     *testing.T
	env   []string
	trace string
	id    string // of the window
}

// TestRealWindow builds the program, opens its window on a display of its
// own, drags the delay with a real pointer, and reads from the trace that the
// verdict followed; first of a project text, then of a project file, which
// keeps the drag and its undo from one run to the next. With WAKELINE_SHOTS it
// leaves pictures of the window in that folder.
func TestRealWindow(t *testing.T) {
	for _, tool := range []string{"Xvfb", "xdotool"} {
		if _, err := exec.LookPath(tool); err != nil {
			if os.Getenv("CI") != "" {
				t.Fatalf("%s is missing", tool)
			}
			t.Skipf("no real window without %s", tool)
		}
	}
	if runtime.GOOS != "linux" {
		t.Skip("the display is an X server's")
	}
	dir := t.TempDir()
	program := filepath.Join(dir, "wakeline")
	if out, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput(); err != nil {
		t.Fatalf("go build: %v\n%s", err, out)
	}
	project := filepath.Join(dir, "small.json")
	if err := os.WriteFile(project, []byte(windowProject), 0o644); err != nil {
		t.Fatal(err)
	}
	s := &screen{t: t, trace: filepath.Join(dir, "trace")}
	s.env = append(os.Environ(), "DISPLAY="+startDisplay(t), "LIBGL_ALWAYS_SOFTWARE=1", "HOME="+dir, "XDG_CONFIG_HOME="+dir)
	ended := s.start(program, project)

	at := s.wait("the first sheet", func(l seen) bool { return l.DelayAt != nil })
	if at.Setup != "counted heel" || at.Delay != 2 || at.Verdict != "unsafe" {
		t.Fatalf("the window opens with %+v", at)
	}
	s.id = s.window()
	at = s.settled()

	s.drag(at, 3)
	at = s.wait("the drag by three frames", func(l seen) bool { return l.Delay == 5 })
	if at.Verdict != "safe" {
		t.Errorf("at delay 5 the window says %s, want safe", at.Verdict)
	}
	at = s.settled()
	s.drag(at, 4)
	at = s.wait("the drag by four more", func(l seen) bool { return l.Delay == 9 })
	if at.Verdict != "unsafe" {
		t.Errorf("at delay 9 the window says %s, want unsafe", at.Verdict)
	}
	at = s.settled()
	s.hold(at, -8)
	s.wait("the drag back, still held", func(l seen) bool { return l.Delay == 1 })
	s.do("key", "Escape")
	s.wait("Escape", func(l seen) bool { return l.Delay == 9 })
	s.do("mouseup", "1")
	s.do("key", "ctrl+z")
	if at = s.wait("undo", func(l seen) bool { return l.Delay == 5 }); at.Verdict != "safe" {
		t.Errorf("after undo the window says %s, want safe", at.Verdict)
	}
	s.do("key", "Left")
	s.wait("the arrow", func(l seen) bool { return l.Delay == 4 && l.Verdict == "safe" })
	s.do("key", "Left")
	s.wait("the arrow again", func(l seen) bool { return l.Delay == 3 && l.Verdict == "unsafe" })
	s.do("key", "ctrl+s")
	s.saved(project, 3)
	s.shoot("real-window.png")
	s.do("key", "ctrl+q")
	ended()
	projectFileJourney(t, s, program, filepath.Join(dir, "tides"+storage.Ext))
}

// projectFileJourney drags the delay of a project file, closes the program,
// finds the drag on disk, and takes it back in another run.
func projectFileJourney(t *testing.T, s *screen, program, path string) {
	p, err := timeline.ReadText([]byte(windowProject))
	if err != nil {
		t.Fatal(err)
	}
	f, err := storage.Create(path, p)
	if err != nil {
		t.Fatal(err)
	}
	f.Close()

	s.trace += ".file"
	ended := s.start(program, path)
	s.wait("the file's first sheet", func(l seen) bool { return l.DelayAt != nil && l.Delay == 2 })
	s.id = s.window()
	s.drag(s.settled(), 2)
	s.wait("the drag by two frames", func(l seen) bool { return l.Delay == 4 })
	s.settled()
	s.shoot("real-window-file.png")
	s.do("key", "ctrl+q")
	ended()
	if delay, history := onDisk(t, path); delay != 4 || history != "delay 4" {
		t.Errorf("after the program ended the file holds delay %d, its history %q", delay, history)
	}

	s.trace += ".again"
	ended = s.start(program) // what was open last
	s.wait("the file opened again", func(l seen) bool { return l.DelayAt != nil && l.Delay == 4 })
	s.id = s.window()
	s.settled()
	s.do("key", "ctrl+z")
	s.wait("undo of the run before", func(l seen) bool { return l.Delay == 2 })
	s.do("key", "ctrl+q")
	ended()
	if delay, history := onDisk(t, path); delay != 2 || history != "delay 4, undone" {
		t.Errorf("after undo the file holds delay %d, its history %q", delay, history)
	}
}

// onDisk reads the delay of the file's only setup, and its history.
func onDisk(t *testing.T, path string) (delay int, history string) {
	t.Helper()
	f, err := storage.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if why := f.ReadOnly(); why != "" {
		t.Errorf("the file is read-only, %s", why)
	}
	p, err := f.Project()
	if err != nil {
		t.Fatal(err)
	}
	notes, err := f.History(10)
	if err != nil {
		t.Fatal(err)
	}
	var words []string
	for _, n := range notes {
		words = append(words, n.What)
		if n.Undone {
			words = append(words, "undone")
		}
	}
	return p.Setups[0].Delay, strings.Join(words, ", ")
}

// saved waits until the project's file holds that delay.
func (s *screen) saved(project string, delay int) {
	s.t.Helper()
	var text []byte
	for end := time.Now().Add(20 * time.Second); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		text, _ = os.ReadFile(project)
		if p, err := timeline.ReadText(text); err == nil && p.Setups[0].Delay == delay {
			return
		}
	}
	s.shoot("failed.png")
	s.t.Errorf("the file does not hold delay %d:\n%s", delay, text)
}

// startDisplay starts an X server on a free display and returns its name.
func startDisplay(t *testing.T) string {
	t.Helper()
	in, out, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	server := exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", "1400x900x24", "-nolisten", "tcp")
	server.ExtraFiles = []*os.File{out}
	if err := server.Start(); err != nil {
		t.Fatal(err)
	}
	out.Close()
	t.Cleanup(func() {
		server.Process.Kill()
		server.Wait()
	})
	if err := in.SetReadDeadline(time.Now().Add(20 * time.Second)); err != nil {
		t.Fatal(err)
	}
	line, err := bufio.NewReader(in).ReadString('\n')
	if err != nil {
		t.Fatalf("Xvfb names no display: %v", err)
	}
	return ":" + strings.TrimSpace(line)
}

// start runs the program, until the test ends at the latest. ended waits
// until it has ended by itself.
func (s *screen) start(program string, args ...string) (ended func()) {
	s.t.Helper()
	var said bytes.Buffer
	p := exec.Command(program, args...)
	p.Env, p.Stderr = append(s.env, "WAKELINE_TRACE="+s.trace), &said
	if err := p.Start(); err != nil {
		s.t.Fatal(err)
	}
	done := make(chan error, 1)
	go func() { done <- p.Wait() }()
	over := false
	s.t.Cleanup(func() {
		if !over {
			p.Process.Kill()
			<-done
		}
		if s.t.Failed() {
			s.t.Logf("the program said:\n%s", said.String())
		}
	})
	return func() {
		s.t.Helper()
		select {
		case err := <-done:
			if over = true; err != nil {
				s.t.Errorf("the program ended with %v", err)
			}
		case <-time.After(30 * time.Second):
			s.shoot("failed.png")
			s.t.Fatal("the program does not end")
		}
	}
}

// do runs one xdotool command.
func (s *screen) do(args ...string) string {
	s.t.Helper()
	c := exec.Command("xdotool", args...)
	c.Env = s.env
	out, err := c.CombinedOutput()
	if err != nil {
		s.t.Fatalf("xdotool %s: %v\n%s", strings.Join(args, " "), err, out)
	}
	return strings.TrimSpace(string(out))
}

// window finds the program's window and gives it the keys: there is no window
// manager to do so.
func (s *screen) window() string {
	s.t.Helper()
	id, _, _ := strings.Cut(s.do("search", "--sync", "--onlyvisible", "--name", "Wakeline"), "\n")
	s.do("windowfocus", "--sync", id)
	return id
}

// drag moves the delay by n frames and lets go.
func (s *screen) drag(at seen, n int) {
	s.t.Helper()
	s.hold(at, n)
	s.do("mouseup", "1")
}

// hold takes the delay in its middle and moves it by n frames, step by step.
func (s *screen) hold(at seen, n int) {
	s.t.Helper()
	x, y := (at.DelayAt[0]+at.DelayAt[2])/2, (at.DelayAt[1]+at.DelayAt[3])/2
	to := func(x int) { s.do("mousemove", "--window", s.id, strconv.Itoa(x), strconv.Itoa(y)) }
	to(x)
	s.do("mousedown", "1")
	const steps = 6
	for i := 1; i <= steps; i++ {
		to(x + int(math.Round(float64(n)*at.PixelsAFrame*float64(i)/steps)))
	}
}

// last is the trace's last line, and how many there are.
func (s *screen) last() (l seen, n int) {
	text, err := os.ReadFile(s.trace)
	if err != nil {
		return l, 0
	}
	lines := bytes.Split(bytes.TrimSuffix(text[:bytes.LastIndexByte(text, '\n')+1], []byte("\n")), []byte("\n"))
	if len(lines[len(lines)-1]) == 0 {
		return l, 0
	}
	if err := json.Unmarshal(lines[len(lines)-1], &l); err != nil {
		s.t.Fatalf("trace: %v in %q", err, lines[len(lines)-1])
	}
	return l, len(lines)
}

// wait waits until the window's last state is ok.
func (s *screen) wait(what string, ok func(seen) bool) seen {
	s.t.Helper()
	var l seen
	for end := time.Now().Add(30 * time.Second); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		var n int
		if l, n = s.last(); n > 0 && ok(l) {
			return l
		}
	}
	s.shoot("failed.png")
	s.t.Fatalf("waited for %s; the window shows %+v", what, l)
	return l
}

// settled waits until the window has shown nothing new for a while, and
// returns its last state.
func (s *screen) settled() seen {
	_, before := s.last()
	for range 40 {
		time.Sleep(400 * time.Millisecond)
		l, n := s.last()
		if n == before {
			return l
		}
		before = n
	}
	s.t.Fatal("the window never rests")
	return seen{}
}

// shoot leaves a picture of the display in the folder of WAKELINE_SHOTS.
func (s *screen) shoot(name string) {
	dir := os.Getenv("WAKELINE_SHOTS")
	if dir == "" {
		return
	}
	err := os.MkdirAll(dir, 0o755)
	if err == nil {
		c := exec.Command("import", "-window", "root", filepath.Join(dir, name))
		c.Env = s.env
		var out []byte
		if out, err = c.CombinedOutput(); err != nil {
			err = fmt.Errorf("import: %w: %s", err, out)
		}
	}
	if err != nil {
		s.t.Logf("no picture of the window: %v", err)
	}
}
