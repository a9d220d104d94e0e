package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"wakeline/timeline"
)

// plainWords are names of fields that are words of other things too: of a
// setup, a query, an option of a command, a phase on the sheet, the glossary. They may
// stand elsewhere.
var plainWords = strings.Fields(`name kind air level landing parry gauge travel startup active recovery throw distance knockdown
	midscreen wall frames seconds drop immune armour hitstun guardstun airborne reach damage shift extra apex near far
	prejump deep rate buffer trades on_hit reaction carry health`)

var fieldWord = regexp.MustCompile(`[a-z_]+`)

// TestFieldsAreNamedInTheTableAlone reads the code: what a project text, a
// table or a project file calls a field of a move, jump, rise or ruleset
// stands in no other text of it. The schemas are held against the table by
// tests of their own.
func TestFieldsAreNamedInTheTableAlone(t *testing.T) {
	var names []string
	names = append(names, namesOf(timeline.MoveFields)...)
	names = append(names, namesOf(timeline.JumpFields)...)
	names = append(names, namesOf(timeline.RiseFields)...)
	names = append(names, namesOf(timeline.RulesetFields)...)
	names = slices.DeleteFunc(names, func(name string) bool { return slices.Contains(plainWords, name) })
	if len(names) < 25 {
		t.Fatalf("only %d names to look for: %v", len(names), names)
	}
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		base := filepath.Base(path)
		if err != nil || d.IsDir() || !strings.HasSuffix(base, ".go") || strings.HasSuffix(base, "_test.go") ||
			strings.HasPrefix(base, "fieldtable") || base == "schema.go" {
			return err
		}
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, path, nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			lit, ok := n.(*ast.BasicLit)
			if !ok || lit.Kind != token.STRING {
				return true
			}
			text, _ := strconv.Unquote(lit.Value)
			for _, word := range fieldWord.FindAllString(text, -1) {
				if slices.Contains(names, word) && (word == text || strings.Contains(word, "_")) {
					t.Errorf("%s: %s names the field %s; only its row in the table of fields does", set.Position(lit.Pos()), lit.Value, word)
				}
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Error(err)
	}
}

// namesOf are what a table's fields are called, their parts too.
func namesOf[T any](of []timeline.Field[T]) (out []string) {
	for i := range of {
		out = append(out, of[i].Name)
	}
	for _, f := range timeline.Columns(of) {
		out = append(out, f.Name, f.Column, f.Stored)
	}
	return out
}
