// Package compare is the page of what changed from one revision of the move
// data to another: which setups, and each before and after. What changed, and
// by what, is for timeline/compare to say.
package compare
