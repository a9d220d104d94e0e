// Package patch tells what a patch of the game changed, from one state of the
// move data to another, beyond the setups that package compare tells of: which
// routes link no longer or link now, and which mixes are worth something else.
// It puts all of it in order and into words. Reading setups is its caller's.
package patch
