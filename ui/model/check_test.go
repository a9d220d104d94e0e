package model

import (
	"path/filepath"
	"testing"

	"wakeline/storage"
	"wakeline/timeline"
)

// TestAFileThatIsCheckedWaitsWithItsEdits refuses an edit while the file is
// checked, in place of holding the window until the check ends.
func TestAFileThatIsCheckedWaitsWithItsEdits(t *testing.T) {
	f, err := storage.Create(filepath.Join(t.TempDir(), "one.wakeline"), nil)
	if err != nil {
		t.Fatal(err)
	}
	d, err := NewDocument(f)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	d.checking = true
	m, why := NewModel(d), ""
	m.OnRefuse = func(words string) { why = words }
	add := func() error {
		return m.Apply("new fighter", timeline.FighterEdit{Fighter: &timeline.Fighter{Name: "Brenno", Rises: []timeline.Rise{{Name: "normal"}}}})
	}
	if err := add(); err != ErrHeld || why != d.ReadOnly() || why == "" {
		t.Errorf("while it is checked: %v, %q", err, why)
	}
	d.EndCheck()
	if err := add(); err != nil || d.ReadOnly() != "" {
		t.Errorf("after that: %v, %q", err, d.ReadOnly())
	}
}
