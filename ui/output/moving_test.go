package output

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/ui/sheet"
)

// tool fails in CI where a program is missing, and skips elsewhere.
func tool(t *testing.T, name string) {
	t.Helper()
	if _, err := exec.LookPath(name); err == nil {
		return
	}
	if os.Getenv("CI") != "" {
		t.Fatalf("%s is missing", name)
	}
	t.Skipf("%s is missing", name)
}

// madeFilm is a small film of a short setup that has a distance.
func madeFilm(t *testing.T, format string, change func(o *Order)) *Made {
	t.Helper()
	o := Standard()
	o.W, o.H, o.Scale, o.Slow = 480, 320, 0.5, 4
	change(&o)
	m, err := o.Make(planOf(t, "Behind the sail"), format)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func noStep(int) error { return nil }

// straight is a picture's pixels, not premultiplied: worked out here, and by
// whole bytes, as colour by colour takes minutes for a film.
func straight(img image.Image) *image.NRGBA {
	out := image.NewNRGBA(img.Bounds())
	from, ok := img.(*image.RGBA)
	if !ok || len(from.Pix) != len(out.Pix) {
		draw.Draw(out, out.Rect, img, img.Bounds().Min, draw.Src)
		return out
	}
	copy(out.Pix, from.Pix)
	for i := 0; i < len(out.Pix); i += 4 {
		if a := int(out.Pix[i+3]); a > 0 && a < 255 {
			for k, v := range from.Pix[i : i+3] {
				out.Pix[i+k] = uint8(min(255, 255*int(v)/a))
			}
		}
	}
	return out
}

func samePicture(t *testing.T, what string, got, want image.Image) {
	t.Helper()
	a, b := straight(got), straight(want)
	if a.Rect != b.Rect {
		t.Fatalf("%s: %v, want %v", what, a.Rect, b.Rect)
	}
	if bytes.Equal(a.Pix, b.Pix) {
		return
	}
	for i := range a.Pix {
		if d := int(a.Pix[i]) - int(b.Pix[i]); d > 1 || d < -1 {
			t.Fatalf("%s: byte %d is %d, want %d", what, i, a.Pix[i], b.Pix[i])
		}
	}
}

// The films that are tried: of a shape, whose pictures are large, only the few
// of a sweep.
var someFilms = map[string]func(o *Order){
	"play":       func(o *Order) {},
	"play clear": func(o *Order) { o.Clear, o.Stage = true, true },
	"sweep":      func(o *Order) { o.Slow = 0 },
	"lesson":     func(o *Order) { o.Slow, o.Neighbours, o.Stage = 0, 1, true },
	"band":       func(o *Order) { o.Slow, o.Shape, o.Clear = 0, sheet.VideoShapeNamed("band"), true },
}

// TestFramesAreThePictures: numbered from 1 without a gap, each the pixels of
// the preview for as many files as it is shown, with their exact times beside.
func TestFramesAreThePictures(t *testing.T) {
	for name, change := range someFilms {
		m, dir := madeFilm(t, Frames, change), filepath.Join(t.TempDir(), "out")
		if err := m.WriteFolder(context.Background(), dir, noStep); err != nil {
			t.Fatal(err)
		}
		n := 0
		for i := range m.film.shots {
			want, err := m.Picture(i)
			if err != nil {
				t.Fatal(err)
			}
			for range m.film.shots[i].pictures {
				n++
				b, err := os.ReadFile(filepath.Join(dir, fmt.Sprintf("%04d.png", n)))
				if err != nil {
					t.Fatal(err)
				}
				got, err := png.Decode(bytes.NewReader(b))
				if err != nil {
					t.Fatal(err)
				}
				samePicture(t, fmt.Sprintf("%s, picture %d", name, n), got, want)
				if _, _, _, a := got.At(0, 0).RGBA(); (a == 0) != m.order.Clear {
					t.Fatalf("%s: the corner's alpha is %d", name, a)
				}
			}
		}
		if files := filesIn(t, dir); len(files) != n+1 {
			t.Errorf("%s: %d files, want %d and a list", name, len(files), n)
		}
		list, err := os.ReadFile(filepath.Join(dir, "frames.ffconcat"))
		if err != nil {
			t.Fatal(err)
		}
		rows := strings.Split(strings.TrimSpace(string(list)), "\n")
		if rows[0] != "ffconcat version 1.0" || !strings.HasPrefix(rows[1], "# "+m.film.rate.String()+" pictures per second") || len(rows) != 2+2*n+1 {
			t.Fatalf("%s: %d rows of %d pictures:\n%s", name, len(rows), n, list)
		}
		whole := int64(0)
		for i := range n {
			var s, micros int64
			if _, err := fmt.Sscanf(rows[3+2*i], "duration %d.%06d", &s, &micros); err != nil || rows[2+2*i] != fmt.Sprintf("file %04d.png", i+1) {
				t.Fatalf("%s: row %d: %q, %q, %v", name, i, rows[2+2*i], rows[3+2*i], err)
			}
			whole += s*1_000_000 + micros
		}
		if off := 2 * (whole*int64(m.film.rate.Num) - 1_000_000*int64(n)*int64(m.film.rate.Den)); off > int64(m.film.rate.Num) || off < -int64(m.film.rate.Num) {
			t.Errorf("%s: %d pictures last %d µs", name, n, whole)
		}
	}
}

// frameOf is a picture of an APNG: where it lies, and for how long.
type frameOf struct {
	at       image.Rectangle
	num, den int
	data     []byte
}

// readAPNG reads an animated PNG by the PNG specification, third edition,
// chapter 11, and holds it to its order of chunks and its numbers.
func readAPNG(t *testing.T, file []byte) (head []byte, frames []frameOf) {
	t.Helper()
	const signature = "\x89PNG\r\n\x1a\n"
	if !bytes.HasPrefix(file, []byte(signature)) {
		t.Fatal("no signature")
	}
	promised, next, ended := -1, uint32(0), false
	for at := len(signature); at < len(file); {
		n := int(binary.BigEndian.Uint32(file[at:]))
		kind, data := string(file[at+4:at+8]), file[at+8:at+8+n]
		if crc32.ChecksumIEEE(file[at+4:at+8+n]) != binary.BigEndian.Uint32(file[at+8+n:]) {
			t.Fatalf("%s: a wrong sum", kind)
		}
		at += 12 + n
		number := func() {
			if got := binary.BigEndian.Uint32(data); got != next {
				t.Fatalf("%s has number %d, want %d", kind, got, next)
			}
			next++
		}
		switch kind {
		case "IHDR":
			head = data
		case "acTL":
			promised = int(binary.BigEndian.Uint32(data))
			if len(frames) > 0 || binary.BigEndian.Uint32(data[4:]) != 0 {
				t.Fatal("acTL after a picture, or one that ends")
			}
		case "fcTL":
			number()
			at := func(i int) int { return int(binary.BigEndian.Uint32(data[i:])) }
			frames = append(frames, frameOf{image.Rect(at(12), at(16), at(12)+at(4), at(16)+at(8)), int(binary.BigEndian.Uint16(data[20:])), int(binary.BigEndian.Uint16(data[22:])), nil})
			if data[24] != 0 || data[25] != 0 {
				t.Fatalf("dispose %d, blend %d", data[24], data[25])
			}
		case "IDAT":
			if len(frames) != 1 {
				t.Fatal("IDAT of another picture than the first")
			}
			frames[0].data = append(frames[0].data, data...)
		case "fdAT":
			number()
			f := &frames[len(frames)-1]
			f.data = append(f.data, data[4:]...)
		case "IEND":
			ended = at == len(file)
		}
	}
	if !ended || promised != len(frames) || head == nil {
		t.Fatalf("%d pictures, %d promised, ended %v", len(frames), promised, ended)
	}
	return head, frames
}

// shown decodes one picture of an APNG as a PNG of its own.
func (f *frameOf) shown(t *testing.T, head []byte) image.Image {
	t.Helper()
	chunk := func(kind string, data []byte) []byte {
		out := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
		out = append(append(out, kind...), data...)
		return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out[4:]))
	}
	size := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, uint32(f.at.Dx())), uint32(f.at.Dy()))
	file := append([]byte("\x89PNG\r\n\x1a\n"), chunk("IHDR", append(size, head[8:]...))...)
	file = append(append(file, chunk("IDAT", f.data)...), chunk("IEND", nil)...)
	img, err := png.Decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// TestAPNGIsTheFilm: put together as a reader does, each picture is the
// preview's, and lasts exactly as long as the film says.
func TestAPNGIsTheFilm(t *testing.T) {
	for name, change := range someFilms {
		m := madeFilm(t, "apng", change)
		var b bytes.Buffer
		if err := m.Write(&b); err != nil {
			t.Fatal(err)
		}
		head, frames := readAPNG(t, b.Bytes())
		if len(frames) != len(m.film.shots) {
			t.Fatalf("%s: %d pictures, want %d", name, len(frames), len(m.film.shots))
		}
		var all *image.NRGBA
		for i := range frames {
			f := &frames[i]
			part := f.shown(t, head)
			if i == 0 {
				all = image.NewNRGBA(f.at)
			}
			draw.Draw(all, f.at, part, part.Bounds().Min, draw.Src)
			want, err := m.Picture(i)
			if err != nil {
				t.Fatal(err)
			}
			samePicture(t, fmt.Sprintf("%s, picture %d", name, i), all, want)
			if r := m.film.rate; f.num*r.Num != m.film.shots[i].pictures*r.Den*f.den {
				t.Errorf("%s: picture %d lasts %d/%d s, want %d of %v a second", name, i, f.num, f.den, m.film.shots[i].pictures, r)
			}
			if i > 0 && f.at == frames[0].at && name == "play" {
				t.Errorf("%s: picture %d is drawn as a whole", name, i)
			}
		}
	}
}

// TestAPNGByOthers: pngcheck finds no fault, and ffmpeg shows the same pictures.
func TestAPNGByOthers(t *testing.T) {
	tool(t, "pngcheck")
	tool(t, "ffmpeg")
	m := madeFilm(t, "apng", someFilms["play clear"])
	path := filepath.Join(t.TempDir(), "a.png")
	f, err := os.Create(path)
	if err == nil {
		if err = m.Write(f); err == nil {
			err = f.Close()
		}
	}
	if err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("pngcheck", "-q", path).CombinedOutput(); err != nil || len(out) > 0 {
		t.Errorf("pngcheck: %v: %s", err, out)
	}
	raw, err := exec.Command("ffmpeg", "-v", "error", "-f", "apng", "-i", path, "-fps_mode", "passthrough", "-f", "rawvideo", "-pix_fmt", "rgba", "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	first, err := m.Picture(0)
	if err != nil {
		t.Fatal(err)
	}
	size := 4 * first.Bounds().Dx() * first.Bounds().Dy()
	if len(raw) < size*len(m.film.shots) {
		t.Fatalf("%d bytes of %d pictures of %d", len(raw), len(m.film.shots), size)
	}
	for i := range m.film.shots {
		want, err := m.Picture(i)
		if err != nil {
			t.Fatal(err)
		}
		got := &image.NRGBA{Pix: raw[i*size:][:size], Stride: 4 * first.Bounds().Dx(), Rect: first.Bounds()}
		samePicture(t, fmt.Sprintf("ffmpeg's picture %d", i), got, want)
	}
}

// TestVideoByFfprobe: the size, the rate and the length are the film's.
func TestVideoByFfprobe(t *testing.T) {
	tool(t, "ffmpeg")
	tool(t, "ffprobe")
	for _, c := range []struct{ film, format, codec string }{{"play", "mp4", "h264"}, {"lesson", "mp4", "h264"}, {"sweep", "webm", "vp9"}, {"play clear", "webm", "vp9"}} {
		m := madeFilm(t, c.format, someFilms[c.film])
		path := filepath.Join(t.TempDir(), "a."+c.format)
		f, err := os.Create(path)
		if err == nil {
			if err = m.Write(f); err == nil {
				err = f.Close()
			}
		}
		if err != nil {
			t.Fatalf("%+v: %v", c, err)
		}
		out, err := exec.Command("ffprobe", "-v", "error", "-count_frames", "-show_entries", "stream=codec_name,width,height,r_frame_rate,nb_read_frames", "-of", "default=nk=1:nw=1", path).Output()
		if err != nil {
			t.Fatal(err)
		}
		first, err := m.Picture(0)
		if err != nil {
			t.Fatal(err)
		}
		pictures, shown, rate := 0, m.film.shown, m.film.rate
		for i := range m.film.shots {
			pictures += m.film.shots[i].pictures
		}
		even := func(n int) int { return (n + 1) / 2 * 2 }
		size := first.Bounds().Size()
		frames := pictures * shown.Num * rate.Den / (shown.Den * rate.Num)
		want := fmt.Sprintf("%s\n%d\n%d\n", c.codec, even(size.X), even(size.Y))
		got := strings.Fields(string(out))
		if !strings.HasPrefix(string(out), want) || len(got) != 5 || got[4] != fmt.Sprint(frames) {
			t.Errorf("%+v: %q, want %q, and %d frames at %v", c, out, want, frames, shown)
		}
		var a, b int
		if _, err := fmt.Sscanf(got[3], "%d/%d", &a, &b); err != nil || a*shown.Den != shown.Num*b {
			t.Errorf("%+v: %s pictures per second, want %v", c, got[3], shown)
		}
	}
}

// TestVideoWithoutFfmpeg: it is said plainly; and what ffmpeg complains of is
// shown, as is an end on the way.
func TestVideoWithoutFfmpeg(t *testing.T) {
	m := madeFilm(t, "mp4", someFilms["sweep"])
	var b bytes.Buffer
	bin := t.TempDir()
	t.Setenv("PATH", bin)
	if err := m.Write(&b); !errors.Is(err, ErrNoFFmpeg) || HasFFmpeg() {
		t.Errorf("no ffmpeg: %v", err)
	}
	script := "#!/bin/sh\necho 'Unknown encoder of a test' >&2\nexit 3\n"
	if err := os.WriteFile(filepath.Join(bin, "ffmpeg"), []byte(script), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := m.Write(&b); err == nil || !strings.Contains(err.Error(), "Unknown encoder of a test") {
		t.Errorf("one that fails: %v", err)
	}
	stop := errors.New("stop")
	script = "#!/bin/sh\nexec 0<&-\nwhile :; do :; done\n" // it would never end
	if err := os.WriteFile(filepath.Join(bin, "ffmpeg"), []byte(script), 0o755); err != nil {
		t.Fatal(err)
	}
	for _, at := range []int{1, len(m.film.shots)} { // while pictures are written, and after
		if err := m.WriteBy(&b, func(i int) error {
			if i >= at {
				return stop
			}
			return nil
		}); !errors.Is(err, stop) {
			t.Errorf("ended at %d: %v", at, err)
		}
	}
	if b.Len() > 0 {
		t.Errorf("%d bytes were written", b.Len())
	}
}

// TestAFilmEnds where its step does.
func TestAFilmEnds(t *testing.T) {
	stop := errors.New("stop")
	dir := t.TempDir()
	if err := madeFilm(t, Frames, someFilms["play"]).WriteFolder(context.Background(), dir, func(i int) error {
		if i == 3 {
			return stop
		}
		return nil
	}); !errors.Is(err, stop) || len(filesIn(t, dir)) > 3 {
		t.Errorf("%v, files %v", err, filesIn(t, dir))
	}
	if err := madeFilm(t, "apng", someFilms["play"]).WriteBy(&bytes.Buffer{}, func(int) error { return stop }); !errors.Is(err, stop) {
		t.Errorf("apng: %v", err)
	}
}

// TestAFilmHasItsShape: in each shape, with a side view and without, the line of
// a playback lies on its frame, and the side view outside the strip.
func TestAFilmHasItsShape(t *testing.T) {
	const at = 20
	plan := planOf(t, "Behind the sail")
	for i := range sheet.VideoShapes {
		v := &sheet.VideoShapes[i]
		for _, stage := range []bool{false, true} {
			o := Standard()
			o.Slow, o.Shape, o.Stage = 2, v, stage
			m, err := o.Make(plan, Frames)
			if err != nil {
				t.Fatal(err)
			}
			shot := &m.film.shots[at]
			wide := v.Scale()
			if stage {
				with := v.WithSide()
				wide = with.Scale()
			}
			if w, h := shot.base.W*wide, shot.base.H*wide; math.Round(w) != float64(v.Wide) || math.Round(h) != float64(v.High) || m.order.Scale != wide {
				t.Errorf("%s, side view %v: %g by %g pixels at scale %g", v.Name, stage, w, h, m.order.Scale)
			}
			onFrame, moved := false, 0
			for _, s := range shot.over {
				switch s := s.(type) {
				case sheet.Line:
					onFrame = onFrame || s.From.X == s.To.X && math.Abs(s.From.X-shot.base.X(at)) < 0.01
				case sheet.Text:
					if s.Str == fmt.Sprintf("frame %d", at) && (s.At.X > shot.base.Right || s.At.Y > shot.base.Bottom.To) {
						moved++
					}
				}
			}
			if !onFrame || (moved == 1) != stage || moved > 1 {
				t.Errorf("%s, side view %v: a line on the frame: %v; %d side views outside the strip", v.Name, stage, onFrame, moved)
			}
		}
	}
}

// TestAPictureOverFootage: what is not ink is open, and around ink lies the
// ground's colour, on what moves too.
func TestAPictureOverFootage(t *testing.T) {
	m := madeFilm(t, Frames, func(o *Order) { o.Clear, o.Scale = true, 2 })
	img, err := m.Picture(20)
	if err != nil {
		t.Fatal(err)
	}
	d := m.film.shots[20].base
	x, y := int(2*d.X(20)), int(2*d.Top.From+6)
	paper := color.NRGBAModel.Convert(sheet.PaperTheme.Colour(sheet.Paper))
	if c := color.NRGBAModel.Convert(img.At(x, y)); c.(color.NRGBA).A != 255 || c == paper {
		t.Errorf("no line of the frame at %d, %d: %v", x, y, c)
	}
	if c := color.NRGBAModel.Convert(img.At(x+3, y)); c != paper {
		t.Errorf("beside it is %v, want %v", c, paper)
	}
}

func BenchmarkFrames(b *testing.B) {
	p := yard(b, 1)
	plan, err := timeline.Compile(p, p.Setups[0])
	if err != nil {
		b.Fatal(err)
	}
	o := Standard()
	o.Slow, o.Shape = 1, sheet.VideoShapeNamed("wide")
	for _, clear := range []bool{false, true} {
		b.Run(fmt.Sprintf("clear %v", clear), func(b *testing.B) {
			o.Clear = clear
			m, err := o.Make(plan, Frames)
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				if err := m.WriteFolder(context.Background(), b.TempDir(), noStep); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(len(m.film.shots))*float64(b.N)/b.Elapsed().Seconds(), "pictures/s")
		})
	}
}
