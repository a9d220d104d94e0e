package main

import (
	"runtime/debug"
	"strings"
	"testing"

	"wakeline/assets"
)

func TestVersion(t *testing.T) {
	code, out, progress := runIt(t, "--version")
	if code != 0 || !strings.HasPrefix(out, "wakeline "+assets.Version) || !strings.HasSuffix(out, "\n") || strings.Count(out, "\n") != 1 || progress != "" {
		t.Errorf("--version = %d, %q, %q, want wakeline %s", code, out, progress, assets.Version)
	}
	built := func(settings ...string) *debug.BuildInfo {
		info := &debug.BuildInfo{}
		for i := 0; i < len(settings); i += 2 {
			info.Settings = append(info.Settings, debug.BuildSetting{Key: settings[i], Value: settings[i+1]})
		}
		return info
	}
	for _, c := range []struct {
		info *debug.BuildInfo
		want string
	}{
		{nil, "wakeline 1.2"},
		{built(), "wakeline 1.2"},
		{built("vcs.revision", "0123456789abcdef0123", "vcs.modified", "false"), "wakeline 1.2, revision 0123456789ab"},
		{built("vcs.revision", "0123", "vcs.modified", "true"), "wakeline 1.2, revision 0123, with changes"},
	} {
		if got := versionWords("1.2", c.info); got != c.want {
			t.Errorf("version of %v = %q, want %q", c.info, got, c.want)
		}
	}
}
