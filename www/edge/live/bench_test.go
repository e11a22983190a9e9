//go:build edge

package live

import (
	"testing"

	"github.com/stretchr/testify/require"

	"drawoff/pipeline"
	"drawoff/pipeline/asjson"
	"drawoff/pipeline/design"
)

// BenchmarkCheck is a check of the demo with its report as JSON: native, and
// by the worker in the platform's runtime on this machine, one at a time and as
// many at a time as there are processors. Quote the ratios.
func BenchmarkCheck(b *testing.B) {
	body := demo()
	b.Run("native", func(b *testing.B) {
		for b.Loop() {
			d, faults := design.ReadFile([]byte(body))
			require.Empty(b, faults)
			r := pipeline.Check(d)
			asjson.Indent(asjson.Report(r, r.Work(design.Shelf{})))
		}
	})
	w := start(b, b.TempDir())
	check := func(b require.TestingT) {
		got, err := w.try(post("/api/check", body))
		require.NoError(b, err)
		require.Equal(b, 200, got.status)
	}
	for range 200 {
		check(b) // until the runtime has compiled what it is going to
	}
	b.Run("worker", func(b *testing.B) {
		for b.Loop() {
			check(b)
		}
	})
	b.Run("worker, several at a time", func(b *testing.B) {
		b.RunParallel(func(p *testing.PB) {
			for p.Next() {
				check(b)
			}
		})
	})
}
