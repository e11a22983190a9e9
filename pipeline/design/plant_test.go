package design_test

import (
	"testing"

	"drawoff/pipeline/design"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// plantFile is a plant with every sort of field, invented, for tests that
// make one slip in it. It is apart from the demo, which may change its looks.
const plantFile = `{
  "drawoff": 1,
  "title": "A perry tank",
  "tank": {
    "bore": "960 mm", "height": "1200 mm", "bottom": "cone", "coneAngle": "75°", "fill": "900 L",
    "outlet": {"place": "bottom", "size": "bs-4825/2.5in", "end": "clamp/ferrule"}
  },
  "under": [
    {"kind": "reducer", "to": "bs-4825/1.5in", "shape": "concentric", "in": "clamp/ferrule", "out": "clamp/ferrule"},
    {"kind": "butterfly-valve", "in": "clamp/ferrule", "out": "clamp/ferrule"},
    {"kind": "bend", "shape": "long", "in": "clamp/ferrule", "out": "clamp/ferrule"}
  ],
  "stand": {"height": "760 mm", "bucket": "280 mm"},
  "run": [
    {"kind": "straight", "in": "clamp/ferrule", "fit": true, "fall": "1:80"},
    {"kind": "bend", "turn": "180°"},
    {"kind": "straight", "fit": true},
    {"kind": "bend"},
    {"kind": "straight", "out": "clamp/ferrule", "length": "200 mm", "fall": "1:80"}
  ],
  "pump": {
    "kind": "centrifugal", "away": "1.8 m", "height": "240 mm", "inSize": "bs-4825/1.5in", "inEnd": "clamp/ferrule",
    "curve": [
      {"flow": "0 L/min", "head": "14 m", "headRequired": "0.9 m"},
      {"flow": "40 L/min", "head": "13.4 m", "headRequired": "1.0 m"},
      {"flow": "80 L/min", "head": "12.2 m", "headRequired": "1.3 m"}
    ]
  },
  "delivery": {
    "pieces": [
      {"kind": "straight", "in": "clamp/ferrule", "fit": true},
      {"kind": "bend"},
      {"kind": "straight", "length": "1.2 m"}
    ],
    "height": "2.1 m"
  },
  "liquid": {"kind": "sugar", "strength": "4 °P", "temperature": "12 °C"}
}`

// plant returns the plant of plantFile, a copy for each caller.
func plant() design.Design {
	d, faults := design.ReadFile([]byte(plantFile))
	if faults != nil {
		panic(faults.Error())
	}
	return d
}

func set(path, value string) design.Edit { return design.Edit{Path: path, Value: value} }
func insert(path string) design.Edit     { return design.Edit{Op: "insert", Path: path} }

// edited returns the plant with edits made.
func edited(t *testing.T, edits ...design.Edit) design.Design {
	t.Helper()
	d, faults := plant().Apply(edits...)
	require.Empty(t, faults)
	return d
}

// What the page opens with is free of faults, outlives a file and a link, and
// its link is short enough to be read out of a message.
func TestDemo(t *testing.T) {
	t.Parallel()
	d := design.Demo()
	assert.Empty(t, d.Validate())
	link := design.WriteLink(d)
	assert.Less(t, len(link), 600)
	survives(t, d)
}
