package sheet

import (
	"reflect"
	"testing"

	"wakeline/timeline/words"
)

// TestAHiddenSheetJudgesNothing: of a covered scene no ink of a judgement is
// left, nor its words; the plan is still there to be taken hold of.
func TestAHiddenSheetJudgesNothing(t *testing.T) {
	for _, plan := range plans(t, demo()) {
		name, s := plan.Setup.Name, words.SceneAt(plan, plan.Setup.Delay, 0, min(3, plan.Lines()-1))
		open := Draw(&s, Options{W: 900, H: 480})
		c := s.Covered()
		d := Draw(&c, Options{W: 900, H: 480})
		for _, shape := range d.Shapes {
			var roles []Role
			switch shape := shape.(type) {
			case Box:
				roles = []Role{shape.Fill, shape.Stroke}
			case Line:
				roles = []Role{shape.Stroke}
			case Path:
				roles = []Role{shape.Fill, shape.Stroke}
			case Text:
				roles = []Role{shape.Role}
			}
			for _, r := range roles {
				if r >= Safe {
					t.Errorf("%s: a shape in the ink of a judgement: %+v", name, shape)
				}
			}
		}
		if d.Title != "" || d.Desc != "" {
			t.Errorf("%s: it tells %q, %q", name, d.Title, d.Desc)
		}
		if !reflect.DeepEqual(d.Hots, open.Hots) || len(d.Hots) == 0 {
			t.Errorf("%s: other places to take hold of: %v, want %v", name, d.Hots, open.Hots)
		}
	}
}
