//go:build race

package main

// raced: these tests run with the race detector; so does the program that they
// build, then.
const raced = true
