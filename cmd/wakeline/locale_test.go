package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"

	locale "github.com/jeandeaual/go-locale"
)

// A command says nothing on standard error when all is well, whatever the
// locale, although the window's toolkit reads the locale when it starts.
func TestACommandIsQuietInAnyLocale(t *testing.T) {
	program := filepath.Join(t.TempDir(), "wakeline")
	if out, err := exec.Command("go", "build", "-buildvcs=false", "-o", program, ".").CombinedOutput(); err != nil {
		t.Fatalf("build: %v\n%s", err, out)
	}
	for _, locale := range []string{"C", "C.UTF-8", "POSIX", "en_GB.UTF-8", "de_DE@euro", "no_language.UTF-8", ""} {
		for _, list := range []string{"", "C:no-language"} {
			cmd := exec.Command(program, "judge", write(t, little), "--setup", "good")
			var progress bytes.Buffer
			cmd.Stderr = &progress
			cmd.Env = append(os.Environ(), "LC_ALL="+locale, "LANG="+locale, "LANGUAGE="+list)
			if err := cmd.Run(); err != nil || progress.Len() > 0 {
				t.Errorf("locale %q, languages %q: %v, %q, want no word", locale, list, err, progress.String())
			}
		}
	}
}

// The toolkit is told the user's languages, as gettext reads them.
func TestTheToolkitIsToldTheLanguage(t *testing.T) {
	for _, tc := range []struct {
		all, messages, lang, list string
		want                      []string
	}{
		{"", "", "", "", nil},
		{"C", "", "de_DE.UTF-8", "fr", nil},
		{"C.UTF-8", "", "de_DE.UTF-8", "", nil},
		{"", "", "de_DE.UTF-8", "", []string{"de-DE"}},
		{"", "ja_JP.UTF-8", "de_DE.UTF-8", "", []string{"ja-JP"}},
		{"sr_RS@latin", "", "", "", []string{"sr-RS"}},
		{"C.UTF-8", "", "", "pt_BR:C:fr", []string{"pt-BR", "fr"}},
	} {
		t.Setenv("LC_ALL", tc.all)
		t.Setenv("LC_MESSAGES", tc.messages)
		t.Setenv("LANG", tc.lang)
		t.Setenv("LANGUAGE", tc.list)
		got, err := locale.GetLocales()
		if err != nil || !slices.Equal(got, tc.want) {
			t.Errorf("%+v: %v, %v", tc, got, err)
		}
		first, _ := locale.GetLocale()
		if want := append(tc.want, "")[0]; first != want {
			t.Errorf("%+v: the first is %q", tc, first)
		}
	}
}
