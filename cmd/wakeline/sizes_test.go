package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
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
	"ui":                    "what is left of the window is still being taken apart",
	"ui.window":             "as above",
	"ui/editor.Timeline":    "as above",
	"ui/model.Model":        "as above",
	"ui/model.FileDocument": "all that a document on disk can do",
	"ui/panel.Inspector":    "as above",
	"ui/sheet.pen":          "draws every part of a sheet",
	"storage.File":          "all that can be asked of a project file",
	"storage.Step":          "an edit has a method a kind of row",
	"storage.salvage":       "one pass over a damaged file, a method a table",
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
	for folder, n := range files {
		if n > mostFiles && larger[folder] == "" {
			t.Errorf("%s has %d files, want at most %d", folder, n, mostFiles)
		}
	}
	for name, n := range methods {
		if n > mostMethods && larger[name] == "" {
			t.Errorf("%s has %d methods, want at most %d", name, n, mostMethods)
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
