package panel

import (
	"errors"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/paint"
)

// RisePicks are the rises of the rival, ticked where the setup claims them.
type RisePicks struct {
	n    *Inspector
	Row  *InspectorRow
	of   []string
	All  []*riseTick
	list *fyne.Container
}

func newRisePicks(n *Inspector, r *InspectorRow) *RisePicks {
	return &RisePicks{n: n, Row: r, list: container.NewVBox()}
}

func (p *RisePicks) Object() fyne.CanvasObject { return p.list }

// update ticks the rises claimed.
func (p *RisePicks) update(bool) (moved bool) {
	s := p.n.model.Setup()
	var names []string
	if rival := p.n.model.Data().Fighter(s.Rival); rival != nil {
		for i := range rival.Rises {
			names = append(names, rival.Rises[i].Name)
		}
	}
	if !slices.Equal(names, p.of) {
		p.of, p.All, moved = names, nil, true
		p.list.Objects = nil
		for _, name := range names {
			c := newRiseTick(p, name)
			p.All = append(p.All, c)
			p.list.Add(c)
		}
	}
	for i, c := range p.All {
		if on := len(s.Rises) == 0 || slices.Contains(s.Rises, p.of[i]); on != c.Checked {
			c.Checked = on
			c.Refresh()
		}
	}
	return moved
}

// claim claims the rises that are ticked; all of them is none in particular.
func (p *RisePicks) claim() {
	defer paint.Survive("The field Rises")
	var names []string
	for i, c := range p.All {
		if c.Checked {
			names = append(names, p.of[i])
		}
	}
	if len(names) == 0 {
		p.Row.refuse(errors.New("a setup claims at least one rise"))
		p.update(false)
		return
	}
	if len(names) == len(p.of) {
		names = nil
	}
	s := p.n.model.Setup()
	s.Rises = names
	p.Row.refuse(p.n.model.Change(s))
	p.update(false)
}

// riseTick is one rise; Escape gives the keys back.
type riseTick struct {
	widget.Check
	n *Inspector
}

func newRiseTick(p *RisePicks, name string) *riseTick {
	t := &riseTick{n: p.n}
	t.ExtendBaseWidget(t)
	t.Text, t.OnChanged = name, func(bool) { p.claim() }
	return t
}

// TypedKey implements fyne.Focusable.
func (t *riseTick) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The rises")
	if ev.Name == fyne.KeyEscape {
		t.n.OnLeave()
		return
	}
	t.Check.TypedKey(ev)
}
