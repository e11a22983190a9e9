package flow

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// TeeRun returns the loss straight through a tee, its branch closed: Hooper,
// flanged or welded. Its body is included. Other methods: Darby's three-K,
// and Crane's 20 fT, which was measured on pipe fittings rougher inside than a
// pulled tee.
func TeeRun(bore q.Length) Fitting {
	return twoK(150, 0.05, bore).among(ThreeK(150, 0.05, 4, bore), crane(20, bore))
}

// TeeBranch returns the loss round the corner of a tee, one leg closed:
// Hooper, tee used as elbow, flanged or welded. Its body is included. Other
// methods: Darby's three-K, and Crane's 60 fT.
func TeeBranch(bore q.Length) Fitting {
	return twoK(800, 0.80, bore).among(ThreeK(800, 0.28, 4, bore), crane(60, bore))
}

// Wye returns the losses of run and branch where a flow parts, both on the
// velocity head of the COMBINED flow in the run: Crane TP-410 (2009) chapter 2.
// share is the branch's part of the combined flow, ratio the branch's bore
// over the run's, angle the one between them. K of the run may be negative:
// the slow layer at the wall is what leaves first. In a tee ratio is 1 and
// angle 90°.
func Wye(share, ratio float64, angle q.Angle) (run, branch float64) {
	s, beta2 := within(share, 0, 1), within(ratio*ratio, 1e-3, 1)
	steep := angle.Degrees() >= 75
	switch {
	case beta2 <= 0.4:
		run = 0.4 * s * s
	case s <= 0.5:
		run = 2 * (2*s - 1) * s * s
	default:
		run = 0.3 * (2*s - 1) * s * s
	}
	g := 1.0
	switch {
	case steep && beta2 > 2.0/3:
		g = 1 + 0.3*s*s
	case steep:
	case beta2 <= 0.35 && s <= 0.4:
		g = 1.1 - 0.7*s
	case beta2 <= 0.35:
		g = 0.85
	case s <= 0.6:
		g = 1 - 0.6*s
	default:
		g = 0.6
	}
	x := s / beta2
	if angle.Degrees() < 60 || beta2 <= 4.0/9 {
		return run, g * (1 + x*x - 2*x*math.Cos(float64(angle)))
	}
	return run, g * (1 + 0.3*x*x)
}

// TeeDrawn returns the loss straight through a tee at whose branch part of
// the flow, 0 to 1, leaves; on the velocity of the whole: Wye, with Hooper's
// laminar term of a tee without a split. Other method: 0.4 part² (Levin, in I.
// E. Idelchik, Handbook of Hydraulic Resistance, ch. 7, from memory), which
// gives nothing back.
func TeeDrawn(part float64, bore q.Length) Fitting {
	s := within(part, 0, 1)
	run, _ := Wye(s, 1, 90*q.Degree)
	return twoK(150, 0, bore).plus(run).among(Coefficient{Laminar: 150, Turbulent: 0.4 * s * s})
}

// TeeDrawnRound returns the loss of what goes round the corner of a tee while
// part of the flow, 0 to 1, goes on straight. As TeeDrawn; other method: 1 + s²,
// times 0.9 where s is over 0.8 (Levin, in Idelchik, ch. 7, from memory), s
// being what turns.
func TeeDrawnRound(part float64, bore q.Length) Fitting {
	s := 1 - within(part, 0, 1)
	other := 1 + s*s
	if s > 0.8 {
		other *= 0.9
	}
	_, branch := Wye(s, 1, 90*q.Degree)
	return twoK(800, 0, bore).plus(branch).among(Coefficient{Laminar: 800, Turbulent: other})
}

// TeeJoined returns the loss straight through a tee at whose branch part of
// the combined flow, 0 to 1, joins; on the velocity of the whole: Crane TP-410
// (2009) chapter 2, 90°, with Hooper's laminar term. Other method: the
// momentum of the run alone, 2s - s², as if the branch brought none along.
func TeeJoined(part float64, bore q.Length) Fitting {
	s := within(part, 0, 1)
	return twoK(150, 0, bore).plus(1.55*s - s*s).among(Coefficient{Laminar: 150, Turbulent: 2*s - s*s})
}
