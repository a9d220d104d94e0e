package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A package is small enough to hold in the head, and so is a type.
const (
	mostFiles   = 40
	mostMethods = 30
)

// larger are the packages and types that are larger, and why.
var larger = map[string]string{
	"ui.window":          "every command of the menus is a method of it, in a file for each kind",
	"ui/editor.Timeline": "every gesture on the sheet reads and changes one state: what is held, selected and in view",
	"ui/model.Model":     "an edit of the chosen setup is a method, so that each goes through Change",
	"ui/model.Document":  "all that can be asked of an open project",
	"ui/panel.Inspector": "a method for each kind of row",
	"ui/sheet.pen":       "draws every part of a sheet",
	"timeline":           "where both stand hangs on the tracks, and on what meets them",
	"timeline.Layout":    "all that is told of a setup laid out on tracks",
	"storage.File":       "all that can be asked of a project file",
	"storage.Step":       "an edit has a method a kind of row",
	"storage.salvage":    "one pass over a damaged file, a method a table",
}

func TestPackagesAndTypesFitInTheHead(t *testing.T) {
	const root = "../.."
	files, methods := map[string]int{}, map[string]int{}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		rel, err := filepath.Rel(root, filepath.Dir(path))
		if err != nil {
			return err
		}
		folder := filepath.ToSlash(rel)
		files[folder]++
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		for _, decl := range file.Decls {
			if f, ok := decl.(*ast.FuncDecl); ok && f.Recv != nil {
				methods[folder+"."+receiver(f.Recv.List[0].Type)]++
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	over := map[string]bool{}
	for folder, n := range files {
		if over[folder] = n > mostFiles; over[folder] && larger[folder] == "" {
			t.Errorf("%s has %d files, want at most %d", folder, n, mostFiles)
		}
	}
	for name, n := range methods {
		if over[name] = n > mostMethods; over[name] && larger[name] == "" {
			t.Errorf("%s has %d methods, want at most %d", name, n, mostMethods)
		}
	}
	for name := range larger {
		if !over[name] {
			t.Errorf("%s needs no reason any more", name)
		}
	}
	if files["timeline"] == 0 || methods["timeline.Plan"] == 0 {
		t.Errorf("%d files of the core, %d methods of its plan: nothing was read", files["timeline"], methods["timeline.Plan"])
	}
}

// receiver is the name of a method's type.
func receiver(of ast.Expr) string {
	switch x := of.(type) {
	case *ast.StarExpr:
		return receiver(x.X)
	case *ast.IndexExpr:
		return receiver(x.X)
	case *ast.IndexListExpr:
		return receiver(x.X)
	case *ast.Ident:
		return x.Name
	}
	return "?"
}

// A widget of our own says in DEVELOPERS.md why the toolkit's doesn't do.
func TestHouseSaysWhyAWidgetIsOurOwn(t *testing.T) {
	guide, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	_, reasons, _ := strings.Cut(string(guide), "## Widgets of our own, and why")
	reasons, _, _ = strings.Cut(reasons, "\n## ")
	named, own := map[string]bool{}, map[string]bool{}
	for i, word := range strings.Split(reasons, "`") {
		named[word] = named[word] || i%2 == 1
	}
	err = filepath.WalkDir("../../ui", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if spec, ok := n.(*ast.TypeSpec); ok && ofToolkit(spec.Type) {
				if own[spec.Name.Name] = true; !named[spec.Name.Name] {
					t.Errorf("%s: %s is a widget of our own: name it under \"Widgets of our own, and why\" in DEVELOPERS.md", path, spec.Name.Name)
				}
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for name := range named {
		if named[name] && !own[name] {
			t.Errorf("DEVELOPERS.md gives a reason for %s, which is no widget of our own", name)
		}
	}
	if !own["Timeline"] || !own["PushButton"] {
		t.Errorf("%d widgets were found, without Timeline or PushButton", len(own))
	}
}

// painted are the types on which the widgets that a pen paints are built.
var painted = map[string]bool{"Painted": true, "Keyed": true, "Row": true}

// ofToolkit reports whether a struct is made of one of the toolkit's widgets.
func ofToolkit(of ast.Expr) bool {
	s, ok := of.(*ast.StructType)
	if !ok {
		return false
	}
	for _, f := range s.Fields.List {
		if len(f.Names) > 0 {
			continue
		}
		if sel, ok := f.Type.(*ast.SelectorExpr); ok {
			if pkg, ok := sel.X.(*ast.Ident); ok && (pkg.Name == "widget" || pkg.Name == "paint" && painted[sel.Sel.Name]) {
				return true
			}
		}
		if id, ok := f.Type.(*ast.Ident); ok && painted[id.Name] { // in the package paint
			return true
		}
	}
	return false
}
