package quantity

import (
	"math"
	"strings"
)

// A gravity or a density stands for the sugar in a liquid that is not yet
// fermented. Four conventions are in use, and they are kept apart by name:
//
//	SG 1.048        over water, both at 20 °C and weighed in air: what the
//	                tables of Plato and the ASBC hold and a hydrometer shows
//	SG 1.048 true   the ratio of the true densities at 20 °C
//	SG 1.046 20/4   the true density at 20 °C over that of water at 4 °C
//	1046 kg/m³      the true density at 20 °C
//
// 10 °P is 1.04003, 1.03998, 1.03815 and 1038.1 kg/m³: a gravity is never a
// thousandth of a density.

// The range of specific gravity in air that may be typed: from water to the
// strongest juices and worts, where the fit below holds.
const (
	lowestSG  = 1.000
	highestSG = 1.130
)

// Densities in kg/m³ that turn one convention into another.
const (
	waterAt20 = 998.203 // G. S. Kell, J. Chem. Eng. Data 20 (1975) 97
	waterAt4  = 999.972
	airAt20   = 1.2 // as NBS Circular C440 takes it
)

// gravityOrDensity reads a specific gravity, or a density at 20 °C, as a mass
// fraction of sugar.
func gravityOrDensity(s string) (si float64, c complaint, is bool) {
	if sg, c, is := specificGravity(s); is {
		if c.bad() {
			return 0, c, true
		}
		si, c = sugarOf(sg)
		return si, c, true
	}
	if rho, c := terms(KindDensity, s, 1); !c.bad() && rho != 0 {
		si, c = sugarOf(inAir(rho / waterAt20))
		return si, c, true
	}
	return 0, complaint{}, false
}

// specificGravity reads "SG 1.048" or "1.048 SG", with a convention after it,
// as a gravity in air.
func specificGravity(s string) (sg float64, c complaint, is bool) {
	low := strings.ToLower(s)
	rest, ok := strings.CutPrefix(low, "sg")
	convert := func(sg float64) float64 { return sg }
	for _, w := range [...]struct {
		word    string
		convert func(float64) float64
	}{
		{"20/4", func(sg float64) float64 { return inAir(sg * waterAt4 / waterAt20) }},
		{"true", inAir}, {"in air", convert}, {"20/20", convert},
	} {
		if before, cut := strings.CutSuffix(rest, w.word); cut && (ok || strings.Contains(before, "sg")) {
			rest, convert = strings.TrimSpace(before), w.convert
			break
		}
	}
	if !ok {
		if rest, ok = strings.CutSuffix(rest, "sg"); !ok {
			return 0, complaint{}, false
		}
	}
	// 1,048 can only be a decimal here: nothing has a gravity of a thousand.
	rest = strings.Replace(strings.TrimSpace(rest), ",", ".", 1)
	sg, rest, c = number(rest)
	if c.bad() {
		return 0, c, true
	}
	if rest != "" {
		return 0, complaint{what: "is not a specific gravity", hint: "write SG 1.048, or SG 1.048 true where it was not weighed in air"}, true
	}
	return convert(sg), complaint{}, true
}

// inAir returns the gravity in air of a solution whose true gravity at 20 °C
// over water at 20 °C is sg: the air bears up solution and water alike.
func inAir(sg float64) float64 {
	return (sg*waterAt20 - airAt20) / (waterAt20 - airAt20)
}

// sugarOf returns the mass fraction of sugar at a gravity in air.
func sugarOf(sg float64) (float64, complaint) {
	const rounding = 1e-6 // of a density of plain water as people round it: 998.2
	if !(sg >= lowestSG-5*rounding && sg <= highestSG+rounding) {
		return 0, complaint{what: "is outside the specific gravities that can be turned into sugar", hint: "write SG from 1.000 to 1.130, or a density at 20 °C from 998.2 to 1128 kg/m³"}
	}
	return plato(sg) / 100, complaint{}
}

// plato returns the degrees Plato, which are per cent of sugar by mass, of a
// solution of specific gravity sg at 20 °C over water at 20 °C, from 1.000 to
// 1.130. It is the cubic fit to the ASBC tables that is usually credited to
// R. Lincoln (1987); those tables weigh in air, so the gravity is the
// apparent one that a hydrometer shows. The fit gives -0.003 for water, which
// is held at 0.
func plato(sg float64) float64 {
	return math.Max(0, -616.868+sg*(1111.14+sg*(-630.272+sg*135.997)))
}
