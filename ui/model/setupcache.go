package model

import "wakeline/timeline"

// mostKept is how many setups of a file are kept in memory.
const mostKept = 512

// setupCache keeps the setups that were read last, by row number.
type setupCache struct {
	setups map[int64]timeline.Setup
	order  []int64 // the ring of those kept
	next   int     // of the ring, the oldest
}

func (c *setupCache) get(id int64) (timeline.Setup, bool) {
	s, ok := c.setups[id]
	return s, ok
}

func (c *setupCache) put(id int64, s timeline.Setup) {
	if c.setups == nil {
		c.setups = map[int64]timeline.Setup{}
	}
	if _, ok := c.setups[id]; !ok {
		if len(c.order) < mostKept {
			c.order = append(c.order, id)
		} else {
			delete(c.setups, c.order[c.next])
			c.order[c.next] = id
			c.next = (c.next + 1) % mostKept
		}
	}
	c.setups[id] = s
}

// drop forgets a setup; its place in the ring stays until its turn.
func (c *setupCache) drop(id int64) { delete(c.setups, id) }
