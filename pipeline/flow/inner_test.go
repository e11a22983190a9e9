package flow

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
)

// The solver's inner loop leaves nothing for the collector: losses, friction,
// a device's drop and the search itself. Measured here, inside the package,
// since what is prepared once for a line is not part of the loop.
func TestInnerSolverAllocatesNothing(t *testing.T) {
	water := liquid.Water(q.Celsius(20))
	line := append(wholeLine(), Element{Bore: 0.0348, Drops: NewDrops([]Drop{{Flow: 1e-3, Drop: 1e4}}, 1000)})
	c := newCircuit(water, line)
	curve := NewCurve([]Duty{{Flow: 0, Head: 10}, {Flow: 1e-3, Head: 8}, {Flow: 3e-3, Head: 1}})
	sum := 0.0
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		sum += c.loss(1e-3)
		least, most := c.band(1e-3)
		sum += least + most
		flow, _, _ := c.operate(&curve, 1)
		sum += float64(flow + c.gravity(2) + c.gravityLeast(2, 1e-3))
		sum += Friction(1e5, 1e-4).High
	}))
	assert.Positive(t, sum)
}

// wholeLine is the line of testdata/time_line.py: 6 m of 1½ in tube, five bends,
// a reducer and both ends.
func wholeLine() Line {
	wide, bore := q.Length(0.0602), q.Length(0.0348)
	line := make(Line, 0, 9)
	add := func(bore, length q.Length, loss Fitting) {
		line = append(line, Element{Bore: bore, Length: length, Roughness: TubeRoughness, Loss: loss})
	}
	add(wide, 0, Entrance(0))
	add(bore, 0, Reducer(wide, bore, 30*q.Degree))
	add(bore, 6, Fitting{})
	for range 5 {
		add(bore, 0, Bend(90*q.Degree, 1.5, bore))
	}
	add(bore, 0, Exit())
	return line
}

var out float64

// What one whole line loses at one flow, as the solver asks it again and
// again: the line is prepared once. Run it beside testdata/time_line.py, which
// times the same line in python3-fluids.
func BenchmarkWholeLine(b *testing.B) {
	c := newCircuit(liquid.Water(q.Celsius(20)), wholeLine())
	b.ReportAllocs()
	rate := 1e-3
	for b.Loop() {
		out = c.loss(rate)
		rate += 1e-12
	}
}

// What one whole line loses at one flow, told piece by piece and with its band.
func BenchmarkWholeLineInPieces(b *testing.B) {
	water, line := liquid.Water(q.Celsius(20)), wholeLine()
	b.ReportAllocs()
	for b.Loop() {
		out = float64(line.Loss(1e-3, water).High)
	}
}

// The head that testdata/time_line.py prints (python3-fluids 1.0.22), so that
// both are known to time the same line.
func TestWholeLineIsThatOfTheScript(t *testing.T) {
	t.Parallel()
	water := liquid.Properties{Density: 998.206, Viscosity: 1.0016e-3}
	assert.InDelta(t, 0.392966, newCircuit(water, wholeLine()).loss(1e-3), 0.5e-6)
}

// Reynolds numbers of valves by Reynolds_valve of python3-fluids 1.0.22, its
// factors FL and Fd 1, in bores of 34.8 and 47.6 mm: the speed of approach, which
// it reckons with, makes a tenth at most.
func TestReynoldsOfValve(t *testing.T) {
	for _, row := range []struct{ nu, cubic, kv, want float64 }{
		{45e-6, 1, 2, 1111.4}, {1.1e-6, 0.73, 2, 33180.8}, {45e-6, 10, 60, 2221.2},
	} {
		assert.InEpsilon(t, row.want, ofValve(row.kv, row.cubic/3600, row.nu), 0.1)
	}
}
