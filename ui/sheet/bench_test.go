package sheet_test

import (
	"io"
	"testing"

	"wakeline/timeline/words"
	. "wakeline/ui/sheet"
	"wakeline/ui/sheet/raster"
	"wakeline/ui/sheet/svg"
)

func BenchmarkDraw(b *testing.B) {
	s, o := SheetOf(b, 2, 1920, 900)
	Draw(&s, o)
	b.ReportAllocs()
	for b.Loop() {
		Draw(&s, o)
	}
}

func BenchmarkPicture(b *testing.B) {
	s, o := SheetOf(b, 2, 1920, 900)
	d := Draw(&s, o)
	for b.Loop() {
		if _, err := raster.Picture(d, PaperTheme, 1); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRenderPNG(b *testing.B) {
	s, o := SheetOf(b, 2, 1920, 900)
	d := Draw(&s, o)
	for b.Loop() {
		if err := raster.PNG(io.Discard, d, PaperTheme, 1); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkRenderSVG(b *testing.B) {
	s, o := SheetOf(b, 2, 1920, 900)
	d := Draw(&s, o)
	b.ReportAllocs()
	for b.Loop() {
		if err := svg.Render(io.Discard, d, PaperTheme); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkLesson(b *testing.B) { // three steps, 3840 pixels wide
	p := Plans(b, Demo())[0]
	l := words.LessonAt(p, 1, 1, 0, words.Breaking)
	for b.Loop() {
		if err := raster.PNG(io.Discard, DrawLesson(&l, 1920), PaperTheme, 2); err != nil {
			b.Fatal(err)
		}
	}
}
