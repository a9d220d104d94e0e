// Package assets holds the files that are built into the program: fonts, the
// icon, and the schema of the project text. It computes nothing.
package assets

import _ "embed"

// NotoSans and NotoSansBold are the fonts of the window and of every picture,
// in TrueType, under the SIL Open Font License 1.1 that stands beside them.
var (
	//go:embed fonts/NotoSans-Regular.ttf
	NotoSans []byte
	//go:embed fonts/NotoSans-Bold.ttf
	NotoSansBold []byte
)
