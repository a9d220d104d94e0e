package storage

import (
	"context"
	"fmt"
	"testing"
)

// TestCheckFindsNothingWrongWithAFileThatIsEdited checks a file again and
// again while a window edits its move data, its setups and its history.
func TestCheckFindsNothingWrongWithAFileThatIsEdited(t *testing.T) {
	p := sample(t)
	window := made(t, p)
	stop, done := make(chan struct{}), make(chan error)
	go func() {
		for n := 0; ; n++ {
			select {
			case <-stop:
				done <- nil
				return
			default:
			}
			m := p.Fighters[0].Moves[n%len(p.Fighters[0].Moves)]
			m.Damage = n
			s := p.Setups[n%len(p.Setups)]
			s.Note = fmt.Sprint(n)
			err := window.Edit("edit", func(st *Step) error {
				if err := st.PutMove(p.Fighters[0].Name, m.Name, &m); err != nil {
					return err
				}
				return st.PutSetup(s.Name, &s)
			})
			if err == nil && n%3 == 0 {
				_, err = window.Undo()
			}
			if err != nil {
				done <- err
				return
			}
		}
	}()
	for range 40 {
		if found, err := Check(context.Background(), window.Path()); err != nil || len(found) > 0 {
			t.Errorf("check = %v, %v", found, err)
		}
	}
	close(stop)
	if err := <-done; err != nil {
		t.Error(err)
	}
}
