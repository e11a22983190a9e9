package quantity

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// What a workshop would set: common practice, no source. Up and down are by hand.
func TestStepped(t *testing.T) {
	t.Parallel()
	for _, x := range []struct {
		kind           Kind
		text, up, down string
	}{
		{KindLength, "850 mm", "855 mm", "845 mm"},
		{KindLength, "852 mm", "855 mm", "850 mm"},
		{KindLength, "-200 mm", "-195 mm", "-205 mm"},
		{KindLength, "0 mm", "5 mm", "-5 mm"},
		{KindLength, "0", "5 mm", "-5 mm"},
		{KindLength, "2 mm", "2.5 mm", "1.5 mm"},
		{KindLength, "1,8 m", "1.81 m", "1.79 m"},
		{KindLength, "90 cm", "90.5 cm", "89.5 cm"},
		{KindLength, "31 1/2 in", "31 3/4 in", "31 1/4 in"},
		{KindLength, `72"`, "72 1/4 in", "71 3/4 in"},
		{KindLength, "1/2 in", "9/16 in", "7/16 in"},
		{KindLength, "6 ft 2 in", "74 1/4 in", "73 3/4 in"},
		{KindTemperature, "12 °C", "13 °C", "11 °C"},
		{KindTemperature, "-3.5 °C", "-3 °C", "-4 °C"},
		{KindTemperature, "54 F", "55 °F", "53 °F"},
		{KindFlow, "40 L/min", "41 L/min", "39 L/min"},
		{KindFlow, "2.4 m3/h", "2.5 m³/h", "2.3 m³/h"},
		{KindFraction, "15 %", "16 %", "14 %"},
		{KindFraction, "0.15", "16 %", "14 %"},
		{KindPressure, "2 bar", "2.1 bar", "1.9 bar"},
		{KindSlope, "1:100", "1:95", "1:105"},
		{KindSlope, "1 %", "1.1 %", "0.9 %"},
		{KindSlope, "level", "0.1 %", "-0.1 %"},
		{KindSlope, "rising 1:100", "rising 1:105", "rising 1:95"},
		{KindAngle, "90°", "91 °", "89 °"},
		{KindNumber, "1.3", "1.4", "1.2"},
		{KindStrength, "12 °P", "12.5 °P", "11.5 °P"},
	} {
		up, ok := Stepped(x.kind, x.text, 1)
		require.True(t, ok, x.text)
		down, _ := Stepped(x.kind, x.text, -1)
		assert.Equal(t, x.up, up, "%s up", x.text)
		assert.Equal(t, x.down, down, "%s down", x.text)
	}
	_, ok := Stepped(KindLength, "wide", 1)
	assert.False(t, ok)
	_, ok = Stepped(KindStrength, "SG 1.048", 1)
	assert.False(t, ok)
}

// Of every unit: a step up is more and a step down is less, and what comes of
// it can be typed.
func TestSteppedMoves(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		k := Kind(rapid.IntRange(0, len(kinds)-1).Draw(t, "kind"))
		text := strconv.Itoa(rapid.IntRange(20, 60).Draw(t, "n"))
		if len(kinds[k].units) > 0 {
			text += " " + rapid.SampledFrom(kinds[k].units).Draw(t, "unit").symbol
		}
		at, err := ParseAmount(k, text)
		require.NoError(t, err)
		for _, n := range []int{1, -1} {
			there, ok := Stepped(k, text, n)
			require.True(t, ok, text)
			to, err := ParseAmount(k, there)
			require.NoError(t, err, "%s after %s", there, text)
			assert.Greater(t, float64(n)*(to.SI-at.SI), 0.0, "%s to %s", text, there)
		}
	})
}

// What the program begins with is left as it is where it is of the system that
// is shown, and else in its unit, to a step: the inch is 25.4 mm, the bar
// 14.504 psi (NIST SP 811 B.8).
func TestStart(t *testing.T) {
	defer Show(Metric)
	assert.Equal(t, "2 bar", KindPressure.Start("2 bar"))
	Show(Inches)
	assert.Equal(t, "12 in", KindLength.Start("300 mm"))
	assert.Equal(t, "4 in", KindLength.Start("100 mm"))
	assert.Equal(t, "2 ft", KindLength.Start("2 ft"))
	assert.Equal(t, "0 psi", KindPressure.Start("0 bar"))
	assert.Contains(t, []string{"0.14 psi", "0.15 psi"}, KindPressure.Start("0.01 bar"), "a small one is not lost")
	assert.Equal(t, "1:80", KindSlope.Start("1:80"))
	assert.Equal(t, "none", KindLength.Start("none"))
}
