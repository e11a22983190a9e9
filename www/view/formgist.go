package view

import (
	"drawoff/pipeline/design"
	"drawoff/pipeline/markup"
)

// FormGists tells what each group of the form says, in short. The workshop writes it.
func FormGists(b Bench) []Filled {
	d := b.Design
	filled := d.Filled()
	// fields tells what stands in a few fields, or what is usual there.
	fields := func(paths ...string) (s string) {
		for _, path := range paths {
			value, _ := d.Get(path)
			if value == "" {
				value, _ = filled.Get(path)
			}
			if a, ok := filled.Amount(path); ok {
				value = a.Kind.Told(value)
			}
			if value != "" {
				s += markup.If(s != "", ", ") + named(d, path, value)
			}
		}
		return s
	}
	pieces := func(line []design.Piece) string { return count(len(line), "piece", "pieces") }
	wash := "as is usual"
	if n := len(d.Cleaning); n > 0 {
		wash = count(n, "step", "steps")
	}
	var out []Filled
	for _, g := range [...][2]string{
		{"Plant", fields("title")},
		{"Tank", fields("tank.bore", "tank.height", "tank.bottom")},
		{"Under the tank", pieces(d.Under)},
		{"Stand", fields("stand.height")},
		{"Legs, feet and room", fields("stand.legs") + " legs"},
		{"Run", pieces(d.Run)},
		{"Run to the pump", pieces(d.Run)},
		{"Pump", fields("pump.kind", "pump.inSize")},
		{"Delivery", pieces(d.Delivery.Pieces) + ", " + fields("delivery.height")},
		{"Liquid and place", fields("liquid.kind", "liquid.temperature")},
		{"Wash and breathing", wash},
	} {
		var h html
		h.Text(g[1])
		out = append(out, Filled{groupGist(g[0]), h.String()})
	}
	return out
}
