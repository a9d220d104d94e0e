// Package sheet draws a setup as plain shapes, once, for the screen and for
// files: what is exported is what was seen. It is given a laid-out
// timeline.Scene and says where lines, boxes and texts go; it computes no
// frame of its own and knows no Fyne. Renderers turn a Drawing into PNG and
// SVG here, and into canvas objects in package ui.
package sheet
