package output

import (
	"strings"
	"testing"
)

func TestClipHelpers(t *testing.T) {
	none := func(string) string { return "" }
	x11 := func(name string) string { return map[string]string{"DISPLAY": ":0"}[name] }
	both := func(name string) string {
		return map[string]string{"DISPLAY": ":0", "WAYLAND_DISPLAY": "wayland-0"}[name]
	}
	for _, c := range []struct {
		system string
		env    func(string) string
		want   string
	}{{"linux", none, ""}, {"linux", x11, "xclip"}, {"linux", both, "wl-copy xclip"}, {"freebsd", x11, "xclip"}, {"darwin", none, "osascript"}, {"windows", none, "powershell"}} {
		var got []string
		for _, h := range clipHelpers(c.system, c.env) {
			got = append(got, h.name)
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s: %q, want %q", c.system, got, c.want)
		}
	}
}
