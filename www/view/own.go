package view

import (
	"strconv"
	"strings"

	"drawoff/pipeline/design"
)

// own are the fields of design.MustKnow as somebody who starts is asked them.
var own = map[string]field{
	"tank.bore":        {"", "Tank, inside diameter", "900 mm, 36 in, 3 ft"},
	"tank.height":      {"", "Straight side of the tank", "without its bottom: 1.2 m, 48 in, 4 ft"},
	"tank.bottom":      {"", "Its bottom", ""},
	"tank.coneAngle":   {"", "Cone, full angle", "between the sides; only for a cone"},
	"tank.outlet.size": {"", "Outlet tube", ""},
	"pump.kind":        {"", "Pump", ""},
	"pump.away":        {"", "Pump inlet from the tank's axis", "level: 1.8 m, 6 ft"},
	"pump.height":      {"", "Pump inlet over the floor", "to its centre: 240 mm, 9 1/2 in"},
	"pump.inSize":      {"", "Pump inlet tube", "as the outlet if left empty"},
}

// OwnPrefix begins the ids of what somebody who starts is asked.
const OwnPrefix = "own-"

// own writes what is asked of somebody who starts a plant of their own.
func (h *html) own() {
	h.Raw(`<dialog id="own" aria-labelledby="own-title"><form method="dialog" novalidate><h2 id="own-title">Start my own</h2>` +
		`<p>Only what must be known. All the rest is filled in with what is usual and marked as assumed, until you have looked at it.</p><div class="fields">`)
	f := form{filled: design.Design{}.Filled()}
	for _, path := range design.MustKnow {
		x := own[path]
		id := OwnPrefix + path
		f.Open("div", "class", "field")
		f.El("label", x.label, "for", id)
		usual, _ := f.filled.Get(path)
		common := []string{"id", id, "data-own", path, "aria-describedby", OwnPrefix + "hint-" + path}
		if choices := design.Choices(f.filled, path); isSize(path) {
			f.chooseTube(path, "", "", common)
		} else if len(choices) > 0 {
			f.choose(path, "", usual, choices, common)
		} else {
			f.Void("input", append(common, "placeholder", usual, "autocomplete", "off", "spellcheck", "false")...)
		}
		f.El("small", x.hint, "id", OwnPrefix+"hint-"+path, "class", "hint")
		f.Close("div")
	}
	h.Raw(f.String())
	h.Raw(`</div><p id="own-fault" class="fault" role="alert"></p><p class="buttons"><button type="submit" id="own-start">Start</button> <button type="button" id="own-cancel">Leave it</button></p></form></dialog>`)
}

// Assumed lists what nobody has looked at yet. The workshop writes it.
func Assumed(b Bench) (gist, content string) {
	var h html
	if len(b.Design.Assumed) == 0 {
		h.El("p", "Nothing here is assumed: you have said it all, or looked at it.", "class", "hint")
		return "nothing", h.String()
	}
	filled := b.Design.Filled()
	h.El("p", "Nobody has said these: they are what is usual, or made up to begin with. Change what is wrong, and say of the rest that it is right.", "class", "hint")
	h.Open("ul", "class", "assumed")
	for i, a := range b.Design.Assumed {
		h.Open("li")
		href, what := "#in-"+a.Path, Called(b, a.Path)
		_, field := filled.Get(a.Path)
		value := usual(&filled, a.Path)
		switch {
		case field && value != "":
			what += ": " + named(b.Design, a.Path, value)
		case field:
			what += ": as is usual"
		case a.Path == "pump.curve" || a.Path == "pump.slip":
			href += ".0.flow"
		default:
			href = "#card-" + a.Path
		}
		h.El("a", what, "href", href)
		h.Text(" ")
		h.El("button", "It is right", "type", "button", "data-act", "edit", "data-edits", editsJSON([]design.Edit{{Op: "remove", Path: "assumed." + strconv.Itoa(i)}}), "aria-label", "It is right: "+what)
		h.Close("li")
	}
	h.Close("ul")
	if n := len(b.Design.Assumed); n > 1 {
		var all []design.Edit
		for range n {
			all = append(all, design.Edit{Op: "remove", Path: "assumed.0"})
		}
		h.El("button", "All of these are right", "type", "button", "data-act", "edit", "data-edits", editsJSON(all))
	}
	return count(len(b.Design.Assumed), "thing that nobody has said", "things that nobody has said"), h.String()
}

// Called names the field or piece at path as the form does, and the group that
// it stands in: "Tank: bore".
func Called(b Bench, path string) string {
	if at, ok := pointed(path); ok {
		return at
	}
	for _, p := range b.Report.Pieces {
		if p.Ref == path {
			return strconv.Itoa(p.Number) + " " + labelled(p)
		}
		if member, ok := strings.CutPrefix(path, p.Ref+"."); ok {
			return strconv.Itoa(p.Number) + " " + labelled(p) + ", " + strings.ToLower(pieceLabels[member].label)
		}
	}
	switch path {
	case "pump.curve", "pump.slip":
		return "Pump: its points"
	}
	for _, g := range asked(b.Design.Filled()) {
		for _, x := range g.fields {
			switch {
			case g.prefix+x.path != path:
			case g.name == "", strings.HasPrefix(g.name, x.label): // the liquid of "Liquid and place"
				return x.label
			default:
				return g.name + ": " + strings.ToLower(x.label[:1]) + x.label[1:]
			}
		}
	}
	return path
}

// pointed names a field of a list of points, as its label does: "Head, point 2".
func pointed(path string) (string, bool) {
	parts := strings.Split(path, ".")
	n := len(parts) - 1
	if n < 2 {
		return "", false
	}
	for _, x := range map[string][]field{"curve": curveFields, "slip": slipFields, "drops": dropFields}[parts[n-2]] {
		if i, err := strconv.Atoi(parts[n-1]); err == nil && x.path == parts[n] {
			return pointLabel(x, i), true
		}
	}
	return "", false
}

// pointLabel is the label of field x of the i-th point of a list.
func pointLabel(x field, i int) string {
	return strings.ReplaceAll(x.label, "\u00ad", "") + ", point " + strconv.Itoa(i+1)
}
