package paint

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// TestARowSelectedBeforeThereIsRoomIsInSight selects a row as a page does that is
// being made, which asks for its least size before it is laid out.
func TestARowSelectedBeforeThereIsRoomIsInSight(t *testing.T) {
	for _, chosen := range []int{0, 7, 99} {
		a := test.NewTempApp(t)
		l := &RowList{}
		l.ExtendBaseWidget(l)
		l.Length = func() int { return 100 }
		l.CreateItem = func() fyne.CanvasObject { return widget.NewLabel("") }
		l.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) {}
		box := container.NewStack(l)
		box.MinSize()
		l.Select(chosen)
		w := a.NewWindow("")
		w.SetContent(box)
		w.Resize(fyne.NewSize(300, 200))
		w.Show()
		row := widget.NewLabel("").MinSize().Height
		y := float32(chosen) * (row + a.Settings().Theme().Size("padding"))
		if at := l.GetScrollOffset(); y < at || y+row > at+l.Size().Height+1 {
			t.Errorf("row %d lies at %v to %v, the list shows %v to %v", chosen, y, y+row, at, at+l.Size().Height)
		}
		w.Close()
	}
}
