package quantity

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
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
	for _, s := range []System{Metric, Inches, AsTyped} {
		assert.Equal(t, s, SystemOf(s.String()))
	}
	assert.Equal(t, Metric, SystemOf(""))
}

func TestTyped(t *testing.T) {
	t.Parallel()
	for kind, texts := range map[Kind][2][]string{
		KindLength:      {{"36 in", `1 1/2"`, "6 ft 2 in", "9½in", "6'", "3 ins"}, {"900 mm", "1.2 m", "1 cm", "0"}},
		KindVolume:      {{"40 US gal", "2 imp gal"}, {"40 mL", "9 hL"}},
		KindFlow:        {{"10 US gal/min", "3 usgpm", "3 imp gal per minute"}, {"40 L/min", "2 m3/h"}},
		KindPressure:    {{"12 psi", "3 lb/in2", "14.7 psia"}, {"2 bar", "20 kPa"}},
		KindTemperature: {{"180 °F", "180F", "180 degF"}, {"12 °C", "285 K"}},
		KindMass:        {{"3 lbs"}, {"3 kg"}},
		KindVelocity:    {{"2 ft/s", "2 fps"}, {"2 m/s"}},
		KindSlope:       {nil, {"1:80", "1 %", "1/4 in/ft"}},
		KindAngle:       {nil, {"45°", "45° 30'"}},
		KindDuration:    {nil, {"0.5 min"}},
	} {
		for i, list := range texts {
			want := [...]System{Inches, Metric}[i]
			for _, text := range list {
				_, err := ParseAmount(kind, text)
				require.NoError(t, err)
				assert.Equal(t, want, Typed(kind, text), text)
				assert.Equal(t, want == Inches, kind.Foreign(text), text)
			}
		}
	}
}

// typed is what somebody typed: a letter says of which kind each is.
func typed(texts ...string) func(func(Kind, string)) {
	kinds := map[byte]Kind{'l': KindLength, 'h': KindHead, 'v': KindVolume, 'q': KindFlow, 'p': KindPressure, 't': KindTemperature, 's': KindSlope, 'm': KindMass}
	return func(hear func(Kind, string)) {
		for _, x := range texts {
			hear(kinds[x[0]], x[2:])
		}
	}
}

// Each kind is shown as most of it was typed; a kind of which nothing was typed
// goes with the lengths. What is expected is by hand. Not parallel: what is
// spoken is one for the program.
func TestSpeak(t *testing.T) {
	defer Show(Metric)
	Show(AsTyped)
	amounts := []Amount{Of(Mm(240)), Of(Head(3.4)), Of(Volume(0.9)), Of(Flow(1) / 1000), Of(2 * Bar), Of(Celsius(12)), Of(Slope(0.0125)), Of(Mass(80))}
	metric := []string{"240 mm", "3.40 m", "900 L", "60 L/min", "200 kPa", "12 °C", "1:80", "80 kg"}
	inches := []string{"9 7/16 in", "11.2 ft", "238 US gal", "15.9 US gal/min", "29 psi", "53.6 °F", "1:80", "176 lb"}
	shown := func(typed func(func(Kind, string))) (out []string) {
		Speak(typed)
		for _, a := range amounts {
			out = append(out, a.String())
		}
		return out
	}
	but := func(list []string, at int, text string, more ...any) []string {
		out := append([]string(nil), list...)
		out[at] = text
		for i := 0; i+1 < len(more); i += 2 {
			out[more[i].(int)] = more[i+1].(string)
		}
		return out
	}
	assert.Equal(t, metric, shown(typed()))
	assert.Equal(t, metric, shown(typed("l:900 mm", "l:36 in")), "as many in either")
	assert.Equal(t, metric, shown(typed("l:900 mm", "l:1.2 m", "l:36 in", "t:285 K", "p:5 Pa", "q:0", "s:1:80")))
	assert.Equal(t, inches, shown(typed("l:900 mm", "l:36 in", "l:6 ft 2 in")))
	assert.Equal(t, but(inches, 3, "60 L/min"), shown(typed("l:36 in", "q:40 L/min")), "the flow speaks for itself")
	assert.Equal(t, but(inches, 3, "3.6 m³/h", 4, "2 bar"), shown(typed("l:36 in", "q:2 m3/h", "q:3 m³/h", "q:40 L/min", "p:2 bar", "p:0 bar", "p:20 kPa")))
	assert.Equal(t, but(metric, 5, "53.6 °F"), shown(typed("l:900 mm", "t:54 F")))
	assert.Equal(t, inches, shown(typed("l:36 in", "p:2 bar", "p:3 psi")), "where it does not decide, the lengths do")
	assert.Equal(t, but(metric, 0, "24 cm"), shown(typed("l:90 cm", "l:80 cm", "l:1.2 m")))
	assert.Equal(t, metric, shown(typed("l:90 cm", "l:80 mm")), "cm where most are")
	assert.Equal(t, but(metric, 2, "9 hL"), shown(typed("v:12 hL")))
	assert.Equal(t, but(metric, 6, "1.25 %"), shown(typed("s:1 %", "s:1 %", "s:1:80")))
	assert.Equal(t, but(metric, 6, "0.15 in/ft"), shown(typed("s:1/8 in/ft")))
	assert.Equal(t, but(inches, 2, "198 imp gal", 3, "13.2 imp gal/min"), shown(typed("l:36 in", "v:200 imp gal")), "one gallon for both")
	assert.Equal(t, but(inches, 2, "198 imp gal"), shown(typed("l:36 in", "v:200 imp gal", "q:10 US gal/min")), "each as typed")
	assert.Equal(t, but(metric, 2, "198 imp gal"), shown(typed("l:900 mm", "v:200 imp gal")), "and no gallons where there are none")
	Show(Inches)
	Speak(typed("l:900 mm"))
	assert.Equal(t, "9 7/16 in", Text(Mm(240)), "where as typed was not chosen, nothing changes")
}

// In the larger units of a kind, what is little is shown in the usual ones.
func TestLittleInLargeUnits(t *testing.T) {
	defer Show(Metric)
	Show(AsTyped)
	Speak(typed("l:90 cm", "v:9 hL", "p:2 bar"))
	for want, a := range map[string]Amount{
		"63.5 mm": Of(Mm(63.5)), "99.9 mm": Of(Mm(99.9)), "10 cm": Of(Mm(100)), "96.5 cm": Of(Mm(965)), "21.5 m": Of(Length(21.5)), "0.8 mm": Of(Mm(0.8)),
		"1.2 hL": Of(Volume(0.12)), "85 L": Of(Volume(0.085)), "250 mL": Of(Volume(0.00025)),
		"14 mbar": Of(Pressure(1400)), "50 Pa": Of(Pressure(50)), "210 MPa": Of(Pressure(210e6)),
	} {
		assert.Equal(t, want, a.String())
	}
}

// Whatever was typed, what is shown is in a unit of its kind that goes with
// what was typed, can be typed back, and means the same within its rounding.
func TestWhatIsSpokenCanBeTyped(t *testing.T) {
	defer Show(Metric)
	Show(AsTyped)
	rapid.Check(t, func(t *rapid.T) {
		k := Kind(rapid.IntRange(0, len(kinds)-1).Draw(t, "kind"))
		if len(kinds[k].units) == 0 {
			return
		}
		u := rapid.SampledFrom(kinds[k].units).Draw(t, "unit")
		Speak(func(hear func(Kind, string)) { hear(k, "3 "+u.symbol) })
		si := rapid.Float64Range(-1e4, 1e4).Draw(t, "si")
		switch k {
		case KindTemperature:
			si = 1 + math.Abs(si)
		case KindSlope:
			si /= 1e4
		}
		text := Amount{k, si}.String()
		a, err := ParseAmount(k, text)
		require.NoError(t, err, text)
		loose := coarseness(k, AsTyped, si)
		assert.InDelta(t, si, a.SI, loose, text)
		shown, ok := k.bySymbol(k.Unit(AsTyped))
		if ok {
			assert.Equal(t, u.system, shown.system)
			assert.Equal(t, u.own && k != KindHead, shown.own, "%s shown in %s", u.symbol, shown.symbol)
		}
	})
}

// A length to saw is one that is on a tape, half a 32nd off at most; in metric
// it is what any other length is.
func TestTape(t *testing.T) {
	defer Show(Metric)
	assert.Equal(t, "65 mm", Tape(Mm(65)))
	Show(Inches)
	assert.Equal(t, "2.56 in", Text(Mm(65)))
	assert.Equal(t, "2 9/16 in", Tape(Mm(65)))
	rapid.Check(t, func(t *rapid.T) {
		l := Length(rapid.Float64Range(0, 15).Draw(t, "l"))
		text := Tape(l)
		assert.NotContains(t, text, ".")
		assert.True(t, strings.HasSuffix(text, " in"), text)
		assert.InDelta(t, float64(l), float64(MustParse[Length](text).Value()), 0.0254/64+1e-9, text)
	})
}
