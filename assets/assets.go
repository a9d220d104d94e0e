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

// Icon is the program's icon, a PNG of 512 by 512 made from icon.svg.
//
//go:embed icon.png
var Icon []byte

// ProjectSchema is a JSON Schema (2020-12) of the project text. Whatever
// timeline.ReadText takes, it takes too.
//
//go:embed project.schema.json
var ProjectSchema []byte

// Licences are the licences of every module and font that the program is built
// of. cmd/package/licences.sh collects them.
//
//go:embed licences.txt
var Licences string
