package ui

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"wakeline/ui/panel"
)

// BenchmarkScrollSetups scrolls a list of 100,000 setups by a page a step, so
// that each step judges and draws rows that were never in view.
func BenchmarkScrollSetups(b *testing.B) {
	w := open(b, many(manySetups), fyne.NewSize(1440, 900))
	page := w.setups.List.Size().Height
	end := float32(manySetups)*panel.SetupRowHeight - page
	at := float32(0)
	for b.Loop() {
		if at += page; at > end {
			at = 0
		}
		w.setups.List.ScrollToOffset(at)
	}
}

// BenchmarkOpenThousands opens a project of 5,000 setups in a window.
func BenchmarkOpenThousands(b *testing.B) {
	p := many(5000)
	for b.Loop() {
		open(b, p, laptop)
	}
}

// BenchmarkFilterVerdicts filters 100,000 setups by verdict, judged behind
// the window, and reports the longest that the window was held for it.
func BenchmarkFilterVerdicts(b *testing.B) {
	w := open(b, many(manySetups), fyne.NewSize(1440, 900))
	hops := make(chan func(), 100)
	w.tasks.Spawn = func(do func()) { go do() }
	w.tasks.Later = func(do func()) { hops <- do }
	longest := time.Duration(0)
	held := func(do func()) {
		begun := time.Now()
		do()
		longest = max(longest, time.Since(begun))
	}
	for b.Loop() {
		w.setups.Verdicts.Forget()
		w.setups.By.Verdict = "safe"
		held(w.setups.Filter)
		for w.setups.Verdicts.Running() {
			held(<-hops)
		}
	}
	b.ReportMetric(float64(longest.Milliseconds()), "ms/longest")
}

// BenchmarkSortSetups sorts 100,000 setups by name.
func BenchmarkSortSetups(b *testing.B) {
	w := open(b, many(manySetups), fyne.NewSize(1440, 900))
	for b.Loop() {
		w.setups.SetOrder(panel.ByName)
	}
}

// BenchmarkSetupActions duplicates a setup in a file of 100,000, renames the
// copy and deletes it.
func BenchmarkSetupActions(b *testing.B) {
	w := start(b, Start{Path: large(b)})
	for b.Loop() {
		w.duplicateSetup()
		if err := w.model.Rename("another"); err != nil {
			b.Fatal(err)
		}
		w.deleteSetup()
	}
	if w.model.Len() != manySetups {
		b.Fatal(w.model.Len())
	}
}
