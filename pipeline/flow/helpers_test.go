package flow_test

import (
	"bufio"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline/flow"
	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
)

// records reads a file of testdata without its comments and its heading.
func records(t *testing.T, name string) [][]string {
	t.Helper()
	file, err := os.Open("testdata/" + name)
	require.NoError(t, err)
	defer file.Close()
	var out [][]string
	heading := true
	lines := bufio.NewScanner(file)
	for lines.Scan() {
		switch line := lines.Text(); {
		case strings.HasPrefix(line, "#"):
		case heading:
			heading = false
		default:
			out = append(out, strings.Split(line, ","))
		}
	}
	require.NoError(t, lines.Err())
	require.NotEmpty(t, out)
	return out
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return x
}

// near asserts that got is within a part of want, which must not be 0.
func near(t assert.TestingT, want, got, part float64, about ...any) bool {
	return assert.InEpsilon(t, want, got, part, about...)
}

// newtonian is a liquid of a density, kg/m³, and kinematic viscosity, m²/s.
func newtonian(rho, nu float64) liquid.Properties {
	return liquid.Properties{Density: q.Density(rho), Viscosity: q.Viscosity(rho * nu)}
}

const (
	foot    = 0.3048
	usGal   = 3.785411784e-3 // 231 in³, exact
	psi     = 6894.757293168
	poundFt = 16.01846337396 // lb/ft³ in kg/m³
	g0      = 9.80665
)

// straight is one length of pipe.
func straight(bore, length, roughness float64) flow.Element {
	return flow.Element{Bore: q.Length(bore), Length: q.Length(length), Roughness: q.Length(roughness)}
}

// constant is a fitting with a K that does not depend on the Reynolds number.
func constant(bore, k float64) flow.Element {
	return flow.Element{Bore: q.Length(bore), Loss: flow.Fitting{Turbulent: k}}
}
