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
	"syscall"
	"testing"
	"time"

	"wakeline/samples"
	"wakeline/storage"
	"wakeline/timeline"
)

// seen is what the test reads of a line of the window's trace.
type seen struct {
	Setup        string
	Delay        int
	Verdict      string
	PixelsAFrame float64 `json:"pixels_a_frame"`
	DelayAt      *[4]int `json:"delay_at"`

	Because string
	Reply   string
	Setups  int
	Page    string
	Focus   string
	Hint    string
	Undo    string
	Redo    string
	Places  map[string][4]int
	Steps   int
	Shown   int64
}

// screen is a display of its own, and what it takes to work on it.
type screen struct {
	t       *testing.T
	dir     string // for files
	program string
	env     []string
	trace   string
	id      string      // of the window
	process *os.Process // that was started last
}

// newScreen builds the program, with the trace that the test reads, and starts a
// display for it.
func newScreen(t *testing.T) *screen {
	t.Helper()
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
	program := filepath.Join(t.TempDir(), "wakeline")
	build := []string{"build", "-tags", "trace", "-o", program, "."}
	if raced {
		build = append([]string{"build", "-race"}, build[1:]...)
	}
	if out, err := exec.Command("go", build...).CombinedOutput(); err != nil {
		t.Fatalf("go build: %v\n%s", err, out)
	}
	return &screen{t: t, program: program, env: append(os.Environ(), "DISPLAY="+startDisplay(t), "LIBGL_ALWAYS_SOFTWARE=1")}
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
func (s *screen) start(args ...string) (ended func()) {
	s.t.Helper()
	var said bytes.Buffer
	p := exec.Command(s.program, args...)
	p.Env, p.Stderr = append(s.env, "WAKELINE_TRACE="+s.trace), &said
	if err := p.Start(); err != nil {
		s.t.Fatal(err)
	}
	s.process = p.Process
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
	toEnd := 30 * time.Second
	if raced {
		toEnd *= 4 // what it closes is slow then
	}
	return func() {
		s.t.Helper()
		select {
		case err := <-done:
			if over = true; err != nil {
				s.t.Errorf("the program ended with %v", err)
			}
		case <-time.After(toEnd):
			s.shoot("failed.png")
			p.Process.Signal(syscall.SIGQUIT) // it says where it is
			over = true
			select {
			case <-done:
			case <-time.After(10 * time.Second):
				over = false
			}
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

// moveTo puts the pointer on a place of the window.
func (s *screen) moveTo(x, y int) {
	s.t.Helper()
	s.do("mousemove", "--window", s.id, strconv.Itoa(x), strconv.Itoa(y))
}

// hold takes the delay in its middle and moves it by n frames, step by step.
func (s *screen) hold(at seen, n int) {
	s.t.Helper()
	x, y := (at.DelayAt[0]+at.DelayAt[2])/2, (at.DelayAt[1]+at.DelayAt[3])/2
	s.moveTo(x, y)
	s.do("mousedown", "1")
	const steps = 6
	for i := 1; i <= steps; i++ {
		s.moveTo(x+int(math.Round(float64(n)*at.PixelsAFrame*float64(i)/steps)), y)
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
	rest := 400 * time.Millisecond
	if raced {
		rest *= 4
	}
	for range 40 {
		time.Sleep(rest)
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

// keys presses keys, one after the other.
func (s *screen) keys(names ...string) {
	s.t.Helper()
	s.do(append([]string{"key", "--delay", "30"}, names...)...)
}

// write types a text.
func (s *screen) write(text string) {
	s.t.Helper()
	s.do("type", "--delay", "20", text)
}

// spot waits until something with that name can be clicked and stays where it
// is, and returns its middle.
func (s *screen) spot(name string) (x, y int) {
	s.t.Helper()
	rest := 150 * time.Millisecond // three looks of the trace
	if raced {
		rest *= 2
	}
	var r [4]int
	var since time.Time
	s.wait(name+" to be in view", func(l seen) bool {
		if at := l.Places[name]; at != r {
			r, since = at, time.Now()
		}
		return r != [4]int{} && time.Since(since) >= rest
	})
	return (r[0] + r[2]) / 2, (r[1] + r[3]) / 2
}

// click clicks what has that name.
func (s *screen) click(name string) {
	s.t.Helper()
	s.moveTo(s.spot(name))
	s.do("click", "1")
}

// carry drags what has one name to what has another.
func (s *screen) carry(from, to string) {
	s.t.Helper()
	x0, y0 := s.spot(from)
	x1, y1 := s.spot(to)
	s.moveTo(x0, y0)
	s.do("mousedown", "1")
	const steps = 8
	for i := 1; i <= steps; i++ {
		s.moveTo(x0+(x1-x0)*i/steps, y0+(y1-y0)*i/steps)
	}
	s.do("mouseup", "1")
}

// open writes a file of the project text, opens it in the window, and waits
// for its sheet.
func (s *screen) open(text string) (path string, ended func()) {
	s.t.Helper()
	path = filepath.Join(s.dir, "project.json")
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		s.t.Fatal(err)
	}
	ended = s.start(path)
	s.wait("the first sheet", func(l seen) bool { return l.DelayAt != nil })
	s.id = s.window()
	return path, ended
}

// sampleFile writes a project file of the sample.
func (s *screen) sampleFile() (p *timeline.Project, path string) {
	s.t.Helper()
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		s.t.Fatal(err)
	}
	path = filepath.Join(s.dir, "tides"+storage.Ext)
	f, err := storage.Create(path, p)
	if err != nil {
		s.t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		s.t.Fatal(err)
	}
	return p, path
}
