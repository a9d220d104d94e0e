package ui

// knownWords are the rows of a project file that have a word, as looked up
// since its last edit.
type knownWords struct {
	rows  map[string][]int64
	edits int // so far
}

// mostWords is how many words are known at most.
const mostWords = 32

// forget knows nothing any more, as after an edit.
func (k *knownWords) forget() { k.rows, k.edits = nil, k.edits+1 }

// keep knows a word's rows, where no edit came since it was looked up.
func (k *knownWords) keep(word string, rows []int64, edits int) {
	if edits != k.edits {
		return
	}
	if k.rows == nil || len(k.rows) >= mostWords {
		k.rows = map[string][]int64{}
	}
	k.rows[word] = rows
}

// Ahead is for a search to come: find looks the words up, and may run on
// another goroutine; keep then has Search know what was found.
func (d *FileDocument) Ahead(words []string) (find, keep func()) {
	edits, file := d.words.edits, d.file
	var asked []string
	for _, w := range words {
		if _, known := d.words.rows[w]; !known {
			asked = append(asked, w)
		}
	}
	found := map[string][]int64{}
	find = func() {
		for _, w := range asked {
			if rows, err := file.Search(w, ""); err == nil { // Search tells of an error
				found[w] = rows
			}
		}
	}
	keep = func() {
		for w, rows := range found {
			d.words.keep(w, rows, edits)
		}
	}
	return find, keep
}

// having are the rows that have a word.
func (d *FileDocument) having(word string) ([]int64, error) {
	if rows, known := d.words.rows[word]; known {
		return rows, nil
	}
	rows, err := d.file.Search(word, "")
	if err == nil {
		d.words.keep(word, rows, d.words.edits)
	}
	return rows, err
}
