// Package editor is the live sheet of the chosen setup: what is selected,
// dragged, dropped and typed on it, the line that scrubs through its frames,
// the lanes of the replies, and playing. It edits the model and paints what
// ui/sheet draws; what stands around it is the panels'.
package editor
