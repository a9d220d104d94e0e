package main

import (
	"fmt"
	"io"
	"runtime/debug"

	"wakeline/assets"
)

// version prints which build of the program this is.
func version(out, progress io.Writer) int {
	info, _ := debug.ReadBuildInfo()
	return printed(out, progress, versionWords(assets.Version, info)+"\n")
}

// licences prints the licences of the modules and fonts in the program.
func licences(out, progress io.Writer) int { return printed(out, progress, assets.Licences) }

// printed prints text, or says why it can't be.
func printed(out, progress io.Writer, text string) int {
	if _, err := io.WriteString(out, text); err != nil {
		fmt.Fprintf(progress, "wakeline: %v\n", err)
		return exitInvalid
	}
	return exitDone
}

// versionWords is a version with the revision of the sources, where the build
// noted one; info may be nil.
func versionWords(version string, info *debug.BuildInfo) string {
	out := "wakeline " + version
	if info == nil {
		return out
	}
	changed := false
	for _, s := range info.Settings {
		switch s.Key {
		case "vcs.revision":
			out += ", revision " + s.Value[:min(len(s.Value), 12)]
		case "vcs.modified":
			changed = s.Value == "true"
		}
	}
	if changed {
		out += ", with changes"
	}
	return out
}
