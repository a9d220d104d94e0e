package sheet

import (
	"testing"

	"wakeline/timeline"
)

// TestGlossaryGeometry: every term with its meaning and a frame around what is
// meant, and nothing over anything else.
func TestGlossaryGeometry(t *testing.T) {
	terms := timeline.Glossary()
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
		if frames != len(terms) {
			t.Errorf("width %v: %d frames for %d terms", w, frames, len(terms))
		}
		for _, g := range terms {
			if !hasText(d, g.Word) {
				t.Errorf("width %v: no %q", w, g.Word)
			}
		}
	}
}
