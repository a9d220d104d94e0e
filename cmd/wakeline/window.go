package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/ui"
)

// window opens the window on the project that args name, or on the sample. A
// file that can't be read is told in the window, which lives on.
func window(args []string, progress io.Writer) int {
	fail := func(format string, args ...any) int {
		fmt.Fprintf(progress, "wakeline: "+format+"\n", args...)
		return exitWrong
	}
	if len(args) > 1 || len(args) == 1 && filepath.Ext(args[0]) != ".json" {
		return fail("expected a command or one project text (.json), got %q; wakeline --help lists the commands", args)
	}
	if runtime.GOOS == "linux" && os.Getenv("DISPLAY") == "" && os.Getenv("WAYLAND_DISPLAY") == "" {
		return fail("expected a display to open the window on; judge and draw work without one")
	}
	var start ui.Start
	if len(args) == 1 {
		start.Path = args[0]
		start.Project, start.Err = open(args[0])
	} else {
		start.Project, start.Err = timeline.ReadText([]byte(samples.Text))
	}
	ui.Run(start)
	return exitDone
}
