package main

import (
	"context"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"wakeline/storage/guard"
	"wakeline/timeline"
)

// wide is little, whose last setup runs past the last frame.
var wide = strings.Replace(little, `"delay": 5`, `"delay": 500`, 1)

// A setup that can't be judged is told in its place; the others are judged.
func TestJudgeTellsASetupThatFailsInItsPlace(t *testing.T) {
	middle := strings.Replace(wide, `"name": "part"`, `"delay": 500, "name": "part"`, 1)
	middle = strings.Replace(middle, `"delay": 500, "jump": "over"`, `"jump": "over"`, 1)
	for _, path := range []string{write(t, middle), fileOf(t, middle)} {
		code, out, progress := runIt(t, "judge", path)
		good, part, bad := strings.Index(out, "good: safe\n"), strings.Index(out, "part: can't be judged\n  "), strings.Index(out, "bad: safe\n")
		if code != 2 || good != 0 || part < good || bad < part || !strings.Contains(out, "expected a plan that ends by frame 512, got one that ends on 546\n\nbad: safe") {
			t.Errorf("judge %s = %d, %q, want 2, and the three setups in their order", path, code, out)
		}
		if !strings.Contains(progress, `1 of 3 setups can't be judged: "part"`) || strings.Contains(progress, "use: ") {
			t.Errorf("judge %s says %q, want how many failed and which", path, progress)
		}
		code, out, progress = runIt(t, "judge", path, "--json")
		var got struct {
			Setups []map[string]any
		}
		if err := json.Unmarshal([]byte(out), &got); err != nil {
			t.Fatalf("%v in %s", err, out)
		}
		if code != 2 || len(got.Setups) != 3 || got.Setups[0]["verdict"] != "safe" || got.Setups[2]["setup"] != "bad" || got.Setups[2]["verdict"] != "safe" || !strings.Contains(progress, `"part"`) {
			t.Errorf("judge --json %s = %d, %s, %q", path, code, out, progress)
		}
		failed := got.Setups[1]
		if why, _ := failed["error"].(string); len(failed) != 2 || failed["setup"] != "part" || !strings.Contains(why, "delay: setup \"part\": expected a plan that ends by frame 512") {
			t.Errorf("judge --json %s: the one that failed = %v", path, failed)
		}
		for _, args := range [][]string{{"--setup", "part"}, {"--setup", "part", "--json"}} {
			if code, out, progress := runIt(t, append([]string{"judge", path}, args...)...); code != 2 || out != "" || !strings.Contains(progress, "ends on 546") {
				t.Errorf("judge %v = %d, %q, %q, want an error alone", args, code, out, progress)
			}
		}
	}
	// Also where none can be judged, and where an answer is unsafe.
	if code, out, _ := runIt(t, "judge", write(t, little), "--delay", "480", "--json"); code != 2 || !json.Valid([]byte(out)) || strings.Count(out, `"error"`) != 3 {
		t.Errorf("judge of none that fits = %d, %s", code, out)
	}
}

func TestDrawOfManyLeavesOutWhatFails(t *testing.T) {
	path := write(t, wide)
	dir := t.TempDir()
	table := filepath.Join(dir, "m.csv")
	code, out, progress := runIt(t, "draw", path, "--attacker", "A", "--rival", "A", "--out", table)
	got, err := os.ReadFile(table)
	if code != 2 || out != "" || !strings.Contains(progress, `skipped: delay: setup "bad"`) || err != nil || !strings.Contains(string(got), "\npart,0,limited") || strings.Contains(string(got), "bad") {
		t.Errorf("match-up = %d, %q, %q, %v:\n%s", code, out, progress, err, got)
	}
	times := named(t, "times.csv", "setup,from,to\ngood,0,\nbad,2,\npart,5,6\n")
	vtt := filepath.Join(dir, "x.vtt")
	code, out, progress = runIt(t, "draw", path, "--times", times, "--out", vtt)
	got, err = os.ReadFile(vtt)
	if code != 2 || out != "" || !strings.Contains(progress, `skipped: `) || !strings.Contains(progress, `"bad"`) || err != nil ||
		!strings.Contains(string(got), "\n1\n00:00:00.000 --> ") || !strings.Contains(string(got), "\ngood: safe\n") || !strings.Contains(string(got), "\n00:00:05.000 --> 00:00:05.265\npart: limited") {
		t.Errorf("captions = %d, %q, %q, %v:\n%s", code, out, progress, err, got)
	}
	// A name that no setup has is still an error of the table.
	if code, _, progress := runIt(t, "draw", path, "--times", named(t, "times.csv", "setup,from,to\nnone,0,1\n"), "--out", vtt); code != 2 || !strings.Contains(progress, `"none"`) || strings.Contains(progress, "skipped") {
		t.Errorf("captions of no setup = %d, %q", code, progress)
	}
}

// A failure of the program's own on one setup is an error that names the setup,
// and ends nothing but the command.
func TestAFailureInAWorkerIsAnError(t *testing.T) {
	taken := 0
	err := inOrder(context.Background(), many(100).each, func(at int, _ *timeline.Setup) (int, error) {
		if at == 70 {
			panic("out of range")
		}
		return at, nil
	}, func(int) error { taken++; return nil })
	failure := new(guard.Crash)
	if !errors.As(err, &failure) || taken != 70 || err.Error() != `Setup "70" failed: out of range` || !strings.Contains(failure.Report(), "failed_test.go") {
		t.Errorf("error after %d setups = %v, want which setup and where", taken, err)
	}
}
