package quantity

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestSawn(t *testing.T) {
	for mm, want := range map[float64]string{0: "0 mm", 39.6057: "39.6 mm", 617.127: "617.1 mm", 1322.71: "1322.7 mm", 1383: "1383 mm", 5999.96: "6000 mm"} {
		assert.Equal(t, want, Sawn(Mm(mm)))
	}
}

// Ten lengths as they are sawn add up to what they add up to, to within half a
// tenth of a millimetre each.
func TestSawnAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sum, shown := 0.0, 0.0
		for _, mm := range rapid.SliceOfN(rapid.Float64Range(1, 6000), 10, 10).Draw(t, "mm") {
			sum += mm
			shown += MustParse[Length](Sawn(Mm(mm))).Value().Millimetres()
		}
		assert.InDelta(t, sum, shown, 10*0.05+1e-6)
	})
}
