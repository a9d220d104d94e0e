package ingame

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/timeline/handout"
	"wakeline/ui/page/pagetest"
)

func today() time.Time { return time.Date(2026, 3, 4, 12, 0, 0, 0, time.UTC) }

func openPage(t testing.TB, p *timeline.Project) (*pagetest.Host, *Page) {
	t.Helper()
	w := pagetest.OpenFile(t, p)
	c, err := New(w, w.Model().Document(), today)
	if err != nil {
		t.Fatal(err)
	}
	w.Show(c)
	c.Refocus()
	return w, c
}

// typeText types as a keyboard does: of each letter a key and then a rune, to
// what has the keys by then.
func typeText(w *pagetest.Host, text string) {
	for _, r := range text {
		if r == '\n' {
			w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
			continue
		}
		w.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyName(strings.ToUpper(string(r)))})
		w.Canvas().Focused().TypedRune(r)
	}
}

func proofs(t *testing.T, w *pagetest.Host, i int) []storage.Proof {
	t.Helper()
	out, err := w.Model().Document().Proofs(i)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestTheFirstSetupIsInSight opens the page on more setups than it has room for.
func TestTheFirstSetupIsInSight(t *testing.T) {
	p := pagetest.Sample()
	for i := range 40 {
		s := p.Setups[0]
		s.Name = fmt.Sprintf("again %d", i)
		p.Setups = append(p.Setups, s)
	}
	_, c := openPage(t, p)
	if at := c.list.GetScrollOffset(); at != 0 || c.at != 0 {
		t.Errorf("setup %d is chosen, the list is scrolled by %v", c.at, at)
	}
}

func TestResultsAreTypedInARow(t *testing.T) {
	w, c := openPage(t, pagetest.Sample())
	if done, of, chosen := c.Tested(); done != 0 || of != 3 || chosen != w.Model().Document().Head(0).Name {
		t.Fatalf("%d of %d, at %q", done, of, chosen)
	}
	typeText(w, "w")
	typeText(w, "47f")
	typeText(w, "58nit is n, W or u\nu")
	want := []storage.Proof{
		{Result: "worked"},
		{Result: "failed", Note: "advantage 47"},
		{Result: "unclear", Note: "advantage 58; it is n, W or u"},
	}
	for i, p := range want {
		p.Setup, p.Revision, p.Date = w.Model().Document().Head(i).Name, "first", "2026-03-04"
		if got := proofs(t, w, i); len(got) != 1 || got[0] != p {
			t.Errorf("setup %d: %+v, want %+v", i, got, p)
		}
	}
	if done, _, _ := c.Tested(); done != 3 || c.answer.Text.Text != "3 of 3 setups tested since the revision first." {
		t.Errorf("%d are done: %q", done, c.answer.Text.Text)
	}
	if left, err := w.Model().Document().Untested(); err != nil || len(left) != 0 {
		t.Errorf("left: %v, %v", left, err)
	}
	w.Close()
	again, err := New(w, w.Model().Document(), today)
	if _, of, _ := again.Tested(); err != nil || of != 0 || again.answer.Text.Text != "Nothing is left to test." {
		t.Errorf("opened again it lists %d: %v", of, err)
	}
}

// TestAWrongKeyIsTakenBack undoes a result, and gives another.
func TestAWrongKeyIsTakenBack(t *testing.T) {
	w, c := openPage(t, pagetest.Sample())
	first := w.Model().Document().Head(0).Name
	typeText(w, "wf")
	for back := range 2 {
		if _, err := w.Model().Document().File().Undo(); err != nil {
			t.Fatal(err)
		}
		if err := w.Model().Document().Reload(); err != nil {
			t.Fatal(err)
		}
		w.Model().Reread()
		if done, _, chosen := c.Tested(); done != 1-back || chosen != w.Model().Document().Head(1-back).Name {
			t.Fatalf("after %d steps back %d are done, at %q", back+1, done, chosen)
		}
	}
	typeText(w, "u")
	if got := proofs(t, w, 0); len(got) != 1 || got[0].Result != "unclear" || got[0].Setup != first {
		t.Errorf("the first is %+v", got)
	}
	if got := proofs(t, w, 1); len(got) != 0 {
		t.Errorf("the second is %+v", got)
	}
}

// TestARowSaysWhatToTest holds the words against the check list.
func TestARowSaysWhatToTest(t *testing.T) {
	p := pagetest.Sample()
	w, c := openPage(t, p)
	for i := range p.Setups {
		c.list.Select(i)
		plan, err := timeline.Compile(p, p.Setups[i])
		if err != nil {
			t.Fatal(err)
		}
		for _, line := range strings.Split(handout.CheckList(plan), "\n")[1:] {
			if line = strings.TrimPrefix(strings.TrimLeft(line, " -"), "[ ] "); !strings.Contains(c.checks.Text, line) {
				t.Errorf("setup %d: %q isn't said in %q", i, line, c.checks.Text)
			}
		}
	}
	c.list.Select(1)
	typeText(w, "\n")
	if w.Page != nil || w.Model().Chosen() != 1 {
		t.Errorf("Enter shows setup %d", w.Model().Chosen())
	}
}

// TestOnlyWhatWasNotTestedSinceTheRevisionIsListed: an older test counts no
// longer, and what the list of setups hides isn't listed.
func TestOnlyWhatWasNotTestedSinceTheRevisionIsListed(t *testing.T) {
	w := pagetest.OpenFile(t, pagetest.Sample())
	d := w.Model().Document()
	prove := func(i int) {
		if err := w.Model().Prove(storage.Proof{Setup: d.Head(i).Name, Revision: d.Latest.Name, Date: "2026-03-01", Result: "worked"}); err != nil {
			t.Fatal(err)
		}
	}
	prove(0)
	if err := d.File().Edit("patch", func(s *storage.Step) error { return s.BeginRevision("1.1", "") }); err != nil {
		t.Fatal(err)
	}
	if err := d.Reload(); err != nil {
		t.Fatal(err)
	}
	w.Model().Reread()
	prove(1)
	for filter, want := range map[string][]string{"": {d.Head(0).Name, d.Head(2).Name}, d.Head(2).Name: {d.Head(2).Name}} {
		w.Filter = nil
		if filter != "" {
			w.Filter = func(s *timeline.Setup) bool { return s.Name == filter }
		}
		c, err := New(w, d, today)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for i := range c.rows {
			got = append(got, c.rows[i].name)
		}
		if fmt.Sprint(got) != fmt.Sprint(want) {
			t.Errorf("filtered by %q it lists %q, want %q", filter, got, want)
		}
	}
}

// TestFortyResultsNeedFewKeys types forty results, a key each.
func TestFortyResultsNeedFewKeys(t *testing.T) {
	w, c := openPage(t, pagetest.Many(40))
	typeText(w, strings.Repeat("wfwu", 10))
	if done, of, _ := c.Tested(); done != 40 || of != 40 {
		t.Errorf("%d of %d are done", done, of)
	}
	for i, want := range []string{"worked", "failed", "worked", "unclear"} {
		if got := w.Model().Document().Tried(36 + i); got != want {
			t.Errorf("setup %d is %q, want %q", 36+i, got, want)
		}
	}
}

// BenchmarkResult types results in a project of 20,000 setups.
func BenchmarkResult(b *testing.B) {
	w, c := openPage(b, pagetest.Many(20_000))
	for b.Loop() {
		c.typed('w')
	}
	if done, _, _ := c.Tested(); done == 0 || w.Model().Document().Tried(0) != worked {
		b.Fatal("nothing was recorded")
	}
}
