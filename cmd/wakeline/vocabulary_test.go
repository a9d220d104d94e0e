package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/timeline/words"
)

// TestTheGlossaryExplainsWhatIsPrinted: the tables of judge, of the handout and
// of the replies; their sentences and names aside.
func TestTheGlossaryExplainsWhatIsPrinted(t *testing.T) {
	wordsOf := func(text string) []string {
		return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) })
	}
	explained := map[string]bool{}
	for _, g := range words.Glossary() {
		for _, w := range wordsOf(g.Word + " " + g.Also) {
			explained[w] = true
		}
	}
	plain := strings.Fields("from no on to yes")

	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range p.Fighters {
		for _, m := range f.Moves {
			names = append(names, m.Name)
		}
		for _, j := range f.Jumps {
			names = append(names, j.Name)
		}
		for _, r := range f.Routes {
			names = append(names, r.Name)
		}
	}
	for _, s := range p.Setups {
		names = append(names, s.Name)
	}
	slices.SortFunc(names, func(a, b string) int { return len(b) - len(a) })

	var lines []string
	_, said, _ := runIt(t, "judge", sample)
	for block := range strings.SplitSeq(said, "\n\n") {
		for i, line := range strings.Split(block, "\n") {
			sentence := slices.ContainsFunc([]string{"One frame ", "Holds ", "A hit ", "The setup ", "After a block: "}, func(begin string) bool {
				return strings.HasPrefix(line, "  "+begin)
			})
			sentence = sentence || strings.HasSuffix(line, ".") && strings.Contains(line, " points") // what follows the deciding reply
			if i != 1 && !sentence {
				lines = append(lines, line)
			}
		}
	}
	dir := t.TempDir()
	for _, name := range []string{"all.csv", "md"} {
		args := []string{"draw", sample, "--filter", "", "--out", filepath.Join(dir, name)}
		if name == "md" {
			args = append(args, "--format", "md")
		}
		if code, _, progress := runIt(t, args...); code != 0 {
			t.Fatal(progress)
		}
	}
	files, err := filepath.Glob(filepath.Join(dir, "md", "*.md"))
	if err != nil || len(files) < 5 {
		t.Fatalf("%d handouts, %v", len(files), err)
	}
	for _, name := range append(files, filepath.Join(dir, "all.csv")) {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(b)) {
			if strings.HasPrefix(line, "|") || strings.HasSuffix(name, ".csv") {
				lines = append(lines, line)
			}
		}
	}
	told := map[string]bool{}
	for _, line := range lines {
		rest := line
		for _, n := range names {
			rest = strings.ReplaceAll(rest, n, " ")
		}
		for _, w := range wordsOf(rest) {
			if !explained[w] && !explained[strings.TrimSuffix(w, "s")] && !slices.Contains(plain, w) && !told[w] {
				told[w] = true
				t.Errorf("%q: the glossary doesn't explain %q", strings.TrimSpace(line), w)
			}
		}
	}
	if len(lines) < 200 {
		t.Errorf("%d lines were read", len(lines))
	}
}
