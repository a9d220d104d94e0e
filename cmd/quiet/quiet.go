// Package quiet holds the standard logger's tongue while the program starts:
// the window's toolkit looks for the user's language then, also for commands
// that open no window, and would complain on standard error of a locale such
// as C that names none. Go initialises packages that are ready in the order of
// their import paths, so this one is a module of its own with a path that
// comes before the toolkit's.
package quiet

import (
	"io"
	"log"
	"os"
)

func init() { log.SetOutput(io.Discard) }

// End gives the logger its voice back.
func End() { log.SetOutput(os.Stderr) }
