package output

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"wakeline/samples"
	"wakeline/timeline"
	"wakeline/timeline/value"
	"wakeline/timeline/value/report"
	"wakeline/timeline/words"
)

// sampleFinish is the finish from the sample's first setup on, against its first
// reply.
func sampleFinish(t *testing.T) *Finish {
	t.Helper()
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	begin, index := p.Setups[0], timeline.NewIndex(p)
	q := value.FinishQuery{Begin: begin, Setups: p.Setups, Reply: begin.Replies[0].Move, Health: timeline.Some(5000)}
	got, err := value.NewBook(p).Finish(context.Background(), index, q)
	if err != nil {
		t.Fatal(err)
	}
	told := report.Finish{Finish: &got}
	out := &Finish{Finish: told, Begin: begin.Name, Attacker: begin.Attacker, Rival: begin.Rival, Health: 5000, Costs: told.Costs(&q, p.Ruleset)}
	for range got.Rounds {
		plan, err := index.Compile(begin)
		if err != nil {
			t.Fatal(err)
		}
		out.Scenes = append(out.Scenes, words.SceneAt(plan, begin.Delay, 0, timeline.FirstReply))
	}
	return out
}

func TestAFinishIsWrittenInEachFormat(t *testing.T) {
	o := Standard()
	f := sampleFinish(t)
	if len(f.Finish.Rounds) < 2 || !f.Ends {
		t.Fatalf("%d rounds: %s", len(f.Finish.Rounds), f.Answer())
	}
	for _, format := range FinishFormats {
		made, err := o.MakeFinish(f, format)
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := made.Write(&b); err != nil || b.Len() < 200 {
			t.Errorf("%s: %d bytes, %v", format, b.Len(), err)
		}
		switch format {
		case "svg":
			for _, want := range []string{f.Begin, f.What(0)[1:], f.Left(1)} {
				if !strings.Contains(b.String(), want) {
					t.Errorf("the picture doesn't say %q", want)
				}
			}
		case "json":
			var doc struct {
				Rounds []struct{ Setup string }
				Ends   bool
			}
			if err := json.Unmarshal(b.Bytes(), &doc); err != nil || !doc.Ends || len(doc.Rounds) != len(f.Finish.Rounds) || doc.Rounds[0].Setup != f.Begin {
				t.Errorf("%+v, %v", doc, err)
			}
		}
		if dir := os.Getenv("WAKELINE_SHOTS"); dir != "" {
			if err := os.WriteFile(filepath.Join(dir, "finish."+format), b.Bytes(), 0o666); err != nil {
				t.Fatal(err)
			}
		}
	}
}
