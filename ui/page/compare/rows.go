package compare

import (
	"fmt"

	"wakeline/timeline/patch"
)

// entry is one row of the list: the head of a section, or the at-th thing of
// its kind in it.
type entry struct {
	section patch.Section
	head    bool
	at      int // among the parts, setups, routes or mixes
}

// fill lists the sections that hold anything, and what is in those that are
// not folded.
func (c *Page) fill() {
	c.rows = c.rows[:0]
	d := &c.patch.Day
	counts := d.Counts()
	for _, s := range patch.Sections() {
		if counts[s] == 0 && !(s == patch.Mixes && c.weighing()) {
			continue
		}
		c.rows = append(c.rows, entry{section: s, head: true})
		if !c.open[s] {
			continue
		}
		for _, i := range d.In(s) {
			c.rows = append(c.rows, entry{section: s, at: i})
		}
	}
}

// weighing reports whether the mixes are still to be weighed.
func (c *Page) weighing() bool { return !c.patch.Day.Weighed && c.patch.ToWeigh() > 0 }

// headWords are those of a section's head: how many things it holds.
func (c *Page) headWords(s patch.Section) string {
	if s == patch.Mixes && c.weighing() {
		if c.halted {
			return string(s) + ": not weighed"
		}
		return fmt.Sprintf("%s: weighing, %d of %d setups done", s, c.done, c.patch.ToWeigh())
	}
	return fmt.Sprintf("%s (%d)", s, c.patch.Day.Counts()[s])
}

// turn folds a section, or unfolds it; where its mixes were not weighed, it
// weighs them.
func (c *Page) turn(s patch.Section, open bool) {
	if s == patch.Mixes && c.weighing() {
		if c.halted {
			c.weigh()
		}
		return
	}
	if c.open[s] == open {
		return
	}
	c.open[s] = open
	c.refill(entry{section: s, head: true})
}

// refill lists the rows anew, and chooses that one.
func (c *Page) refill(choose entry) {
	c.fill()
	c.list.lay()
	c.list.UnselectAll()
	for i, r := range c.rows {
		if r == choose {
			c.list.Select(i)
			return
		}
	}
}
