package ui

import (
	"slices"
	"strings"
	"testing"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// TestTheFilterFindsWhatASetupIsMadeOf types verdicts and the names of moves
// and jumps, in a project in memory and in a file.
func TestTheFilterFindsWhatASetupIsMadeOf(t *testing.T) {
	p := varied()
	p.Setups[0].Note = "not a safe guess"
	words := inDirect(t, p)
	having := func(verdict string, also ...int) (out []int) {
		for i := range words {
			if words[i] == verdict || slices.Contains(also, i) {
				out = append(out, i)
			}
		}
		return out
	}
	using := func(is func(s *timeline.Setup) bool) (out []int) {
		for i := range p.Setups {
			if is(&p.Setups[i]) {
				out = append(out, i)
			}
		}
		return out
	}
	in := func(name, text string) bool { return strings.Contains(strings.ToLower(name), text) }
	for kind, w := range map[string]*window{"text": open(t, p, laptop), "file": openFile(t, p)} {
		for typed, want := range map[string][]int{
			"safe":    having("safe", 0),
			"UNSAFE":  having("unsafe"),
			"limited": having("limited"),
			"falling": using(func(s *timeline.Setup) bool { return in(s.Attack, "falling") }),
			"forward": using(func(s *timeline.Setup) bool { return in(s.Jump, "forward") }),
			"short":   using(func(s *timeline.Setup) bool { return slices.Contains(s.Fillers, "short step") }),
			"gale": using(func(s *timeline.Setup) bool {
				return slices.ContainsFunc(s.Replies, func(r timeline.Reply) bool { return in(r.Move, "gale") })
			}),
			"wall":      using(func(s *timeline.Setup) bool { return s.Position == timeline.Wall }),
			"safe gale": nil,
			"nowhere":   nil,
		} {
			if typed == "safe gale" {
				for _, i := range having("safe", 0) {
					if slices.ContainsFunc(p.Setups[i].Replies, func(r timeline.Reply) bool { return in(r.Move, "gale") }) {
						want = append(want, i)
					}
				}
			}
			w.setups.Field.SetText(typed)
			if got := w.setups.Shown; !slices.Equal(got, want) {
				t.Errorf("%s: %q finds %v, want %v", kind, typed, got, want)
			}
		}
		w.setups.Field.SetText("")
	}
	if len(having("safe")) == 0 || len(having("unsafe")) == 0 || len(using(func(s *timeline.Setup) bool { return in(s.Attack, "falling") })) == len(p.Setups) {
		t.Fatalf("the setups don't differ: %v", words)
	}
}

// TestATypedVerdictIsJudgedBehindTheWindow types one over more setups than are
// judged at once.
func TestATypedVerdictIsJudgedBehindTheWindow(t *testing.T) {
	p := many(3000)
	w := openFile(t, p)
	want := 0
	ix := timeline.NewIndex(p)
	for i := range p.Setups {
		if v, err := words.Judge(ix, p.Setups[i]); err == nil && v.Word == timeline.Unsafe {
			want++
		}
	}
	w.setups.Field.SetText("unsafe")
	if got := len(w.setups.Shown); got != want || want == 0 || want == len(p.Setups) {
		t.Errorf("it shows %d of %d, want %d; %s", got, len(p.Setups), want, w.setups.What.Text)
	}
	w.setups.Verdicts.Forget()
	var later []func()
	w.setups.Verdicts.Spawn = func(do func()) { later = append(later, do) }
	w.setups.Filter()
	if len(later) != 1 || len(w.setups.Shown) != 0 || !strings.HasPrefix(w.setups.What.Text, "judged 0 of") {
		t.Fatalf("%d works begun, %d shown, it says %q", len(later), len(w.setups.Shown), w.setups.What.Text)
	}
	w.setups.ClearWord.Tapped(nil)
	if w.setups.Verdicts.Running() || w.setups.Field.Text != "" || len(w.setups.Shown) != len(p.Setups) {
		t.Errorf("stopped, it shows %d, typed %q", len(w.setups.Shown), w.setups.Field.Text)
	}
}

// TestWordsAreLookedUpAhead looks a word up behind the window; an edit that
// comes meanwhile is not passed over.
func TestWordsAreLookedUpAhead(t *testing.T) {
	w := openFile(t, varied())
	d := w.model.Document()
	look := func(word string) (places []int) {
		found, err := d.Search(searchOf(t, word), func(int, timeline.Word) bool { return false })
		if err != nil {
			t.Fatal(err)
		}
		for i, is := range found {
			if is {
				places = append(places, i)
			}
		}
		return places
	}
	find, keep := d.Ahead(searchOf(t, "marlin"))
	find()
	keep()
	if got, known := d.Words.Rows[timeline.Term{Text: "marlin"}]; !known || len(got) != 0 || len(look("marlin")) != 0 {
		t.Errorf("%v has the word", got)
	}
	find, keep = d.Ahead(searchOf(t, "marlin heel"))
	find()
	if err := w.model.Rename("a marlin"); err != nil {
		t.Fatal(err)
	}
	keep() // too late
	if got := look("marlin"); len(got) != 1 {
		t.Errorf("after an edit %v have the word", got)
	}
	w.model.Undo()
	if got := look("marlin"); len(got) != 0 {
		t.Errorf("after an undo %v have the word", got)
	}
	w.setups.Field.SetText("heel")
	want := len(w.setups.Shown)
	w.setups.Later = func(do func()) { do() }
	w.setups.Shown = nil
	w.setups.Ahead(w.setups.Filter)
	if len(w.setups.Shown) != want || want == 0 {
		t.Errorf("looked up ahead it shows %d, want %d", len(w.setups.Shown), want)
	}
}

// searchOf reads a search that can be read.
func searchOf(t *testing.T, text string) timeline.Search {
	t.Helper()
	of, err := timeline.ReadSearch(text)
	if err != nil {
		t.Fatal(err)
	}
	return of
}

// TestTheFilterReadsOrAndNot types a search, and one that can't be read yet:
// the one before stands then, and the list says why.
func TestTheFilterReadsOrAndNot(t *testing.T) {
	p := many(40)
	p.Setups[7].Tags, p.Setups[9].Note = []string{"corner"}, "for the corner"
	w := openFile(t, p)
	shown := func(typed string) []int {
		w.setups.Field.SetText(typed)
		return slices.Clone(w.setups.Shown)
	}
	if got := shown("corner"); !slices.Equal(got, []int{7, 9}) {
		t.Errorf("a word: %v", got)
	}
	if got := shown("tag:corner"); !slices.Equal(got, []int{7}) {
		t.Errorf("a tag: %v", got)
	}
	if got := shown("corner not tag:corner"); !slices.Equal(got, []int{9}) {
		t.Errorf("without the tag: %v", got)
	}
	if got := shown("corner or \"no. 12\""); !slices.Equal(got, []int{7, 9, 12}) {
		t.Errorf("either: %v", got)
	}
	if got := shown("corner or ("); !slices.Equal(got, []int{7, 9, 12}) || !strings.HasPrefix(w.setups.What.Text, "Can't be read: letter") {
		t.Errorf("half typed: %v, it says %q", got, w.setups.What.Text)
	}
	if got := shown("not verdict:safe not verdict:limited not verdict:unsafe"); len(got) != 0 {
		t.Errorf("without a verdict: %v", got)
	}
	n := 0
	for _, word := range []string{"safe", "limited", "unsafe"} {
		n += len(shown("verdict:" + word))
	}
	if n != len(p.Setups) {
		t.Errorf("%d setups by verdict, want %d", n, len(p.Setups))
	}
}
