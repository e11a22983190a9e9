package draw

import (
	"encoding/xml"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline/design"
	"drawoff/pipeline/whatif"
)

// Whatever is moved and watched, the drawing is well formed, with a dot for
// every value within it; the dot that moves is at what the plant has.
func TestWhatIf(t *testing.T) {
	t.Parallel()
	for _, c := range [][2]string{
		{"liquid.temperature", "suction-head-available-lowest"}, {"under.0.to", "transfer-time"}, {"tank.bottom", "tank-brimful"},
		{"stand.height", "outlet-height"}, {"run.0.fall", "least-fall"}, {"site.altitude", "air-pressure"}, {"stand.legs", "parts"}, {"finish", "flow-full"},
	} {
		curve, ok := whatif.Sweep(design.Demo(), c[0], c[1])
		require.True(t, ok, c)
		const width = 390
		svg, dots := WhatIf(curve, "What is moved", width)
		require.NotEmpty(t, svg, c)
		require.Len(t, dots, len(curve.Points))
		for _, d := range dots {
			assert.True(t, d.X >= 0 && d.X <= width && d.Y >= 0 && d.Y <= 240, "%v at %v", c, d)
		}
		for r := xml.NewDecoder(strings.NewReader(svg)); ; {
			_, err := r.Token()
			if err == io.EOF {
				break
			}
			require.NoError(t, err, svg)
		}
		assert.NotContains(t, svg, "NaN")
		assert.NotContains(t, svg, "Inf")
		assert.Equal(t, 1, strings.Count(svg, "whatif-dot"))
	}
}
