package quantity

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is shown changes with the system, and no value with it. Not parallel:
// the system is one for the program.
func TestShow(t *testing.T) {
	defer Show(Metric)
	tank := MustParse[Length]("36 in")
	assert.Equal(t, "914 mm", Text(tank.Value()))
	Show(Inches)
	assert.Equal(t, "36 in", Text(tank.Value()))
	assert.Equal(t, "36 in", tank.Amount().String())
	assert.Equal(t, "9 1/2 in", Text(Length(9.5*0.0254)), "a fraction, as a tape has it")
	json, err := tank.Amount().MarshalJSON()
	require.NoError(t, err)
	assert.Equal(t, `{"value":914.4,"unit":"mm"}`, string(json), "what programs read does not change")
	assert.Equal(t, Inches, SystemOf(Inches.String()))
	assert.Equal(t, Metric, SystemOf(Metric.String()))
	assert.Equal(t, Metric, SystemOf(""))
}

func TestTyped(t *testing.T) {
	t.Parallel()
	inches := []string{"36 in", `1 1/2"`, "6 ft 2 in", "9½in", "40 US gal", "12 psi", "180 °F", "180F", "10 gal/min", "3 lbs", "6'", "2 ft/s"}
	metric := []string{"900 mm", "1.2 m", "12 °C", "40 L/min", "2 bar", "1:80", "0.5 min", "40 mL", "1 cm"}
	for _, s := range inches {
		assert.Equal(t, Inches, Typed(s), s)
	}
	for _, s := range metric {
		assert.Equal(t, Metric, Typed(s), s)
	}
}
