// Package compare is the page of what changed from one revision of the move
// data to another, in sections that fold: the move data, setups, routes and
// mixes, each with the setups concerned before and after. What changed, and by
// what, is for timeline/compare and timeline/patch to say.
package compare
