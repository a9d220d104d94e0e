// Package model is the window's state, without the window: the open document,
// the setup chosen of it with its verdict, edits and undo, what a search of the
// list finds, comparisons, and imports. It knows no toolkit and no pixel; what
// shows it observes it.
package model
