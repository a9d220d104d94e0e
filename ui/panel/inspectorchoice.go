package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/paint"
)

// Choice is a value that is chosen from a list, which is made when it is asked
// for.
type Choice struct {
	widget.Select
	n       *Inspector
	show    func() string
	options func() []string
}

// choice makes a row of one.
func (n *Inspector) choice(label string, show func() string, options func() []string, put func(string) error) *InspectorRow {
	return n.row(label, func(r *InspectorRow) rowField {
		c := &Choice{n: n, show: show, options: options}
		c.ExtendBaseWidget(c)
		c.PlaceHolder = "choose"
		c.OnChanged = func(chosen string) {
			defer paint.Survive("The choice")
			if n.filling {
				return
			}
			defer paint.Survive("The field " + label)
			r.refuse(put(chosen))
			c.update(false)
		}
		return c
	})
}

func (c *Choice) Object() fyne.CanvasObject { return c }

func (c *Choice) update(bool) bool {
	if v := c.show(); v != c.Selected {
		c.Selected = v
		c.Refresh()
	}
	return false
}

func (c *Choice) Fill() {
	c.Options = c.options()
}

// Tapped shows the list.
func (c *Choice) Tapped(ev *fyne.PointEvent) {
	defer paint.Survive("The choice")
	c.Fill()
	c.Select.Tapped(ev)
}

// TypedKey shows the list, or chooses the one before or after.
func (c *Choice) TypedKey(ev *fyne.KeyEvent) {
	defer paint.Survive("The choice")
	if ev.Name == fyne.KeyEscape {
		c.n.OnLeave()
		return
	}
	c.Fill()
	c.Select.TypedKey(ev)
}

// FocusGained brings the field into view.
func (c *Choice) FocusGained() {
	defer paint.Survive("The choice")
	c.Select.FocusGained()
	c.n.reveal(c)
}
