package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// mayImport is the house: which folder may import which of ours, and whether
// it may import others' modules at all. A folder not named here is a finding.
// The window may import each page besides.
var mayImport = map[string]struct {
	ours   string // folders, space-separated
	others []string
}{
	"timeline":              {"", nil},
	"timeline/words":        {"timeline", nil},
	"timeline/compare":      {"timeline timeline/words", nil},
	"timeline/merge":        {"timeline timeline/compare", nil},
	"timeline/find":         {"timeline timeline/words", nil},
	"timeline/odds":         {"timeline timeline/words", nil},
	"timeline/exercise":     {"timeline timeline/words", nil},
	"timeline/value":        {"timeline timeline/words timeline/odds", nil},
	"timeline/handout":      {"timeline timeline/words", nil},
	"timeline/patch":        {"timeline timeline/words timeline/compare timeline/value timeline/value/report", nil},
	"timeline/value/report": {"timeline timeline/words timeline/value", nil},
	"assets":                {"", nil},
	"samples":               {"", nil},
	"storage": {"timeline timeline/words storage/table storage/guard", []string{
		"github.com/google/uuid", "github.com/mattn/go-sqlite3", "github.com/gofrs/flock",
	}},
	"storage/book":       {"", nil},
	"storage/table":      {"timeline timeline/words timeline/compare storage/book", nil},
	"storage/importer":   {"timeline storage storage/table", nil},
	"storage/guard":      {"", nil},
	"ui/sheet":           {"timeline timeline/words timeline/compare ui/sheet/lettering", nil},
	"ui/sheet/lettering": {"assets", []string{"golang.org/x/image/", "github.com/go-text/typesetting/"}},
	"ui/sheet/brush":     {"ui/sheet ui/sheet/lettering", []string{"golang.org/x/image/"}},
	"ui/sheet/svg":       {"ui/sheet ui/sheet/lettering", []string{"golang.org/x/image/"}},
	"ui/sheet/raster":    {"timeline ui/sheet ui/sheet/lettering ui/sheet/brush storage/guard", []string{"golang.org/x/image/"}},
	"ui/sheet/pdf":       {"assets ui/sheet ui/sheet/lettering ui/sheet/brush ui/sheet/raster", []string{"codeberg.org/go-pdf/fpdf"}},
	"ui/output/webpage":  {"timeline timeline/value timeline/words ui/sheet", nil},
	"ui/output":          {"ui/output/webpage timeline timeline/value timeline/value/report timeline/words timeline/compare timeline/find timeline/patch timeline/handout storage storage/table ui/sheet ui/sheet/svg ui/sheet/raster ui/sheet/pdf storage/guard", nil},
	"ui/model":           {"timeline timeline/exercise timeline/merge timeline/patch timeline/odds timeline/value timeline/value/report timeline/words timeline/compare storage storage/table storage/importer storage/guard", nil},
	"ui/paint":           {"timeline timeline/words ui/sheet assets storage/guard", []string{"fyne.io/fyne/v2", "golang.org/x/image/", "github.com/rymdport/portal/"}},
	"ui/grid":            {"timeline storage/table ui/paint ui/sheet", []string{"fyne.io/fyne/v2"}},
	"ui/page":            {"ui/output timeline/words timeline/odds ui/model ui/paint storage/guard ui/sheet", []string{"fyne.io/fyne/v2"}},
	"ui/page/pagetest":   {"timeline storage storage/guard ui/model ui/page ui/paint", []string{"fyne.io/fyne/v2"}},
	"ui/page/compare":    {"storage timeline timeline/compare timeline/patch timeline/words ui/model ui/output ui/page ui/paint ui/sheet", []string{"fyne.io/fyne/v2"}},
	"ui/page/present":    {"timeline timeline/words ui/model ui/output ui/page ui/paint ui/sheet", []string{"fyne.io/fyne/v2"}},
	"ui/page/ingame":     {"storage timeline timeline/handout ui/model ui/page ui/paint ui/sheet", []string{"fyne.io/fyne/v2"}},
	"ui/page/find":       {"timeline timeline/find timeline/odds timeline/value timeline/words storage/guard ui/model ui/output ui/page ui/paint ui/sheet", []string{"fyne.io/fyne/v2"}},
	"ui/page/glossary":   {"timeline/words ui/model ui/paint ui/page ui/sheet", []string{"fyne.io/fyne/v2"}},
	"ui/page/history":    {"storage ui/model ui/page ui/paint ui/sheet", []string{"fyne.io/fyne/v2"}},
	"ui/page/cast":       {"timeline timeline/compare ui/grid ui/model ui/output ui/page ui/paint ui/sheet", []string{"fyne.io/fyne/v2"}},
	"ui/page/lists":      {"timeline storage ui/model ui/page ui/paint", []string{"fyne.io/fyne/v2"}},
	"ui/page/merge":      {"timeline/merge ui/grid ui/model ui/page ui/paint", []string{"fyne.io/fyne/v2"}},
	"ui/page/matchup":    {"timeline timeline/compare timeline/words ui/model ui/page ui/paint ui/sheet", []string{"fyne.io/fyne/v2"}},
	"ui/page/mix":        {"timeline timeline/value timeline/value/report timeline/words ui/model ui/output ui/page ui/paint ui/sheet", []string{"fyne.io/fyne/v2"}},
	"ui/page/finish":     {"timeline timeline/value timeline/value/report timeline/words ui/model ui/output ui/page ui/paint ui/sheet", []string{"fyne.io/fyne/v2"}},
	"ui/panel":           {"timeline timeline/words storage storage/guard ui/model ui/paint ui/editor ui/sheet", []string{"fyne.io/fyne/v2"}},
	"ui/page/intake":     {"timeline storage/guard ui/grid ui/model ui/paint", []string{"fyne.io/fyne/v2"}},
	"ui/page/data":       {"timeline timeline/compare timeline/value timeline/words storage/table storage/guard ui/model ui/page ui/paint ui/grid ui/sheet", []string{"fyne.io/fyne/v2"}},
	"ui/page/export":     {"timeline timeline/value/report timeline/words storage storage/guard ui/model ui/output ui/page ui/paint ui/sheet", []string{"fyne.io/fyne/v2"}},
	"ui/page/lesson":     {"timeline timeline/exercise timeline/value timeline/words ui/editor ui/model ui/output ui/page ui/paint ui/sheet", []string{"fyne.io/fyne/v2"}},
	"ui/page/exercises":  {"timeline timeline/exercise timeline/value timeline/words storage/table ui/editor ui/model ui/page ui/paint", []string{"fyne.io/fyne/v2"}},
	"ui/page/drill":      {"timeline/odds storage ui/model ui/page ui/paint ui/sheet", []string{"fyne.io/fyne/v2"}},
	"ui":                 {"ui/page/data ui/grid ui/page/drill ui/page/lesson ui/page/export ui/panel ui/model ui/paint ui/page timeline timeline/words timeline/compare timeline/find timeline/odds storage storage/table storage/importer ui/sheet ui/output storage/guard assets ui/editor", []string{"fyne.io/fyne/v2", "golang.org/x/image/"}},
	"ui/editor":          {"timeline timeline/exercise timeline/words ui/model ui/paint ui/sheet storage/guard", []string{"fyne.io/fyne/v2"}},
	"cmd/locale":         {"", []string{"golang.org/x/text/language"}},
	"cmd/systray":        {"", nil},
	"cmd/wakeline":       {"timeline timeline/words timeline/compare timeline/find timeline/odds timeline/value timeline/value/report timeline/patch storage storage/table storage/importer timeline/handout ui ui/sheet ui/output storage/guard assets samples", nil},

	"cmd/charset/html/charset": {"", nil},
}

func TestEachFolderImportsWhatTheHouseAllows(t *testing.T) {
	const root = "../.."
	seen := map[string]bool{}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		rel, err := filepath.Rel(root, filepath.Dir(path))
		if err != nil {
			return err
		}
		folder := filepath.ToSlash(rel)
		allowed, ok := mayImport[folder]
		if !ok {
			t.Errorf("%s: a folder that the house doesn't know", path)
			return nil
		}
		seen[folder] = true
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, spec := range file.Imports {
			name := strings.Trim(spec.Path.Value, `"`)
			if ours, ok := strings.CutPrefix(name, "wakeline/"); ok {
				if !contains(strings.Fields(allowed.ours), ours) && (folder != "ui" || !strings.HasPrefix(ours, "ui/page/") || ours == "ui/page/pagetest") {
					t.Errorf("%s imports %s, which the house forbids to %s", path, name, folder)
				}
				continue
			}
			if first, _, _ := strings.Cut(name, "/"); strings.Contains(first, ".") && !hasPrefix(allowed.others, name) {
				t.Errorf("%s imports %s, which the house forbids to %s", path, name, folder)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for folder := range mayImport {
		if !seen[folder] {
			t.Errorf("no Go file in %s", folder)
		}
	}
}

// TestNoPageKnowsAnother reads the list above, which every import is held to:
// a page knows neither the window nor a page, and no part of the program
// imports what tests of pages have in common.
func TestNoPageKnowsAnother(t *testing.T) {
	const pages, forTests = "ui/page/", "ui/page/pagetest"
	n := 0
	for folder, may := range mayImport {
		isPage := strings.HasPrefix(folder, pages) && folder != forTests
		if isPage {
			n++
		}
		for _, ours := range strings.Fields(may.ours) {
			if ours == forTests || isPage && (ours == "ui" || strings.HasPrefix(ours, pages)) {
				t.Errorf("the list has %s import %s", folder, ours)
			}
		}
	}
	if n == 0 {
		t.Error("there are no pages")
	}
}

func TestTopLevelHoldsTheHouseAlone(t *testing.T) {
	known := strings.Fields("cmd ui timeline storage assets samples go.mod go.sum README.md DEVELOPERS.md FyneApp.toml .ci .git .gitignore wakeline-strip.png")
	entries, err := os.ReadDir("../..")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if !contains(known, e.Name()) {
			t.Errorf("%s at the top level, want only %v", e.Name(), known)
		}
	}
}

func contains(list []string, s string) bool {
	for _, l := range list {
		if l == s {
			return true
		}
	}
	return false
}

func hasPrefix(prefixes []string, s string) bool {
	for _, p := range prefixes {
		if strings.HasPrefix(s, p) {
			return true
		}
	}
	return false
}
