package main

import "io"

func window(args []string, progress io.Writer) int { return exitWrong }
