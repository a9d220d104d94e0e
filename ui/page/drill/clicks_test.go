package drill

import (
	"context"
	"encoding/binary"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"wakeline/ui/page/pagetest"
)

// TestClickSound reads the file by its form: silence but for the clicks, each
// from its time on.
func TestClickSound(t *testing.T) {
	at := []time.Duration{0, 500 * time.Millisecond, 1500 * time.Millisecond}
	b := clickSound(at)
	le := binary.LittleEndian
	if string(b[:4]) != "RIFF" || string(b[8:16]) != "WAVEfmt " || string(b[36:40]) != "data" ||
		int(le.Uint32(b[4:])) != len(b)-8 || int(le.Uint32(b[40:])) != len(b)-44 ||
		le.Uint16(b[20:]) != 1 || le.Uint16(b[22:]) != 1 || le.Uint16(b[34:]) != 16 || le.Uint32(b[28:]) != 2*le.Uint32(b[24:]) {
		t.Fatalf("no sound of one channel begins with % x", b[:44])
	}
	rate := int(le.Uint32(b[24:]))
	loud := func(from, to time.Duration) (most int) {
		for i := int(from) * rate / int(time.Second); i < int(to)*rate/int(time.Second) && 46+2*i <= len(b); i++ {
			most = max(most, int(int16(le.Uint16(b[44+2*i:]))))
		}
		return most
	}
	for _, d := range at {
		if got := loud(d, d+10*time.Millisecond); got < 8000 {
			t.Errorf("at %v it is as loud as %d", d, got)
		}
		if got := loud(d+20*time.Millisecond, d+400*time.Millisecond); got != 0 {
			t.Errorf("after %v it is as loud as %d, want silence", d, got)
		}
	}
}

// TestClicks has a program of its own play the count of each round, where
// clicks are on.
func TestClicks(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("the player is a shell script")
	}
	dir := t.TempDir()
	log := filepath.Join(dir, "log")
	script := "#!/bin/sh\nhead -c 4 \"$2\" >>" + log + "\necho \" $1 $2\" >>" + log + "\n"
	if err := os.WriteFile(filepath.Join(dir, "player"), []byte(script), 0o700); err != nil {
		t.Fatal(err)
	}
	t.Setenv("PATH", dir+":"+os.Getenv("PATH"))
	lines := func() []string {
		text, _ := os.ReadFile(log) // not there before the first
		return strings.Split(strings.TrimSpace(string(text)), "\n")
	}
	at := func(do func()) { do() }
	helpers := []soundHelper{{name: "no-such-player"}, {"player", []string{"-q"}}}
	var c clicks
	c.prepare(helpers, []time.Duration{0})
	c.play(context.Background(), at)
	if got := lines(); got[0] != "" {
		t.Fatalf("played %q with clicks off", got)
	}
	c.on = true
	c.play(context.Background(), at)
	c.play(context.Background(), at)
	got := lines()
	if len(got) != 2 || !strings.HasPrefix(got[0], "RIFF -q ") {
		t.Fatalf("played %q, want a sound twice", got)
	}
	if _, err := os.Stat(strings.Fields(got[1])[2]); err == nil {
		t.Error("the file of a count stays")
	}
	c.prepare(helpers[:1], []time.Duration{0})
	c.play(context.Background(), at)
	if len(c.player) != 0 || len(lines()) != 2 {
		t.Error("a player that isn't there plays")
	}
}

// TestClicksAreOptional: off at first, remembered, and told of.
func TestClicksAreOptional(t *testing.T) {
	_, d, _ := openDrill(t, pagetest.Sample())
	d.clicks.player = nil
	if d.click.Checked || d.clicks.on || !strings.Contains(d.about.Text, "There is no sound") {
		t.Errorf("at first the clicks are on: %q", d.about.Text)
	}
	played := 0
	d.clock.onRound = func() { played++ }
	down(d)
	if played != 1 {
		t.Errorf("a round begins with %d counts", played)
	}
	d.clock.stop()
	d.end()
	d.click.SetChecked(true)
	if !d.host.Preferences().Bool(prefClicks) || !d.clicks.on || strings.Contains(d.about.Text, "There is no sound") {
		t.Errorf("clicks are not taken on: %q", d.about.Text)
	}
}
