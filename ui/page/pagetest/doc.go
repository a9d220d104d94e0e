// Package pagetest is a window as tests of pages need it: a host without the
// setups, the sheet and the menu, whose work is done where it is asked for. No
// part of the program imports it.
package pagetest
