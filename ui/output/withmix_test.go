package output

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/value/report"
	"wakeline/timeline/words"
	"wakeline/ui/sheet"
)

// TestAMixFollowsALesson: under its picture, on a page of its PDF, and after the
// setups of a booklet, each once and in the contents.
func TestAMixFollowsALesson(t *testing.T) {
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	mix := sampleMix(t, asIs)
	index, asked := timeline.NewIndex(p), 0
	plan, err := index.Compile(p.Setups[0])
	if err != nil {
		t.Fatal(err)
	}
	o := Standard()
	o.Neighbours = 1
	o.Mixes = func(s *timeline.Setup) (*report.Mix, error) {
		if asked++; s.Rival == "Dovra" {
			return nil, errors.New("it can't be weighed")
		}
		return mix, nil
	}
	says := func(d *sheet.Drawing, text string) bool {
		return slices.ContainsFunc(d.Shapes, func(s sheet.Shape) bool {
			got, ok := s.(sheet.Text)
			return ok && strings.Contains(got.Str, text)
		})
	}
	answer := mix.Answer()[:30]
	made, err := o.Make(plan, "svg")
	if err != nil || !says(made.Sheets[0], answer) || !says(made.Sheets[0], "The rival does") || !says(made.Sheets[0], plan.Setup.Name) {
		t.Errorf("the picture doesn't have the mix: %v", err)
	}
	if made, err = o.Make(plan, "pdf"); err != nil || len(made.Sheets) != 2 || says(made.Sheets[0], answer) || !says(made.Sheets[1], answer) {
		t.Errorf("the PDF doesn't have a page of the mix: %v", err)
	}
	asked = 0
	setups := slices.DeleteFunc(slices.Clone(p.Setups), func(s timeline.Setup) bool { return s.Attacker != "Brenno" })
	if made, err = o.MakeBooklet(context.Background(), index, eachOf(setups), "All"); err != nil {
		t.Fatal(err)
	}
	groups := map[string]bool{}
	for _, s := range setups {
		groups[s.Rival+s.Ender+string(s.Position)] = true
	}
	mixes := 0
	for _, d := range made.Sheets[1:] {
		if says(d, "The rival does") {
			mixes++
		}
	}
	if asked != len(groups) || mixes+len(made.Skipped) != len(groups) || mixes == 0 || len(made.Skipped) == 0 {
		t.Errorf("%d mixes asked for, %d drawn, %v left out, want %d", asked, mixes, made.Skipped, len(groups))
	}
	contents := made.Sheets[0]
	for _, l := range contents.Links[len(contents.Links)-mixes:] {
		if !says(made.Sheets[l.Page-1], "The rival does") {
			t.Errorf("the contents lead to page %d, which is no mix", l.Page)
		}
	}
}

// TestALessonsFileDrawsWhatFollows where the setup says what does, in a file of
// its own and in a booklet.
func TestALessonsFileDrawsWhatFollows(t *testing.T) {
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	o := Standard()
	o.Neighbours = 1
	index, seen := timeline.NewIndex(p), map[bool]int{}
	for i := range p.Setups {
		s := &p.Setups[i]
		plan, err := index.Compile(*s)
		if err != nil {
			t.Fatal(err)
		}
		m := plan.Meetings(s.Delay, nil)
		then := words.Then(value.NewBook(p).Sequel(&m, value.Gauges{}, m.Deciding()))
		says := s.OnHit != "" || len(s.Follow) > 0 || len(s.Punish) > 0
		if then == "" {
			continue
		}
		seen[says]++
		file, err := o.Make(plan, "svg")
		if err != nil {
			t.Fatal(err)
		}
		booklet, err := o.MakeBooklet(context.Background(), index, eachOf([]timeline.Setup{*s}), "Lessons")
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range []*sheet.Drawing{file.Sheets[0], booklet.Sheets[len(booklet.Sheets)-1]} {
			if got := strings.Contains(d.Desc, then); got != says {
				t.Errorf("the lesson of %s says %q: %v, want %v", s.Name, then, got, says)
			}
		}
	}
	if seen[true] < 3 || seen[false] < 3 {
		t.Errorf("%v setups: too few to prove much", seen)
	}
}
