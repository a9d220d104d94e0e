package main

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// The toolkit drops what it keeps of a view that was not on screen for this
// long. FYNE_CACHE makes it shorter. It looks at most every ten seconds, while
// the window is in use.
const (
	keptFor   = time.Minute
	looksFor  = 12 * time.Second
	shortTime = 3 * time.Second
)

// awayJourney leaves each view of the window for over a minute while others are
// used, comes back, and finds it as it was: once in the toolkit's own time, once
// in a shorter one and with a scale. A window that is left alone for two minutes
// is as it was, too, and can be used.
func awayJourney(s *screen) {
	if _, err := exec.LookPath("import"); err != nil {
		if os.Getenv("CI") != "" {
			s.t.Fatal("import is missing")
		}
		s.t.Skip("no pictures of the window without import")
	}
	idle, quick := s.another("idle"), s.another("quick")
	endIdle := idle.openSample()
	alone := time.Now()
	before := idle.look("the timeline", func() {})

	one, two := s.another("timeline"), s.another("match-up")
	onTimeline, onMatchup := one.openToLeave(), two.openToLeave()
	onTimeline.useTimeline()
	onMatchup.useMatchup()
	for end := time.Now().Add(keptFor + looksFor); time.Now().Before(end); time.Sleep(300 * time.Millisecond) {
		one.keys("period", "comma")
		two.keys("Down", "Up")
	}
	onTimeline.backFromTimeline()
	onMatchup.backFromMatchup()

	quick.env = append(quick.env, "FYNE_CACHE="+shortTime.String(), "FYNE_SCALE=1.25")
	both := quick.openToLeave()
	both.useTimeline()
	quick.use(shortTime+looksFor, "period", "comma")
	both.backFromTimeline()
	both.useMatchup()
	quick.use(shortTime+looksFor, "Down", "Up")
	both.backFromMatchup()
	for _, l := range []*left{onTimeline, onMatchup, both} {
		l.end()
	}

	time.Sleep(time.Until(alone.Add(2 * keptFor)))
	idle.same(before, "after two minutes alone")
	idle.keys("ctrl+2")
	idle.wait("the move data", func(l seen) bool { return l.Page == "dataPage" })
	idle.keys("ctrl+1")
	idle.wait("the timeline", func(l seen) bool { return l.Page == "" })
	idle.keys("period")
	idle.settled()
	idle.keys("Escape")
	idle.same(before, "after it was used again")
	endIdle()
}

// another is the program on a display of its own, with a folder of its own.
func (s *screen) another(name string) *screen {
	s.t.Helper()
	at := *s
	at.dir = filepath.Join(s.dir, name)
	if err := os.Mkdir(at.dir, 0o755); err != nil {
		s.t.Fatal(err)
	}
	at.env = append(slices.Clone(s.env), "DISPLAY="+startDisplay(s.t), "HOME="+at.dir, "XDG_CONFIG_HOME="+at.dir, "XDG_STATE_HOME=")
	at.trace = filepath.Join(at.dir, "trace")
	return &at
}

func (s *screen) openSample() (ended func()) {
	s.t.Helper()
	text, err := os.ReadFile("../../samples/sample.json")
	if err != nil {
		s.t.Fatal(err)
	}
	_, end := s.open(string(text))
	s.settled()
	return func() {
		s.t.Helper()
		s.keys("ctrl+q")
		end()
	}
}

// pageKeys opens each page.
var pageKeys = []struct{ page, key string }{
	{"dataPage", "ctrl+2"}, {"matchupPage", "ctrl+3"}, {"findPage", "ctrl+4"},
	{"drillPage", "ctrl+5"}, {"lessonPage", "ctrl+6"}, {"exportPage", "ctrl+e"}, {"historyPage", "ctrl+h"},
}

// left is a window whose views are left for a while.
type left struct {
	s     *screen
	views []looked
	main  looked // the timeline, as a page that is closed leaves it
	end   func()
}

// openToLeave opens the sample and looks at every view of it.
func (s *screen) openToLeave() *left {
	s.t.Helper()
	l := &left{s: s, end: s.openSample()}
	for _, p := range pageKeys {
		l.look(p.page, func() { s.page(p.key, p.page) })
	}
	for _, pane := range []string{"Blocks", "Lanes"} {
		l.look(pane, func() { s.click(pane) })
	}
	l.look("menu", func() { s.click("menu File") })
	s.keys("Escape")
	for _, pane := range []string{"Setups", "Replies"} {
		l.look(pane, func() { s.click(pane) })
	}
	l.main = s.look("timeline", func() {
		s.page("ctrl+2", "dataPage")
		s.keys("Escape")
		s.onTimeline()
	})
	return l
}

// look looks at what is shown from the timeline.
func (l *left) look(name string, show func()) {
	l.s.t.Helper()
	l.views = append(l.views, l.s.look(name, func() {
		l.s.page("ctrl+1", "")
		show()
	}))
}

// page goes to a page by its key.
func (s *screen) page(key, name string) {
	s.t.Helper()
	s.keys(key)
	s.wait("the page "+name, func(l seen) bool { return l.Page == name })
}

// onTimeline waits for the timeline, with the keys on the sheet.
func (s *screen) onTimeline() {
	s.t.Helper()
	s.wait("the timeline with the keys", func(l seen) bool { return l.Page == "" && l.Focus == "Timeline" })
}

// useTimeline goes to the timeline, to use it.
func (l *left) useTimeline() { l.s.page("ctrl+1", "") }

// backFromTimeline finds each view as it was.
func (l *left) backFromTimeline() {
	l.s.t.Helper()
	l.s.keys("Escape")
	for _, v := range l.views {
		v.show()
		l.s.same(v, "after the timeline was used")
		if v.name == "menu" {
			l.s.keys("Escape")
		}
	}
}

// useMatchup goes to the move data, and from there to the match-up, to use it.
func (l *left) useMatchup() {
	l.s.page("ctrl+2", "dataPage")
	l.s.page("ctrl+3", "matchupPage")
}

// backFromMatchup finds the timeline and the move data as they were.
func (l *left) backFromMatchup() {
	l.s.t.Helper()
	l.s.keys("Escape")
	l.s.onTimeline()
	l.s.same(l.main, "after the match-up was used")
	l.views[0].show()
	l.s.same(l.views[0], "after the match-up was used")
	l.s.page("ctrl+1", "")
}

// use presses two keys in turn, for that long.
func (s *screen) use(long time.Duration, there, back string) {
	for end := time.Now().Add(long); time.Now().Before(end); time.Sleep(300 * time.Millisecond) {
		s.keys(there, back)
	}
}

// looked is a view, and a picture of it.
type looked struct {
	name    string
	show    func()
	picture image.Image
}

// look shows a view and takes a picture of it, once it rests.
func (s *screen) look(name string, show func()) looked {
	s.t.Helper()
	show()
	v := looked{name, show, s.picture()}
	for range 40 {
		s.settled()
		before := v.picture
		if v.picture = s.picture(); unlike(before, v.picture).Empty() {
			return v
		}
	}
	s.t.Fatalf("%s never rests", name)
	return v
}

// picture is a picture of the window, with the pointer out of the way of all
// but the menu.
func (s *screen) picture() image.Image {
	s.t.Helper()
	s.do("mousemove", "1399", "899")
	c := exec.Command("import", "-window", "root", "png:-")
	c.Env = s.env
	text, err := c.Output()
	if err != nil {
		s.t.Fatalf("import: %v", err)
	}
	img, err := png.Decode(bytes.NewReader(text))
	if err != nil {
		s.t.Fatal(err)
	}
	return img
}

// same waits until the window looks as it did.
func (s *screen) same(v looked, when string) {
	s.t.Helper()
	var got image.Image
	var where image.Rectangle
	for end := time.Now().Add(10 * time.Second); time.Now().Before(end); time.Sleep(300 * time.Millisecond) {
		got = s.picture()
		if where = unlike(v.picture, got); where.Empty() {
			return
		}
	}
	s.t.Errorf("%s: %s looks otherwise in %v", filepath.Base(s.dir), v.name+" "+when, where)
	if dir := os.Getenv("WAKELINE_SHOTS"); dir != "" {
		for name, img := range map[string]image.Image{"before": v.picture, "after": got} {
			var text bytes.Buffer
			if err := png.Encode(&text, img); err != nil {
				s.t.Error(err)
			}
			name = strings.ReplaceAll("away-"+filepath.Base(s.dir)+"-"+v.name+" "+when+"-"+name+".png", " ", "-")
			if err := os.WriteFile(filepath.Join(dir, name), text.Bytes(), 0o644); err != nil {
				s.t.Error(err)
			}
		}
	}
}

// unlike is where two pictures differ, empty for nowhere.
func unlike(a, b image.Image) (where image.Rectangle) {
	r := a.Bounds().Union(b.Bounds())
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			if a.At(x, y) != b.At(x, y) {
				where = where.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return where
}
