//go:build !windows

package main

// useConsole does nothing: here every program has the output of what started
// it.
func useConsole() {}
