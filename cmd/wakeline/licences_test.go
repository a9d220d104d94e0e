package main

import (
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"wakeline/assets"
)

// licenceHead stands over and under the name of what a licence is of.
var licenceHead = strings.Repeat("=", 80) + "\n"

// TestLicencesAreThoseOfTheModules: of every module that the program has on
// any system, with its version, and of no other.
func TestLicencesAreThoseOfTheModules(t *testing.T) {
	type module struct {
		Path, Version, Dir string
		Main               bool
		Replace            *module
	}
	modules := map[string]module{}
	for _, system := range []string{"linux", "windows", "darwin"} {
		list := exec.Command("go", "list", "-deps", "-json=Module", ".")
		list.Env = append(os.Environ(), "GOOS="+system, "CGO_ENABLED=1")
		said, err := list.Output()
		if err != nil {
			t.Fatal(err)
		}
		for in := json.NewDecoder(strings.NewReader(string(said))); ; {
			var p struct{ Module *module }
			if err := in.Decode(&p); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				t.Fatal(err)
			}
			if m := p.Module; m != nil && !m.Main && m.Replace == nil {
				modules[m.Path+" "+m.Version] = *m
			}
		}
	}
	if len(modules) < 10 {
		t.Fatalf("go list tells of %d modules", len(modules))
	}
	const how = "run cmd/package/licences.sh"
	for name, m := range modules {
		_, text, there := strings.Cut(assets.Licences, licenceHead+name+" (")
		if !there {
			t.Errorf("no licence of %s; %s", name, how)
			continue
		}
		_, text, _ = strings.Cut(text, licenceHead)
		text, _, _ = strings.Cut(text, licenceHead)
		if !slices.ContainsFunc(licenceFiles(t, m.Dir), func(want string) bool { return strings.TrimSpace(text) == want }) {
			t.Errorf("the licence of %s is none of its files; %s", name, how)
		}
	}
	parts := strings.Split(assets.Licences, licenceHead)
	for i := 1; i+1 < len(parts); i += 2 {
		name, _, _ := strings.Cut(parts[i], " (")
		if _, is := modules[name]; strings.Contains(name, "/") && strings.Contains(name, " v") && !is {
			t.Errorf("a licence of %s, which the program lacks; %s", name, how)
		}
		if len(strings.TrimSpace(parts[i+1])) < 40 {
			t.Errorf("%s has no licence's text", name)
		}
	}
}

// TestLicencesOfTheFonts: those built in by the toolkit too.
func TestLicencesOfTheFonts(t *testing.T) {
	toolkit, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "fyne.io/fyne/v2").Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{
		"../../assets/fonts/LICENSE-NotoSans.txt",
		filepath.Join(strings.TrimSpace(string(toolkit)), "theme/font/LICENSE_Inter.txt"),
		filepath.Join(strings.TrimSpace(string(toolkit)), "theme/font/LICENSE_DejaVu-Powerline.txt"),
	} {
		if !strings.Contains(assets.Licences, licenceText(t, path)) {
			t.Errorf("without the text of %s", path)
		}
	}
	if code, out, progress := runIt(t, "--licences"); code != exitDone || out != assets.Licences || progress != "" {
		t.Errorf("--licences = %d, %d bytes, %q", code, len(out), progress)
	}
}

// licenceFiles are the texts of the files in folder dir that may be a licence.
func licenceFiles(t *testing.T, dir string) (out []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if name := strings.ToUpper(e.Name()); strings.HasPrefix(name, "LICEN") || strings.HasPrefix(name, "COPYING") {
			out = append(out, licenceText(t, filepath.Join(dir, e.Name())))
		}
	}
	return out
}

// licenceText is a file's text without blanks at the ends of its lines.
func licenceText(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(string(text), "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " \t\r")
	}
	return strings.TrimSpace(strings.Join(lines, "\n"))
}
