package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A failure of the program's own may end neither the window nor a command that
// others' work depends on. So what runs on a goroutine of its own is started by
// the package guard, and what the toolkit calls begins with a guard.
//
// TestNothingRunsUnguarded reads the packages of the window, the files and the
// program with their types.
func TestNothingRunsUnguarded(t *testing.T) {
	for _, p := range loadAll(t, token.NewFileSet(), "wakeline/ui/...", "wakeline/storage/...", "wakeline/cmd/wakeline") {
		if p.pkg.Path() == "wakeline/storage/guard" {
			continue
		}
		for _, f := range p.unguarded() {
			t.Errorf("%s: %s", p.fset.Position(f.at), f.what)
		}
	}
}

// starters are the functions of others that call what they are given on a
// goroutine of its own.
var starters = map[string]bool{
	"(*sync.WaitGroup).Go": true,
	"time.AfterFunc":       true,
	"context.AfterFunc":    true,
}

// toolkit is what the modules of the toolkit begin with.
const toolkit = "fyne.io/fyne/v2"

// guardReader is a package with its types, and what is known of the functions
// of all packages that were read.
type guardReader struct {
	fset  *token.FileSet
	files []*ast.File
	pkg   *types.Package
	info  *types.Info
	known *knownFuncs
}

// knownFuncs are the functions of ours by their full names.
type knownFuncs struct {
	decls   map[string]*ast.FuncDecl
	reading map[string]bool // those that are being read
}

// loadAll reads packages of ours; what they import comes from the build. All
// share one table of types.
func loadAll(t *testing.T, fset *token.FileSet, patterns ...string) (all []*guardReader) {
	t.Helper()
	out, err := exec.Command("go", append([]string{"list", "-export", "-deps", "-json=ImportPath,Export,Dir,GoFiles,CgoFiles,DepOnly"}, patterns...)...).Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	type listed struct {
		ImportPath, Export, Dir string
		GoFiles, CgoFiles       []string
		DepOnly                 bool
	}
	exports := map[string]string{}
	var ours []listed
	for d := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		exports[p.ImportPath] = p.Export
		if !p.DepOnly {
			ours = append(ours, p)
		}
	}
	if len(ours) == 0 {
		t.Fatal("no packages in", patterns)
	}
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}, Defs: map[*ast.Ident]types.Object{},
		Selections: map[*ast.SelectorExpr]*types.Selection{}}
	known := &knownFuncs{decls: map[string]*ast.FuncDecl{}, reading: map[string]bool{}}
	from := importer.ForCompiler(fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
	for _, of := range ours {
		p := &guardReader{fset: fset, info: info, known: known}
		for _, name := range append(of.GoFiles, of.CgoFiles...) {
			f, err := parser.ParseFile(fset, filepath.Join(of.Dir, name), nil, parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			p.files = append(p.files, f)
		}
		conf := types.Config{Importer: from}
		if p.pkg, err = conf.Check(of.ImportPath, fset, p.files, info); err != nil {
			t.Fatal(err)
		}
		for _, f := range p.files {
			for _, d := range f.Decls {
				if fn, ok := d.(*ast.FuncDecl); ok {
					known.decls[info.Defs[fn.Name].(*types.Func).FullName()] = fn
				}
			}
		}
		all = append(all, p)
	}
	return all
}

// gap is where something runs unguarded.
type gap struct {
	at   token.Pos
	what string
}

func (p *guardReader) unguarded() (out []gap) {
	add := func(at token.Pos, what string, args ...any) { out = append(out, gap{at, fmt.Sprintf(what, args...)}) }
	for _, f := range p.files {
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.GoStmt:
				add(n.Pos(), "a goroutine that is not started by the package guard")
			case *ast.CallExpr:
				callee := p.callee(n)
				if callee == nil {
					break
				}
				if starters[callee.FullName()] && slices.ContainsFunc(n.Args, p.isFunc) {
					add(n.Pos(), "%s: what it starts is not guarded", callee.FullName())
				}
				if fromToolkit(callee.Pkg()) {
					for _, a := range n.Args {
						if p.isFunc(a) && !p.safe(a) {
							add(a.Pos(), "%s is given what is not guarded", callee.FullName())
						}
					}
				}
			case *ast.AssignStmt:
				for i, to := range n.Lhs {
					if len(n.Lhs) == len(n.Rhs) && p.toolkitField(to) && p.isFunc(n.Rhs[i]) && !p.safe(n.Rhs[i]) {
						add(n.Rhs[i].Pos(), "the field %s of the toolkit is given what is not guarded", types.ExprString(to))
					}
				}
			case *ast.KeyValueExpr:
				if p.toolkitField(n.Key) && p.isFunc(n.Value) && !p.safe(n.Value) {
					add(n.Value.Pos(), "the field %s of the toolkit is given what is not guarded", types.ExprString(n.Key))
				}
			}
			return true
		})
	}
	called := p.calledByToolkit()
	for _, f := range p.files {
		for _, d := range f.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok && called[p.info.Defs[fn.Name]] && !p.safeBody(fn.Body) {
				add(fn.Pos(), "the toolkit calls %s, which is not guarded", p.info.Defs[fn.Name].(*types.Func).FullName())
			}
		}
	}
	return out
}

func fromToolkit(p *types.Package) bool { return p != nil && strings.HasPrefix(p.Path(), toolkit) }

// callee is the function or method that a call names, nil for another.
func (p *guardReader) callee(c *ast.CallExpr) *types.Func {
	fun := ast.Unparen(c.Fun)
	if g, ok := fun.(*ast.IndexExpr); ok {
		fun = g.X
	}
	switch f := fun.(type) {
	case *ast.Ident:
		fn, _ := p.info.Uses[f].(*types.Func)
		return fn
	case *ast.SelectorExpr:
		fn, _ := p.info.Uses[f.Sel].(*types.Func)
		return fn
	}
	return nil
}

func (p *guardReader) isFunc(e ast.Expr) bool {
	tv := p.info.Types[e]
	if tv.Type == nil || tv.IsType() || tv.IsNil() || tv.Type.String() == "context.CancelFunc" {
		return false
	}
	_, ok := tv.Type.Underlying().(*types.Signature)
	return ok
}

// toolkitField reports whether e is a field that a struct of the toolkit has.
func (p *guardReader) toolkitField(e ast.Expr) bool {
	var id *ast.Ident
	switch e := e.(type) {
	case *ast.Ident:
		id = e
	case *ast.SelectorExpr:
		id = e.Sel
	default:
		return false
	}
	v, ok := p.info.Uses[id].(*types.Var)
	return ok && v.IsField() && fromToolkit(v.Pkg())
}

// safe reports whether a function that the toolkit is given is guarded.
func (p *guardReader) safe(e ast.Expr) bool {
	switch e := ast.Unparen(e).(type) {
	case *ast.FuncLit:
		return p.safeBody(e.Body)
	case *ast.CallExpr: // guarded(where, do) and its like
		callee := p.callee(e)
		return callee != nil && strings.HasPrefix(strings.ToLower(callee.Name()), "guarded")
	case *ast.Ident:
		return p.safeFunc(p.info.Uses[e])
	case *ast.SelectorExpr:
		return p.safeFunc(p.info.Uses[e.Sel])
	}
	return false
}

func (p *guardReader) safeFunc(o types.Object) bool {
	of, ok := o.(*types.Func)
	if !ok {
		return false
	}
	if fromToolkit(of.Pkg()) {
		return true
	}
	name := of.Origin().FullName()
	fn := p.known.decls[name]
	if fn == nil || fn.Body == nil || p.known.reading[name] { // one that calls itself
		return false
	}
	p.known.reading[name] = true
	defer delete(p.known.reading, name)
	return p.safeBody(fn.Body)
}

// safeBody reports whether a body begins with a guard, or does nothing that
// can fail.
func (p *guardReader) safeBody(b *ast.BlockStmt) bool {
	if len(b.List) == 0 {
		return true
	}
	if d, ok := b.List[0].(*ast.DeferStmt); ok {
		if callee := p.callee(d.Call); callee != nil && strings.HasPrefix(strings.ToLower(callee.Name()), "survive") || p.recovers(d.Call.Fun) {
			return true
		}
	}
	plain := true
	ast.Inspect(b, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			plain = plain && p.plainCall(n)
		case *ast.FuncLit: // it is only made here
			return false
		case *ast.IndexExpr:
			plain = plain && p.plainIndex(n)
		case *ast.SliceExpr, *ast.StarExpr:
			plain = false
		case *ast.TypeAssertExpr:
			plain = false
		case *ast.BinaryExpr:
			if n.Op == token.QUO || n.Op == token.REM {
				if tv := p.info.Types[n.X]; tv.Type != nil {
					if basic, ok := tv.Type.Underlying().(*types.Basic); ok && basic.Info()&types.IsInteger != 0 {
						plain = false
					}
				}
			}
		}
		return plain
	})
	return plain
}

// recovers reports whether e is a function that recovers by itself.
func (p *guardReader) recovers(e ast.Expr) (yes bool) {
	lit, ok := e.(*ast.FuncLit)
	if !ok {
		return false
	}
	ast.Inspect(lit.Body, func(n ast.Node) bool {
		if id, ok := n.(*ast.Ident); ok {
			if b, ok := p.info.Uses[id].(*types.Builtin); ok && b.Name() == "recover" {
				yes = true
			}
		}
		return true
	})
	return yes
}

// plainIndex reports whether an index can't be out of range: that of a map, or
// a constant of an array.
func (p *guardReader) plainIndex(e *ast.IndexExpr) bool {
	of := p.info.Types[e.X]
	if of.Type == nil {
		return false
	}
	switch t := of.Type.Underlying().(type) {
	case *types.Map:
		return true
	case *types.Array:
		return p.info.Types[e.Index].Value != nil
	case *types.Pointer:
		_, array := t.Elem().Underlying().(*types.Array)
		return array && p.info.Types[e.Index].Value != nil
	case *types.Signature:
		return true // of a generic function
	}
	return false
}

// plainCall reports whether a call can't fail: a conversion, a builtin, a
// function of the toolkit, or one of ours that is safe.
func (p *guardReader) plainCall(c *ast.CallExpr) bool {
	if tv := p.info.Types[c.Fun]; tv.IsType() {
		return true
	}
	if id, ok := ast.Unparen(c.Fun).(*ast.Ident); ok {
		if b, ok := p.info.Uses[id].(*types.Builtin); ok {
			return b.Name() != "panic"
		}
	}
	callee := p.callee(c)
	if callee == nil || callee.Pkg() == nil {
		return false
	}
	switch path := callee.Pkg().Path(); {
	case fromToolkit(callee.Pkg()), path == "wakeline/storage/guard", path == "math":
		return true
	}
	return p.safeFunc(callee)
}

// calledByToolkit are the methods by which types of ours implement what the
// toolkit calls.
func (p *guardReader) calledByToolkit() map[types.Object]bool {
	out := map[types.Object]bool{}
	var all []*types.Interface
	for _, imported := range p.pkg.Imports() {
		if !fromToolkit(imported) {
			continue
		}
		for _, name := range imported.Scope().Names() {
			if tn, ok := imported.Scope().Lookup(name).(*types.TypeName); ok && tn.Exported() {
				if i, ok := tn.Type().Underlying().(*types.Interface); ok && i.NumMethods() > 0 {
					all = append(all, i)
				}
			}
		}
	}
	for _, name := range p.pkg.Scope().Names() {
		tn, ok := p.pkg.Scope().Lookup(name).(*types.TypeName)
		if !ok || types.IsInterface(tn.Type()) {
			continue
		}
		t := types.NewPointer(tn.Type())
		for _, i := range all {
			if !types.Implements(t, i) {
				continue
			}
			for k := range i.NumMethods() {
				o, _, _ := types.LookupFieldOrMethod(t, true, p.pkg, i.Method(k).Name())
				if o != nil && o.Pkg() == p.pkg {
					out[o] = true
				}
			}
		}
	}
	return out
}
