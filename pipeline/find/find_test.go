package find_test

import (
	"fmt"
	"os"
	"testing"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/find"

	"github.com/stretchr/testify/require"
)

func TestShow(t *testing.T) {
	file := os.Getenv("FILE")
	d := design.Demo()
	if file != "" {
		data, _ := os.ReadFile(file)
		d, _ = design.ReadFile(data)
	}
	qu, why := find.Of(d, pipeline.Check(d))
	require.Empty(t, why)
	a := find.Find(qu, nil)
	fmt.Println(a.Why, a.Ways, a.Halted)
	for _, r := range a.Runs {
		fmt.Println(r.Best, r.Drains, r.Size, r.Style, r.Parts, r.Bends, r.Unions, r.Welds, r.Length, r.Loss, r.Suction, r.Notes)
		for _, p := range r.Report.Scene.Layout.Run {
			fmt.Printf("   %-40s cut %.4f spring %.2f  %v -> %v  in %s turn %s fall %s fit %v\n", p.Label, float64(p.Cut), p.Spring.Degrees(), p.In.At, p.Out.At, p.Said.In, p.Said.Turn, p.Said.Fall, p.Fit)
		}
		for _, v := range r.Report.Verdicts {
			if v.Level != 0 {
				fmt.Println("      ", v.Level, v.Piece, v.Sentence)
			}
		}
	}
}

func BenchmarkDemo(b *testing.B) {
	d := design.Demo()
	qu, _ := find.Of(d, pipeline.Check(d))
	for b.Loop() {
		find.Find(qu, nil)
	}
}
