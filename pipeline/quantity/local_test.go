package quantity

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// What the program says in metric is said in the units shown. The factors are
// those of NIST SP 811 B.8; the ends of a range are rounded into it. Beside no
// other test: what is shown is one for the program.
func TestLocal(t *testing.T) {
	defer Show(Metric)
	for _, c := range [][2]string{
		{"0 to 150 °C (IAPWS R7-97 region 1)", "32 to 302 °F (IAPWS R7-97 region 1)"},
		{"50 mm to 10 m", "1.97 in to 32.8 ft"},                                             // 1.9685 in, 32.808 ft
		{"0.5 mm to 50 mm", "0.0197 in to 1.96 in"},                                         // 0.01969 in, 1.9685 in
		{"-5 m to 20 m, over the outlet face", "-16.4 ft to 65.6 ft, over the outlet face"}, // 16.404 ft, 65.617 ft
		{"0 to 20 m", "0 to 65.6 ft"},
		{"1 L to 2000 m³", "0.265 US gal to 528000 US gal"},                              // 0.26417, 528344
		{"35 L/min per metre round the tank", "2.82 US gal/min per foot round the tank"}, // 9.2460 US gal/min × 0.3048
		{"up to about 200 kg/m³", "up to about 1.67 lb/US gal"},                          // 1.6691
		{"0 to 3 mm", "0 to 0.118 in"},                                                   // 0.11811
		{"0 to 1000 kPa, absolute", "0 to 145 psi, absolute"},                            // 145.04
		{"0.01 to 100 000, in m³/h at 1 bar", "0.01 to 100 000, in m³/h at 14.5 psi"},    // 14.504
		{"12 °P or 1:100", "12 °P or 1:100"},
	} {
		Show(Metric)
		assert.Equal(t, c[0], Local(c[0]))
		Show(Inches)
		assert.Equal(t, c[1], Local(c[0]))
	}
	Show(AsTyped)
	Speak(func(hear func(Kind, string)) { hear(KindLength, "3 in"); hear(KindTemperature, "20 °C") })
	assert.Equal(t, "1.97 in at 20 °C", Local("50 mm at 20 °C"), "each kind as it is shown")
}

// Whatever ends a range has, they are told within it, to a hundredth of it.
func TestLocalRangeMayBeTyped(t *testing.T) {
	defer Show(Metric)
	Show(Inches)
	rapid.Check(t, func(t *rapid.T) {
		low, high := rapid.IntRange(-200, 100).Draw(t, "low"), rapid.IntRange(101, 900).Draw(t, "high")
		text := Local(strconv.Itoa(low) + " mm to " + strconv.Itoa(high) + " mm")
		a, b, ok := strings.Cut(text, " to ")
		require.True(t, ok, text)
		from, err := ParseAmount(KindLength, a)
		require.NoError(t, err)
		to, err := ParseAmount(KindLength, b)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, from.SI, float64(low)/1000-1e-9)
		assert.LessOrEqual(t, to.SI, float64(high)/1000+1e-9)
		assert.InDelta(t, float64(low)/1000, from.SI, 0.01*0.2+1e-9)
		assert.InDelta(t, float64(high)/1000, to.SI, 0.01*0.9)
	})
}

// What was typed is told in the units shown, and as it was typed where it is in them.
func TestTold(t *testing.T) {
	defer Show(Metric)
	e := MustParse[Length]("0,2 m")
	assert.Equal(t, "0,2 m", e.Told())
	Show(Inches)
	assert.Equal(t, "7 7/8 in", e.Told()) // 7.874 in
	assert.Equal(t, "7.874 in", Measured(e))
	assert.Equal(t, "5 ft 3 in", MustParse[Length]("5 ft 3 in").Told())
}
