package flow_test

import (
	"math"
	"testing"
	"time"

	"drawoff/pipeline/flow"
	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
)

var sink float64

// The exact friction factor may cost at most six logarithms, each waiting
// for the one before, as the steps of any iteration do. Both are timed in one
// run, in turns so that a busy machine slows both, and their ratio is reported.
func BenchmarkColebrookOverSixLogs(b *testing.B) {
	const turn = 1000
	var factor, logs time.Duration
	re, x := 1e5, 1e5
	for b.Loop() {
		begin := time.Now()
		for range turn {
			sink = flow.Colebrook(re, 5e-5)
			re += sink
		}
		middle := time.Now()
		for range turn {
			y := x
			for range 6 {
				y = 10 + math.Log(y)
			}
			sink = y
			x += y
		}
		factor += middle.Sub(begin)
		logs += time.Since(middle)
	}
	b.ReportMetric(float64(factor)/float64(logs), "of-six-logs")
}

func BenchmarkLineLoss(b *testing.B) {
	bore := q.Length(0.0348)
	line := flow.Line{{Bore: bore, Loss: flow.Entrance(0)}}
	for range 5 {
		line = append(line,
			flow.Element{Bore: bore, Length: 1, Roughness: flow.TubeRoughness},
			flow.Element{Bore: bore, Loss: flow.Bend(90*q.Degree, 1.5, bore)},
			flow.Element{Bore: bore, Loss: flow.ButterflyValve(bore, 90*q.Degree)})
	}
	water := liquid.Water(q.Celsius(20))
	b.ReportAllocs()
	for b.Loop() {
		sink = float64(line.Loss(1e-3, water).High)
	}
}

func BenchmarkOperate(b *testing.B) {
	in := perry()
	line := flow.Line{{Bore: 0.0348, Length: 9, Roughness: flow.TubeRoughness, Loss: flow.Fitting{Laminar: 6000, Turbulent: 6}}}
	b.ReportAllocs()
	for b.Loop() {
		rate, _ := flow.Operate(in.Curve, line, 1, in.Liquid)
		sink = float64(rate)
	}
}

func BenchmarkCheck(b *testing.B) {
	in := perry()
	b.ReportAllocs()
	for b.Loop() {
		sink = float64(flow.Check(in).Points[0].Flow)
	}
}

// The same line with a power law and a yield stress, which cost a power or a
// few steps of Newton's for each bore.
func BenchmarkOperateThick(b *testing.B) {
	in := perry()
	line := flow.Line{{Bore: 0.0348, Length: 9, Roughness: flow.TubeRoughness, Loss: flow.Fitting{Laminar: 6000, Turbulent: 6}}}
	for name, p := range map[string]liquid.Properties{"power law": powerLaw(1050, 0.6, 0.5), "yield": bingham(1050, 0.02, 0.5)} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				rate, _ := flow.Operate(in.Curve, line, 1, p)
				sink = float64(rate)
			}
		})
	}
}

func BenchmarkReserves(b *testing.B) {
	in := perry()
	b.ReportAllocs()
	for b.Loop() {
		sink = float64(flow.Reserves(in).Greatest)
	}
}
