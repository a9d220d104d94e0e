package main

import "flag"

// given reports whether the flag of that name was said.
func given(flags *flag.FlagSet, name string) (said bool) {
	flags.Visit(func(f *flag.Flag) { said = said || f.Name == name })
	return said
}
