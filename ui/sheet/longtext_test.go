package sheet

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"wakeline/timeline/words"
)

// longTexts are texts of that many letters: of words, and of one word.
func longTexts(n int) map[string]string {
	return map[string]string{
		"words":    strings.Repeat("Hold the delay until the second step, then jump. ", n/49+1)[:n],
		"one word": strings.Repeat("delay", n/5+1)[:n],
	}
}

// lettersDrawn is how many letters the texts among shapes have, and the words of
// the last that ends with an ellipsis.
func lettersDrawn(shapes []Shape) (n int, cut string) {
	for _, s := range shapes {
		if t, ok := s.(Text); ok {
			n += utf8.RuneCountInString(t.Str)
			if strings.HasSuffix(t.Str, ellipsis) {
				cut = t.Str
			}
		}
	}
	return n, cut
}

// A sheet and a lesson draw of a very long text what there is room for, and
// say by an ellipsis that there is more of it.
func TestALongTextIsDrawnAsFarAsThereIsRoom(t *testing.T) {
	for name, text := range longTexts(400_000) {
		s, o := sheetOf(t, 2, 1920, 900)
		o.Sentence, s.Setup, s.Attacker, s.Reply = text, text, text, text
		if n, cut := lettersDrawn(Draw(&s, o).Shapes); n > 2500 || cut == "" {
			t.Errorf("%s: the sheet draws %d letters, cut at %q", name, n, cut)
		}
		l := words.LessonAt(plans(t, demo())[0], 1, 1, 0, words.Breaking)
		l.Setup, l.Rival = text, text
		for i := range l.Steps {
			l.Steps[i].Sentence, l.Steps[i].Title = text, text
		}
		if n, cut := lettersDrawn(DrawLesson(&l, 1920).Shapes); n > 10_000 || cut == "" {
			t.Errorf("%s: the lesson draws %d letters, cut at %q", name, n, cut)
		}
	}
}

// BenchmarkLongText draws a sheet with a long sentence and name.
func BenchmarkLongText(b *testing.B) {
	for _, n := range []int{100, 10_000, 40_000, 400_000} {
		for name, text := range longTexts(n) {
			b.Run(fmt.Sprint(name, " ", n), func(b *testing.B) {
				s, o := sheetOf(b, 2, 1920, 900)
				o.Sentence, s.Setup = text, text
				for b.Loop() {
					Draw(&s, o)
				}
			})
		}
	}
}
