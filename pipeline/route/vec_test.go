package route_test

import (
	"math"
	"testing"

	"drawoff/pipeline/route"

	"github.com/stretchr/testify/assert"
)

// Between two unit vectors the angle is what the arc cosine of their product
// gives; what has no direction is at no angle to anything, whatever its signs.
func TestAngle(t *testing.T) {
	t.Parallel()
	v, w := route.Vec{X: 0.6, Y: 0.8}, route.Vec{X: 0.28, Z: 0.96}
	assert.InDelta(t, math.Acos(0.6*0.28), float64(v.Angle(w)), 1e-12)
	for _, v := range []route.Vec{{X: 1}, {X: -1, Y: -1, Z: -1}, {X: -0.5, Z: -0.1}} {
		assert.Zero(t, v.Angle(route.Vec{}))
		assert.Zero(t, route.Vec{}.Angle(v))
	}
}
