package output

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"time"

	"wakeline/storage"
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

// ErrNoClipboard is why a picture can't be copied where no helper is found.
var ErrNoClipboard = errors.New("no helper program")

// clipPatience is how long a helper may take.
const clipPatience = 10 * time.Second

// ToClipboard puts a PNG on the clipboard by the first helper that is there.
func ToClipboard(ctx context.Context, png []byte) error {
	for _, h := range clipHelpers(runtime.GOOS, os.Getenv) {
		path, err := exec.LookPath(h.name)
		if err != nil {
			continue
		}
		return h.run(ctx, path, png)
	}
	return ErrNoClipboard
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
