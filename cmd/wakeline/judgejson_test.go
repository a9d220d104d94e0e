package main

import (
	"bytes"
	"encoding/json"
	"reflect"
	"testing"

	"wakeline/storage"
	"wakeline/timeline"
)

// What judge writes by hand, for speed, is what encoding/json makes of a
// verdict, field by field and in the same order.
func TestVerdictsAreWrittenAsTheirTagsSay(t *testing.T) {
	p, err := storage.ReadText(sample)
	if err != nil {
		t.Fatal(err)
	}
	p.Setups[0].Name = "a \"name\" <with> \\ and \t\u2028 ☂"
	for _, s := range p.Setups {
		plan, err := timeline.Compile(p, s)
		if err != nil {
			t.Fatal(err)
		}
		for d := range 3 {
			v := plan.Verdict(min(s.Delay+d, plan.Fits()))
			want, err := json.Marshal(&v)
			if err != nil {
				t.Fatal(err)
			}
			written := appendVerdict(nil, &v)
			var got bytes.Buffer
			if err := json.Compact(&got, written); err != nil {
				t.Fatalf("%s: %v in %s", s.Name, err, written)
			}
			var a, b any
			if json.Unmarshal(got.Bytes(), &a) != nil || json.Unmarshal(want, &b) != nil || !reflect.DeepEqual(a, b) {
				t.Fatalf("%s at %d = %s, want %s", s.Name, d, got.Bytes(), want)
			}
			if keys(t, got.Bytes()) != keys(t, want) {
				t.Fatalf("%s: fields in the order %s, want %s", s.Name, keys(t, got.Bytes()), keys(t, want))
			}
		}
	}
}

// keys lists the texts of a JSON document that stand before a colon, in order.
func keys(t *testing.T, doc []byte) (out string) {
	t.Helper()
	dec := json.NewDecoder(bytes.NewReader(doc))
	for {
		before := dec.InputOffset()
		token, err := dec.Token()
		if err != nil {
			return out
		}
		if name, ok := token.(string); ok && bytes.IndexByte(doc[before:], ':') >= 0 {
			if rest := doc[dec.InputOffset():]; len(rest) > 0 && rest[0] == ':' {
				out += name + " "
			}
		}
	}
}
