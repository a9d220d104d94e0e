package timeline

import (
	"errors"
	"strings"
	"testing"
)

func TestNamesThatAreRefused(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"empty", "", "expected a name, got an empty text"},
		{"blank", " \t ", "expected a name, got an empty text"},
		{"a line break", "a\nb", `expected a name without control characters, got "a\nb"`},
		{"a tab", "a\tb", "without control characters"},
		{"an escape sequence", "a\x1b[31mb", `got "a\x1b[31mb"`},
		{"a NUL", "a\x00b", "without control characters"},
		{"a delete", "a\x7fb", "without control characters"},
		{"one of the second block", "a\u009bb", "without control characters"},
		{"a line separator", "a\u2028b", "without control characters"},
		{"a change of direction", "a\u202eb", "without control characters"},
		{"bytes that are no UTF-8", "a\xffb", `expected a name in UTF-8, got "a\xffb"`},
		{"a surrogate in three bytes", "a\xed\xa0\x80b", "in UTF-8"},
		{"201 letters", strings.Repeat("é", 201), "expected a name of at most 200 letters, got 201"},
		{"10,000 letters", strings.Repeat("x", 10_000), "got 10000"},
	} {
		err := CheckName((*Path)(nil).At("name"), c.text)
		if err == nil || !strings.Contains(err.Error(), c.want) || len(err.Error()) > 200 {
			t.Errorf("%s: %v, want an error of one line that says %q", c.name, err, c.want)
		}
	}
	for _, good := range []string{"a", "Réversé 昇竜 \u200d👊", strings.Repeat("é", 200)} {
		if err := CheckName((*Path)(nil).At("name"), good); err != nil {
			t.Errorf("%q: %v, want it taken", good, err)
		}
	}
}

// TestEveryNameOfAProjectIsLookedAt puts a name that breaks the rule in each
// place where a project has one, and bytes that are no UTF-8 in its other text.
func TestEveryNameOfAProjectIsLookedAt(t *testing.T) {
	read := func() *Project {
		p, err := ReadText([]byte(page))
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	for path, change := range map[string]func(p *Project){
		"$.fighters[0].name":          func(p *Project) { p.Fighters[0].Name += "\x1b" },
		"$.fighters[0].moves[0].name": func(p *Project) { p.Fighters[0].Moves[0].Name += "\x1b" },
		"$.fighters[0].jumps[0].name": func(p *Project) { p.Fighters[0].Jumps[0].Name += "\x1b" },
		"$.fighters[0].rises[0].name": func(p *Project) { p.Fighters[0].Rises[0].Name += "\x1b" },
		"$.setups[0].name":            func(p *Project) { p.Setups[0].Name += "\x1b" },
		"$.setups[0].tags[0]":         func(p *Project) { p.Setups[0].Tags = []string{"a\x1b"} },
		"$.setups[0].note":            func(p *Project) { p.Setups[0].Note = "\xff" },
	} {
		p := read()
		change(p)
		var broken *FieldError
		if err := p.Check(); !errors.As(err, &broken) || broken.Path.String() != path {
			t.Errorf("%s: error = %v, want one there", path, err)
		}
	}
	p := read()
	p.Setups[0].Note = "two lines\nand\ta tab"
	if err := p.Check(); err != nil {
		t.Errorf("a note of two lines: %v, want it taken", err)
	}
}

func TestHalfACharacterInATextIsAnError(t *testing.T) {
	for _, c := range []struct{ old, new, says string }{
		{`"note": "\"n\"`, `"note": "\ud83d"`, `line 19, column 141: expected JSON: half a character, \ud83d: the other half is missing`},
		{`"note": "\"n\"`, `"note": "\udc4a\ud83d"`, `half a character, \udc4a`},
		{`"note": "\"n\"`, `"note": "\ud83d\n"`, "half a character"},
		{`"note": "\"n\"`, `"note": "\ud83d\ud83d\udc4a"`, "half a character"},
		{`"name": "One"`, `"name": "\uDFFF"`, `half a character, \uDFFF`},
	} {
		text := strings.Replace(page, c.old, c.new, 1)
		if i := strings.Index(text, c.new); c.old[1] == 'n' && c.old[2] == 'o' {
			text = text[:i+len(c.new)] + "}]}"
		}
		if _, err := ReadText([]byte(text)); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want an error that says %q", c.new, err, c.says)
		}
	}
	whole := strings.Replace(page, `"note": "\"n\"`, `"note": "\\ud83d \ud83d\udc4a"`, 1)
	whole = whole[:strings.Index(whole, `\udc4a"`)+len(`\udc4a"`)] + "}]}"
	p, err := ReadText([]byte(whole))
	if err != nil || p.Setups[0].Note != `\ud83d 👊` {
		t.Errorf("a whole character in two escapes: %v, want it read", err)
	}
}

func TestPrintable(t *testing.T) {
	for text, want := range map[string]string{
		"Réversé 昇竜 👊":            "Réversé 昇竜 👊",
		"a\x1b[2J\nb\t\u009b\xff": `a\x1b[2J\nb\t\u009b\xff`,
		"\u202egnp.exe":           `\u202egnp.exe`,
		"":                        "",
	} {
		if got := Printable(text); got != want {
			t.Errorf("%q: %s, want %s", text, got, want)
		}
	}
}

func TestCutName(t *testing.T) {
	for _, c := range []struct {
		name string
		room int
		want string
	}{
		{"short", 3, "short"},
		{strings.Repeat("é", 200), 0, strings.Repeat("é", 200)},
		{strings.Repeat("é", 200), 1, strings.Repeat("é", 196) + "..."},
		{strings.Repeat("a ", 150), 10, strings.TrimSpace(strings.Repeat("a ", 94)) + "..."},
	} {
		if got := CutName(c.name, c.room); got != c.want {
			t.Errorf("%q with room for %d: %q, want %q", c.name, c.room, got, c.want)
		}
	}
}
