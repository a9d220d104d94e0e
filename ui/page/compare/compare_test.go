package compare

import (
	"reflect"
	"strings"
	"testing"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/compare"
	"wakeline/ui/model"
	"wakeline/ui/page/pagetest"
)

// patched is the sample's move data after a patch.
func patched() *timeline.Project {
	p := pagetest.Sample()
	p.Setups = nil
	p.Fighters[1].Moves[0].Startup -= 2
	p.Fighters[0].Moves[0].Knockdown.Midscreen.N++
	return p
}

func TestEachChangeIsShownBeforeAndAfter(t *testing.T) {
	w := pagetest.OpenFile(t, pagetest.Sample())
	w.Model().SetDelay(4)
	w.Model().Commit()
	d := w.Model().Document()
	if err := d.File().Edit("import", func(s *storage.Step) error {
		if err := s.BeginRevision("1.2", "import"); err != nil {
			return err
		}
		return s.Take(patched())
	}); err != nil {
		t.Fatal(err)
	}
	if err := d.Reload(); err != nil {
		t.Fatal(err)
	}
	w.Model().Reread()
	list, err := d.File().Revisions()
	if err != nil || len(list) != 2 {
		t.Fatal(list, err)
	}
	c := New(w, d, list, list[0].Name, list[1].Name)
	w.Show(c)
	c.Run()
	if got := c.count.Text; got != "3 of 3 setups changed" || len(c.changes) != 3 {
		t.Errorf("it counts %q, and lists %d", got, len(c.changes))
	}
	before, after := dataOf(t, d, list[0].Name), dataOf(t, d, list[1].Name)
	for i := range c.changes {
		s, err := c.setup(&c.changes[i])
		if err != nil {
			t.Fatal(err)
		}
		if want := compare.Setup(before, after, &s); !reflect.DeepEqual(c.changes[i].Change, want) {
			t.Errorf("change %d is %+v, want %+v", i, c.changes[i].Change, want)
		}
		c.list.Select(i)
		if c.because.Text != c.changes[i].Because {
			t.Errorf("it says %q, want %q", c.because.Text, c.changes[i].Because)
		}
		for h, p := range []*timeline.Project{before, after} {
			plan, err := timeline.Compile(p, s)
			if err != nil {
				t.Fatal(err)
			}
			if got := c.sheets.halves[h].scene; got.Verdict != plan.Word(s.Delay) || got.Setup != s.Name {
				t.Errorf("sheet %d of %s says %s, want %s", h, got.Setup, got.Verdict, plan.Word(s.Delay))
			}
		}
	}
	c.from.SetSelected("1.2")
	if got := c.count.Text; got != "0 of 3 setups changed" || !strings.Contains(c.nothing.Text, "All setups") {
		t.Errorf("compared with itself: %q, %q", got, c.nothing.Text)
	}
}

func dataOf(t *testing.T, d *model.Document, revision string) *timeline.Project {
	t.Helper()
	p, err := d.File().DataOf(revision)
	if err != nil {
		t.Fatal(err)
	}
	return p
}
