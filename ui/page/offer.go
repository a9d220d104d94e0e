package page

import (
	"slices"

	"wakeline/ui/paint"
)

// OfferNames offers names. What is chosen of them stays; else want is chosen,
// or, where that is empty, otherwise.
func OfferNames(at *paint.Pick, names []string, want, otherwise string) {
	at.SetOptions(names)
	if slices.Contains(names, at.Selected) {
		return
	}
	if want == "" {
		want = otherwise
	}
	at.SetSelected(want)
}
