package storage

import (
	"encoding/binary"
	"fmt"
	"os"
	"path/filepath"
)

// A file's table of contents (sqlite_schema: page 1, and the pages it points
// to) says on which page each table begins. Where it is damaged nothing can be
// read, though all else may be whole. But every project file is made by the
// same statements, so that of a new file fits, as long as it was never compacted
// and never migrated with data in it; and that of a new file, compacted, fits
// one that was.

// mendContents gives the file at path the table of contents of a new file,
// and reports whether that fits. page 1 apart, no page is overwritten.
func mendContents(path, folder string, compacted bool) error {
	fresh := filepath.Join(folder, "fresh"+Ext)
	defer os.Remove(fresh)
	if err := os.WriteFile(fresh, nil, 0o600); err != nil {
		return err
	}
	if err := build(fresh, func(f *File) error {
		if compacted {
			_, err := f.db.Exec("VACUUM")
			return err
		}
		return nil
	}); err != nil {
		return err
	}
	model, err := os.ReadFile(fresh)
	if err != nil {
		return err
	}
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return err
	}
	pages, err := contentsAt(model, int((info.Size()+pageSize-1)/pageSize))
	if err != nil {
		return err
	}
	for at, page := range pages {
		if _, err := f.WriteAt(page, int64(at-1)*pageSize); err != nil {
			return err
		}
	}
	return nil
}

// pageSize is that of every project file.
const pageSize = 4096

// contentsAt takes the pages of the table of contents out of a file, by the
// numbers they get in a file of that many pages: the first stays, and those
// that it points to go to the end (sqlite.org/fileformat.html, 1.3 and 1.6).
func contentsAt(model []byte, pages int) (map[int][]byte, error) {
	first := append([]byte(nil), model[:pageSize]...)
	out := map[int][]byte{1: first}
	const head = 100 // the file's header comes before the page's
	move := func(pointer []byte) error {
		n := int(binary.BigEndian.Uint32(pointer))
		if n < 2 || n*pageSize > len(model) || model[(n-1)*pageSize] != 13 {
			return fmt.Errorf("%w: a new file's contents are of another form", ErrDamaged)
		}
		pages++
		out[pages] = model[(n-1)*pageSize : n*pageSize]
		binary.BigEndian.PutUint32(pointer, uint32(pages))
		return nil
	}
	if first[head] == 5 { // it points to leaves
		for i := range int(binary.BigEndian.Uint16(first[head+3:])) {
			cell := int(binary.BigEndian.Uint16(first[head+12+2*i:]))
			if err := move(first[cell:]); err != nil {
				return nil, err
			}
		}
		if err := move(first[head+8:]); err != nil {
			return nil, err
		}
	}
	binary.BigEndian.PutUint32(first[28:], uint32(pages))
	clear(first[32:40]) // no page is known to be free
	return out, nil
}
