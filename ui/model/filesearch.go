package model

// knownWords are the rows of a project file that have a word, as looked up
// since its last edit.
type knownWords struct {
	Rows  map[string][]int64
	edits int // so far
}

// mostWords is how many words are known at most.
const mostWords = 32

// forget knows nothing any more, as after an edit.
func (k *knownWords) forget() { k.Rows, k.edits = nil, k.edits+1 }

// keep knows a word's rows, where no edit came since it was looked up.
func (k *knownWords) keep(word string, rows []int64, edits int) {
	if edits != k.edits {
		return
	}
	if k.Rows == nil || len(k.Rows) >= mostWords {
		k.Rows = map[string][]int64{}
	}
	k.Rows[word] = rows
}

// Ahead is for a search to come: find looks the words up, and may run on
// another goroutine; keep then has Search know what was found.
func (d *Document) Ahead(words []string) (find, keep func()) {
	edits, file := d.Words.edits, d.file
	var asked []string
	for _, w := range words {
		if _, known := d.Words.Rows[w]; !known {
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
			d.Words.keep(w, rows, edits)
		}
	}
	return find, keep
}

// having are the rows that have a word.
func (d *Document) having(word string) ([]int64, error) {
	if rows, known := d.Words.Rows[word]; known {
		return rows, nil
	}
	rows, err := d.file.Search(word, "")
	if err == nil {
		d.Words.keep(word, rows, d.Words.edits)
	}
	return rows, err
}
