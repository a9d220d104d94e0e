package ui

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"wakeline/ui/paint"
)

// measuring is the tests' app with a driver that counts what is measured.
type measuring struct {
	fyne.App
	driver measuringDriver
}

type measuringDriver struct {
	fyne.Driver
	calls, letters int
}

func (a *measuring) Driver() fyne.Driver { return &a.driver }

func (d *measuringDriver) RenderedTextSize(text string, size float32, style fyne.TextStyle, source fyne.Resource) (fyne.Size, float32) {
	d.calls++
	d.letters += len(text)
	return d.Driver.RenderedTextSize(text, size, style, source)
}

// measured counts what is measured while do runs.
func measured(do func()) (calls, letters int) {
	was := fyne.CurrentApp()
	a := &measuring{App: was, driver: measuringDriver{Driver: was.Driver()}}
	fyne.SetCurrentApp(a)
	defer fyne.SetCurrentApp(was)
	do()
	return a.driver.calls, a.driver.letters
}

// prose is a paragraph of n letters; word is one of n letters without a space.
func prose(n int) string {
	return strings.Repeat("Hold the delay until the second step, then jump. ", n/49+1)[:n]
}
func word(n int) string { return strings.Repeat("delay", n/5+1)[:n] }

func TestPiecesMakeTheText(t *testing.T) {
	g := rand.New(rand.NewPCG(1, 2))
	letters := []string{"a", "é", "步", " ", "\n", "  ", "word ", strings.Repeat("x", 150), strings.Repeat("ab ", 300)}
	for range 2000 {
		var b strings.Builder
		for range g.IntN(40) {
			b.WriteString(letters[g.IntN(len(letters))])
		}
		text := b.String()
		pieces := paint.InPieces(text, paint.Seam)
		if got := paint.Whole(pieces); got != text {
			t.Fatalf("%q in pieces is %q", text, got)
		}
		for _, p := range strings.Split(pieces, "\n") {
			most := paint.PieceMost
			if strings.Contains("\n"+text+"\n", "\n"+p+"\n") {
				most = paint.ParagraphMost
			}
			if n := utf8.RuneCountInString(strings.TrimSuffix(p, "\u200b")); n > most {
				t.Fatalf("a piece of %d letters in %q", n, pieces)
			}
		}
		for _, p := range strings.Split(text, "\n") {
			if utf8.RuneCountInString(p) <= paint.ParagraphMost && !strings.Contains("\n"+pieces+"\n", "\n"+p+"\n") {
				t.Fatalf("the short paragraph %q is in pieces: %q", p, pieces)
			}
		}
	}
}

func TestALongTextIsWrappedInLinearTime(t *testing.T) {
	test.NewTempApp(t)
	for name, text := range map[string]func(int) string{"prose": prose, "one word": word} {
		before := 0
		for _, n := range []int{1500, 3000, 6000} {
			w := paint.Wrapper{Size: paint.TextSize}
			var lines []string
			_, letters := measured(func() { lines = w.Wrap(nil, text(n), 300) })
			if got := strings.Join(lines, ""); len(got) < n-len(lines) {
				t.Errorf("%s of %d letters: lines of %d", name, n, len(got))
			}
			if before > 0 && letters > 5*before/2 && letters > 1000 { // the words of prose are measured once
				t.Errorf("%s of %d letters: %d letters measured, %d for half of it", name, n, letters, before)
			}
			before = max(letters, 1)
		}
		for _, n := range []int{10_000, 40_000, 400_000} {
			w := paint.Wrapper{Size: paint.TextSize}
			var lines []string
			_, letters := measured(func() { lines = w.Wrap(nil, text(n), 100) })
			if len(lines) != paint.LinesMax+1 || lines[paint.LinesMax] != fmt.Sprintf("… (shortened: the text has %d letters)", n) {
				t.Errorf("%s of %d letters: %d lines, the last %q", name, n, len(lines), lines[len(lines)-1])
			}
			if most := paint.LinesMax * 14 * paint.LineMost; letters > most {
				t.Errorf("%s of %d letters: %d letters measured for %d lines", name, n, letters, len(lines))
			}
			calls, _ := measured(func() { w.Fit(text(n), 100) })
			if calls > 14 {
				t.Errorf("%s of %d letters: measured %d times for one line", name, n, calls)
			}
		}
	}
}

// withNote opens a window in which a setup with that note can be chosen.
func withNote(t testing.TB, note string) *window {
	p := sample()
	p.Setups[1].Note = note
	w := open(t, p, laptop)
	w.keepNumbers("shown")
	return w
}

func TestALongNoteTakesLinearTime(t *testing.T) {
	letters := func(n int) int {
		w := withNote(t, prose(n))
		_, plain := measured(func() { w.model.Choose(2) })
		_, with := measured(func() { w.model.Choose(1) })
		return with - plain
	}
	half, full := letters(paint.ShownMost/2), letters(paint.ShownMost)
	if full > 5*half/2 {
		t.Errorf("%d letters measured for a note of %d, %d for one of half of that", full, paint.ShownMost, half)
	}
	for _, n := range []int{4 * paint.ShownMost, 40 * paint.ShownMost} {
		if got := letters(n); got > 3*full/2 {
			t.Errorf("%d letters measured for a note of %d, %d for one of %d", got, n, full, paint.ShownMost)
		}
	}
}

func TestALongNoteIsTypedIn(t *testing.T) {
	text := prose(3000)
	w := withNote(t, text)
	w.model.Choose(1)
	e := entryNamed(t, w, "Note")
	if !strings.Contains(e.Text, paint.Seam) || e.Disabled() {
		t.Fatalf("the note is shown as %.500q", e.Text)
	}
	w.Canvas().Focus(e)
	e.TypedRune('!')
	w.Canvas().Unfocus()
	if got := w.model.Setup().Note; got != "!"+text {
		t.Errorf("the note is %.100q…", got)
	}
	e.TypedShortcut(&fyne.ShortcutSelectAll{})
	clip := w.app.Clipboard()
	e.TypedShortcut(&fyne.ShortcutCopy{Clipboard: clip})
	if got := clip.Content(); got != "!"+text {
		t.Errorf("copied: %.100q…", got)
	}
	clip.SetContent(prose(9000))
	e.TypedShortcut(&fyne.ShortcutPaste{Clipboard: clip})
	if got := paint.Whole(e.Text); got != prose(9000) {
		t.Errorf("pasted over all of it: %.100q… of %d letters", got, len(got))
	}
	for _, p := range strings.Split(e.Text, "\n") {
		if len(p) > paint.PieceMost+len(paint.Seam) {
			t.Fatalf("pasted with a piece of %d letters", len(p))
		}
	}
	was := e.Text
	e.TypedShortcut(&fyne.ShortcutPaste{Clipboard: clip})
	if why := rowNamed(t, w, "Note").Reason.Text; e.Text != was || !strings.Contains(why, "18000 letters") || !strings.Contains(why, "at most 10000") {
		t.Errorf("pasted once more it has %d letters and says %q", len(e.Text), why)
	}
}

func TestAVeryLongNoteIsShortened(t *testing.T) {
	text := prose(40_000)
	w := withNote(t, text)
	w.model.Choose(1)
	e := entryNamed(t, w, "Note")
	if len(e.Text) > paint.ShownMost+500 || !strings.HasSuffix(paint.Whole(e.Text), "… (shortened: the text has 40000 letters)") {
		t.Errorf("%d letters are shown, the last %q", len(e.Text), e.Text[len(e.Text)-80:])
	}
	w.Canvas().Focus(e)
	e.TypedRune('!')
	w.Canvas().Unfocus()
	w.model.SetDelay(5)
	if got := w.model.Setup().Note; got != text {
		t.Errorf("the note is now %d letters", len(got))
	}
	w.model.Choose(0)
	if e.Disabled() || e.Text != "" {
		t.Errorf("the next note shows %.50q, disabled %v", e.Text, e.Disabled())
	}
}

func TestAToldTextIsCopiedWhole(t *testing.T) {
	w := open(t, sample(), laptop)
	text := strings.ReplaceAll(prose(3*paint.ListMost), ". ", ".\n")
	b := paint.NewTextBox(w)
	b.Resize(fyne.NewSize(600, 400))
	b.SetText(text)
	if len(paint.Whole(b.Text)) > paint.ListMost+500 || !strings.Contains(paint.Whole(b.Text), "shortened") {
		t.Errorf("%d letters are shown", len(b.Text))
	}
	b.TypedShortcut(&fyne.ShortcutSelectAll{})
	b.TypedShortcut(&fyne.ShortcutCopy{Clipboard: w.app.Clipboard()})
	if got := w.app.Clipboard().Content(); got != text {
		t.Errorf("%d letters are copied", len(got))
	}
}

// BenchmarkLongNote chooses a setup with a note of one paragraph.
func BenchmarkLongNote(b *testing.B) {
	for _, n := range []int{0, 10_000, 40_000, 400_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			w := withNote(b, prose(n))
			b.ReportAllocs()
			for b.Loop() {
				w.model.Choose(2)
				w.model.Choose(1)
			}
		})
	}
}

// BenchmarkLongWrap wraps such a paragraph, and one word.
func BenchmarkLongWrap(b *testing.B) {
	test.NewTempApp(b)
	for name, text := range map[string]func(int) string{"prose": prose, "word": word} {
		for _, n := range []int{10_000, 40_000, 400_000} {
			b.Run(fmt.Sprint(name, n), func(b *testing.B) {
				of := text(n)
				for b.Loop() {
					w := paint.Wrapper{Size: paint.TextSize}
					w.Wrap(nil, of, 300)
				}
			})
		}
	}
}
