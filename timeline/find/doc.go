// Package find looks for setups: from an ender, a position and a rival, or
// several at once, the fillers, the counted wait, the jump and the attack that
// make a safe jump.
//
// A verdict hangs on the frame J on which the jump starts, however the time
// before it is filled. So each jump and attack is compiled once, without
// fillers; the core's window is the set of good starts; and a search is for
// sequences whose frames add up to one of them. How many there are is counted
// by dynamic programming, exactly; the best are drawn in rank order from the
// table of frames that still remain, without listing the rest.
//
// How likely a hand is to time a wait is asked of a Hand; judging is left to
// the core, and what is shown of an answer to others.
package find
