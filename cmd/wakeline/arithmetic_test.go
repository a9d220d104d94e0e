package main

import (
	"go/ast"
	"go/token"
	"go/types"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// mayReckon are the functions of ui that may reckon with frames, and why.
var mayReckon = map[string]string{
	"scrub.go line":               "the scrub line bears the frame that a hand has put it on",
	"scrub.go FitMeeting":         "the middle of the overlap comes to the middle of the view",
	"timelinedrag.go dragFillers": "a filler goes past another's middle",

	"space.go SetDistance": "units, not frames: the wall stays where it is",
	"sideview.go hold":     "units, not frames: how far the wall is from the rival",
	"sideview.go Dragged":  "units, not frames: how far a hand has dragged",
}

// notFrames are the fields and functions of the core whose whole numbers are
// no frames: places in lists, and counts of things.
var notFrames = map[string]bool{"Lines": true, "Rises": true, "Line": true, "Rise": true, "Index": true}

// TestTheWindowReckonsNoFrames reads ui with its types. Frames are what the
// whole-number fields and functions of the core give, but for notFrames, and
// what the variables and fields of ui hold that are set from them. What a hand
// does may move them by a step, or hold them within bounds: frames plus or
// minus what is no frames. But no two frames are added or subtracted, and none
// is multiplied or divided; nor is one written that a step has moved, since
// every number shown is the core's. A number made a float first is a place on
// the screen, which is ui's own matter.
func TestTheWindowReckonsNoFrames(t *testing.T) {
	u := loadUI(t)
	used := map[string]bool{}
	for _, f := range u.findings() {
		if mayReckon[f.in] != "" {
			used[f.in] = true
			continue
		}
		t.Errorf("%s: %s %s", u.fset.Position(f.at), f.in, f.what)
	}
	for name := range mayReckon {
		if !used[name] {
			t.Errorf("%s reckons with no frames any more", name)
		}
	}
	if len(u.frames) == 0 {
		t.Error("no variable of ui holds frames: the test reads nothing")
	}
}

// typed are the window's packages with their types.
type typed struct {
	fset  *token.FileSet
	files []*ast.File
	info  types.Info

	// By the place where they are declared, which is one for all packages.
	frames map[string]bool // variables and fields that hold frames
	moved  map[string]bool // those that hold frames a step has moved
}

// loadUI reads the window's packages, but for the drawing and the files to
// take along.
func loadUI(t *testing.T) *typed {
	t.Helper()
	u := &typed{fset: token.NewFileSet(), frames: map[string]bool{}, moved: map[string]bool{}}
	for _, p := range loadAll(t, u.fset, "wakeline/ui/...") {
		switch p.pkg.Path() {
		case "wakeline/ui/sheet", "wakeline/ui/output", "wakeline/storage/guard":
		default:
			if !strings.HasPrefix(p.pkg.Path(), "wakeline/ui/sheet/") {
				u.files = append(u.files, p.files...)
			}
		}
		u.info = *p.info
	}
	return u
}

// place is where an object is declared.
func (u *typed) place(o types.Object) string { return u.fset.Position(o.Pos()).String() }

// finding is where frames are reckoned with.
type finding struct {
	at       token.Pos
	in, what string
}

func (u *typed) findings() (out []finding) {
	for n := -1; n < len(u.frames)+len(u.moved); { // until nothing further is marked
		n = len(u.frames) + len(u.moved)
		for _, f := range u.files {
			ast.Inspect(f, u.mark)
		}
	}
	for _, file := range u.files {
		for _, d := range file.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if !ok {
				continue
			}
			name := filepath.Base(u.fset.Position(fn.Pos()).Filename) + " " + fn.Name.Name
			ast.Inspect(fn, func(n ast.Node) bool {
				if what := u.wrong(n); what != "" {
					out = append(out, finding{n.Pos(), name, what})
				}
				return true
			})
		}
	}
	return out
}

// mark marks the variables and fields that a statement sets.
func (u *typed) mark(n ast.Node) bool {
	set := func(to, from ast.Expr) {
		if field, ok := to.(*ast.SelectorExpr); ok {
			to = field.Sel
		}
		id, ok := to.(*ast.Ident)
		if !ok {
			return
		}
		if o := u.object(id); o != nil && !ofCore(o) {
			if u.holds(from) {
				u.frames[u.place(o)] = true
			}
			if u.isMoved(from) {
				u.moved[u.place(o)] = true
			}
		}
	}
	switch n := n.(type) {
	case *ast.AssignStmt:
		for i := range n.Lhs {
			if len(n.Lhs) == len(n.Rhs) {
				set(n.Lhs[i], n.Rhs[i])
			}
		}
	case *ast.KeyValueExpr:
		set(n.Key, n.Value)
	case *ast.ValueSpec:
		for i := range n.Values {
			set(n.Names[i], n.Values[i])
		}
	}
	return true
}

func (u *typed) object(id *ast.Ident) types.Object {
	if o := u.info.Defs[id]; o != nil {
		return o
	}
	return u.info.Uses[id]
}

// wrong says what n does that only the core may, nothing where it is right.
func (u *typed) wrong(n ast.Node) string {
	sum := func(op token.Token, x, y ast.Expr) string {
		switch op {
		case token.ADD, token.SUB, token.ADD_ASSIGN, token.SUB_ASSIGN:
			if u.holds(x) && u.holds(y) {
				return "adds or subtracts two numbers of frames"
			}
		case token.MUL, token.QUO, token.REM, token.MUL_ASSIGN, token.QUO_ASSIGN, token.REM_ASSIGN:
			if u.holds(x) || u.holds(y) {
				return "multiplies or divides frames"
			}
		}
		return ""
	}
	switch n := n.(type) {
	case *ast.BinaryExpr:
		return sum(n.Op, n.X, n.Y)
	case *ast.AssignStmt:
		return sum(n.Tok, n.Lhs[0], n.Rhs[0])
	case *ast.CallExpr:
		f, ok := n.Fun.(*ast.SelectorExpr)
		if !ok {
			return ""
		}
		o := u.info.Uses[f.Sel]
		if o == nil || o.Pkg() == nil || o.Pkg().Path() != "fmt" && o.Pkg().Path() != "strconv" {
			return ""
		}
		for _, a := range n.Args {
			if u.isMoved(a) {
				return "writes a frame that it has moved itself"
			}
		}
	}
	return ""
}

// holds reports whether e is a whole number of frames.
func (u *typed) holds(e ast.Expr) bool {
	return u.any(e, func(o types.Object) bool { return ofCore(o) || u.frames[u.place(o)] }, nil)
}

// isMoved reports whether e is frames that a step has moved.
func (u *typed) isMoved(e ast.Expr) bool {
	return u.any(e, func(o types.Object) bool { return u.moved[u.place(o)] }, func(sum *ast.BinaryExpr) bool {
		return u.holds(sum.X) || u.holds(sum.Y)
	})
}

// any reports whether e is a whole number that is, or is made of, one that
// passes, or a sum that does.
func (u *typed) any(e ast.Expr, pass func(types.Object) bool, sum func(*ast.BinaryExpr) bool) bool {
	if tv := u.info.Types[e]; tv.Type != nil {
		if b, is := tv.Type.Underlying().(*types.Basic); !is || b.Info()&types.IsInteger == 0 || tv.Value != nil {
			return false
		}
	}
	switch e := e.(type) {
	case *ast.ParenExpr:
		return u.any(e.X, pass, sum)
	case *ast.UnaryExpr:
		return u.any(e.X, pass, sum)
	case *ast.BinaryExpr:
		return sum != nil && sum(e) || u.any(e.X, pass, sum) || u.any(e.Y, pass, sum)
	case *ast.Ident:
		o := u.object(e)
		return o != nil && pass(o)
	case *ast.SelectorExpr:
		o := u.info.Uses[e.Sel]
		return o != nil && pass(o)
	case *ast.CallExpr:
		switch f := e.Fun.(type) {
		case *ast.SelectorExpr:
			o := u.info.Uses[f.Sel]
			return o != nil && pass(o)
		case *ast.Ident:
			if _, own := u.info.Uses[f].(*types.Func); own {
				return false
			}
			return slices.ContainsFunc(e.Args, func(a ast.Expr) bool { return u.any(a, pass, sum) }) // min, max, int
		}
	}
	return false
}

// ofCore reports whether a field or function of the core gives frames.
func ofCore(o types.Object) bool {
	return o.Pkg() != nil && strings.HasPrefix(o.Pkg().Path(), "wakeline/timeline") && !notFrames[o.Name()]
}
