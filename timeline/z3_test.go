package timeline

import (
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"
)

// ask is one question to the solver and the answer that proves us right.
type ask struct {
	what string
	want string // "sat" or "unsat"
}

// questions puts to the solver that a plan's window holds every good delay
// and no other, and that uncovered holds every reply no meaty delay meets and no
// other.
func questions(w *smt, plan *Plan) (out []ask) {
	put := func(claim, what, want string) {
		w.put("(push)\n(assert %s)\n(check-sat)\n(pop)", claim)
		out = append(out, ask{what, want})
	}
	uncovered := map[string]bool{}
	for _, title := range plan.Verdict(0).Uncovered {
		uncovered[title] = true
	}
	good := []string{"meaty"}
	meaty := "unsat"
	if plan.bait || !plan.meaty.Empty() {
		meaty = "sat"
	}
	put("meaty", "some delay is meaty", meaty)
	for i, reply := range plan.Setup.Replies {
		if reply.Demand == DemandNone || meaty == "unsat" {
			continue
		}
		want := "unsat"
		if !uncovered[reply.Title()] {
			want = "sat"
			good = append(good, fmt.Sprintf("met%d", i))
		}
		put(fmt.Sprintf("(and meaty met%d)", i), "some meaty delay meets "+reply.Title(), want)
	}
	ours := []string{}
	for _, s := range plan.WindowSet().Spans() {
		ours = append(ours, fmt.Sprintf("(in d %d %d)", s.From, s.To))
	}
	put(fmt.Sprintf("(and %s (not %s))", smtOr(ours...), smtAnd(good...)), "a delay of the window isn't good", "unsat")
	put(fmt.Sprintf("(and %s (not %s))", smtAnd(good...), smtOr(ours...)), "a delay outside of the window is good", "unsat")
	return out
}

func TestSolverFindsTheSameWindow(t *testing.T) {
	if _, err := exec.LookPath("z3"); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("z3 is not installed: no oracle for the window")
		}
		t.Skip("z3 is not installed: the window is not held against a solver")
	}
	const shards = 2
	n := 320
	if testing.Short() {
		n = 40
	}
	for i := range shards {
		t.Run(fmt.Sprint(i), func(t *testing.T) {
			t.Parallel()
			solve(t, uint64(i)<<32, n/shards)
		})
	}
}

// solve puts n setups to one solver.
func solve(t *testing.T, seed uint64, n int) {
	text := &strings.Builder{}
	text.WriteString(smtRules)
	var asked []ask
	windows, uncovered := 0, 0
	for done := 0; done < n; seed++ {
		p := plainProject(seed)
		if err := p.Check(); err != nil {
			t.Fatalf("seed %d: Check() = %v, want nil", seed, err)
		}
		plan, err := Compile(p, p.Setups[0])
		if err != nil || len(p.Setups[0].Replies) == 0 || plan.meaty.Empty() && seed%4 > 0 {
			continue // out of the width, or little to say
		}
		done++
		if !plan.WindowSet().Empty() {
			windows++
		}
		uncovered += len(plan.uncovered)
		w := &smt{x: newSlowPlan(p, &p.Setups[0])}
		w.put("(push)")
		w.write(plan.LastDelay())
		for _, a := range questions(w, plan) {
			a.what = fmt.Sprintf("seed %d: %s", seed, a.what)
			asked = append(asked, a)
		}
		w.put("(pop)")
		text.WriteString(w.String())
	}
	cmd := exec.Command("z3", "-in")
	cmd.Stdin = strings.NewReader(text.String())
	out, err := cmd.CombinedOutput()
	got := strings.Fields(string(out))
	if err != nil || len(got) != len(asked) {
		t.Fatalf("z3: %v, %d answers to %d questions: %.400s", err, len(got), len(asked), out)
	}
	for i, a := range asked {
		if got[i] != a.want {
			t.Errorf("%s: %s, want %s", a.what, got[i], a.want)
		}
	}
	if windows < n/4 || uncovered < n/20 {
		t.Errorf("%d windows and %d uncovered replies in %d setups: too few to prove much", windows, uncovered, n)
	}
}
