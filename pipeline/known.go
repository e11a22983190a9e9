package pipeline

import (
	"strconv"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	"drawoff/pipeline/flow"
	"drawoff/pipeline/liquid"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/vessel"
)

// known is what a design says of its tank and liquid, before anything is placed.
type known struct {
	vessel      vessel.Vessel
	stub        q.Length // outlet face beyond the lowest inside point, or beyond the shell
	side        bool     // the outlet is in the shell
	above       q.Length // side outlet: centre over the lowest inside point
	fill        q.Volume
	full        q.Length // levels over the lowest inside point
	half        q.Length
	lowest      q.Length
	temperature q.Temperature
	liquid      liquid.Properties
	air         q.Pressure
	recipe      liquid.Recipe
	pump        flow.Pump  // zero where there is none
	curve       flow.Curve // what it gives in the liquid at its speed
}

// usualFill is how much of a brimful tank is filled when nothing is said.
const usualFill = 0.9

// know reads the tank and liquid, and finds what cannot be of them together.
func know(d design.Design) (known, design.Faults) {
	k := known{
		stub:        d.Tank.Outlet.Stub.Value(),
		side:        d.Tank.Outlet.Place == "side",
		above:       d.Tank.Outlet.Above.Value(),
		temperature: d.Liquid.Temperature.Value(),
		pump:        pumpOf(d.Pump),
		air:         liquid.AirPressure(d.Site.Altitude.Value()),
	}
	k.vessel = vessel.Vessel{
		Bore:      d.Tank.Bore.Value(),
		Straight:  d.Tank.Height.Value(),
		Bottom:    vessel.Bottom(d.Tank.Bottom),
		ConeAngle: d.Tank.ConeAngle.Value(),
	}
	if !k.side {
		k.vessel.Opening = outletBore(d.Tank)
	}
	k.recipe = liquid.Recipe{
		Kind:     d.Liquid.Kind,
		Strength: d.Liquid.Strength.Value(),
		Alcohol:  d.Liquid.Alcohol.Value(),
		Fat:      d.Liquid.Fat.Value(),
		Typed: liquid.Typed{
			Density:        d.Liquid.Density.Value(),
			Viscosity:      d.Liquid.Viscosity.Value(),
			VapourPressure: d.Liquid.VapourPressure.Value(),
			Index:          d.Liquid.Index.Value(),
			Consistency:    d.Liquid.Consistency.Value(),
			Yield:          d.Liquid.Yield.Value(),
		},
	}
	k.liquid, _ = liquid.Of(k.recipe, k.temperature)
	k.curve = k.pump.Run(k.liquid)

	faults := unknownParts(d.Measured)
	brim := k.vessel.Brimful()
	k.fill = d.Tank.Fill.Or(q.Volume(usualFill * float64(brim)))
	if k.fill > brim {
		faults = append(faults, design.Fault{
			Field: "tank.fill",
			Given: d.Tank.Fill.String(),
			What:  "the tank does not hold that much",
			Hint:  "brimful it holds " + q.Text(brim) + ": fill it with less, or make the tank larger",
		})
	}
	depth := k.vessel.BottomDepth() + k.vessel.Straight
	if k.side && k.above+outletBore(d.Tank)/2 > depth {
		faults = append(faults, design.Fault{
			Field: "tank.outlet.above",
			Given: d.Tank.Outlet.Above.String(),
			What:  "the outlet would be over the brim",
			Hint:  "the tank is " + q.Text(depth) + " deep inside",
		})
	}
	k.full = k.vessel.LevelAt(k.fill)
	k.half = k.vessel.LevelAt(k.fill / 2)
	k.lowest = d.Tank.Lowest.Value()
	if k.side {
		k.lowest += k.above
	}
	if k.lowest >= k.full && len(faults) == 0 {
		faults = append(faults, design.Fault{
			Field: "tank.lowest",
			Given: d.Tank.Lowest.String(),
			What:  "the lowest level would be at or over the full level, so there is nothing to draw off",
			Hint:  "full, the liquid stands " + q.Text(k.full) + " deep over the lowest inside point",
		})
	}
	// A tank that starts nearly empty passes its half on the way down first.
	k.half = max(k.half, k.lowest)
	return k, faults
}

// levels returns the liquid levels over the floor for a tank whose lowest
// inside point is at foot.
func (k known) levels(foot q.Length) []flow.Level {
	return []flow.Level{
		{Slug: "full", Name: "full", Height: foot + k.full},
		{Slug: "half", Name: "half full", Height: foot + k.half},
		{Slug: "lowest", Name: "lowest", Height: foot + k.lowest},
	}
}

// foot returns the lowest inside point over the floor when the outlet face (a
// side outlet: its centre) is at height.
func (k known) foot(height q.Length) q.Length {
	if k.side {
		return height - k.above
	}
	return height + k.stub
}

func outletBore(t design.Tank) q.Length {
	tube, _ := catalog.FindTube(t.Outlet.Size)
	return tube.Bore()
}

// unknownParts finds measurements of what is in no table.
func unknownParts(measured []design.Measurement) design.Faults {
	var faults design.Faults
	for i, m := range measured {
		if _, ok := catalog.FindDimension(m.Part); !ok {
			faults = append(faults, design.Fault{
				Field: "measured." + strconv.Itoa(i) + ".part",
				Given: m.Part,
				What:  "the catalogue has no such dimension",
				Hint:  "take its name from the list of lengths to measure, such as clamp/2in/ferrule/length",
			})
		}
	}
	return faults
}
