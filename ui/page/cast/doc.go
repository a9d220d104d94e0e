// Package cast is the page that shows the setups of one fighter against every
// rival: where each holds, and the fewest that hold against all. It leaves the
// judging to the model.
package cast
