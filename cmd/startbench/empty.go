//go:build ignore

// An empty window of the toolkit, to measure Wakeline's start beside.
package main

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/widget"
)

func main() {
	w := app.NewWithID("org.wakeline.empty").NewWindow("Empty")
	w.SetContent(widget.NewLabel("Empty"))
	w.Resize(fyne.NewSize(1280, 800))
	w.CenterOnScreen()
	w.ShowAndRun()
}
