package main

import (
	"os"
	"syscall"
)

// useConsole has the program print to the console that it was started from.
// Windows gives a program without a console of its own no output but what its
// caller redirects to a file or a pipe; that stays as it is.
func useConsole() {
	const parent = ^uintptr(0)
	missing := func(handle int) bool {
		h, err := syscall.GetStdHandle(handle)
		if err != nil || h == 0 || h == syscall.InvalidHandle {
			return true
		}
		_, err = syscall.GetFileType(h)
		return err != nil
	}
	out, problems, in := missing(syscall.STD_OUTPUT_HANDLE), missing(syscall.STD_ERROR_HANDLE), missing(syscall.STD_INPUT_HANDLE)
	if !out && !problems {
		return
	}
	got, _, err := syscall.NewLazyDLL("kernel32.dll").NewProc("AttachConsole").Call(parent)
	if got == 0 && err != syscall.ERROR_ACCESS_DENIED { // which says that it has one already
		return // it was not started from a console
	}
	open := func(to **os.File, name string, missing bool) {
		if !missing {
			return
		}
		if f, err := os.OpenFile(name, os.O_RDWR, 0); err == nil {
			*to = f
		}
	}
	open(&os.Stdout, "CONOUT$", out)
	open(&os.Stderr, "CONOUT$", problems)
	open(&os.Stdin, "CONIN$", in)
}
