package storage

import (
	"context"
	"fmt"
	"io"
	"os"
)

// OpenRegular opens the file at path to read it. What is no regular file is an
// error at once: to open a pipe would wait for somebody to write into it.
func OpenRegular(path string) (*os.File, error) {
	info, err := os.Stat(path)
	if err == nil {
		err = checkRegular(info)
	}
	if err != nil {
		return nil, fmt.Errorf("open %s: %w", path, withoutPath(err))
	}
	return os.Open(path)
}

// checkRegular asks that info is that of a regular file.
func checkRegular(info os.FileInfo) error {
	got := "something else"
	switch mode := info.Mode(); {
	case mode.IsRegular():
		return nil
	case mode.IsDir():
		got = "a folder"
	case mode&os.ModeNamedPipe != 0:
		got = "a named pipe"
	case mode&os.ModeSocket != 0:
		got = "a socket"
	case mode&os.ModeDevice != 0:
		got = "a device"
	case mode&os.ModeSymlink != 0:
		got = "a link"
	}
	return fmt.Errorf("expected a file, got %s", got)
}

// withoutPath is a system's error without the call and the path it failed for.
func withoutPath(err error) error {
	if e, ok := err.(*os.PathError); ok {
		return e.Err
	}
	return err
}

// copyFile copies a file to a new one that only its owner may read.
func copyFile(ctx context.Context, from, to string) error {
	in, err := OpenRegular(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	if _, err := io.Copy(out, untilDone{ctx, in}); err != nil {
		out.Close()
		return err
	}
	return out.Close()
}

// untilDone is a reader that fails once its context has ended.
type untilDone struct {
	ctx context.Context
	io.Reader
}

// Read implements io.Reader.
func (r untilDone) Read(b []byte) (int, error) {
	if err := r.ctx.Err(); err != nil {
		return 0, err
	}
	return r.Reader.Read(b)
}
