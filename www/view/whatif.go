package view

import (
	"strconv"

	"drawoff/pipeline/design"
	"drawoff/pipeline/draw"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/markup"
	"drawoff/pipeline/whatif"
)

// Sweep is what somebody asked of "what if": the input that is moved, as a
// path, and the figure that is watched, as a slug.
type Sweep struct{ Move, Watch string }

// WhatIf lets an input be moved and a figure be watched. Every value is a
// check of the plant, so it is for the workshop.
func WhatIf(b Bench) (gist, content string) {
	var h html
	s := b.Sweep
	gist = "move one input and watch one figure"
	inputs := movable(b)
	h.Open("div", "class", "fields")
	h.sweep("whatif-move", "Move", "choose an input", s.Move, inputs)
	h.sweep("whatif-watch", "Watch", "choose a figure", s.Watch, watchable(b))
	h.Close("div")
	if s.Move == "" || s.Watch == "" {
		h.El("p", "Choose an input to move and a figure to watch: the suction head over the temperature, say, or the time for the transfer over a tube.", "class", "hint")
		return gist, h.String()
	}
	c, ok := whatif.Sweep(b.Design, s.Move, s.Watch)
	if !ok {
		h.El("p", "This plant has no such input or no such figure now: choose another.", "class", "hint")
		return gist, h.String()
	}
	name := ""
	for _, in := range inputs {
		if in.value == s.Move {
			name = in.name
		}
	}
	picture, dots := draw.WhatIf(c, name, min(b.Width, 520))
	if picture == "" {
		h.El("p", "The figure can be worked out at one value only, or at none: there is nothing to draw.", "class", "hint")
		return gist, h.String()
	}
	h.Raw(picture)
	h.slider(c, name, dots)
	return gist, h.String()
}

// picked is a choice of a select, under a heading.
type picked struct{ group, value, name string }

// sweep writes one of the two selects.
func (h *html) sweep(id, label, empty, value string, choices []picked) {
	h.Open("div", "class", "field")
	h.El("label", label, "for", id)
	h.Open("select", "id", id, "data-sweep", id)
	h.El("option", empty, "value", markup.Empty, "selected", markup.If(value == "", markup.Empty))
	group := ""
	for _, c := range choices {
		if c.group != group {
			if group != "" {
				h.Close("optgroup")
			}
			group = c.group
			h.Open("optgroup", "label", group)
		}
		h.El("option", c.name, "value", c.value, "selected", markup.If(c.value == value, markup.Empty))
	}
	if group != "" {
		h.Close("optgroup")
	}
	h.Close("select")
	h.Close("div")
}

// movable are the inputs that can be moved, by the labels that they have in the form.
func movable(b Bench) (out []picked) {
	add := func(group, prefix string, fields []field) {
		for _, x := range fields {
			if len(whatif.Values(b.Design, prefix+x.path)) > 1 {
				out = append(out, picked{group, prefix + x.path, x.label})
			}
		}
	}
	filled := b.Design.Filled()
	for _, g := range asked(filled) {
		switch {
		case g.prefix == "finder.": // changes nothing about the run that is there
		case g.prefix == "pump." && filled.Pump.Kind == design.NoPump:
		default:
			add(g.name, g.prefix, g.fields)
		}
	}
	for _, p := range b.Report.Pieces {
		member, _ := b.Design.Get(p.Ref + ".kind")
		k, _ := design.FindKind(member)
		var fields []field
		for _, m := range k.Fields {
			fields = append(fields, pieceLabels[m])
		}
		add(strconv.Itoa(p.Number)+" "+labelled(p), p.Ref+".", fields)
	}
	return out
}

// watchable are the figures that can be watched: first what is held to a limit.
func watchable(b Bench) (out []picked) {
	figures := whatif.Figures(b.Report)
	held := func(f finding.Figure) bool {
		for _, v := range b.Report.Verdicts {
			if v.Figure == f.Slug && v.Limit != nil && v.Limit.Kind == f.Amount.Kind {
				return true
			}
		}
		return false
	}
	for _, want := range [...]bool{true, false} {
		for _, f := range figures {
			if held(f) == want {
				out = append(out, picked{map[bool]string{true: "Held to a limit", false: "Figures"}[want], f.Slug, f.Name})
			}
		}
	}
	return out
}

// slider writes what moves the dot along the curve, what is so there, and the
// button that takes the value. The page knows nothing of the values: each stop
// holds its words and its edit.
func (h *html) slider(c whatif.Curve, name string, dots []draw.Dot) {
	h.Open("div", "class", "whatif-slider")
	h.El("label", name, "for", "whatif-at")
	now := says(c, c.Now)
	h.Open("div", "class", "whatif-steps")
	h.step("-1", "−", "One step less")
	h.Void("input", "type", "range", "id", "whatif-at", "min", "0", "max", strconv.Itoa(len(c.Points)-1), "step", "1", "value", strconv.Itoa(c.Now), "aria-valuetext", now, "data-stops", "whatif-stops")
	h.step("1", "+", "One step more")
	h.Close("div")
	h.El("output", now, "for", "whatif-at", "id", "whatif-says")
	h.Open("button", "type", "button", "id", "whatif-use", "data-act", "edit", "data-edits", takes(c, c.Now))
	h.Text("Use this")
	h.Close("button")
	h.Open("datalist", "id", "whatif-stops")
	for i := range c.Points {
		h.El("option", "", "value", strconv.Itoa(i), "data-says", says(c, i), "data-edits", takes(c, i),
			"data-x", pixel(dots[i].X), "data-y", pixel(dots[i].Y))
	}
	h.Close("datalist")
	h.Close("div")
}

func pixel(x float64) string { return strconv.FormatFloat(x, 'f', 1, 64) }

// step is a button beside the slider, for a gloved finger.
func (h *html) step(by, mark, label string) {
	h.El("button", mark, "type", "button", "class", "small", "data-step", by, "aria-label", label)
}

// says tells a point: "72 °C: 5.90 m, held to 2.79 m".
func says(c whatif.Curve, i int) string {
	p := c.Points[i]
	s := p.Says + ": "
	if i == c.Now {
		s = p.Says + ", as now: "
	}
	if p.Is == nil {
		return s + "cannot be worked out"
	}
	s += p.Is.String()
	if p.Limit != nil {
		s += ", held to " + p.Limit.String()
	}
	return s
}

// takes is the edit that gives the input the value of a point.
func takes(c whatif.Curve, i int) string {
	return editsJSON([]design.Edit{{Path: c.Path, Value: c.Points[i].Value}})
}
