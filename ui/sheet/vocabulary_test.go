package sheet

import (
	"slices"
	"strings"
	"testing"
	"unicode"

	"wakeline/timeline"
	"wakeline/timeline/words"
)

// plainWords need no glossary: everyday English, and the marks' own names.
var plainWords = strings.Fields("a an and at by each from grey in is its now of on or outlined own right text the then to vs against cell worst no reaches nothing judge yet early")

// unexplained are the words of a text that neither the glossary explains nor
// plain English needs to; names are left out of it first.
func unexplained(text string, names []string) (out []string) {
	explained := map[string]bool{}
	for _, g := range words.Glossary() {
		for _, w := range wordsOf(g.Word + " " + g.Also) {
			explained[w] = true
		}
	}
	for _, n := range names {
		text = strings.ReplaceAll(text, n, " ")
	}
	for _, w := range wordsOf(text) {
		if !explained[w] && !explained[strings.TrimSuffix(w, "s")] && !slices.Contains(plainWords, w) {
			out = append(out, w)
		}
	}
	return out
}

func wordsOf(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) })
}

// namesOf are the names of a project, the longest first.
func namesOf(p *timeline.Project) (out []string) {
	for _, f := range p.Fighters {
		out = append(out, f.Name)
		for _, m := range f.Moves {
			out = append(out, m.Name)
		}
		for _, j := range f.Jumps {
			out = append(out, j.Name)
		}
	}
	for _, s := range p.Setups {
		out = append(out, s.Name)
	}
	slices.SortFunc(out, func(a, b string) int { return len(b) - len(a) })
	return out
}

// TestTheGlossaryExplainsThePictures: every word that a strip, a match-up or a
// contents page prints, whatever the exchange.
func TestTheGlossaryExplainsThePictures(t *testing.T) {
	p := demo()
	names := namesOf(p)
	odds := Odds{Chances: []float64{0.2, 0.6, 0.2}, Per: 1, Label: "63 %"}
	texts := map[string]bool{}
	gather := func(d *Drawing) {
		all, _ := textsOf(d)
		for _, x := range all {
			if !strings.Contains(x.Str, ellipsis) { // a name that was shortened
				texts[x.Str] = true
			}
		}
	}
	for _, plan := range plans(t, p) {
		v := words.VerdictAt(plan, plan.Setup.Delay)
		for r := range v.Rises {
			for i := range v.Rises[r].Replies {
				s := words.SceneAt(plan, plan.Setup.Delay, r, i)
				gather(Draw(&s, Options{W: 1920, H: 900, Position: string(plan.Setup.Position), Odds: &odds}))
			}
		}
	}
	g, attacker, rival := gridOf(t, namings[0].change)
	grid, err := DrawGrid(&g, attacker, rival, 3000)
	if err != nil {
		t.Fatal(err)
	}
	gather(grid)
	if len(texts) < 100 {
		t.Fatalf("%d texts were looked at", len(texts))
	}
	for text := range texts {
		if w := unexplained(text, names); len(w) > 0 {
			t.Errorf("%q: the glossary doesn't explain %q", text, w)
		}
	}
}
