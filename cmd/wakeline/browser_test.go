package main

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"wakeline/samples"
	"wakeline/timeline"
)

// browserTools are Chromium, Node and the folder of the modules that the test
// in a browser needs, which cmd/test.sh installs.
func browserTools(t *testing.T) (chromium, node, modules string) {
	t.Helper()
	missing := func(what string) {
		if os.Getenv("CI") != "" {
			t.Fatalf("%s is missing", what)
		}
		t.Skipf("%s is missing", what)
	}
	if modules = os.Getenv("WAKELINE_BROWSER"); modules == "" {
		missing("WAKELINE_BROWSER, the folder of the browser test's modules,")
	}
	for name, path := range map[string]*string{"chromium": &chromium, "node": &node} {
		found, err := exec.LookPath(name)
		if err != nil {
			missing(name)
		}
		*path = found
	}
	return chromium, node, modules
}

// expected is what a delay of a page must say.
type expected struct {
	Delay   int    `json:"delay"`
	Verdict string `json:"verdict"`
	Because string `json:"because"`
	Own     bool   `json:"own"`
}

// TestLessonPagesInABrowser opens pages that draw wrote in a real browser, and
// compares what they say with judge.
func TestLessonPagesInABrowser(t *testing.T) {
	chromium, node, modules := browserTools(t)
	dir := t.TempDir()
	const name, placed = "Counted crossing", "Over the lock"
	const hostile = `</script><script>globalThis.harmed=1</script><b>"&amp;'`

	project := filepath.Join(dir, "hostile.json")
	p, err := timeline.ReadText(samples.Text)
	if err != nil {
		t.Fatal(err)
	}
	for i := range p.Setups {
		if p.Setups[i].Name == name {
			p.Setups[i].Name, p.Setups[i].Note = hostile, hostile
		}
	}
	if err := os.WriteFile(project, timeline.WriteText(p), 0o600); err != nil {
		t.Fatal(err)
	}
	pages := map[string][]string{
		"lesson":   {sample, "--setup", name},
		"placed":   {sample, "--setup", placed},
		"exercise": {sample, "--setup", name, "--exercise"},
		"several":  {sample, "--filter", "name:crossing or name:lock not name:near not name:walled", "--exercise"},
		"hostile":  {project, "--setup", hostile},
	}
	names := []string{"lesson", "placed", "exercise", "several", "hostile"}
	for _, page := range names {
		args := append([]string{"draw", "--out", filepath.Join(dir, page+".html")}, pages[page]...)
		if code, _, progress := runIt(t, args...); code != 0 {
			t.Fatalf("%v = %d, %s", args, code, progress)
		}
	}

	type judged struct {
		Setups []struct {
			Delay   int
			Verdict string
			Because string
			Rises   []struct {
				Replies []struct {
					Reply   string
					Late    int
					Outcome string
				}
			}
		}
	}
	judge := func(delay int) (out judged) {
		args := []string{"judge", sample, "--setup", name, "--json"}
		if delay >= 0 {
			args = append(args, "--delay", fmt.Sprint(delay))
		}
		_, said, _ := runIt(t, args...)
		if err := json.Unmarshal([]byte(said), &out); err != nil {
			t.Fatal(err)
		}
		return out
	}
	var steps []expected
	own := judge(-1).Setups[0].Delay
	var replies []map[string]string
	for delay := 0; delay <= 10; delay++ { // the window is 1 to 2, and eight frames past it are shown
		got := judge(delay).Setups[0]
		steps = append(steps, expected{delay, got.Verdict, got.Because, delay == own})
		if delay == 0 { // where the page is then
			for _, r := range got.Rises[0].Replies {
				title := timeline.Reply{Move: r.Reply, Late: r.Late}.Title()
				replies = append(replies, map[string]string{"reply": title, "outcome": r.Outcome})
			}
		}
	}

	expect, err := json.Marshal(map[string]any{
		"browser": chromium, "folder": dir, "shots": os.Getenv("WAKELINE_SHOTS"), "pages": names,
		"name": name, "hostile": hostile, "lesson": steps, "replies": replies,
	})
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, "expect.json")
	if err := os.WriteFile(path, expect, 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), 5*time.Minute)
	defer cancel()
	cmd := exec.CommandContext(ctx, node, filepath.Join("testdata", "browser", "check.mjs"), path, modules)
	var wrong, errs strings.Builder
	cmd.Stdout, cmd.Stderr = &wrong, &errs
	if err := cmd.Run(); err != nil {
		t.Errorf("%v\n%s%s", err, wrong.String(), errs.String())
	}
}
