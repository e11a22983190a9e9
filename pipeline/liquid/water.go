package liquid

import (
	"math"

	q "drawoff/pipeline/quantity"
)

// Constants of IAPWS R7-97(2012), "Revised Release on the IAPWS Industrial
// Formulation 1997".
const (
	gasConstant     = 461.526 // J/(kg K), of water; Eq 1
	criticalT       = 647.096 // K; Eq 2
	criticalDensity = 322     // kg/m³; Eq 4

	regionOneColdest = 273.15 // K; section 5
	regionOneHottest = 623.15 // K
	highestPressure  = 100e6  // Pa

	coldestSaturated = 611.212677 // Pa, at 273.15 K; section 8
	highestSaturated = 22.064e6   // Pa, at the critical point; Eq 3
)

const standardAtmosphere = 101325 // Pa, exact; ISO 2533:1975

// term is one term of a polynomial in two variables: n x^i y^j.
type term struct {
	i, j int
	n    float64
}

// regionOne holds Table 2 of IAPWS R7-97(2012) from its ninth row on. The
// eight rows before it have i = 0: they say nothing about the volume.
var regionOne = [...]term{
	{1, -9, 0.28319080123804e-3},
	{1, -7, -0.60706301565874e-3},
	{1, -1, -0.18990068218419e-1},
	{1, 0, -0.32529748770505e-1},
	{1, 1, -0.21841717175414e-1},
	{1, 3, -0.52838357969930e-4},
	{2, -3, -0.47184321073267e-3},
	{2, 0, -0.30001780793026e-3},
	{2, 1, 0.47661393906987e-4},
	{2, 3, -0.44141845330846e-5},
	{2, 17, -0.72694996297594e-15},
	{3, -4, -0.31679644845054e-4},
	{3, 0, -0.28270797985312e-5},
	{3, 6, -0.85205128120103e-9},
	{4, -5, -0.22425281908000e-5},
	{4, -2, -0.65171222895601e-6},
	{4, 10, -0.14341729937924e-12},
	{5, -8, -0.40516996860117e-6},
	{8, -11, -0.12734301741641e-8},
	{8, -6, -0.17424871230634e-9},
	{21, -29, -0.68762131295531e-18},
	{23, -31, 0.14478307828521e-19},
	{29, -38, 0.26335781662795e-22},
	{30, -39, -0.11947622640071e-22},
	{31, -40, 0.18228094581404e-23},
	{32, -41, -0.93537087292458e-25},
}

// RegionOneVolume returns the specific volume, in m³/kg, of liquid water at
// temperature t and absolute pressure p, by Eq 7 and Table 3 of IAPWS
// R7-97(2012). It holds from 273.15 K to 623.15 K and from saturation to
// 100 MPa; beyond that t and p are held at the edge.
func RegionOneVolume(t q.Temperature, p q.Pressure) float64 {
	kelvin := held(float64(t), regionOneColdest, regionOneHottest)
	pi := held(float64(p), coldestSaturated, highestPressure) / 16.53e6
	x, y := 7.1-pi, 1386/kelvin-1.222
	slope := 0.0 // of the dimensionless Gibbs energy with pi
	for _, c := range regionOne {
		slope -= c.n * float64(c.i) * power(x, c.i-1) * power(y, c.j)
	}
	// v p/(R T) = π γ_π, so that v is R T γ_π over the reducing pressure.
	return gasConstant * kelvin * slope / 16.53e6
}

// saturation holds Table 34 of IAPWS R7-97(2012), n1 to n10.
var saturation = [...]float64{
	0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7,
	0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3,
}

// SaturationPressure returns the vapour pressure of water at t, by Eq 30 of
// IAPWS R7-97(2012). It holds from 273.15 K to the critical point, 647.096 K;
// beyond that t is held at the edge.
func SaturationPressure(t q.Temperature) q.Pressure {
	kelvin := held(float64(t), regionOneColdest, criticalT)
	n := &saturation
	th := kelvin + n[8]/(kelvin-n[9])
	a := (th+n[0])*th + n[1]
	b := (n[2]*th+n[3])*th + n[4]
	c := (n[5]*th+n[6])*th + n[7]
	root := 2 * c / (-b + math.Sqrt(b*b-4*a*c))
	root *= root
	return q.Pressure(root * root * 1e6)
}

// BoilingPoint returns the temperature at which water boils under the absolute
// pressure p, by Eq 31 of IAPWS R7-97(2012), which is the exact inverse of
// SaturationPressure. It holds from 611.213 Pa to 22.064 MPa; beyond that p is
// held at the edge.
//
// At 101.325 kPa that is 99.974 °C, not 100: the scale of 1990 moved it.
func BoilingPoint(p q.Pressure) q.Temperature {
	megapascals := held(float64(p), coldestSaturated, highestSaturated) / 1e6
	n := &saturation
	b := math.Sqrt(math.Sqrt(megapascals))
	e := (b+n[2])*b + n[5]
	f := (n[0]*b+n[3])*b + n[6]
	g := (n[1]*b+n[4])*b + n[7]
	d := 2 * g / (-f - math.Sqrt(f*f-4*e*g))
	s := n[9] + d
	return q.Temperature((s - math.Sqrt(s*s-4*(n[8]+n[9]*d))) / 2)
}

// dilute and dense hold Tables 1 and 2 of IAPWS R12-08.
var dilute = [...]float64{1.67752, 2.20462, 0.6366564, -0.241605}

var dense = [...]term{
	{0, 0, 0.520094}, {1, 0, 0.850895e-1}, {2, 0, -0.108374e1}, {3, 0, -0.289555},
	{0, 1, 0.222531}, {1, 1, 0.999115}, {2, 1, 0.188797e1}, {3, 1, 0.126613e1}, {5, 1, 0.120573},
	{0, 2, -0.281378}, {1, 2, -0.906851}, {2, 2, -0.772479}, {3, 2, -0.489837}, {4, 2, -0.257040},
	{0, 3, 0.161913}, {1, 3, 0.257399},
	{0, 4, -0.325372e-1}, {3, 4, 0.698452e-1},
	{4, 5, 0.872102e-2},
	{3, 6, -0.435673e-2}, {5, 6, -0.593264e-3},
}

// WaterViscosity returns the viscosity of water at temperature t and density
// rho, by Eqs 10 to 12 of IAPWS R12-08, "Release on the IAPWS Formulation 2008
// for the Viscosity of Ordinary Water Substance", with the critical
// enhancement left out (mu2 = 1): liquid below 150 °C is nowhere near the
// critical point. It holds from 273.15 K to 1173.15 K and up to 1300 kg/m³;
// beyond that t and rho are held at the edge.
func WaterViscosity(t q.Temperature, rho q.Density) q.Viscosity {
	tr := held(float64(t), regionOneColdest, 1173.15) / criticalT
	dr := held(float64(rho), 0, 1300) / criticalDensity
	thin := 0.0
	for i, h := range dilute {
		thin += h / power(tr, i)
	}
	x, y := 1/tr-1, dr-1
	sum := 0.0
	for _, c := range dense {
		sum += c.n * power(x, c.i) * power(y, c.j)
	}
	return q.Viscosity(100 * math.Sqrt(tr) / thin * math.Exp(dr*sum) * 1e-6)
}

// Range of Water, °C. The formulas reach further; open vessels do not.
var waterRange = span{0, 150, "density, viscosity and vapour pressure", "0 to 150 °C (IAPWS R7-97 region 1)"}

var waterSources = Sources{
	Density:        "IAPWS R7-97(2012) region 1, 0 to 150 °C, at 101.325 kPa or at saturation when hotter than boiling",
	Viscosity:      "IAPWS R12-08, critical enhancement left out, 0 to 150 °C",
	VapourPressure: "IAPWS R7-97(2012) region 4, 0 to 150 °C",
}

// Water returns the properties of pure water at t under 101.325 kPa, and above
// its boiling point at saturation. The height of the plant does not matter to
// them: 20 kPa less makes water lighter by 1 part in 100 000.
func Water(t q.Temperature) Properties {
	var outside []Outside
	held := waterRange.temperature(t, &outside)
	vapour := SaturationPressure(held)
	rho := q.Density(1 / RegionOneVolume(held, max(standardAtmosphere, vapour)))
	return Properties{
		Name:           name("water", t),
		Density:        rho,
		Viscosity:      WaterViscosity(held, rho),
		VapourPressure: vapour,
		Sources:        waterSources,
		Outside:        outside,
	}
}
