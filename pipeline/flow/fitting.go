package flow

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// Fitting is the loss of a fitting: K = Laminar/Re + Turbulent, on the
// velocity head in the bore of its Element (a reducer: its small bore), and
// what the methods say that say least and most of it in turbulent flow.
//
// The constants of bends, tees and valves are those of the two-K method (W. B.
// Hooper, Chem. Eng., 24 Aug 1981, p. 96), which is the default for three
// reasons. It holds in laminar flow, where a constant K is wrong by ten times
// and more, and purée and cold syrup run laminar. It needs the true bore
// only, where the three-K method needs a nominal pipe size that hygienic tube
// has not got and Crane's needs the friction of rough commercial pipe. And it
// has every fitting of such a line. In polished tube it errs on the high side: for a 1½ in bend of 1.5 D
// at Re 100 000 it gives 0.35, the correlations of Ito and Miller for smooth bends 0.23 to 0.25.
//
// Reducers and entrances follow Crane TP-410, and so do tees that split or join.
type Fitting struct {
	Laminar   float64 // K·Re where the flow is laminar
	Turbulent float64 // K at high Reynolds number

	// What other published methods give in turbulent flow; zero where there
	// is none beside the default. Low and High are the default's own where no
	// other says less or more.
	Low, High Coefficient
}

// Coefficient is a loss coefficient in turbulent flow by any of the methods:
// K = Laminar/Re + Turbulent + Lengths·f, f being the bore's Darcy factor.
type Coefficient struct{ Laminar, Turbulent, Lengths float64 }

// K returns the loss coefficient at Reynolds number re by the default method.
func (f Fitting) K(re float64) float64 {
	f = f.held()
	return f.Laminar/within(re, 1e-12, math.MaxFloat64) + f.Turbulent
}

// K returns the loss coefficient at Reynolds number re in a bore whose friction factor is f.
func (c Coefficient) K(re, f float64) float64 {
	return c.Laminar/within(re, 1e-12, math.MaxFloat64) + c.Turbulent + c.Lengths*f
}

// held returns f with every constant finite. K may be negative by a little: a
// tee can give back what its other branch loses.
func (f Fitting) held() Fitting {
	f.Laminar, f.Turbulent = within(f.Laminar, 0, greatestK), within(f.Turbulent, -10, greatestK)
	own := Coefficient{Laminar: f.Laminar, Turbulent: f.Turbulent}
	f.Low, f.High = f.Low.held(own), f.High.held(own)
	return f
}

func (c Coefficient) held(usual Coefficient) Coefficient {
	if c == (Coefficient{}) {
		return usual
	}
	return Coefficient{within(c.Laminar, 0, greatestK), within(c.Turbulent, -10, greatestK), within(c.Lengths, 0, greatestK)}
}

// Where methods are compared to say which gives least and most: turbulent
// flow in smooth tube. Near the critical zone two of them may change places;
// the default then bounds the band itself.
const (
	comparedAt       = 1e5
	comparedFriction = 0.018
)

// among returns f, the default, with the least and the most that it or others give.
func (f Fitting) among(others ...Coefficient) Fitting {
	f.Low = Coefficient{Laminar: f.Laminar, Turbulent: f.Turbulent}
	f.High = f.Low
	for _, o := range others {
		k := o.K(comparedAt, comparedFriction)
		if k < f.Low.K(comparedAt, comparedFriction) {
			f.Low = o
		}
		if k > f.High.K(comparedAt, comparedFriction) {
			f.High = o
		}
	}
	return f
}

// plus returns f with k added where the flow is turbulent.
func (f Fitting) plus(k float64) Fitting {
	f.Turbulent += k
	return f
}

// inches returns a bore in inches, as the formulas of Hooper and Darby want it.
func inches(bore q.Length) float64 {
	return within(float64(bore), leastBore, greatestBore) / float64(q.Inch)
}

// twoK returns Hooper's K = K1/Re + K∞ (1 + 1/D), D the bore in INCHES.
func twoK(k1, kInf float64, bore q.Length) Fitting {
	return Fitting{Laminar: k1, Turbulent: kInf * (1 + 1/inches(bore))}
}

// ThreeK returns K = K1/Re + Ki (1 + Kd/D^0.3), D the nominal size in INCHES, of
// R. Darby, Chemical Engineering Fluid Mechanics, 2nd ed. (2001) ch. 7. The
// bore stands for the nominal size.
func ThreeK(k1, ki, kd float64, bore q.Length) Coefficient {
	return Coefficient{Laminar: k1, Turbulent: ki * (1 + kd/math.Pow(inches(bore), 0.3))}
}

// crane returns K = n·fT of Crane TP-410: n lengths at the friction of fully
// turbulent flow in new commercial steel pipe, which stands for the shape of
// the fitting and is not to be replaced by the tube's own friction.
func crane(n float64, bore q.Length) Coefficient {
	return Coefficient{Turbulent: n * FullyTurbulent(bore)}
}

// FullyTurbulent returns Crane's fT, the friction factor of fully turbulent
// flow in commercial steel pipe of that bore (TP-410: 0.25/log10²(ε/3.7D), ε 0.0018 in).
func FullyTurbulent(bore q.Length) float64 {
	x := math.Log10(0.0018 / inches(bore) / 3.7)
	return 0.25 / math.Max(x*x, 1e-3)
}
