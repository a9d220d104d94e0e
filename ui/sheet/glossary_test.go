package sheet

import (
	"testing"

	"wakeline/timeline/words"
)

// TestGlossaryGeometry: every term with its meaning, what else it is called and
// a frame around what is meant, and nothing over anything else.
func TestGlossaryGeometry(t *testing.T) {
	terms := words.Glossary()
	shown := 0
	for _, g := range terms {
		if g.Scene != nil {
			shown++
		}
	}
	for _, w := range []float64{0, 480, 900, 1280, 1920, 3840} {
		d := DrawGlossary(terms, "Words", w)
		for k, f := range faults(d) {
			if k < 5 {
				t.Errorf("width %v: %s", w, f)
			}
		}
		frames := 0
		for _, s := range d.Shapes {
			if b, ok := s.(Box); ok && b.Dashed {
				frames++
			}
		}
		if frames != shown {
			t.Errorf("width %v: %d frames for %d terms that are shown", w, frames, shown)
		}
		for _, g := range terms {
			if !hasText(d, g.Word) || !hasText(d, g.Also) {
				t.Errorf("width %v: no %q, or not %q", w, g.Word, g.Also)
			}
		}
	}
}
