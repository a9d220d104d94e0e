package storage

import (
	"context"
	"errors"
	"fmt"
	"iter"
	"reflect"
	"slices"
	"strings"
	"testing"

	"wakeline/timeline"
)

func TestSearch(t *testing.T) {
	p := sample(t)
	p.Setups[0].Tags = []string{"ab%c", "other"}
	p.Setups[1].Note = "a line about tides"
	f := made(t, p)
	for _, c := range []struct {
		text, tag string
		want      int
	}{
		{"B%C", "", 1}, {"b_c", "", 0}, {"", "ab%c", 1}, {"TIDES", "", 1}, {"", "", len(p.Setups)}, {"tides", "other", 0},
		{"KEEL scrape", "", holding(p, "keel scrape")}, {"brENNO", "", holding(p, "brenno")}, {"brenno", "other", 1},
		{"Leeboard", "", holding(p, "leeboard")}, {"millrace", "", holding(p, "millrace")}, {"FORWARD", "", holding(p, "forward")},
		{"step", "", holding(p, "step")}, {"wall", "", holding(p, "wall")}, {"guard", "", holding(p, "guard")}, {"survive", "", holding(p, "survive")},
	} {
		got, err := searched(f, c.text, c.tag)
		if err != nil || len(got) != c.want {
			t.Errorf("search %q, tag %q = %v, %v, want %d", c.text, c.tag, got, err, c.want)
		}
	}
	b := p.Fighters[0]
	b.Name = "Éa"
	if err := f.Edit("rename", func(s *Step) error { return s.PutFighter("Brenno", &b) }); err != nil {
		t.Fatal(err)
	}
	if got, err := f.Search(timeline.Term{Text: "éA"}); err != nil || len(got) == 0 {
		t.Errorf("search for a fighter renamed = %v, %v, want its setups", got, err)
	}
}

// searched are the setups that hold a text, and bear a tag where one is given.
func searched(f *File, text, tag string) ([]int64, error) {
	ids, err := f.Search(timeline.Term{Text: text})
	if err != nil || tag == "" {
		return ids, err
	}
	tagged, err := f.Tagged(tag)
	return slices.DeleteFunc(ids, func(id int64) bool { return !slices.Contains(tagged, id) }), err
}

// holding counts the setups that hold a text of small letters.
func holding(p *timeline.Project, text string) (n int) {
	for _, s := range p.Setups {
		all := append([]string{s.Name, s.Note, s.Attacker, s.Rival, s.Ender, s.Jump, s.Attack, string(s.Position)}, s.Tags...)
		all = append(all, s.Fillers...)
		if s.Landing != timeline.DoGuard && s.Landing != timeline.DoParry {
			all = append(all, s.Landing)
		}
		for i := range s.Replies {
			all = append(all, s.Replies[i].Move)
		}
		if slices.ContainsFunc(all, func(one string) bool { return strings.Contains(strings.ToLower(one), text) }) {
			n++
		}
	}
	return n
}

func TestSetupsAreReadWhileEditsComeInBetween(t *testing.T) {
	p := sample(t)
	for len(p.Setups) <= 2*batch { // so many that they are read in batches
		s := p.Setups[len(p.Setups)%9]
		s.Name = newUID()
		p.Setups = append(p.Setups, s)
	}
	f := made(t, p)
	read := func(meanwhile func(s *Step) error) (n int, err error) {
		err = f.EachSetup(context.Background(), func(at int, _ *timeline.Setup) error {
			if at != n {
				t.Errorf("setup %d is told as %d", n, at)
			}
			if n++; n == 1 {
				return f.Edit("meanwhile", meanwhile)
			}
			return nil
		})
		return n, err
	}
	last := p.Setups[len(p.Setups)-1].Name
	if n, err := read(func(s *Step) error { return s.RemoveSetup(last) }); err != nil || n != len(p.Setups)-1 {
		t.Errorf("a setup removed meanwhile: %d setups, %v, want one less than %d", n, err, len(p.Setups))
	}
	m := p.Fighters[0].Moves[0]
	m.Name = "Renamed"
	if n, err := read(func(s *Step) error { return s.PutMove(p.Fighters[0].Name, p.Fighters[0].Moves[0].Name, &m) }); !errors.Is(err, ErrChanged) || n != batch {
		t.Errorf("a move renamed meanwhile: %d setups, %v, want %d and %v", n, err, batch, ErrChanged)
	}
	stopped, cancel := context.WithCancel(context.Background())
	n := 0
	if err := f.EachSetup(stopped, func(int, *timeline.Setup) error { n++; cancel(); return nil }); !errors.Is(err, context.Canceled) || n > batch {
		t.Errorf("stopped: %d setups, %v, want %v", n, err, context.Canceled)
	}
}

func TestASetupWithManyTagsComesBackEqual(t *testing.T) {
	p := sample(t)
	var tags []string
	for n := range 2*rowsAtOnce + 1 {
		tags = append(tags, fmt.Sprint("tag ", n))
	}
	p.Setups[0].Tags = tags
	holds(t, made(t, p), p, "made")
}

func TestSearchTakesSmallLettersForLargeOnesInAnyScript(t *testing.T) {
	p := sample(t)
	p.Setups[0].Name = "ÜBER x"
	p.Setups[1].Note = "Ein Blick über den Zaun"
	p.Setups[2].Tags = []string{"ΔΕΛΤΑ"}
	f := made(t, p)
	for _, c := range []struct {
		text string
		want []int64
	}{{"über", []int64{1, 2}}, {"Über X", []int64{1}}, {"öber", nil}, {"δελτα", []int64{3}}, {"δελτ_", nil}} {
		got, err := f.Search(timeline.Term{Text: c.text})
		slices.Sort(got)
		if err != nil || !slices.Equal(got, c.want) {
			t.Errorf("%q: %v, %v, want %v", c.text, got, err, c.want)
		}
	}
}

// A term finds in the file the setups that the core says have it.
func TestSearchFindsInEachPartWhatTheCoreFinds(t *testing.T) {
	p := sample(t)
	p.Setups[0].Note, p.Setups[1].Tags = "Über alles 50%", []string{"Corner_ öde"}
	f := made(t, p)
	ix := timeline.NewIndex(p)
	texts := map[string]bool{p.Setups[0].Name: true, "über ALLES 50%": true, "50%": true, "r_ Ö": true, "guard": true, "parry": true, "move": true, "wall": true, "über": true, "": true}
	for i := range p.Fighters {
		for k := range p.Fighters[i].Moves {
			texts[strings.ToUpper(p.Fighters[i].Moves[k].Name)] = true
		}
		for k := range p.Fighters[i].Jumps {
			texts[p.Fighters[i].Jumps[k].Name] = true
		}
		for k := range p.Fighters[i].Routes {
			texts[p.Fighters[i].Routes[k].Name] = true
		}
		texts[p.Fighters[i].Name[1:]], texts[p.Fighters[i].Name] = true, true
	}
	var odd []int64
	for i := 0; i < len(p.Setups); i += 2 {
		odd = append(odd, int64(i+1))
	}
	found := map[timeline.SearchPart]int{}
	for _, part := range append(timeline.SearchParts, timeline.AnyPart) {
		for text, whole := range bothWays(texts) {
			if part == timeline.VerdictPart || part == timeline.TestPart || part == timeline.ListPart || whole && part == timeline.AnyPart {
				continue
			}
			term := timeline.Term{Part: part, Text: text, Whole: whole}
			var want []int64
			for i := range p.Setups {
				if ix.Has(&p.Setups[i], term) {
					want = append(want, int64(i+1))
				}
			}
			got, err := f.Search(term)
			slices.Sort(got)
			if err != nil || !slices.Equal(got, want) {
				t.Errorf("%s %q: %v, %v, want %v", part, text, got, err, want)
			}
			some := slices.DeleteFunc(slices.Clone(want), func(id int64) bool { return id%2 == 0 })
			if got, err := f.SearchAmong(odd, term); err != nil || !sameIDs(got, some) {
				t.Errorf("%s %q among the odd ones: %v, %v, want %v", part, text, got, err, some)
			}
			begun := timeline.Term{Part: part, Text: strings.ToLower(string([]rune(text)[:len([]rune(text))/2]))}
			if wider, err := f.Search(begun); !term.Narrows(begun) || err != nil {
				t.Errorf("%s %q: narrows %q: %v, %v", part, text, begun.Text, term.Narrows(begun), err)
			} else if got, err := f.SearchAmong(wider, term); err != nil || !sameIDs(got, want) {
				t.Errorf("%s %q among those with %q: %v, %v, want %v", part, text, begun.Text, got, err, want)
			}
			if found[part] += len(want); text != "" {
				found[part+" named"] += len(want)
			}
			if whole {
				found[part+" whole"] += len(want)
			}
		}
	}
	for part, n := range found {
		if n == 0 {
			t.Errorf("%s: nothing was found at all", part)
		}
	}
}

// sameIDs reports whether got, in any order, is want.
func sameIDs(got, want []int64) bool {
	slices.Sort(got)
	return slices.Equal(got, want)
}

// bothWays hands each text out twice: as a part of what is looked for, and as
// the whole of it.
func bothWays(texts map[string]bool) iter.Seq2[string, bool] {
	return func(yield func(text string, whole bool) bool) {
		for text := range texts {
			if !yield(text, false) || !yield(text, true) {
				return
			}
		}
	}
}

func TestSearchFindsWhatWasTestedInTheGame(t *testing.T) {
	p := sample(t)
	f := made(t, p)
	look := func(result string) []int64 {
		got, err := f.Search(timeline.Term{Part: timeline.TestPart, Text: result})
		if err != nil {
			t.Fatal(err)
		}
		slices.Sort(got)
		return got
	}
	prove := func(setup int, result string) {
		t.Helper()
		err := f.Edit("test", func(s *Step) error {
			return s.AddProof(Proof{Setup: p.Setups[setup].Name, Revision: FirstRevision, Date: "2026-05-01", Result: result})
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if got := look("none"); len(got) != len(p.Setups) {
		t.Errorf("before a test: %d without one", len(got))
	}
	prove(0, "failed")
	prove(0, "worked")
	prove(1, "unclear")
	if got := look("none"); len(got) != len(p.Setups)-2 || slices.Contains(got, 1) || slices.Contains(got, 2) {
		t.Errorf("without a test: %v", got)
	}
	if worked, failed, unclear := look("worked"), look("failed"), look("unclear"); !slices.Equal(worked, []int64{1}) || len(failed) != 0 || !slices.Equal(unclear, []int64{2}) {
		t.Errorf("worked %v, failed %v, unclear %v", worked, failed, unclear)
	}
	if err := f.Edit("revision", func(s *Step) error { return s.BeginRevision("autumn", "") }); err != nil {
		t.Fatal(err)
	}
	if got := look("none"); len(got) != len(p.Setups) {
		t.Errorf("since the revision %d have no test, want all", len(got))
	}
	if got := look("worked"); !slices.Equal(got, []int64{1}) {
		t.Errorf("worked, of an earlier revision: %v", got)
	}
}

// TestSetupsAreReadByName reads each by its name, and none that is gone.
func TestSetupsAreReadByName(t *testing.T) {
	f := made(t, sample(t))
	want, err := f.Project()
	if err != nil {
		t.Fatal(err)
	}
	read, err := f.ByName()
	if err != nil {
		t.Fatal(err)
	}
	gone := want.Setups[len(want.Setups)-1].Name
	if err := f.Edit("delete", func(s *Step) error { return s.RemoveSetup(gone) }); err != nil {
		t.Fatal(err)
	}
	for _, s := range want.Setups {
		got, ok, err := read(s.Name)
		if err != nil || ok != (s.Name != gone) || ok && !reflect.DeepEqual(got, s) {
			t.Errorf("%s: %+v, %v, %v", s.Name, got, ok, err)
		}
	}
	if _, ok, err := read("no such setup"); ok || err != nil {
		t.Errorf("there is one: %v, %v", ok, err)
	}
}
