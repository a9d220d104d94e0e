// Package samples holds the demo project: an invented game in which a
// ferryman, a lock-keeper and a miller spar on the lock gate for the right to
// set the water. Fighters, moves and numbers are made up for it. Its tests
// hold the verdict of every setup to one worked out by hand.
package samples

import _ "embed"

// Text is the demo as a project text, the bytes that timeline.WriteText gives.
//
//go:embed sample.json
var Text []byte
