package main

import (
	"os"
	"strings"
	"testing"
)

// oldWords are words that readers tripped over, each with the one that stands
// for it.
var oldWords = []struct{ old, now string }{
	{"wrong words", "invalid arguments"}, {"one word", "one argument"}, {"two words", "two arguments"}, {"three words", "three arguments"},
	{"takes in", "imports"}, {"take in", "import"}, {"taken in", "imported"}, {"looks the whole", "checks"},
	{"sound", "OK"}, {"broken", "damaged"}, {"proofs", "in-game tests"}, {"a row a move", "one move per row"}, {"a file each", "one file each"},
	{"a table a fighter", "one table per fighter"}, {"pixels a unit", "pixels per unit"}, {"frames a second", "frames per second"},
	{"a line each", "one per line"}, {"To take along", "Export"}, {"good delays", "window"}, {"is said", "is given"}, {"is told", "is reported"},
	{"without the ground", "transparent background"}, {"the other way round", "search by ender"}, {"may be said again", "can be repeated"},
}

// Help and the README speak in words that are known.
func TestCommandsSpeakPlainWords(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, all, _ := runIt(t, "--help")
	texts := map[string]string{"README.md": string(readme), "--help": all}
	for _, c := range commands {
		_, texts[c.name+" --help"], _ = runIt(t, c.name, "--help")
	}
	for name, text := range texts {
		text = strings.Join(strings.Fields(text), " ")
		for _, w := range oldWords {
			if at := strings.Index(text, w.old); at >= 0 {
				t.Errorf("%s has %q in %q; use %q", name, w.old, text[max(0, at-40):min(len(text), at+60)], w.now)
			}
		}
	}
	if text := texts["--help"]; !strings.Contains(text, "invalid arguments") || !strings.Contains(text, "imports project texts") || !strings.Contains(text, "checks the integrity") {
		t.Errorf("--help:\n%s", text)
	}
}
