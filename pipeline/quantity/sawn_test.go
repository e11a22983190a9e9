package quantity

import (
	"strings"
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

// In inches, too, to within half a hundredth each.
func TestSawnAddsUpInInches(t *testing.T) {
	Show(Inches)
	defer Show(Metric)
	assert.Equal(t, "62 9/32 in", Sawn(62.28*Inch))
	assert.Equal(t, "62 9/32 in (62.29)", Sawn(62.29*Inch))
	rapid.Check(t, func(t *rapid.T) {
		l := Length(rapid.Float64Range(0.1, 240).Draw(t, "in")) * Inch
		tape, hundredths, both := strings.Cut(strings.TrimSuffix(Sawn(l), ")"), " (")
		if both {
			assert.InDelta(t, float64(l/Inch), float64(MustParse[Length](hundredths+" in").Value()/Inch), 0.005+1e-9)
		} else {
			assert.InDelta(t, float64(l/Inch), float64(MustParse[Length](tape).Value()/Inch), 0.004+1e-9)
		}
	})
}

// Whoever builds to what is needed at least is not told again that it is short:
// a hundredth of a millimetre is forgiven, and what is asked for is no more than
// the next division.
func TestAtLeast(t *testing.T) {
	defer Show(Metric)
	for _, s := range []System{Metric, Inches} {
		Show(s)
		division := Millimetre / 10
		if s == Inches {
			division = Inch / 32
		}
		rapid.Check(t, func(t *rapid.T) {
			l := Length(rapid.Float64Range(0, 3).Draw(t, "m"))
			told := MustParse[Length](AtLeast(l)).Value()
			assert.GreaterOrEqual(t, float64(told), float64(l-Millimetre/100)-1e-12)
			assert.Less(t, float64(told), float64(l+division))
		})
	}
}
