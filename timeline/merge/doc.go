// Package merge lays two projects side by side, thing by thing, and makes one
// of both by what was chosen for each. It reads and writes no file.
package merge
