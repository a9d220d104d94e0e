package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
)

// The toolkit has nothing to do when the window's loop ends, and what was
// changed last is saved all the same.
func TestSaveAtEnd(t *testing.T) {
	before := fyne.CurrentApp()
	dir, err := os.MkdirTemp("", "wakeline") // not the test's own, as the toolkit's watch of its settings may outlive it
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		for range 20 { // the watch makes the folder again when it goes
			os.RemoveAll(dir)
			time.Sleep(50 * time.Millisecond)
			if _, err := os.Stat(dir); err != nil {
				return
			}
		}
	})
	t.Setenv("HOME", dir)
	t.Setenv("XDG_CONFIG_HOME", dir)
	a := app.NewWithID("org.wakeline.test")
	defer fyne.SetCurrentApp(before)
	l := a.Lifecycle().(interface{ OnStopped() func() })
	if l.OnStopped() == nil {
		t.Fatal("the toolkit saves nothing at the end any more: saveAtEnd may go")
	}
	save := saveAtEnd(a)
	if l.OnStopped() != nil {
		t.Error("the toolkit still waits for what its loop may never do")
	}
	a.Preferences().SetString("first", "one")
	a.Preferences().SetString("second", "two") // so soon after the first that it waits
	held := func() string {
		text, err := os.ReadFile(filepath.Join(dir, "fyne", "org.wakeline.test", "preferences.json"))
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	if strings.Contains(held(), "two") {
		t.Fatalf("saved at once: %s", held())
	}
	if save(); !strings.Contains(held(), "two") {
		t.Errorf("the preferences hold %s", held())
	}
}
