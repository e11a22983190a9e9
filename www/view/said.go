package view

import (
	"strconv"
	"strings"

	"drawoff/pipeline/design"
)

// Said is what was said of the plant, for paper, where there is no form: as it
// was typed, and the usual value where nothing was.
func Said(b Bench) string {
	var h html
	filled := b.Design.Filled()
	if b.Design.Note != "" {
		h.El("p", b.Design.Note)
	}
	h.Open("dl")
	said := func(prefix string, fields []field) {
		for _, x := range fields {
			path := prefix + x.path
			value, _ := b.Design.Get(path)
			if a, ok := b.Design.Amount(path); ok && a.Kind.Foreign(value) {
				value += " = " + a.String()
			}
			if value == "" {
				value = usual(&filled, path)
				if value == "" {
					continue
				}
				value = named(b.Design, path, value) + " (usual)"
			} else {
				value = named(b.Design, path, value)
			}
			h.Open("div")
			h.El("dt", x.label)
			h.El("dd", value)
			h.Close("div")
		}
	}
	said("tank.", tankFields)
	said("tank.outlet.", outletFields)
	said("stand.", standFields)
	said("pump.", pumpFields)
	points := func(path string, fields []field, n int) {
		for i := range n {
			words := ""
			for _, x := range fields {
				at := path + "." + strconv.Itoa(i) + "." + x.path
				value, _ := b.Design.Get(at)
				if value == "" {
					continue
				}
				words += ", " + value
				if a, ok := b.Design.Amount(at); ok && a.Kind.Foreign(value) {
					words += " = " + a.String()
				}
			}
			h.Open("div")
			h.El("dt", "Pump, point "+strconv.Itoa(i+1))
			h.El("dd", strings.TrimPrefix(words, ", "))
			h.Close("div")
		}
	}
	switch kind := filled.Pump.Kind; {
	case design.Positive(kind):
		points("pump.slip", slipFields, len(b.Design.Pump.Slip))
	case kind != design.NoPump:
		points("pump.curve", curveFields, len(b.Design.Pump.Curve))
	}
	said("delivery.", deliveryFields)
	said("", liquidFields(filled.Liquid.Kind))
	said("wash.", washFields)
	said("vent.", ventFields)
	h.Open("div")
	h.El("dt", "Washed with")
	if len(b.Design.Cleaning) > 0 {
		h.El("dd", cleanedWith(b.Design.Cleaning))
	} else {
		h.El("dd", cleanedWith(design.UsualCleaning())+" (usual)")
	}
	h.Close("div")
	h.Close("dl")
	return h.String()
}

// named returns what a chosen slug is called, or the words that were typed.
func named(d design.Design, path, value string) string {
	if isSize(path) {
		return TubeName(value)
	}
	for _, c := range design.Choices(d, path) {
		if c.Slug == value {
			return c.Name
		}
	}
	return value
}
