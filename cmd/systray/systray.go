// Package systray has what the window's toolkit calls for an icon in the
// system's tray. Wakeline has none, so nothing here does anything. It replaces
// the module of the same path, whose calls over D-Bus look methods up by name
// and so keep every method of every type in the program. go.mod names the
// replacement.
package systray

// RunWithExternalLoop would make the icon. It returns what the toolkit calls
// at its start and at its end.
func RunWithExternalLoop(_, _ func()) (start, end func()) { return func() {}, func() {} }

// MenuItem is a line of the icon's menu.
type MenuItem struct {
	ClickedCh chan struct{} // nobody ever clicks
}

// AddMenuItem adds a line to the menu.
func AddMenuItem(_, _ string) *MenuItem { return &MenuItem{} }

// AddMenuItemCheckbox adds a line with a tick to the menu.
func AddMenuItemCheckbox(_, _ string, _ bool) *MenuItem { return &MenuItem{} }

// AddSeparator adds a line between two parts of the menu.
func AddSeparator() {}

// AddSubMenuItem adds a line to the menu of a line.
func (*MenuItem) AddSubMenuItem(_, _ string) *MenuItem { return &MenuItem{} }

// AddSubMenuItemCheckbox adds a line with a tick to the menu of a line.
func (*MenuItem) AddSubMenuItemCheckbox(_, _ string, _ bool) *MenuItem { return &MenuItem{} }

// AddSeparator adds a line between two parts of the menu of a line.
func (*MenuItem) AddSeparator() {}

// Disable makes a line grey.
func (*MenuItem) Disable() {}

// SetIcon gives a line its picture.
func (*MenuItem) SetIcon(_ []byte) {}

// SetTemplateIcon gives a line its picture, of which the system takes the
// shape alone.
func (*MenuItem) SetTemplateIcon(_, _ []byte) {}

// ResetMenu empties the menu.
func ResetMenu() {}

// SetTitle names the icon.
func SetTitle(_ string) {}

// SetIcon gives the icon its picture.
func SetIcon(_ []byte) {}

// SetTemplateIcon gives the icon its picture, of which the system takes the
// shape alone.
func SetTemplateIcon(_, _ []byte) {}

// SetOnTapped says what a click on the icon does.
func SetOnTapped(_ func()) {}
