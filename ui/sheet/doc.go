// Package sheet draws a setup as plain shapes, once, for the screen and for
// files: what is exported is what was seen. It is given a laid-out words.Scene
// and says where lines, boxes and texts go; it computes no frame of its own and
// knows no toolkit. Its renderers make of a Drawing: package svg an SVG, raster
// a PNG or a GIF, pdf the page of a document; package ui shows it on screen.
package sheet
