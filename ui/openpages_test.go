package ui

import "testing"

func TestFindWithoutASetup(t *testing.T) {
	w := open(t, nil, laptop)
	w.showFind()
	if w.page != nil || w.Canvas().Overlays().Top() == nil {
		t.Error("a search without a setup says nothing")
	}
}
