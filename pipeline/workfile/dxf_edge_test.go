//go:build edge

package workfile

import (
	"encoding/json"
	"os/exec"
	"strings"
	"testing"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/plot"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// reader reads a DXF file with a library that knows nothing of ours, and
// prints what it found.
const reader = `
const Parser = require("dxf-parser");
const parser = new (Parser.default || Parser)();
const dxf = parser.parseSync(require("fs").readFileSync(0, "utf8"));
console.log(JSON.stringify(dxf.entities.map((e) => ({
  type: e.type, layer: e.layer, closed: !!e.shape, text: e.text || "",
  points: (e.vertices || [e.startPoint]).map((p) => [p.x, p.y]),
}))));`

// Every drawing that is offered as DXF is read back line by line by a reader
// that is not ours: the npm package dxf-parser.
func TestDXFByAnotherReader(t *testing.T) {
	t.Parallel()
	for _, e := range design.Examples() {
		drawings, _ := Drawings(pipeline.Check(e.Design))
		require.NotEmpty(t, drawings)
		for _, d := range drawings {
			node := exec.Command("node", "--input-type=commonjs", "-e", reader)
			node.Dir = "../../.ci/edge"
			node.Stdin = strings.NewReader(plot.DXF(d))
			out, err := node.Output()
			require.NoError(t, err, "%s: is dxf-parser installed? make edge does", d.Name)
			var got []struct {
				Type, Layer, Text string
				Closed            bool
				Points            [][2]float64
			}
			require.NoError(t, json.Unmarshal(out, &got))
			require.Len(t, got, len(d.Lines)+len(d.Words), d.Name)
			for i, l := range d.Lines {
				assert.Equal(t, l.Stroke.Layer(), got[i].Layer)
				assert.Equal(t, l.Closed, got[i].Closed)
				require.Len(t, got[i].Points, len(l.Points))
				for k, p := range l.Points {
					assert.InDelta(t, p.X, got[i].Points[k][0], 6e-5) // written to a tenth of a micrometre
					assert.InDelta(t, p.Y, got[i].Points[k][1], 6e-5)
				}
			}
			for i, w := range d.Words {
				word := got[len(d.Lines)+i]
				assert.Equal(t, "TEXT", word.Type)
				assert.NotEmpty(t, word.Text)
				assert.InDelta(t, w.At.X, word.Points[0][0], 6e-5)
			}
		}
	}
}
