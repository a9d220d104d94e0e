package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"wakeline/samples"
	"wakeline/storage"
	"wakeline/timeline"
	"wakeline/ui"
)

// window opens the window on the project that args name; without one on the
// project that was open last, or on the sample. A file that can't be opened is
// told in the window, which lives on.
func window(args []string, progress io.Writer) int {
	fail := func(format string, args ...any) int {
		fmt.Fprintf(progress, "wakeline: "+format+"\n", args...)
		return exitInvalid
	}
	if !opensWindow(args) {
		return fail("expected a command, one project file (%s) or one project text (.json), got %q; wakeline --help lists the commands", storage.Ext, args)
	}
	if runtime.GOOS == "linux" && os.Getenv("DISPLAY") == "" && os.Getenv("WAYLAND_DISPLAY") == "" {
		return fail("expected a display to open the window on; judge and draw work without one")
	}
	var start ui.Start
	start.Sample, start.Err = timeline.ReadText(samples.Text)
	if len(args) == 1 {
		start.Path = args[0]
	}
	ui.Run(start)
	return exitDone
}

// opensWindow reports whether args ask for the window.
func opensWindow(args []string) bool {
	return len(args) == 0 || len(args) == 1 && isProject(args[0])
}

// isProject reports whether path is named like a project.
func isProject(path string) bool {
	ext := strings.ToLower(filepath.Ext(path))
	return ext == storage.Ext || ext == ".json"
}
