package table

import (
	"bytes"
	"fmt"
	"io"
)

// MatrixRow is one line of a table of numbers.
type MatrixRow struct {
	Name  string
	Cells []string // numbers
}

// WriteMatrix writes a table of numbers whose rows and columns have names, which
// are guarded as those of Replies are. The first heading is that of the rows'
// names.
func WriteMatrix(w io.Writer, head []string, rows []MatrixRow) error {
	var out bytes.Buffer
	to := newRows(&out)
	names := make([]string, len(head))
	for i := range head {
		names[i] = Guarded(head[i])
	}
	err := to.write(names)
	for i := 0; i < len(rows) && err == nil; i++ {
		err = to.write(append([]string{Guarded(rows[i].Name)}, rows[i].Cells...))
	}
	if err == nil {
		_, err = w.Write(out.Bytes())
	}
	if err != nil {
		return fmt.Errorf("table: %w", err)
	}
	return nil
}
