package table

import (
	"bytes"
	"testing"
)

const benchRows = 100_000

func BenchmarkRead100k(b *testing.B) {
	var file bytes.Buffer
	if err := Write(&file, "Marl", newDice(9).moves(benchRows)); err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(file.Len()))
	for b.Loop() {
		t, err := Read(bytes.NewReader(file.Bytes()), Options{})
		if err != nil || len(t.Rows) != benchRows {
			b.Fatal(len(t.Rows), err)
		}
	}
	b.ReportMetric(benchRows*float64(b.N)/b.Elapsed().Seconds(), "rows/s")
}

func BenchmarkWrite100k(b *testing.B) {
	moves := newDice(9).moves(benchRows)
	for b.Loop() {
		var file bytes.Buffer
		if err := Write(&file, "Marl", moves); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(benchRows*float64(b.N)/b.Elapsed().Seconds(), "rows/s")
}
