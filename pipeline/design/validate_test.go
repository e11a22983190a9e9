package design_test

import (
	"strings"
	"testing"

	"drawoff/pipeline/design"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// An empty design lacks exactly what has no usual value.
func TestEmptyDesignLacks(t *testing.T) {
	t.Parallel()
	var fields []string
	for _, f := range (design.Design{}).Validate() {
		fields = append(fields, f.Field)
		assert.NotEmpty(t, f.Hint, f.Field)
	}
	assert.Equal(t, []string{"tank.bore", "tank.height", "tank.outlet.size", "pump.away", "pump.height", "pump.inSize", "pump.curve"}, fields)
}

// One slip in the plant gives one fault: its field, what is wrong, what would be right.
func TestFaults(t *testing.T) {
	t.Parallel()
	const range_ = "is outside what Drawoff handles"
	for _, c := range []struct {
		edits             []design.Edit
		field, what, hint string
	}{
		{[]design.Edit{set("tank.bore", "")}, "tank.bore", "is missing", "write the inside diameter of the shell, 50 mm to 10 m"},
		{[]design.Edit{set("tank.bore", "11 m")}, "tank.bore", range_, "write 50 mm to 10 m"},
		{[]design.Edit{set("tank.height", "-1 mm")}, "tank.height", range_, "write 0 to 20 m"},
		{[]design.Edit{set("tank.bottom", "kone")}, "tank.bottom", "is not one of the choices", "perhaps cone was meant"},
		{[]design.Edit{set("tank.bottom", "pyramid")}, "tank.bottom", "is not one of the choices", "write cone, klopper, korbbogen or flat"},
		{[]design.Edit{set("tank.coneAngle", "5°")}, "tank.coneAngle", range_, "write 10° to 170°, the full angle of the cone"},
		{[]design.Edit{set("tank.fill", "0 L")}, "tank.fill", range_, "write 1 L to 2000 m³"},
		{[]design.Edit{set("tank.lowest", "-5 mm")}, "tank.lowest", range_, "write 0 to 20 m"},
		{[]design.Edit{set("tank.outlet.place", "top")}, "tank.outlet.place", "is not one of the choices", "write bottom or side"},
		{[]design.Edit{set("tank.outlet.stub", "3 m")}, "tank.outlet.stub", range_, "write 0 to 2 m"},
		{[]design.Edit{set("tank.outlet.size", "bs-4825/2.5 in")}, "tank.outlet.size", "is not a tube in the catalogue", "perhaps bs-4825/2.5in was meant"},
		{[]design.Edit{set("tank.outlet.size", "drainpipe")}, "tank.outlet.size", "is not a tube in the catalogue", "pick one of the sizes offered, like bs-4825/2in"},
		{[]design.Edit{set("tank.bore", "60 mm")}, "tank.outlet.size", "is wider than the tank, 60 mm", "choose a smaller outlet, or check the bore of the tank"},
		{[]design.Edit{set("tank.outlet.end", "clamp/ferule")}, "tank.outlet.end", "is not an end that 2½ in (BS 4825-1) tube can carry", "perhaps clamp/ferrule was meant"},
		{[]design.Edit{set("tank.outlet.end", "dairy-union/male")}, "tank.outlet.end", "is not an end that 2½ in (BS 4825-1) tube can carry", "write weld, ring-joint/male, ring-joint/liner, clamp/ferrule, idf/male, idf/liner, hose-tail/tail, bsp/male or bsp/female"},
		{[]design.Edit{set("stand.legs", "2")}, "stand.legs", "is not a number of legs that a tank stands on", "write 3 to 6"},
		{[]design.Edit{set("stand.height", "0")}, "stand.height", range_, "write 10 mm to 20 m"},
		{[]design.Edit{set("stand.kerf", "1 m")}, "stand.kerf", range_, "write 0 to 20 mm"},
		{[]design.Edit{insert("under.0")}, "under.0.kind", "is missing", "write straight, bend, reducer, tee, butterfly-valve, ball-valve, hose, device, seat-valve, diaphragm-valve, non-return-valve, sight-glass, thermometer-pocket, sample-cock, cross or cap"},
		{[]design.Edit{set("under.1.kind", "butterfly")}, "under.1.kind", "is not a kind of piece", "write straight, bend, reducer, tee, butterfly-valve, ball-valve, hose, device, seat-valve, diaphragm-valve, non-return-valve, sight-glass, thermometer-pocket, sample-cock, cross or cap"},
		{[]design.Edit{set("under.1.kind", "buterfly-valve")}, "under.1.kind", "is not a kind of piece", "perhaps butterfly-valve was meant"},
		{[]design.Edit{set("under.0.to", "")}, "under.0.to", "is missing", "choose the size at the downstream end, like bs-4825/1.5in"},
		{[]design.Edit{set("under.0.shape", "excentric")}, "under.0.shape", "is not one of the choices", "perhaps eccentric was meant"},
		{[]design.Edit{set("under.1.size", "bs-4825/1.5")}, "under.1.size", "is not a tube in the catalogue", "perhaps bs-4825/1.5in was meant"},
		{[]design.Edit{set("under.1.open", "10°")}, "under.1.open", range_, "write 20° to 90°, 90° being fully open: nearer to closed no table holds"},
		{[]design.Edit{set("under.1.kind", "ball-valve"), set("under.1.open", "20°")}, "under.1.open", range_, "write 25° to 90°, 90° being fully open: nearer to closed no table holds"},
		{[]design.Edit{set("under.1.kv", "0")}, "under.1.kv", range_, "write 0.01 to 100 000, in m³/h at 1 bar"},
		{[]design.Edit{set("finish", "1 mm")}, "finish", range_, "write 0 to 50 µm, as Ra"},
		{[]design.Edit{set("under.1.kind", "tee"), set("under.1.share", "95 %")}, "under.1.share", range_, "write -90 % to 90 %"},
		{[]design.Edit{set("under.1.kind", "tee"), set("under.1.shape", "branch"), set("under.1.share", "-10 %")}, "under.1.share",
			"joins at the run of a tee whose branch is the way out, for which Drawoff has no published loss",
			"turn the tee so that the line goes straight through and the other flow joins at the branch"},
		{[]design.Edit{set("under.1.kind", "device"), set("under.1.kv", "3")}, "under.1.length", "is missing", "write the length of the device over its ends"},
		{[]design.Edit{set("under.1.kind", "device"), set("under.1.length", "300 mm")}, "under.1.kv", "is missing",
			"write the device's Kv, in m³/h at 1 bar, or points of flow and pressure drop from its data sheet"},
		{[]design.Edit{set("under.1.kind", "device"), set("under.1.length", "300 mm"),
			insert("under.1.drops.0"), set("under.1.drops.0.flow", "10 L/min"), set("under.1.drops.0.drop", "1 kPa"),
			insert("under.1.drops.1"), set("under.1.drops.1.flow", "20 L/min"), set("under.1.drops.1.drop", "0.5 kPa")},
			"under.1.drops.1.drop", "is less than at the smaller flow before it, 1 kPa", "a drop grows with the flow: look at the two points again"},
		{[]design.Edit{set("under.2.shape", "square")}, "under.2.shape", "is not a shape that 1½ in (BS 4825-1) bends come in", "write short or long"},
		{[]design.Edit{set("under.2.angle", "0°")}, "under.2.angle", range_, "write 1° to 170°"},
		{[]design.Edit{set("under.2.turn", "400°")}, "under.2.turn", range_, "write -360° to 360°"},
		{[]design.Edit{set("under.2.in", "screwed")}, "under.2.in", "is not an end that 1½ in (BS 4825-1) tube can carry", "write weld, ring-joint/male, ring-joint/liner, clamp/ferrule, idf/male, idf/liner, hose-tail/tail, bsp/male or bsp/female"},
		{[]design.Edit{set("under.2.seal", "epmd")}, "under.2.seal", "is not a seal material in the catalogue", "perhaps epdm was meant"},
		{[]design.Edit{set("under.2.seal", "clamp/1.5in/seal/epmd")}, "under.2.seal", "is not a seal in the catalogue", "perhaps clamp/1.5in/seal/epdm was meant"},
		{[]design.Edit{set("run.0.fit", "")}, "run.0.length", "is missing", "write a length, or let it be made to fit"},
		{[]design.Edit{set("run.0.fall", "2:1")}, "run.0.fall", range_, "write rising 1:1 to 1:1"},
		{[]design.Edit{set("run.4.length", "0 mm")}, "run.4.length", range_, "write 1 mm to 100 m"},
		{[]design.Edit{insert("run.2"), set("run.2.kind", "hose")}, "run.2.length", "is missing", "write a length, or let it be made to fit"},
		{[]design.Edit{insert("run.2"), set("run.2.kind", "hose"), set("run.2.fit", "true")}, "run.2.fit", "is only for the last piece of a line", "give the hose a length, or move it to the end of its line"},
		{[]design.Edit{insert("run.2"), set("run.2.kind", "tee"), set("run.2.third", "tap")}, "run.2.third", "is not one of the choices", "perhaps cap was meant"},
		{[]design.Edit{set("pump.kind", "gear")}, "pump.kind", "is not one of the choices", "write centrifugal, flexible-impeller, lobe, peristaltic or none"},
		{[]design.Edit{set("pump.kind", "lobe")}, "pump.slip", "has fewer than two points", "write at least two points from the maker's sheet, each a pressure and its flow"},
		{[]design.Edit{set("pump.speed", "2400 rpm")}, "pump.rated", "is missing", "write the speed that the curve was taken at, so that it can be moved to 2400 rpm"},
		{[]design.Edit{set("pump.rated", "90000 rpm")}, "pump.rated", range_, "write 1 rpm to 20000 rpm"},
		{[]design.Edit{set("pump.dryLift", "12 m")}, "pump.dryLift", range_, "write 0 to 9.5 m: no pump draws water higher"},
		{[]design.Edit{set("pump.curve.1.efficiency", "0.5 %")}, "pump.curve.1.efficiency", range_, "write 1 % to 100 %"},
		{[]design.Edit{set("delivery.flow", "4000 m³/h")}, "delivery.flow", range_, "write 1 mL/min to 3600 m³/h"},
		{lobe("2 bar", "1 bar", "40 L/min", "36 L/min"), "pump.slip.1.pressure", "is not more than the pressure of the point before it, 2 bar", "put the points in the order of their pressure"},
		{lobe("0 bar", "1 bar", "40 L/min", "41 L/min"), "pump.slip.1.flow", "is more than at the lower pressure before it, 40 L/min", "a positive pump slips more as the pressure rises: see which of the two was misread"},
		{lobe("0 bar", "", "40 L/min", "36 L/min"), "pump.slip.1.pressure", "is missing", "write the pressure of the point, outlet less inlet, 0 to 1000 bar"},
		{[]design.Edit{insert("run.2"), set("run.2.kind", "cross"), set("run.2.fourth", "tap")}, "run.2.fourth", "is not one of the choices", "perhaps cap was meant"},
		{[]design.Edit{set("under.1.in", "hose-tail/hose")}, "under.1.in", "is the cut end of a hose, which only a hose has", ""},
		{[]design.Edit{set("pump.away", "")}, "pump.away", "is missing", "write how far the inlet face is from the tank's axis, 0 to 100 m"},
		{[]design.Edit{set("pump.height", "")}, "pump.height", "is missing", "write how high the inlet's centre is over the floor, -5 m to 20 m"},
		{[]design.Edit{set("pump.inSize", ""), set("pump.outSize", "bs-4825/1.5in")}, "pump.inSize", "is missing", "choose a size of tube, like bs-4825/2in"},
		{[]design.Edit{set("pump.outSize", "bs-4825/1.7in")}, "pump.outSize", "is not a tube in the catalogue", "perhaps bs-4825/1.5in was meant"},
		{[]design.Edit{set("pump.inEnd", "clamp"), set("pump.outEnd", "weld")}, "pump.inEnd", "is not an end that 1½ in (BS 4825-1) tube can carry", "write weld, ring-joint/male, ring-joint/liner, clamp/ferrule, idf/male, idf/liner, hose-tail/tail, bsp/male or bsp/female"},
		{[]design.Edit{set("pump.curve.2.flow", "40 L/min")}, "pump.curve.2.flow", "is not more than the flow of the point before it, 40 L/min", "put the points in the order of their flow"},
		{[]design.Edit{set("pump.curve.1.head", "14.5 m")}, "pump.curve.1.head", "is more than at the smaller flow before it, 14 m", "Drawoff judges only curves whose head falls with the flow: start from the highest point"},
		{[]design.Edit{set("pump.curve.1.head", "")}, "pump.curve.1.head", "is missing", "write the head of the point, 0 to 1000 m"},
		{[]design.Edit{set("pump.curve.1.headRequired", "-1 m")}, "pump.curve.1.headRequired", range_, "write 0 to 100 m"},
		{[]design.Edit{set("delivery.height", "101 m")}, "delivery.height", range_, "write -20 m to 100 m"},
		{[]design.Edit{set("liquid.kind", "waater")}, "liquid.kind", "is not one of the choices", "perhaps water was meant"},
		{[]design.Edit{set("liquid.strength", "90 %")}, "liquid.strength", range_, "write 0 to 85 %"},
		{[]design.Edit{set("liquid.alcohol", "110 %")}, "liquid.alcohol", range_, "write 0 to 100 %"},
		{[]design.Edit{set("liquid.medium", "sugra")}, "liquid.medium", "is not one of the choices", "perhaps sugar was meant"},
		{[]design.Edit{set("liquid.index", "2")}, "liquid.index", range_, "write 0.1 to 1.5"},
		{[]design.Edit{set("liquid.kind", "other"), set("liquid.density", "1020 kg/m³")}, "liquid.viscosity", "is missing", "write the viscosity of the liquid, 0.1 mPa·s to 1000 Pa·s"},
		{[]design.Edit{set("liquid.kind", "other"), set("liquid.viscosity", "3 cP"), set("liquid.density", "1.02 kg/m³")}, "liquid.density", range_, "write 500 to 2500 kg/m³"},
		{[]design.Edit{set("liquid.kind", "power-law"), set("liquid.density", "1050 kg/m³"), set("liquid.index", "0.34")}, "liquid.consistency", "is missing", "write the consistency K, 0.1 mPa·s^n to 1000 Pa·s^n"},
		{[]design.Edit{set("liquid.kind", "power-law"), set("liquid.density", "1050 kg/m³"), set("liquid.consistency", "11.6 Pa·s^n")}, "liquid.index", "is missing", "write the index n, 1 for a Newtonian liquid and less for purée, 0.1 to 1.5"},
		{[]design.Edit{set("liquid.kind", "bingham"), set("liquid.density", "1100 kg/m³"), set("liquid.yield", "5 Pa")}, "liquid.viscosity", "is missing", "write the plastic viscosity, the slope of stress over shear rate, 0.1 mPa·s to 1000 Pa·s"},
		{[]design.Edit{set("liquid.kind", "bingham"), set("liquid.density", "1100 kg/m³"), set("liquid.viscosity", "50 mPa·s")}, "liquid.yield", "is missing", "write the yield stress, 0 to 2000 Pa"},
		{[]design.Edit{set("liquid.fat", "60 %")}, "liquid.fat", range_, "write 0 to 50 %"},
		{[]design.Edit{set("liquid.temperature", "-6 °C")}, "liquid.temperature", range_, "write -5 °C to 150 °C"},
		{[]design.Edit{set("site.altitude", "-431 m")}, "site.altitude", range_, "write -430 m to 5000 m"},
		{[]design.Edit{set("site.ceiling", "1 mm")}, "site.ceiling", range_, "write 500 mm to 50 m"},
		{[]design.Edit{set("seal", "none")}, "seal", "is not a seal material in the catalogue", ""},
		{[]design.Edit{set("limits.fall", "rising 1:100")}, "limits.fall", range_, "write level to 1:1"},
		{[]design.Edit{set("limits.suctionRatio", "0.5")}, "limits.suctionRatio", range_, "write 1 to 10"},
		{[]design.Edit{set("limits.boreStep", "150 %")}, "limits.boreStep", range_, "write 0 to 100 %"},
		{[]design.Edit{insert("measured.0"), set("measured.0.length", "25 mm")}, "measured.0.part", "is missing", "name the dimension that was measured, like ring-joint/2in/liner/length"},
		{[]design.Edit{insert("measured.0"), set("measured.0.part", "ring-joint/2in/liner/length")}, "measured.0.length", "is missing", "write what the caliper showed, 0.1 mm to 10 m"},
	} {
		name := c.edits[0].Path + " " + c.edits[0].Value
		faults := edited(t, c.edits...).Validate()
		if !assert.Len(t, faults, 1, "%s: %v", name, faults) {
			continue
		}
		assert.Equal(t, c.field, faults[0].Field, name)
		assert.Equal(t, c.what, faults[0].What, name)
		if c.hint != "" {
			assert.Equal(t, c.hint, faults[0].Hint, name)
		}
	}
}

// Faults come in the order of the fields, with what was typed.
func TestFaultsAreInOrder(t *testing.T) {
	t.Parallel()
	d := edited(t, set("liquid.kind", "mead"), set("run.1.turn", "999°"), set("run.0.fall", "3:1"), set("tank.bore", "60 mm"), set("tank.height", "30 m"), set("seal", "cork"), set("pump.away", "-1 m"))
	var got []string
	for _, f := range d.Validate() {
		got = append(got, f.Field+"="+f.Given)
	}
	assert.Equal(t, []string{"tank.height=30 m", "tank.outlet.size=bs-4825/2.5in", "run.0.fall=3:1", "run.1.turn=999°", "pump.away=-1 m", "liquid.kind=mead", "seal=cork"}, got)
}

// Fields that do not count for a piece or a plant are kept and not judged.
func TestFieldsWithoutEffectAreNotJudged(t *testing.T) {
	t.Parallel()
	d := edited(t, set("run.0.shape", "odd"), set("run.0.third", "odd"), set("run.0.to", "odd"), set("run.0.angle", "999°"))
	assert.Empty(t, d.Validate())
	got, _ := d.Get("run.0.shape")
	assert.Equal(t, "odd", got)

	gravity := edited(t, set("pump.kind", "none"), set("pump.away", ""), set("pump.inSize", "odd"))
	assert.Empty(t, gravity.Validate())
}

// A hose that closes a gap may end the suction line or the delivery. By
// gravity the run goes on into the delivery, and only its end will do.
func TestHoseMadeToFit(t *testing.T) {
	t.Parallel()
	hose := []design.Edit{insert("run.5"), set("run.5.kind", "hose"), set("run.5.fit", "true")}
	assert.Empty(t, edited(t, hose...).Validate())

	faults := edited(t, append(hose, set("pump.kind", "none"))...).Validate()
	require.Len(t, faults, 1)
	assert.Equal(t, "run.5.fit", faults[0].Field)

	assert.Empty(t, edited(t, insert("delivery.pieces.3"), set("delivery.pieces.3.kind", "hose"), set("delivery.pieces.3.fit", "true")).Validate())
}

// A piece without a size takes it from what stands before it.
func TestSizesAreHandedDown(t *testing.T) {
	t.Parallel()
	from := map[string]string{}
	to := map[string]string{}
	d := plant()
	for _, s := range d.Sizes() {
		from[s.Path], to[s.Path] = s.From, s.To
	}
	const big, small = "bs-4825/2.5in", "bs-4825/1.5in"
	assert.Equal(t, big, from["under.0"])
	assert.Equal(t, small, to["under.0"])
	assert.Equal(t, small, from["under.1"])
	assert.Equal(t, small, from["run.4"])
	assert.Equal(t, small, from["delivery.pieces.0"])

	d = edited(t, set("pump.outSize", "bs-4825/1in"))
	assert.Equal(t, "bs-4825/1in", d.Sizes()[8].From, "the delivery starts at the pump's outlet")
	d = edited(t, set("pump.outSize", "bs-4825/1in"), set("pump.kind", "none"))
	assert.Equal(t, small, d.Sizes()[8].From, "without a pump it goes on from the run")
}

func TestListsTooLong(t *testing.T) {
	t.Parallel()
	d := plant()
	d.Run = make([]design.Piece, 1e6)
	d.Measured = make([]design.Measurement, design.MaxMeasured+1)
	faults := d.Validate()
	require.Len(t, faults, 2)
	assert.Equal(t, "run", faults[0].Field)
	assert.Equal(t, "is more than a list may hold, 200", faults[0].What)
	assert.Equal(t, "measured", faults[1].Field)
}

// Words are limited in length and hold nothing that cannot be seen, but are
// otherwise free: HTML in a title is text like any other.
func TestWords(t *testing.T) {
	t.Parallel()
	d := plant()
	d.Title = `<script>alert("perry & sons")</script>`
	d.Note = "first line\nsecond line"
	assert.Empty(t, d.Validate())
	back, faults := design.ReadFile(design.WriteFile(d))
	assert.Empty(t, faults)
	assert.Equal(t, d, back)

	for _, c := range []struct{ title, what string }{
		{strings.Repeat("é", design.MaxTitle) + "x", "is longer than 200 characters"},
		{"two\nlines", "holds a control character or a line break"},
		{"bell\a", "holds a control character or a line break"},
		{"half\xff", "holds bytes that are not text"},
	} {
		d.Title = c.title
		faults := d.Validate()
		require.Len(t, faults, 1, "%q", c.title)
		assert.Equal(t, "title", faults[0].Field)
		assert.Equal(t, c.what, faults[0].What)
		assert.LessOrEqual(t, len([]rune(faults[0].Given)), 80)
	}
	d.Title = strings.Repeat("é", design.MaxTitle)
	assert.Empty(t, d.Validate())
}

func TestFaultReadsAsASentence(t *testing.T) {
	t.Parallel()
	f := design.Fault{Field: "tank.bore", Line: 3, Given: "900", What: "has no unit", Hint: "write 900 mm or 900 in"}
	assert.Equal(t, `line 3, tank.bore, "900": has no unit; write 900 mm or 900 in`, f.String())
	assert.Equal(t, "the link is empty", design.Fault{What: "the link is empty"}.String())
	assert.EqualError(t, design.Faults{f, {Field: "title", What: "is odd"}}, f.String()+"\ntitle: is odd")
}

func BenchmarkValidate(b *testing.B) {
	d := plant()
	for b.Loop() {
		d.Validate()
	}
}

// lobe turns the pump into a lobe pump with two points.
func lobe(p0, p1, q0, q1 string) []design.Edit {
	set := func(path, value string) design.Edit { return design.Edit{Path: path, Value: value} }
	return []design.Edit{
		set("pump.kind", design.Lobe), {Op: "insert", Path: "pump.slip.0"}, {Op: "insert", Path: "pump.slip.1"},
		set("pump.slip.0.pressure", p0), set("pump.slip.0.flow", q0), set("pump.slip.1.pressure", p1), set("pump.slip.1.flow", q1),
	}
}
