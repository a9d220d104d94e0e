package sheet

import (
	"reflect"
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

func hasText(d *Drawing, part string) bool {
	texts, _ := textsOf(d)
	for _, t := range texts {
		if strings.Contains(t.Str, part) {
			return true
		}
	}
	return false
}

// TestAnswerIsLargest: the verdict's word is the largest text on the sheet, by
// far, at any size.
func TestAnswerIsLargest(t *testing.T) {
	for _, size := range sizes {
		s, o := sheetOf(t, 0, size[0], size[1])
		texts, _ := textsOf(Draw(&s, o))
		var first, second float64
		for _, x := range texts {
			if x.Size > first {
				first, second = x.Size, first
			} else if x.Size > second {
				second = x.Size
			}
		}
		if first < 16 || first < 1.15*second {
			t.Errorf("%v: largest text %v, next %v", size, first, second)
		}
	}
}

// TestSheetSays: what words.md asks to be told is there, in words.
func TestSheetSays(t *testing.T) {
	for setup, parts := range map[int][]string{
		0: {"SAFE", "sweep into kite", "Juno Marsh vs Old Brannoc", "midscreen", "forward jump", "kite kick", "lands on 43", "wake-up 42",
			"rising lantern", "immune", "guard", "reply blocked on 45", "2 to spare", "knockdown advantage 42", "window: delay 0 to 2", "45"},
		1: {"UNSAFE", "delay 3", "too late", "window: delay 0 to 2"},
		2: {"palm jab", "dash", "delay 6", "window: delay 7 to 9"},
		3: {"LIMITED"},
		6: {"LIMITED", "delay 37", "0 after wake-up", "palm jab late 2"},
	} {
		s, o := sheetOf(t, setup, 1280, 700)
		d := Draw(&s, o)
		for _, part := range parts {
			if !hasText(d, part) {
				t.Errorf("setup %d: %q is not on the sheet", setup, part)
			}
		}
		if d.Title == "" || !strings.Contains(d.Desc, o.Sentence) {
			t.Errorf("setup %d: title %q, description %q", setup, d.Title, d.Desc)
		}
	}
}

// TestHots: every block that a hand may drag can be taken hold of, the edge of
// the delay and the wake-up above all.
func TestHots(t *testing.T) {
	for setup, parts := range map[int][]timeline.Part{
		0: {timeline.PartEnder, timeline.PartDelay, timeline.PartJump, timeline.PartAttack, timeline.PartRise, timeline.PartReply, timeline.PartLanding},
		2: {timeline.PartEnder, timeline.PartFiller, timeline.PartDelay, timeline.PartJump, timeline.PartAttack, timeline.PartRise, timeline.PartReply, timeline.PartLanding},
		6: {timeline.PartEnder, timeline.PartDelay, timeline.PartRise, timeline.PartReply, timeline.PartLanding},
	} {
		s, o := sheetOf(t, setup, 1280, 700)
		d := Draw(&s, o)
		got := map[timeline.Part]Hot{}
		for _, h := range d.Hots {
			got[h.Part] = h
		}
		if len(got) != len(parts) {
			t.Errorf("setup %d: hots of parts %v, want %v", setup, got, parts)
		}
		for _, part := range parts {
			if _, ok := got[part]; !ok {
				t.Errorf("setup %d: nothing to hold part %v by", setup, part)
			}
		}
		for part, x := range map[timeline.Part]float64{timeline.PartDelay: d.X(float64(s.Delay.To)), timeline.PartRise: d.X(float64(s.Wake))} {
			h := got[part]
			y := (h.Min.Y + h.Max.Y) / 2
			for dx := -4.0; dx <= 4; dx++ {
				if top := d.HotAt(Point{x + dx, y}); top == nil || top.Part != part {
					t.Errorf("setup %d: %v units from the edge of part %v lies %+v", setup, dx, part, top)
				}
			}
			if h.Max.X-h.Min.X < 10 {
				t.Errorf("setup %d: part %v is %v wide to the hand", setup, part, h.Max.X-h.Min.X)
			}
		}
	}
}

// TestNothingJumps: lanes stay where they are while a hand drags or zooms.
func TestNothingJumps(t *testing.T) {
	p := plans(t, demo())[0]
	heights := func(d int, v *View) map[timeline.Part][2]float64 {
		out := map[timeline.Part][2]float64{}
		s := words.SceneAt(p, d, 0, 3)
		for _, h := range Draw(&s, Options{W: 1024, H: 600, View: v, Sentence: words.VerdictAt(p, d).Because}).Hots {
			if h.Part == timeline.PartDelay || h.Part == timeline.PartReply || h.Part == timeline.PartLanding {
				out[h.Part] = [2]float64{h.Min.Y, h.Max.Y}
			}
		}
		return out
	}
	want := heights(0, nil)
	for d := range 40 {
		if got := heights(d, &View{-10, 6 + float64(d)/20}); !reflect.DeepEqual(got, want) {
			t.Fatalf("delay %d: heights %v, want %v", d, got, want)
		}
	}
}

// TestJudgementsGoTogether: colour, mark, word and silhouette of a judgement
// come as one, and no two judgements share a mark or a word.
func TestJudgementsGoTogether(t *testing.T) {
	for j := range judgements {
		for k := range j {
			a, b := judgements[j], judgements[k]
			if a.word == b.word || reflect.DeepEqual(a.mark, b.mark) || a.role == b.role {
				t.Errorf("judgements %d and %d are alike: %v, %v", j, k, a, b)
			}
		}
	}
	seen := map[timeline.Judgement]bool{}
	blank := demo()
	blank.Setups = blank.Setups[:1]
	s := &blank.Setups[0]
	s.Jump, s.Attack, s.Landing, s.Replies = "", "", timeline.DoGuard, nil
	for i, p := range append(plans(t, demo()), plans(t, blank)...) {
		for line := range p.Lines() {
			s := words.SceneAt(p, p.Setup.Delay, 0, line)
			d := Draw(&s, Options{W: 1024, H: 600})
			for _, j := range []timeline.Judgement{s.Judgement, s.Verdict.Judgement()} {
				seen[j] = true
				k, ink := judgements[j], OnMark
				first := k.word
				if j == timeline.JudgedNothing { // an outline, with its words in two lines
					ink, first = k.role, "NOTHING TO"
				}
				word, mark, filled, hatched := false, false, false, false
				for _, shape := range d.Shapes {
					switch v := shape.(type) {
					case Text:
						word = word || v.Str == first && v.Role == ink
					case Path:
						mark = mark || v.Stroke == ink && len(v.Points) == len(k.mark)
						filled = filled || v.Fill == k.role
					case Box:
						filled = filled || v.Fill == k.role && v.Texture == Solid
						hatched = hatched || v.Fill == k.role && v.Texture == Hatch
					}
				}
				if !word || !mark || filled == (j == timeline.JudgedNothing) || hatched != (k.role == Limited) {
					t.Errorf("setup %d, line %d, %v: word %v, mark %v, filled %v, hatched %v", i, line, j, word, mark, filled, hatched)
				}
			}
		}
	}
	if len(seen) != len(judgements) {
		t.Errorf("drawn only %v", seen)
	}
}

// TestDrawIsPure: one scene, one drawing.
func TestDrawIsPure(t *testing.T) {
	s, o := sheetOf(t, 2, 1024, 600)
	if !reflect.DeepEqual(Draw(&s, o), Draw(&s, o)) {
		t.Error("two drawings of one scene differ")
	}
}

func TestFrameIsXBackwards(t *testing.T) {
	s, o := sheetOf(t, 0, 1024, 600)
	o.View = &View{12.5, 7}
	d := Draw(&s, o)
	for _, f := range []float64{-3, 0, 12.5, 43.25} {
		if got := d.Frame(d.X(f)); got < f-1e-9 || got > f+1e-9 {
			t.Errorf("Frame(X(%v)) = %v", f, got)
		}
	}
}

// TestADelayIsHeldByItsNumber has the number inside the place that a hand
// takes hold of, and that is outlined.
func TestADelayIsHeldByItsNumber(t *testing.T) {
	s := words.SceneAt(plans(t, demo())[0], 15, 0, 0)
	d := Draw(&s, Options{W: 1280, H: 760, Sentence: s.Sentence})
	for _, h := range d.Hots {
		if h.Part != timeline.PartDelay {
			continue
		}
		for _, shape := range d.Shapes {
			if x, ok := shape.(Text); ok && x.Str == "delay 15" {
				if x.At.Y-0.65*x.Size < h.Min.Y || x.At.Y > h.Max.Y {
					t.Errorf("the number stands at %g, the delay from %g to %g", x.At.Y, h.Min.Y, h.Max.Y)
				}
				return
			}
		}
	}
	t.Error("no delay with its number")
}
