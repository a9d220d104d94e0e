// Package ui is the window: it shows a project's setups, draws the chosen one
// as a live sheet, and sends a hand's edits to the model. It computes no
// frame: plans, verdicts, scenes and comparisons come from package timeline,
// the drawing from ui/sheet, and files from storage.
//
// The model (model.go, edit.go) is plain Go without Fyne; the widgets read it,
// change it through its edits, and redraw when it tells them to. Behind it
// stands a Document: a project in memory, which is saved when asked, or a
// project file, in which every edit is on disk before the next.
package ui
