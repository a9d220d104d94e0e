package timeline

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

func TestSearchReadsWhatIsTyped(t *testing.T) {
	for text, want := range map[string]string{
		"":                               "",
		"step":                           "step",
		"step prod":                      "(step & prod)",
		"step and prod":                  "(step & prod)",
		"step AND prod or keel":          "((step & prod) | keel)",
		"step (prod or keel)":            "(step & (prod | keel))",
		"not step prod":                  "(!step & prod)",
		"not (step or prod)":             "!(step | prod)",
		"not not step":                   "!!step",
		`"or" and "not"`:                 "(or & not)",
		`ender:"Keel Scrape" Tag:corner`: "(ender=Keel Scrape & tag=corner)",
		"12:30 other:x":                  "(12:30 & other:x)",
		`na"me:x"`:                       "name:x",
		`note:a:b`:                       "note=a:b",
		`"open to the end`:               "open to the end",
		"verdict:Safe or safe":           "(verdict=Safe | safe)",
		`tag:""`:                         "tag=",
		"test:None":                      "test=none",
		`tag:=new note:="= x" =y a:=b`:   "(tag==new & note=== x & =y & a:=b)",
	} {
		q, err := ReadSearch(text)
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		if got := shape(q.root); got != want {
			t.Errorf("%s: %s, want %s", text, got, want)
		}
	}
}

// shape writes a search with every operator and parenthesis.
func shape(n *searchNode) string {
	if n == nil {
		return ""
	}
	var parts []string
	for _, one := range n.of {
		parts = append(parts, shape(one))
	}
	switch n.join {
	case allNode:
		return "(" + strings.Join(parts, " & ") + ")"
	case anyNode:
		return "(" + strings.Join(parts, " | ") + ")"
	case notNode:
		return "!" + parts[0]
	}
	if n.term.Part != AnyPart {
		whole := ""
		if n.term.Whole {
			whole = "="
		}
		return string(n.term.Part) + "=" + whole + n.term.Text
	}
	return n.term.Text
}

func TestSearchSaysWhereItCanNotBeRead(t *testing.T) {
	for text, want := range map[string]string{
		"step or":       `letter 8: expected a word, got the end`,
		"or step":       `letter 1: expected a word, got "or"`,
		"(step":         `letter 6: expected a closing parenthesis, got the end`,
		"step)":         `letter 5: expected a word, got ")"`,
		"()":            `letter 2: expected a word, got ")"`,
		"not":           `letter 4: expected a word, got the end`,
		"ender:":        `letter 1: expected a text after "ender:", got nothing`,
		"verdict:fair":  `letter 1: expected safe, limited or unsafe after "verdict:", got "fair"`,
		"test:maybe":    `letter 1: expected none, worked, failed or unclear after "test:", got "maybe"`,
		"verdict:=safe": `letter 1: expected safe, limited or unsafe after "verdict:", got "=safe"`,
		"a list:new":    `letter 3: expected the name of a saved list, and there is none, after "list:", got "new"`,
		"step and or x": `letter 10: expected a word, got "or"`,
	} {
		_, err := ReadSearch(text)
		if wrong := (*SearchError)(nil); !errors.As(err, &wrong) || err.Error() != want {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
	}
	for _, deep := range []string{strings.Repeat("(", 5000), strings.Repeat("not ", 5000) + "x"} {
		if _, err := ReadSearch(deep); err == nil {
			t.Error("a search nested 5000 deep is read")
		}
	}
}

func TestTermsAreLookedForInTheirPartAlone(t *testing.T) {
	p := dropIn(42, Move{Name: "Burst", Kind: Strike, Level: Mid, Startup: 5, Active: []int{3}, Recovery: 12})
	s := &p.Setups[0]
	s.Name, s.Note, s.Tags = "First", "aimed late", []string{"corner"}
	p.Fighter(s.Rival).Replies, s.Replies = s.Replies, nil
	ix := NewIndex(p)
	for text, want := range map[string]bool{
		"name:first": true, "name:corner": false, "tag:corner": true, "tag:first": false, "note:late": true, "note:corner": false,
		"reply:burst": true, "burst": false, "reply:first": false, "attacker:" + s.Attacker: true, "position:mid": true, "position:wall": false,
		"name:=first": true, "name:=firs": false, "tag:=Corner": true, "tag:=corn": false, `tag:=""`: false, `ender:=""`: false,
		"landing:guard": true, "landing:parry": false, "jump:" + `"` + s.Jump + `"`: true, "attack:" + `"` + s.Attack + `"`: true, "route:x": false, `jump:""`: true, `filler:""`: false, "filler:x": false,
	} {
		q, err := ReadSearch(text)
		if err != nil {
			t.Fatal(err)
		}
		if got := q.Match(func(t Term) bool { return ix.Has(s, t) }); got != want {
			t.Errorf("%s: %v, want %v", text, got, want)
		}
	}
	plan, err := Compile(p, *s)
	if err != nil {
		t.Fatal(err)
	}
	word := plan.Word(s.Delay)
	for _, w := range []Word{Safe, Limited, Unsafe} {
		if got := ix.Has(s, Term{Part: VerdictPart, Text: string(w)}); got != (w == word) {
			t.Errorf("verdict %s: %v, it is %s", w, got, word)
		}
		if got := ix.Has(s, Term{Text: strings.ToUpper(string(w))}); got != (w == word) {
			t.Errorf("%s: %v, it is %s", w, got, word)
		}
	}
	if s.Tags = []string{"was unsafe once"}; !ix.Has(s, Term{Text: "unsafe"}) {
		t.Error("a verdict's word isn't looked for in the tags")
	}
}

// What is read of a search that was written out is the search: for random ones,
// on every answer to four terms.
func TestASearchMeansWhatItSays(t *testing.T) {
	names := []string{"a", "b", "c", "d"}
	for seed := range uint64(2000) {
		r := rand.New(rand.NewPCG(seed, 1))
		var write func(depth int) (text string, mean func(has map[string]bool) bool)
		write = func(depth int) (string, func(map[string]bool) bool) {
			switch n := r.IntN(5); {
			case depth == 0 || n == 0:
				name := names[r.IntN(len(names))]
				return name, func(has map[string]bool) bool { return has[name] }
			case n == 1:
				x, mean := write(depth - 1)
				return "not (" + x + ")", func(has map[string]bool) bool { return !mean(has) }
			default:
				x, first := write(depth - 1)
				y, second := write(depth - 1)
				if n == 2 {
					return "(" + x + " or " + y + ")", func(has map[string]bool) bool { return first(has) || second(has) }
				}
				return fmt.Sprintf("(%s)%s(%s)", x, []string{" ", " and "}[n%2], y), func(has map[string]bool) bool { return first(has) && second(has) }
			}
		}
		text, mean := write(4)
		q, err := ReadSearch(text)
		if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
		for bits := range 16 {
			has := map[string]bool{}
			for i, name := range names {
				has[name] = bits>>i&1 == 1
			}
			if got := q.Match(func(t Term) bool { return has[t.Text] }); got != mean(has) {
				t.Fatalf("%s with %v: %v", text, has, got)
			}
		}
	}
}

func FuzzReadSearch(f *testing.F) {
	for _, text := range []string{"a or (b not c)", `ender:"x y" tag:z`, "((", "verdict:safe", `"`, "not not"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		q, err := ReadSearch(text)
		if wrong := (*SearchError)(nil); err != nil && !errors.As(err, &wrong) {
			t.Fatalf("%q: %v", text, err)
		}
		if err != nil {
			return
		}
		for _, term := range q.Terms() {
			if term.Part != AnyPart && !slices.Contains(SearchParts, term.Part) {
				t.Fatalf("%q: a term of %q", text, term.Part)
			}
		}
		q.Match(func(Term) bool { return true })
	})
}
