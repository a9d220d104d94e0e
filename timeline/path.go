package timeline

import (
	"fmt"
	"regexp"
)

// Path is a place in a project, as a JSON path of the project text (RFC 9535's
// notation): "$.fighters[0].moves[2].startup". It is linked to the place above
// it, so that nothing is written out until an error needs it. nil is the whole
// project.
type Path struct {
	up    *Path
	kind  stepKind
	name  string
	index int
}

type stepKind uint8

const (
	fieldStep stepKind = iota
	itemStep
	setupRoot
	labelRoot
)

// SetupPath is the root of the paths of a setup that is known by its name.
func SetupPath(name string) *Path { return &Path{kind: setupRoot, name: name} }

// LabelPath is the root of the paths of a value outside the project text, such
// as "revision".
func LabelPath(label string) *Path { return &Path{kind: labelRoot, name: label} }

// At is the field of that name in what stands at p.
func (p *Path) At(name string) *Path { return &Path{up: p, name: name} }

// Item is one entry, counted from 0, of the list at p.
func (p *Path) Item(i int) *Path { return &Path{up: p, kind: itemStep, index: i} }

// in is the place of a list of steps below p.
func (p *Path) in(steps []Step) *Path {
	for _, s := range steps {
		if s.Name == "" {
			p = p.Item(s.Index)
		} else {
			p = p.At(s.Name)
		}
	}
	return p
}

var plainName = regexp.MustCompile(`^[A-Za-z_][A-Za-z0-9_]*$`)

// String writes the path: "$.setups[1].delay", `setup "Name": $.delay`.
func (p *Path) String() string {
	switch {
	case p == nil:
		return "$"
	case p.kind == setupRoot:
		return fmt.Sprintf("setup %q: $", p.name)
	case p.kind == labelRoot:
		return p.name
	case p.kind == itemStep:
		return fmt.Sprintf("%v[%d]", p.up, p.index)
	case plainName.MatchString(p.name):
		return fmt.Sprintf("%v.%s", p.up, p.name)
	}
	return fmt.Sprintf("%v[%q]", p.up, p.name)
}

// Step is a field by its name, or an entry of a list by its index where Name is
// empty.
type Step struct {
	Name  string
	Index int
}

// Steps lists the steps from the root to p.
func (p *Path) Steps() []Step {
	if p == nil || p.kind == setupRoot || p.kind == labelRoot {
		return nil
	}
	return append(p.up.Steps(), Step{p.name, p.index})
}

// Setup is the name of the setup that p begins at; false where its root is
// another.
func (p *Path) Setup() (name string, ok bool) {
	for ; p != nil; p = p.up {
		if p.kind == setupRoot {
			return p.name, true
		}
	}
	return "", false
}

// Field is the last field on the way to p, empty where there is none.
func (p *Path) Field() string {
	for ; p != nil; p = p.up {
		if p.kind == fieldStep {
			return p.name
		}
	}
	return ""
}
