package sheet

import (
	"strings"
	"testing"

	"wakeline/timeline/words"
)

// upright counts the lines and pointers of d that stand on frame f: pointers
// are closed paths of three corners.
func upright(d *Drawing, f int) (dashes, open, filled int) {
	x := d.X(float64(f))
	for _, s := range d.Shapes {
		switch v := s.(type) {
		case Line:
			if v.Dashed && v.From.X == x && v.To.X == x {
				dashes++
			}
		case Path:
			if len(v.Points) < 3 || v.Points[0].X != x || v.Points[1].Y >= v.Points[0].Y || v.Points[1].Y != v.Points[2].Y {
				continue
			}
			if v.Fill != 0 {
				filled++
			} else {
				open++
			}
		}
	}
	return dashes, open, filled
}

// TestTheWakeUpIsMarkedBesideTheMeeting: where the reply that is drawn decides
// on another frame than that on which the attack meets the wake-up, both are
// marked, on a strip and in a lesson.
func TestTheWakeUpIsMarkedBesideTheMeeting(t *testing.T) {
	p := plans(t, demo())[0]
	s := words.SceneAt(p, 1, 0, 3) // rising lantern, blocked on 45
	if s.FirstTouch != some(42) || s.TouchLate != 0 || s.Cell.Meeting != some(45) {
		t.Fatalf("first touch %v, %d late, meeting %v", s.FirstTouch, s.TouchLate, s.Cell.Meeting)
	}
	for _, size := range sizes {
		d := Draw(&s, Options{W: size[0], H: size[1], Sentence: "Why."})
		dashes, open, _ := upright(d, 42)
		if _, _, filled := upright(d, 45); dashes == 0 || open != 1 || filled != 1 {
			t.Errorf("%v: %d dashes and %d open pointers on 42, %d filled on 45", size, dashes, open, filled)
		}
	}
	if d := Draw(&s, Options{W: 1280, H: 600}); !hasText(d, "attack meets wake-up on 42") || !hasText(d, "reply blocked on 45") {
		t.Error("it is not said what is on 42 and on 45")
	}
	l := words.LessonAt(p, 1, 1, 0, 3)
	d := DrawLesson(&l, 1280)
	if _, open, _ := upright(d, 42); open != len(l.Steps) || strings.Count(drawnWords(d), "attack meets wake-up on 42") != len(l.Steps) {
		t.Errorf("%d of %d steps mark the wake-up", open, len(l.Steps))
	}

	high := words.SceneAt(p, 1, 0, 0) // blocked on 42 itself
	if d := Draw(&high, Options{W: 1280, H: 600}); !hasText(d, "0 after wake-up") || hasText(d, "meets wake-up") {
		t.Error("where the wake-up is the meeting it is said twice, or not at all")
	} else if dashes, open, _ := upright(d, 42); dashes != 0 || open != 0 {
		t.Error("where the wake-up is the meeting it is marked twice")
	}
	late := words.SceneAt(p, 4, 0, 3)
	if d := Draw(&late, Options{W: 1280, H: 600}); late.TouchLate == 0 || !hasText(d, "attack reaches wake-up on 43, 1 late") {
		t.Errorf("%d frames late: it is not said", late.TouchLate)
	}
	covered := s.Covered()
	d = Draw(&covered, Options{W: 1280, H: 600})
	if dashes, open, _ := upright(d, 42); dashes != 0 || open != 0 || hasText(d, "meets wake-up") {
		t.Error("a covered sheet tells where the attack meets the wake-up")
	}
}

// TestARiseStandsBesideTheKnockdownAdvantage: two numbers on one line, never
// their sum.
func TestARiseStandsBesideTheKnockdownAdvantage(t *testing.T) {
	project := demo()
	project.Setups[0].Rises = []string{"backward"}
	p := plans(t, project)[0]
	s := words.SceneAt(p, 0, 0, 3)
	d := Draw(&s, Options{W: 1280, H: 600})
	if !hasText(d, "knockdown advantage 42") || !hasText(d, "+ 6 backward rise") || hasText(d, "advantage 48") {
		t.Errorf("it says %q", drawnWords(d))
	}
	if d := Draw(&s, Options{W: 480, H: 320}); !hasText(d, "+ 6") {
		t.Errorf("narrow, it says %q", drawnWords(d))
	}
}

// TestSheetsSayWhatIsGivenUp: what wins though nothing is demanded of it stands
// beside the verdict's reason.
func TestSheetsSayWhatIsGivenUp(t *testing.T) {
	p := plans(t, demo())[0]
	v := words.VerdictAt(p, 0)
	s := words.SceneAt(p, 0, 0, 3)
	d := Draw(&s, Options{W: 1280, H: 600, Sentence: v.Because})
	if want := "Loses to mirror palm and anvil shoulder: nothing is demanded of them."; s.GivesUp != want || !strings.Contains(drawnWords(d), want) || !strings.Contains(d.Desc, want) {
		t.Errorf("it says %q and %q, want %q", drawnWords(d), d.Desc, want)
	}
	l := words.LessonAt(p, 0, 0, 0, words.Breaking)
	if want := "Loses to mirror palm (attack parried on 42) and anvil shoulder (attack absorbed on 42): nothing is demanded of them."; !strings.Contains(drawnWords(DrawLesson(&l, 1280)), want) {
		t.Errorf("the lesson says %q, want %q", drawnWords(DrawLesson(&l, 1280)), want)
	}
}

// TestDescriptionsTellVerdicts: of a neighbour whose shown reply is blocked
// though the setup is unsafe, the description says unsafe.
func TestDescriptionsTellVerdicts(t *testing.T) {
	told := 0
	for _, p := range plans(t, demo()) {
		for d := range 12 {
			v := words.VerdictAt(p, d)
			for line := range p.Lines() {
				s := words.SceneAt(p, d, 0, line)
				desc := Draw(&s, Options{W: 1280, H: 600, Sentence: v.Because}).Desc
				for lead, n := range map[string]*words.Neighbour{"One frame earlier": v.Earlier, "One frame later": v.Later} {
					if n == nil {
						continue
					}
					if want := lead + " the setup is " + string(n.Word) + ": " + n.Because; !strings.Contains(desc, want) {
						t.Fatalf("%s, delay %d, line %d: %q, want %q in it", p.Setup.Name, d, line, desc, want)
					}
					if told++; strings.Count(desc, v.Because) > 1 && n.Because != v.Because {
						t.Fatalf("%s, delay %d, line %d: %q says its reason twice", p.Setup.Name, d, line, desc)
					}
				}
			}
		}
	}
	if told == 0 {
		t.Error("no neighbour")
	}
}
