package ui

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"wakeline/storage"
	"wakeline/ui/model"
	"wakeline/ui/output"
	"wakeline/ui/page"
	"wakeline/ui/paint"
	"wakeline/ui/sheet"
)

// clipHelper is a program that puts a PNG picture on the desktop's clipboard:
// the window's own holds text only.
type clipHelper struct {
	name string
	args []string
	file bool // it reads the file that pictureEnv names, and not its input
}

// pictureEnv tells a helper where the picture is.
const pictureEnv = "WAKELINE_PICTURE"

// clipHelpers are the helpers that may serve on a system, the best first. env
// asks for a variable of the environment.
func clipHelpers(system string, env func(string) string) (out []clipHelper) {
	switch system {
	case "darwin": // a part of the system
		return []clipHelper{{"osascript", []string{"-e", `set the clipboard to (read (POSIX file (system attribute "` + pictureEnv + `")) as «class PNGf»)`}, true}}
	case "windows": // a part of the system
		return []clipHelper{{"powershell", []string{"-NoProfile", "-NonInteractive", "-STA", "-Command",
			"Add-Type -AssemblyName System.Windows.Forms, System.Drawing; $p = [System.Drawing.Image]::FromFile($env:" + pictureEnv + "); [System.Windows.Forms.Clipboard]::SetImage($p)"}, true}}
	}
	if env("WAYLAND_DISPLAY") != "" {
		out = append(out, clipHelper{name: "wl-copy", args: []string{"--type", "image/png"}})
	}
	if env("DISPLAY") != "" {
		out = append(out, clipHelper{name: "xclip", args: []string{"-selection", "clipboard", "-t", "image/png", "-i"}})
	}
	return out
}

// errNoHelper is why a picture can't be copied where no helper is found.
var errNoHelper = errors.New("no helper program")

// clipPatience is how long a helper may take.
const clipPatience = 10 * time.Second

// clipPicture puts a PNG on the clipboard by the first helper that is there.
func clipPicture(ctx context.Context, helpers []clipHelper, png []byte) error {
	for _, h := range helpers {
		path, err := exec.LookPath(h.name)
		if err != nil {
			continue
		}
		return h.run(ctx, path, png)
	}
	return errNoHelper
}

// run runs the helper at path. Its own outputs are closed to it: xclip goes on
// behind, and would hold them open.
func (h *clipHelper) run(ctx context.Context, path string, png []byte) error {
	ctx, cancel := context.WithTimeout(ctx, clipPatience)
	defer cancel()
	cmd := exec.CommandContext(ctx, path, h.args...)
	if h.file {
		dir, end, err := storage.TempFolder()
		if err != nil {
			return err
		}
		defer end()
		file := filepath.Join(dir, "picture.png")
		if err := os.WriteFile(file, png, 0o600); err != nil {
			return err
		}
		cmd.Env = append(os.Environ(), pictureEnv+"="+file)
	} else {
		cmd.Stdin = bytes.NewReader(png)
	}
	if err := cmd.Run(); err != nil {
		return fmt.Errorf("%s: %w", h.name, err)
	}
	return nil
}

// copies is a page of which a picture or a text can be copied.
type copies interface {
	picture() *output.Made // nil: there is none
	text() string          // empty: there is none
}

// copyScale is how many pixels a unit has in a picture that is copied.
const copyScale = 2

// pictureOf is a drawing as a picture, in the window's theme.
func (w *window) pictureOf(d *sheet.Drawing) *output.Made {
	o := output.Standard()
	o.Theme, o.Scale = paint.Colours().Theme, copyScale
	m, err := o.Of(d, "png")
	if err != nil {
		return nil
	}
	return m
}

// copyPicture puts what is shown on the clipboard as a picture: of a page what
// it shows, else the sheet as it is seen.
func (w *window) copyPicture() {
	var m *output.Made
	switch p, can := w.page.(copies); {
	case can:
		m = p.picture()
	case w.page == nil && w.sheet.Drawing() != nil:
		m = w.pictureOf(w.sheet.Drawing())
	}
	if m == nil {
		w.Note("There is no picture to copy here")
		return
	}
	helpers := clipHelpers(runtime.GOOS, os.Getenv)
	w.Task("Copying the picture", nil, func(at page.Work) error {
		var png bytes.Buffer
		if err := m.Write(&png); err != nil {
			return err
		}
		return clipPicture(at.Context, helpers, png.Bytes())
	}, func(err error) {
		if err != nil {
			w.notCopied(m, err)
			return
		}
		w.Note("The picture is on the clipboard")
	})
}

// notCopied says plainly why a picture is not on the clipboard, and offers to
// save it as a file.
func (w *window) notCopied(m *output.Made, err error) {
	why := "The helper program that should have put it on the clipboard failed (" + err.Error() + ")."
	if errors.Is(err, errNoHelper) {
		why = "The window's own clipboard holds text only. For a picture it asks a helper program: xclip, or wl-copy under Wayland. None of them was found on this machine."
	}
	a := w.Dialogs().Told("The picture was not copied", why+" The picture can be saved as a file instead.")
	a.Button("Close", a.Hide)
	a.Main("Save it as a file…", func() {
		a.Hide()
		w.askPath(asked{title: "Save the picture", dir: w.exportFolder(), name: w.fileName() + ".png", ext: ".png"}, func(path string) {
			if err := storage.Replace(path, m.Write); err != nil {
				w.Dialogs().Fail("The picture could not be saved", err)
				return
			}
			w.Note("Saved " + path)
		})
	})
	a.Show(fyne.NewSize(520, 220), nil)
}

// copyText puts what is shown on the clipboard in words: of a page its words,
// else the setup as Markdown.
func (w *window) copyText() {
	text := ""
	switch p, can := w.page.(copies); {
	case can:
		text = p.text()
	case w.page == nil && w.model.Plan() != nil:
		o := output.Standard()
		o.Source.Project = w.sourceName()
		if m, err := o.Make(w.ownPlan(), "md"); err == nil {
			text = m.Text
		}
	}
	if text == "" {
		w.Note("There are no words to copy here")
		return
	}
	w.app.Clipboard().SetContent(text)
	w.Note(model.CountOf(strings.Count(strings.TrimRight(text, "\n"), "\n")+1, "line") + " of text are on the clipboard")
}

// Note says something in passing: on a page that has a place for it there,
// else at the foot of the window.
func (w *window) Note(text string) {
	if p, ok := w.page.(page.Noting); ok {
		p.Note(text)
		return
	}
	w.status.Hint(text)
}
