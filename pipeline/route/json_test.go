package route_test

import (
	"encoding/json"
	"testing"

	"drawoff/pipeline/route"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestPlacesAreWrittenToTheMicrometre(t *testing.T) {
	t.Parallel()
	text, err := json.Marshal(route.Vec{X: 0.7585000000000001, Y: -1e-17, Z: -12.3456789})
	require.NoError(t, err)
	assert.Equal(t, `{"x":0.7585,"y":0,"z":-12.345679}`, string(text))
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-1e3, 1e3)
		v := route.Vec{X: x.Draw(t, "x"), Y: x.Draw(t, "y"), Z: x.Draw(t, "z")}
		text, err := json.Marshal(v)
		require.NoError(t, err)
		var back route.Vec
		require.NoError(t, json.Unmarshal(text, &back))
		require.InDelta(t, v.X, back.X, 0.51e-6)
		require.InDelta(t, v.Y, back.Y, 0.51e-6)
		require.InDelta(t, v.Z, back.Z, 0.51e-6)
	})
}
