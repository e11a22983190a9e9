// Package quantity holds the measures that Drawoff computes with: a defined
// type over float64 for each, always in SI units, in the manner of
// time.Duration. A number that a person types is an Entered quantity, which
// keeps the words it was typed in.
//
// Multiply and divide quantities only inside named functions: Go lets
// Length * Length pass as a Length, and it is wrong.
package quantity

// Quantity is any measure of this package.
type Quantity interface {
	~float64
	Kind() Kind
}

type (
	Length      float64 // metres
	Head        float64 // metres of the liquid at hand
	Volume      float64 // cubic metres
	Flow        float64 // cubic metres per second
	Velocity    float64 // metres per second
	Pressure    float64 // pascals, absolute unless the name says otherwise
	Temperature float64 // kelvin
	Angle       float64 // radians
	Slope       float64 // fall over level run, metres per metre; falling is positive
	Density     float64 // kilograms per cubic metre
	Viscosity   float64 // dynamic, pascal seconds
	Mass        float64 // kilograms
	Duration    float64 // seconds
	Power       float64 // watts
	Fraction    float64 // a part of one
	Number      float64 // a pure number
	Strength    float64 // mass fraction of dissolved sugar, kg/kg; typed as °P, °Bx, %, SG or a density at 20 °C
	Consistency float64 // K of a power-law liquid, pascal seconds to the power of its index n
	Rotation    float64 // turns per second
	Force       float64 // newtons
	Moment      float64 // of a force about a point, newton metres
)

// Exact conversions, as multiples of the SI unit.
const (
	Metre      Length = 1
	Millimetre Length = 1e-3
	Inch       Length = 0.0254 // exact, international yard and pound agreement 1959

	CubicMetre Volume = 1
	Litre      Volume = 1e-3

	CubicMetrePerSecond Flow = 1
	LitrePerMinute      Flow = 1e-3 / 60
	CubicMetrePerHour   Flow = 1.0 / 3600

	Pascal     Pressure = 1
	Kilopascal Pressure = 1e3
	Bar        Pressure = 1e5

	Radian Angle = 1
	Degree Angle = 3.14159265358979323846264338327950288 / 180

	MillipascalSecond Viscosity = 1e-3

	RPM Rotation = 1.0 / 60 // one turn a minute

	Minute Duration = 60
	Hour   Duration = 3600
)

// zeroCelsius is 0 °C in kelvin, exact by the definition of the scale.
const zeroCelsius = 273.15

// Celsius returns the temperature t degrees Celsius.
func Celsius(t float64) Temperature { return Temperature(t + zeroCelsius) }

// Celsius returns t in degrees Celsius.
func (t Temperature) Celsius() float64 { return float64(t) - zeroCelsius }

// Millimetres returns l in millimetres.
func (l Length) Millimetres() float64 { return float64(l) / float64(Millimetre) }

// Litres returns v in litres.
func (v Volume) Litres() float64 { return float64(v) / float64(Litre) }

// LitresPerMinute returns q in litres per minute.
func (q Flow) LitresPerMinute() float64 { return float64(q) / float64(LitrePerMinute) }

// RPM returns r in turns per minute.
func (r Rotation) RPM() float64 { return float64(r) / float64(RPM) }

// Degrees returns a in degrees.
func (a Angle) Degrees() float64 { return float64(a) / float64(Degree) }

// Kind says which measure a number is: it decides the units it may be typed
// and shown in.
type Kind uint8

// The kinds, one for each type of this package.
const (
	KindLength Kind = iota
	KindHead
	KindVolume
	KindFlow
	KindVelocity
	KindPressure
	KindTemperature
	KindAngle
	KindSlope
	KindDensity
	KindViscosity
	KindMass
	KindDuration
	KindPower
	KindFraction
	KindNumber
	KindStrength
	KindConsistency
	KindRotation
	KindForce
	KindMoment
)

// KindOf returns the kind of number n, and whether there is one.
func KindOf(n int) (k Kind, ok bool) { return Kind(n), 0 <= n && n < len(kinds) }

func (Length) Kind() Kind      { return KindLength }
func (Head) Kind() Kind        { return KindHead }
func (Volume) Kind() Kind      { return KindVolume }
func (Flow) Kind() Kind        { return KindFlow }
func (Velocity) Kind() Kind    { return KindVelocity }
func (Pressure) Kind() Kind    { return KindPressure }
func (Temperature) Kind() Kind { return KindTemperature }
func (Angle) Kind() Kind       { return KindAngle }
func (Slope) Kind() Kind       { return KindSlope }
func (Density) Kind() Kind     { return KindDensity }
func (Viscosity) Kind() Kind   { return KindViscosity }
func (Mass) Kind() Kind        { return KindMass }
func (Duration) Kind() Kind    { return KindDuration }
func (Power) Kind() Kind       { return KindPower }
func (Fraction) Kind() Kind    { return KindFraction }
func (Number) Kind() Kind      { return KindNumber }
func (Strength) Kind() Kind    { return KindStrength }
func (Consistency) Kind() Kind { return KindConsistency }
func (Rotation) Kind() Kind    { return KindRotation }
func (Force) Kind() Kind       { return KindForce }
func (Moment) Kind() Kind      { return KindMoment }

// Amount is a quantity of any kind, for tables and reports that hold them
// side by side.
type Amount struct {
	Kind Kind
	SI   float64
}

// Of returns q as an Amount.
func Of[Q Quantity](q Q) Amount { return Amount{Kind: q.Kind(), SI: float64(q)} }

// Mm is short for a length given in millimetres, for tables written in code.
func Mm(mm float64) Length { return Length(mm / 1000) }
