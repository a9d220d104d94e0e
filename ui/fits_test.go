package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/ui/panel"
	"wakeline/ui/sheet"
)

// longNames gives everything in p a name as long as names may be, but for a
// number at its end.
func longNames(p *timeline.Project) {
	long := func(name *string) {
		if *name != "" && *name != timeline.DoGuard && *name != timeline.DoParry {
			*name = (*name + " " + strings.Repeat("with a very long name ", 10))[:180]
		}
	}
	for i := range p.Fighters {
		f := &p.Fighters[i]
		long(&f.Name)
		for k := range f.Moves {
			long(&f.Moves[k].Name)
		}
		for k := range f.Jumps {
			long(&f.Jumps[k].Name)
		}
		for k := range f.Rises {
			long(&f.Rises[k].Name)
		}
	}
	for i := range p.Setups {
		s := &p.Setups[i]
		for _, name := range []*string{&s.Name, &s.Attacker, &s.Rival, &s.Ender, &s.Jump, &s.Attack, &s.Landing} {
			long(name)
		}
		for k := range s.Fillers {
			long(&s.Fillers[k])
		}
		for k := range s.Rises {
			long(&s.Rises[k])
		}
		for k := range s.Replies {
			long(&s.Replies[k].Move)
		}
	}
}

// TestEveryPageFitsTheSmallestWindow shows each page with short names and long
// ones, of a project with much in it and of an empty one: none makes the window
// larger than 1024x640.
func TestEveryPageFitsTheSmallestWindow(t *testing.T) {
	long := sample()
	longNames(long)
	for name, w := range map[string]*window{"short": open(t, sample(), small), "long": openFile(t, long), "many": openFile(t, many(3000)), "empty": open(t, nil, small)} {
		w.win.Resize(small)
		w.Preferences().SetString(prefNumbers, "shown")
		w.panes.Layout(nil, w.main.Size())
		for i := range barPages {
			if tapPage(w, barPages[i].name); w.busy() {
				typeEscape(w)
				continue
			}
			need := w.win.Content().MinSize()
			if need.Width > small.Width || need.Height > small.Height {
				t.Errorf("%s names: %s needs %gx%g", name, barPages[i].name, need.Width, need.Height)
			}
		}
	}
}

// TestPatchDayFitsTheSmallestWindow shows what a patch changed, and what is left
// to test since, of long names.
func TestPatchDayFitsTheSmallestWindow(t *testing.T) {
	long := sample()
	longNames(long)
	w := openFile(t, long)
	w.win.Resize(small)
	w.panes.Layout(nil, w.main.Size())
	d := w.model.Document()
	rival := d.Data().Fighters[1]
	move := rival.Moves[0]
	move.Startup -= 2
	if err := d.File().Edit("patch", func(s *storage.Step) error {
		if err := s.BeginRevision(strings.Repeat("patch ", 30)+"of the summer", ""); err != nil {
			return err
		}
		return s.PutMove(rival.Name, move.Name, &move)
	}); err != nil {
		t.Fatal(err)
	}
	if err := d.Reload(); err != nil {
		t.Fatal(err)
	}
	w.model.Reread()
	for name, show := range map[string]func(){"compare": w.askCompare, "in-game tests": w.showTests} {
		show()
		if w.page == nil {
			t.Fatalf("%s: no page: %s", name, overlayText(w))
		}
		if need := w.win.Content().MinSize(); need.Width > small.Width || need.Height > small.Height {
			t.Errorf("%s needs %gx%g", name, need.Width, need.Height)
		}
		w.Close()
	}
}

// TestRepliesStayInView opens the numbers in the smallest window, over setups
// with much to say: the words are whole, or leave four replies in view.
func TestRepliesStayInView(t *testing.T) {
	for _, size := range []fyne.Size{small, laptop} {
		for _, numbers := range []string{"shown", "hidden"} {
			w := open(t, sample(), size)
			w.Preferences().SetString(prefNumbers, numbers)
			w.panes.Layout(nil, w.main.Size())
			for i := range w.model.Len() {
				w.model.Choose(i)
				w.upDown.Refresh()
				least := float32(rowsMost)
				if s := w.lower.Objects[0].Size(); s.Height >= w.explain.MinSize().Height {
					least = rowsLeast
				}
				if rows := w.replies.Rows.Size().Height / panel.ReplyRow; rows < least {
					t.Errorf("%v, numbers %s, %s: %.1f rows of replies are in view, want %g", size, numbers, w.model.Setup().Name, rows, least)
				}
				if high := w.sheet.Size().Height; high < sheet.MinH {
					t.Errorf("%v: the sheet is %g high", size, high)
				}
			}
		}
	}
}
