package drill

import (
	"context"
	"encoding/binary"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"time"

	"wakeline/storage"
)

// soundHelper is a program that plays a sound file.
type soundHelper struct {
	name string
	args []string // before the file's path
}

// soundHelpers are those that may serve on a system, the best first.
func soundHelpers(system string) []soundHelper {
	switch system {
	case "darwin":
		return []soundHelper{{name: "afplay"}}
	case "windows": // the path comes last, as the argument of the block
		return []soundHelper{{"powershell", []string{"-NoProfile", "-NonInteractive", "-Command", "& {(New-Object Media.SoundPlayer $args[0]).PlaySync()}"}}}
	}
	return []soundHelper{{name: "pw-play"}, {name: "paplay"}, {"aplay", []string{"-q"}}}
}

// clicks plays a click on each beat of a drill's count, by a program of the
// system: one sound for the whole count, so that the clicks keep their time
// among themselves. How late the first of them is heard is not known.
type clicks struct {
	on     bool
	player []string // with its arguments before the file; empty: there is none
	sound  []byte
	stop   context.CancelFunc
}

// prepare takes the first player that is there.
func (c *clicks) prepare(helpers []soundHelper, beats []time.Duration) {
	c.silence()
	c.player, c.sound = nil, clickSound(beats)
	for _, h := range helpers {
		if program, err := exec.LookPath(h.name); err == nil {
			c.player = append([]string{program}, h.args...)
			return
		}
	}
}

// play plays the count from its first beat, behind the window, where clicks
// are on.
func (c *clicks) play(ctx context.Context, spawn func(do func())) {
	c.silence()
	if !c.on || len(c.player) == 0 {
		return
	}
	ctx, c.stop = context.WithCancel(ctx)
	player, sound := c.player, c.sound
	// A count that can't be heard can still be seen.
	spawn(func() { _ = playFile(ctx, player, sound) })
}

// playFile has player play the sound, from a file that is gone after it.
func playFile(ctx context.Context, player []string, sound []byte) error {
	dir, end, err := storage.TempFolder()
	if err != nil {
		return err
	}
	defer end()
	file := filepath.Join(dir, "count.wav")
	if err := os.WriteFile(file, sound, 0o600); err != nil {
		return err
	}
	args := append(slices.Clone(player[1:]), file)
	return exec.CommandContext(ctx, player[0], args...).Run()
}

// silence ends what plays.
func (c *clicks) silence() {
	if c.stop != nil {
		c.stop()
		c.stop = nil
	}
}

// How a click sounds.
const (
	soundRate  = 44100 // samples a second
	clickPitch = 1200  // Hz
	clickLong  = 12 * time.Millisecond
	clickLoud  = 0.5 // of the loudest there is
)

// clickSound is a WAV file with a click at each time from its start: one
// channel of 16-bit samples (Multimedia Programming Interface and Data
// Specifications 1.0, "Waveform Audio File Format").
func clickSound(at []time.Duration) []byte {
	place := func(d time.Duration) int { return int(int64(d) * soundRate / int64(time.Second)) }
	long := place(clickLong)
	n := 0
	for _, d := range at {
		n = max(n, place(d)+long)
	}
	samples := make([]int16, n)
	for _, d := range at {
		for i := range long {
			fade := 1 - float64(i)/float64(long)
			samples[place(d)+i] = int16(math.MaxInt16 * clickLoud * fade * fade * math.Sin(2*math.Pi*clickPitch*float64(i)/soundRate))
		}
	}
	const head, sample = 44, 2
	le := binary.LittleEndian
	out := append(make([]byte, 0, head+sample*n), "RIFF"...)
	out = le.AppendUint32(out, uint32(head-8+sample*n))
	out = append(out, "WAVEfmt "...)
	out = le.AppendUint32(out, 16) // the length of what says the form
	out = le.AppendUint16(out, 1)  // plain samples
	out = le.AppendUint16(out, 1)  // a channel
	out = le.AppendUint32(out, soundRate)
	out = le.AppendUint32(out, soundRate*sample)
	out = le.AppendUint16(out, sample)
	out = le.AppendUint16(out, 8*sample)
	out = append(out, "data"...)
	out = le.AppendUint32(out, uint32(sample*n))
	for _, s := range samples {
		out = le.AppendUint16(out, uint16(s))
	}
	return out
}
