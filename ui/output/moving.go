package output

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"

	"wakeline/storage"
	"wakeline/storage/guard"
	"wakeline/timeline"
	"wakeline/ui/sheet"
	"wakeline/ui/sheet/raster"
)

// FilmFormats are the endings of a moving picture besides GIF. Frames is no
// ending: a folder of numbered pictures.
var FilmFormats = []string{"apng", "mp4", "webm", Frames}

// Frames is the format of a film as a folder of pictures.
const Frames = "frames"

// forFilm is the order as a film in that format can be.
func forFilm(o *Order, format string) Order {
	at := o.scaled()
	switch format {
	case "mp4": // it can't be transparent
		at.Clear = false
	case "gif": // it has no lesson, and a ground
		at.Neighbours, at.Clear = Strip, false
	}
	return at
}

// madeOf makes a film in one of SeveralFilmFormats.
func madeOf(o *Order, f *film, format string) (*Made, error) {
	switch {
	case slices.Contains(SpokenFormats, format):
		return sayings(o, f, format)
	case format == "gif":
		return animated(o, f), nil
	}
	m := o.drawn(format)
	m.title, m.desc, m.film = f.title, f.desc, f
	m.reel = raster.NewReel(o.Theme, o.Scale)
	for i := range f.shots {
		m.Sheets = append(m.Sheets, f.shots[i].sheet())
	}
	return m, nil
}

// animated is a film as a GIF, whose clock counts hundredths of a second.
func animated(o *Order, f *film) *Made {
	m := o.drawn("gif")
	m.title, m.desc = f.title, f.desc
	add := func(s *shot, hundredths int) {
		m.Sheets, m.Times = append(m.Sheets, s.sheet()), append(m.Times, hundredths)
	}
	lasting := func(s *shot) int { return (200*s.pictures*f.rate.Den + f.rate.Num) / (2 * f.rate.Num) }
	for i := 0; i < len(f.shots); i++ {
		s := &f.shots[i]
		if o.Slow == 0 || s.section != "" {
			add(s, lasting(s))
			continue
		}
		end := i + 1 // of the playback
		for end < len(f.shots) && f.shots[end].section == "" {
			end++
		}
		frames, times := raster.GIFTimes(end-i, f.rate, 1)
		times[len(times)-1] += 100 // a rest before it goes on
		for k, at := range frames {
			add(&f.shots[i+at], times[k])
		}
		i = end - 1
	}
	return m
}

// sheet is all of a shot as one drawing.
func (s *shot) sheet() *sheet.Drawing {
	out := *s.base
	out.Shapes = append(out.Shapes[:len(out.Shapes):len(out.Shapes)], s.over...)
	return &out
}

// picture is shot i in pixels.
func (m *Made) picture(i int) (*image.RGBA, error) {
	s := &m.film.shots[i]
	return m.reel.Picture(s.base, s.over)
}

// Seconds is how long a film is, and how long shot i of it is shown.
func (m *Made) Seconds(i int) (shown, all float64) {
	n := 0
	for k := range m.film.shots {
		n += m.film.shots[k].pictures
	}
	long := float64(m.film.rate.Den) / float64(m.film.rate.Num)
	return float64(m.film.shots[i].pictures) * long, float64(n) * long
}

// apng writes the film as an animated PNG.
func (m *Made) apng(w io.Writer, step func(i int) error) error {
	out := raster.NewAPNG(w, len(m.film.shots), m.order.Clear, m.title, strings.TrimSpace(m.desc))
	for i := range m.film.shots {
		if err := step(i); err != nil {
			return err
		}
		img, err := m.picture(i)
		if err == nil {
			num, den := raster.Delay(m.film.shots[i].pictures, m.film.rate)
			err = out.Add(img, num, den)
		}
		if err != nil {
			return err
		}
	}
	return out.Close()
}

// listName is the file beside the pictures of a film, which says how long each
// is shown.
const listName = "frames.ffconcat"

// Files are the names of the files of a film as a folder: its pictures, in
// order, and the list of them.
func (m *Made) Files() (out []string) {
	n := 0
	for i := range m.film.shots {
		n += m.film.shots[i].pictures
	}
	digits := max(4, len(strconv.Itoa(n)))
	for i := range n {
		out = append(out, fmt.Sprintf("%0*d.png", digits, i+1))
	}
	return append(out, listName)
}

// WriteFolder writes a film as a folder: a picture a tick of its clock,
// numbered from 1, and a list with its rate. Each file takes its place when
// whole; others stay. Shots are worked on by all cores; step is called before
// each, with how many there were, and never by two at once; its error ends it.
func (m *Made) WriteFolder(ctx context.Context, folder string, step func(i int) error) error {
	names := m.Files()
	pictures := names[:len(names)-1]
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return fmt.Errorf("expected a folder, or room for one: %w", err)
	}
	type files struct {
		shot  int
		names []string
	}
	var mu sync.Mutex
	begun := 0
	tell := func() error {
		mu.Lock()
		defer mu.Unlock()
		begun++
		return step(begun - 1)
	}
	err := guard.Each(ctx, "Drawing the film", func(_ context.Context, hand func(files) error) error {
		rest := pictures
		for i := range m.film.shots {
			n := m.film.shots[i].pictures
			if err := hand(files{i, rest[:n]}); err != nil {
				return err
			}
			rest = rest[n:]
		}
		return nil
	}, func(_ context.Context, f files) error {
		if err := tell(); err != nil {
			return err
		}
		img, err := m.picture(f.shot)
		if err != nil {
			return err
		}
		var b bytes.Buffer
		if err := raster.EncodePNG(&b, img, "", ""); err != nil {
			return err
		}
		for _, name := range f.names {
			if err := storage.Replace(filepath.Join(folder, name), func(w io.Writer) error {
				_, err := w.Write(b.Bytes())
				return err
			}); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return err
	}
	return storage.Replace(filepath.Join(folder, listName), func(w io.Writer) error {
		_, err := io.WriteString(w, concatList(pictures, m.film.rate))
		return err
	})
}

// concatList is a list of pictures as ffmpeg's concat reader takes it, with the
// exact rate in a comment. Its times are whole millionths of a second, each
// worked out from the beginning.
func concatList(names []string, rate timeline.Rate) string {
	var b strings.Builder
	fmt.Fprintf(&b, "ffconcat version 1.0\n# %s pictures per second, exactly: picture n begins at (n - 1) * %d/%d s\n", rate, rate.Den, rate.Num)
	micros := func(n int) int64 {
		return (2_000_000*int64(n)*int64(rate.Den) + int64(rate.Num)) / (2 * int64(rate.Num))
	}
	for i, name := range names {
		long := micros(i+1) - micros(i)
		fmt.Fprintf(&b, "file %s\nduration %d.%06d\n", name, long/1_000_000, long%1_000_000)
	}
	if len(names) > 0 { // the reader shows a last picture only as long as it is told twice
		fmt.Fprintf(&b, "file %s\n", names[len(names)-1])
	}
	return b.String()
}
