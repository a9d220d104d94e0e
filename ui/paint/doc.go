// Package paint holds what the window's views are made of: the pen that turns
// the shapes of a sheet into the toolkit's objects, the theme, the measure of
// text, small controls, and the guard of everything that the toolkit calls. It
// knows no setup.
package paint
