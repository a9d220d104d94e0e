package storage

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"sync"
)

// header is what a SQLite file says of itself before any SQL is run
// (sqlite.org/fileformat.html, 1.3).
type header struct {
	application, version uint32
	writable             bool // the system lets us write to the file
}

// openFiles are the project files that this process has open. To close any
// descriptor of a file drops the locks that SQLite holds on it in this process
// (sqlite.org/howtocorrupt.html, 2.2), so the header of a file that is open
// already is not read again.
var openFiles struct {
	sync.Mutex
	files []*knownFile
}

// knownFile is one file on disk, under whatever name.
type knownFile struct {
	info   os.FileInfo
	header header
	users  int // how many Files have it open
}

// register finds out whether the file at path may be one of ours, by its header
// and by what lies beside it, and counts another user of it.
func register(path string) (*knownFile, error) {
	openFiles.Lock()
	defer openFiles.Unlock()
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	for _, k := range openFiles.files {
		if os.SameFile(k.info, info) {
			k.users++
			return k, nil
		}
	}
	h, err := readHeader(path, info)
	if err != nil {
		return nil, err
	}
	if err := checkBeside(path); err != nil {
		return nil, err
	}
	k := &knownFile{info, h, 1}
	openFiles.files = append(openFiles.files, k)
	return k, nil
}

// release takes a user away.
func (k *knownFile) release() {
	openFiles.Lock()
	defer openFiles.Unlock()
	if k.users--; k.users == 0 {
		openFiles.files = slices.DeleteFunc(openFiles.files, func(o *knownFile) bool { return o == k })
	}
}

// isAt reports whether the file is still the one at path.
func (k *knownFile) isAt(path string) bool {
	info, err := os.Stat(path)
	return err == nil && os.SameFile(k.info, info)
}

func readHeader(path string, info os.FileInfo) (h header, err error) {
	if err := checkRegular(info); err != nil { // nor opened: a pipe would wait
		return h, fmt.Errorf("%w: %w", ErrForeign, err)
	}
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if h.writable = err == nil; err != nil {
		if f, err = os.Open(path); err != nil {
			return h, err
		}
	}
	defer f.Close()
	var b [100]byte
	if n, err := io.ReadFull(f, b[:]); err == io.EOF {
		return h, fmt.Errorf("%w: it is empty", ErrForeign)
	} else if err == io.ErrUnexpectedEOF {
		return h, fmt.Errorf("%w: it holds %d bytes, fewer than its header has", ErrForeign, n)
	} else if err != nil {
		return h, err
	}
	h.application, h.version = binary.BigEndian.Uint32(b[68:]), binary.BigEndian.Uint32(b[60:])
	sqlite, ours := bytes.HasPrefix(b[:], []byte("SQLite format 3\x00")), h.application == applicationID
	switch known := len(migrations); {
	case !sqlite && !ours:
		return h, fmt.Errorf("%w: it doesn't begin as one does", ErrForeign)
	case !sqlite:
		return h, fmt.Errorf("%w: its first bytes are not those of a project file", ErrDamaged)
	case !ours && differInOneByte(h.application, applicationID):
		return h, fmt.Errorf("%w: its application_id is %#x, not %#x", ErrDamaged, h.application, applicationID)
	case !ours:
		return h, fmt.Errorf("%w: its application_id is %#x, not %#x", ErrForeign, h.application, applicationID)
	case h.version < 1 || h.version > lastVersion:
		return h, fmt.Errorf("%w: its schema version is %d, which none has", ErrDamaged, int32(h.version))
	case int64(h.version) > int64(known):
		return h, fmt.Errorf("%w: its schema is version %d, and this program knows versions up to %d", ErrNewer, h.version, known)
	case b[18] == 2 && b[19] == 2:
		return h, fmt.Errorf("%w: it is set to write-ahead logging, which no project file is; PRAGMA journal_mode = DELETE sets it back", ErrForeign)
	case b[18] != 1 || b[19] != 1:
		return h, fmt.Errorf("%w: its format is version %d and %d, not 1", ErrDamaged, b[18], b[19])
	}
	return h, nil
}

// lastVersion is a schema version that none is ever likely to reach.
const lastVersion = 1000

// differInOneByte reports whether two numbers differ in one byte at most.
func differInOneByte(a, b uint32) bool {
	same := 0
	for shift := 0; shift < 32; shift += 8 {
		if a>>shift&0xff == b>>shift&0xff {
			same++
		}
	}
	return same >= 3
}

// superMagic ends a journal that names a journal above it
// (sqlite.org/fileformat.html, 3).
const superMagic = "\xd9\xd5\x05\xf9\x20\xa1\x63\xd7"

// checkBeside refuses a file with a log beside it that no project file has:
// SQLite would take a write-ahead log's pages for the file's own, and with a
// journal that names another above it, delete that other file.
func checkBeside(path string) error {
	if _, err := os.Lstat(path + "-wal"); err == nil {
		return fmt.Errorf("%w: a write-ahead log lies beside it, named %s-wal, which no project file has", ErrForeign, filepath.Base(path))
	}
	info, err := os.Stat(path + "-journal")
	if err != nil {
		return nil // there is none, as a rule
	}
	if !info.Mode().IsRegular() {
		return fmt.Errorf("%w: its journal, named %s-journal: %w", ErrForeign, filepath.Base(path), checkRegular(info))
	}
	if info.Size() < int64(len(superMagic)) {
		return nil
	}
	f, err := os.Open(path + "-journal")
	if err != nil {
		return err
	}
	defer f.Close()
	end := make([]byte, len(superMagic))
	if _, err := f.ReadAt(end, info.Size()-int64(len(end))); err == nil && string(end) == superMagic {
		return fmt.Errorf("%w: its journal names another file", ErrForeign)
	}
	return nil
}
