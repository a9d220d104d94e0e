package paint

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"wakeline/timeline/words"
	"wakeline/ui/sheet"
)

// TestOnlyWhatIsInViewIsPainted: what scrolls by is not among the objects.
func TestOnlyWhatIsInViewIsPainted(t *testing.T) {
	test.NewTempApp(t)
	s := NewScrolledSheet(func(wide float64) *sheet.Drawing { return sheet.DrawGlossary(words.Glossary(), "Glossary", wide) })
	w := test.NewTempWindow(t, s.Box)
	w.Resize(fyne.NewSize(1280, 800))
	painted := func() int { return len(test.WidgetRenderer(s).Objects()) }
	top := painted()
	if all := len(s.Drawing.Shapes); top == 0 || top > all*2/3 {
		t.Errorf("%d objects of %d shapes", top, all)
	}
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	if painted() == 0 || s.Scroll.Offset.Y < s.High()-s.Scroll.Size().Height-1 {
		t.Errorf("the end shows %d objects at %g of %g", painted(), s.Scroll.Offset.Y, s.High())
	}
}
