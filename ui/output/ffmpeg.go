package output

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	"wakeline/storage"
	"wakeline/storage/guard"
	"wakeline/timeline"
	"wakeline/ui/sheet/raster"
)

// ErrNoFFmpeg is why there is no MP4 or WebM.
var ErrNoFFmpeg = errors.New("MP4 and WebM are made by the program ffmpeg, which isn't installed: install it, or export an APNG or a folder of frames")

// HasFFmpeg reports whether a film can be made as MP4 and WebM.
func HasFFmpeg() bool {
	_, err := exec.LookPath("ffmpeg")
	return err == nil
}

// videoArguments are what ffmpeg is told: pictures of that size come one after
// another as plain pixels, rate of them a second, and become a file of shown a
// second.
func videoArguments(format string, size image.Point, rate, shown timeline.Rate, clear bool, title, path string) []string {
	args := []string{"-hide_banner", "-loglevel", "error", "-y",
		"-f", "rawvideo", "-pix_fmt", "rgba", "-video_size", fmt.Sprintf("%dx%d", size.X, size.Y), "-framerate", rate.String(), "-i", "pipe:0"}
	filter := "fps=" + shown.String() + ",pad=ceil(iw/2)*2:ceil(ih/2)*2,scale=out_color_matrix=bt709:out_range=tv,format="
	colours := []string{"-colorspace", "bt709", "-color_primaries", "bt709", "-color_trc", "bt709", "-color_range", "tv"}
	if format == "webm" {
		pixels := "yuv420p"
		if clear {
			pixels = "yuva420p"
		}
		args = append(args, "-vf", filter+pixels, "-c:v", "libvpx-vp9", "-crf", "24", "-b:v", "0", "-deadline", "realtime", "-cpu-used", "8", "-row-mt", "1")
	} else {
		args = append(args, "-vf", filter+"yuv420p", "-c:v", "libx264", "-crf", "17", "-preset", "veryfast", "-movflags", "+faststart")
	}
	args = append(args, colours...)
	return append(args, "-an", "-map_metadata", "-1", "-metadata", "title="+title, "-fflags", "+bitexact", "-flags:v", "+bitexact", "-f", format, path)
}

// video writes the film as MP4 or WebM, by ffmpeg.
func (m *Made) video(w io.Writer, step func(i int) error) error {
	program, err := exec.LookPath("ffmpeg")
	if err != nil {
		return ErrNoFFmpeg
	}
	dir, end, err := storage.TempFolder()
	if err != nil {
		return err
	}
	defer end()
	first, err := m.picture(0)
	if err != nil {
		return err
	}
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	path := filepath.Join(dir, "film."+m.Format)
	cmd := exec.CommandContext(ctx, program, videoArguments(m.Format, first.Rect.Size(), m.film.rate, m.film.shown, m.order.Clear, m.title, path)...)
	var said bytes.Buffer
	cmd.Stderr = &said
	in, err := cmd.StdinPipe()
	if err == nil {
		err = cmd.Start()
	}
	if err != nil {
		return fmt.Errorf("ffmpeg: %w", err)
	}
	stopped := m.feed(in, step) // it is nil, or step's error, or what ffmpeg's end made of the pipe
	in.Close()
	var stepped *stepError
	if errors.As(stopped, &stepped) {
		cancel()
	}
	if err := m.ended(cmd, cancel, step); stepped == nil && err != nil {
		var late *stepError
		if errors.As(err, &late) {
			return late.why
		}
		return fmt.Errorf("ffmpeg: %w: %s", err, lastLines(said.String(), 4))
	}
	if stepped != nil {
		return stepped.why
	}
	if stopped != nil {
		return stopped
	}
	file, err := os.Open(path)
	if err != nil {
		return err
	}
	defer file.Close()
	_, err = io.Copy(w, file)
	return err
}

// stepError is an error of step.
type stepError struct{ why error }

func (e *stepError) Error() string { return e.why.Error() }

// feed writes all pictures.
func (m *Made) feed(to io.Writer, step func(i int) error) error {
	for i := range m.film.shots {
		if err := step(i); err != nil {
			return &stepError{err}
		}
		img, err := m.picture(i)
		if err != nil {
			return &stepError{err}
		}
		pixels := raster.Straight(img)
		for range m.film.shots[i].pictures {
			if _, err := to.Write(pixels); err != nil {
				return err
			}
		}
	}
	return nil
}

// ended waits for ffmpeg, and kills it when step ends.
func (m *Made) ended(cmd *exec.Cmd, kill func(), step func(i int) error) error {
	done := make(chan struct{})
	wait := guard.Start("Waiting for ffmpeg", func() error {
		defer close(done)
		return cmd.Wait()
	})
	tick := time.NewTicker(100 * time.Millisecond)
	defer tick.Stop()
	for {
		select {
		case <-done:
			return wait()
		case <-tick.C:
			if err := step(len(m.film.shots)); err != nil {
				kill()
				wait()
				return &stepError{err}
			}
		}
	}
}

// lastLines are the last n lines of a text.
func lastLines(text string, n int) string {
	lines := strings.Split(strings.TrimSpace(text), "\n")
	return strings.Join(lines[max(0, len(lines)-n):], "\n")
}
