// Package charset reads the encodings that an icon drawn as SVG may be in. It
// replaces the package of the same path, of which the window's toolkit needs
// nothing else, and which brings the tables of every encoding of East Asian
// text into the program. go.mod names the replacement.
package charset

import (
	"fmt"
	"io"
	"strings"
)

// NewReaderLabel returns a reader of what r holds as UTF-8, where the encoding
// of r is label. All icons of the toolkit and of Wakeline are in UTF-8; another
// encoding is an error.
func NewReaderLabel(label string, r io.Reader) (io.Reader, error) {
	switch strings.ToLower(strings.TrimSpace(label)) {
	case "utf-8", "utf8", "us-ascii", "ascii":
		return r, nil
	}
	return nil, fmt.Errorf("encoding %q: expected UTF-8", label)
}
