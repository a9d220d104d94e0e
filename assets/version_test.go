package assets_test

import (
	"os"
	"strings"
	"testing"

	"wakeline/assets"
)

// The version stands in FyneApp.toml, which packaging reads.
func TestVersionIsThatOfThePackage(t *testing.T) {
	text, err := os.ReadFile("../FyneApp.toml")
	if err != nil {
		t.Fatal(err)
	}
	if want := `Version = "` + assets.Version + `"`; assets.Version == "" || !strings.Contains(string(text), want) {
		t.Errorf("FyneApp.toml lacks %s:\n%s", want, text)
	}
}
