package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// A command says nothing on standard error when all is well, whatever the
// locale: the window's toolkit, which looks at it while the program starts,
// is kept quiet until then.
func TestACommandIsQuietInAnyLocale(t *testing.T) {
	program := filepath.Join(t.TempDir(), "wakeline")
	if out, err := exec.Command("go", "build", "-buildvcs=false", "-o", program, ".").CombinedOutput(); err != nil {
		t.Fatalf("build: %v\n%s", err, out)
	}
	for _, locale := range []string{"C", "C.UTF-8", "POSIX", "en_GB.UTF-8", ""} {
		cmd := exec.Command(program, "judge", write(t, little), "--setup", "good")
		var progress bytes.Buffer
		cmd.Stderr = &progress
		cmd.Env = append(os.Environ(), "LC_ALL="+locale, "LANG="+locale, "LANGUAGE=")
		if err := cmd.Run(); err != nil || progress.Len() > 0 {
			t.Errorf("locale %q: %v, %q, want no word", locale, err, progress.String())
		}
	}
}
