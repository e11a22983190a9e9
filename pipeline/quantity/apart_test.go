package quantity

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Rounding by hand.
func TestApart(t *testing.T) {
	for _, row := range []struct{ is, limit, a, b string }{
		{"1.49 m/s", "1.5 m/s", "1.49 m/s", "1.50 m/s"},
		{"1.4987 m/s", "1.5 m/s", "1.499 m/s", "1.50 m/s"},
		{"1.4996 m/s", "1.5004 m/s", "1.4996 m/s", "1.5004 m/s"},
		{"1.5 m/s", "1.5 m/s", "1.50 m/s", "1.50 m/s"},
		{"1.49999999999 m/s", "1.5 m/s", "a hair under 1.50 m/s", "1.50 m/s"},
		{"1.50000000001 m/s", "1.5 m/s", "a hair over 1.50 m/s", "1.50 m/s"},
	} {
		a, b := Apart(MustParse[Velocity](row.is).Value(), MustParse[Velocity](row.limit).Value())
		assert.Equal(t, [2]string{row.a, row.b}, [2]string{a, b}, "%s, %s", row.is, row.limit)
	}
	fall, limit := Apart(Slope(0.00999), Slope(0.01))
	assert.Equal(t, "1:100.1", fall)
	assert.Equal(t, "1:100", limit)
	lean, tip := Apart(9.98*Degree, 10*Degree)
	assert.Equal(t, "9.98°", lean)
	assert.Equal(t, "10°", tip)
	long, most := Apart(Duration(7501), Duration(7500))
	assert.Equal(t, "125.02 min", long)
	assert.Equal(t, "2 h 05 min", most)
	ledge, allowed := CaliperApart(Mm(0.2349), Mm(0.2341))
	assert.Equal(t, "0.235 mm", ledge)
	assert.Equal(t, "0.234 mm", allowed)
	assert.Equal(t, Hair, By(Head(0.002)))
	assert.Equal(t, "0.02 m", By(Head(0.02)))
	assert.Equal(t, Hair, By(Slope(0)))
	assert.Equal(t, Hair, By(Pressure(0.01)))
	assert.Equal(t, "2 Pa", By(Pressure(2)))
	assert.Equal(t, "0.5 mm", By(Mm(0.5)))
}

// Two numbers that are not one never read as one, and the one that reads larger
// is larger.
func TestApartNeverReadsAlike(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		limit := rapid.Float64Range(1e-3, 1e4).Draw(t, "limit")
		is := limit * (1 + rapid.Float64Range(-1e-2, 1e-2).Draw(t, "by"))
		parted(t, Length(is), Length(limit))
		parted(t, Head(is), Head(limit))
		parted(t, Velocity(is), Velocity(limit))
		parted(t, Flow(is/1e5), Flow(limit/1e5))
		parted(t, Pressure(is*100), Pressure(limit*100))
		parted(t, Duration(is), Duration(limit))
		parted(t, Slope(is/1e3), Slope(limit/1e3))
		parted(t, Angle(is/1e2), Angle(limit/1e2))
		parted(t, Temperature(270+is/100), Temperature(270+limit/100))
		parted(t, Volume(is/1e3), Volume(limit/1e3))
		parted(t, Number(is), Number(limit))
	})
}

func parted[Q Quantity](t *rapid.T, is, limit Q) {
	a, b := Apart(is, limit)
	if is == limit {
		assert.Equal(t, a, b)
		return
	}
	assert.NotEqual(t, a, b)
	if strings.HasPrefix(a, Hair) {
		assert.Equal(t, is < limit, strings.HasPrefix(a, Hair+" under "), "%s, %s", a, b)
	}
	x, errX := Parse[Q](a)
	y, errY := Parse[Q](b)
	if errX != nil || errY != nil || a == Text(is) && b == Text(limit) { // a hair, or as they are rounded
		return
	}
	assert.Equal(t, is < limit, x.Value() < y.Value(), "%s, %s", a, b)
}
