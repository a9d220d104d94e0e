package pagetest

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/paint"
)

// DialogText is all text of the dialog on top.
func (h *Host) DialogText() string {
	top := h.Canvas().Overlays().Top()
	if top == nil {
		return ""
	}
	var b strings.Builder
	for _, o := range test.LaidOutObjects(top) {
		switch o := o.(type) {
		case *widget.Label:
			b.WriteString(o.Text + "\n")
		case *widget.RichText:
			b.WriteString(o.String() + "\n")
		}
	}
	return b.String()
}

// Tap taps the button of that text in the dialog on top.
func (h *Host) Tap(t testing.TB, text string) {
	t.Helper()
	for _, o := range h.dialogs.Top().Buttons() {
		if b, ok := o.(*paint.PushButton); ok && b.Text == text {
			test.Tap(b)
			return
		}
	}
	t.Fatalf("no button %q in the dialog: %s", text, h.DialogText())
}
