package intake

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"wakeline/ui/model"
	"wakeline/ui/paint"
)

// Mapping lets strange headings be mapped to columns of ours. changed is told of
// each choice.
func Mapping(owner paint.KeyTaker, in *model.Import, changed func()) fyne.CanvasObject {
	const skip = "skip"
	form := container.NewGridWithColumns(2)
	options := []string{skip}
	for _, name := range in.Columns() {
		options = append(options, model.Heading(name))
	}
	for _, h := range in.Strange() {
		key := strings.ToLower(h)
		choice := paint.NewPick(owner, options, nil)
		choice.SetSelectedIndex(slices.Index(in.Columns(), in.Mapping[key]) + 1)
		choice.OnChanged = func(string) {
			defer paint.Survive("The import")
			in.Mapping[key] = model.LeftOut
			if at := choice.SelectedIndex(); at > 0 {
				in.Mapping[key] = in.Columns()[at-1]
			}
			changed()
		}
		name := widget.NewLabel(h)
		name.Truncation = fyne.TextTruncateEllipsis
		form.Add(container.NewGridWithColumns(2, name, choice))
	}
	return form
}
