package sheet

import (
	"io"
	"testing"

	"wakeline/timeline/words"
)

// sheetOf is the setup of that index, drawn at its own delay in the exchange
// that decides it.
func sheetOf(t testing.TB, index int, w, h float64) (words.Scene, Options) {
	t.Helper()
	p := plans(t, demo())[index]
	d := p.Setup.Delay
	rise, line := p.Deciding(d)
	return words.SceneAt(p, d, rise, line), Options{W: w, H: h, Sentence: words.VerdictAt(p, d).Because, Position: string(p.Setup.Position)}
}

func BenchmarkDraw(b *testing.B) {
	s, o := sheetOf(b, 2, 1920, 900)
	Draw(&s, o)
	b.ReportAllocs()
	for b.Loop() {
		Draw(&s, o)
	}
}

func BenchmarkPicture(b *testing.B) {
	s, o := sheetOf(b, 2, 1920, 900)
	d := Draw(&s, o)
	for b.Loop() {
		if _, err := Picture(d, PaperTheme, 1); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRenderPNG(b *testing.B) {
	s, o := sheetOf(b, 2, 1920, 900)
	d := Draw(&s, o)
	for b.Loop() {
		if err := RenderPNG(io.Discard, d, PaperTheme, 1); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRenderSVG(b *testing.B) {
	s, o := sheetOf(b, 2, 1920, 900)
	d := Draw(&s, o)
	b.ReportAllocs()
	for b.Loop() {
		if err := RenderSVG(io.Discard, d, PaperTheme); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkLesson(b *testing.B) { // three steps, 3840 pixels wide
	p := plans(b, demo())[0]
	l := words.LessonAt(p, 1, 1, 0, words.Breaking)
	for b.Loop() {
		if err := RenderPNG(io.Discard, DrawLesson(&l, 1920), PaperTheme, 2); err != nil {
			b.Fatal(err)
		}
	}
}
