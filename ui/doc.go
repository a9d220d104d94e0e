// Package ui is the window: it shows a project's setups, draws the chosen one
// as a live sheet, and sends a hand's edits to the model. It computes no
// frame: plans, verdicts and scenes come from package timeline, the drawing
// from ui/sheet, and reading and writing a project's text from timeline.
//
// The model (model.go, edit.go) is plain Go without Fyne; the widgets read it,
// change it through its edits, and redraw when it tells them to.
package ui
