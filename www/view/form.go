package view

import (
	"slices"
	"strconv"
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	"drawoff/pipeline/draw"
	"drawoff/pipeline/markup"
	q "drawoff/pipeline/quantity"
)

// field is one control of the form.
type field struct {
	path  string // of the design, relative to the group's
	label string
	hint  string // what it is measured from, where that is not plain
}

// The form, group by group. Lists of pieces stand between the groups.
var (
	plantFields = []field{
		{"title", "Title", ""},
		{"note", "Note", ""},
		{"date", "Date", "as you write it; on the sheets"},
	}
	tankFields = []field{
		{"bore", "Bore", "inside diameter"},
		{"height", "Straight side", "height of the shell"},
		{"bottom", "Bottom", ""},
		{"coneAngle", "Cone angle", "full angle between the sides"},
		{"fill", "Liquid when full", "90 % of brimful if left empty"},
		{"lowest", "Stop at level", "over the outlet"},
		{"wall", "Wall", "of shell and bottom"},
		{"manway", "Manway inside", "over the lowest inside point; the brim if left empty"},
		{"seam", "Gap at the cone's seam", "for the weld"},
	}
	outletFields = []field{
		{"place", "Outlet", ""},
		{"above", "Outlet height inside", "centre over the lowest inside point"},
		{"size", "Outlet tube", ""},
		{"end", "Outlet end", ""},
		{"stub", "Outlet stub", "tank to outlet face"},
		{"fall", "Outlet falls", "outwards, as it is welded on"},
	}
	standFields = []field{
		{"height", "Outlet face over floor", "the least that works if left empty"},
		{"legTop", "Top of legs over outlet face", "where they meet the tank if left empty"},
		{"foot", "Foot under the leg", ""},
		{"legs", "Legs", ""},
		{"bucket", "Bucket under the stack", "its height; empty for none"},
		{"clearance", "Free over the bucket", ""},
		{"stock", "Leg stock length", ""},
		{"kerf", "Saw kerf", ""},
		{"access", "Jack or pallet truck", "its height; must pass under the stack"},
	}
	legFields = []field{
		{"legOD", "Leg tube, outside", ""},
		{"legWall", "Leg wall", "of braces too"},
		{"feet", "Feet from tank's axis", "legs flush with the shell if left empty"},
		{"splay", "Splay", "from upright, feet outwards"},
		{"pad", "Foot pad", "diameter on the floor"},
		{"adjust", "Adjusters screw out", ""},
		{"castors", "Castors: wheel behind swivel", "empty for none"},
		{"brace", "Braces", ""},
		{"braceOD", "Brace tube, outside", ""},
		{"anchored", "Anchored", "feet fixed to the floor, or tank to a wall"},
		{"load", "Other weight on it", "lid, jacket, agitator"},
	}
	roomFields = []field{
		{"door", "Door, height", "that the tank comes in by"},
		{"doorWidth", "Door, width", ""},
		{"floorFall", "Floor falls", "under the stand"},
		{"uneven", "Floor out of flat", "under one foot"},
	}
	pumpFields = []field{
		{"kind", "Pump", ""},
		{"away", "Inlet from tank axis", "level distance to the inlet face"},
		{"aside", "Inlet to the left", "seen from the tank; minus: right"},
		{"height", "Inlet over floor", "to its centre"},
		{"faces", "Inlet faces", "0° back to the tank, then anticlockwise from above"},
		{"inSize", "Inlet tube", ""},
		{"inEnd", "Inlet end", ""},
		{"seal", "Inlet seal", ""},
		{"outSize", "Outlet tube", ""},
		{"outEnd", "Outlet end", ""},
		{"outUp", "Outlet over inlet", ""},
		{"outAhead", "Outlet beyond inlet", "away from the inlet face"},
		{"rated", "Speed of the points", "on its sheet; for another speed below"},
		{"speed", "Speed it runs at", "as its points if left empty"},
		{"dryLift", "Lift when dry", "self-priming: of water, as its sheet states"},
		{"relief", "Relief valve opens at", "over the inlet; empty for none"},
		{"casing", "Casing keeps", "when the lines have run off"},
	}
	deliveryFields = []field{
		{"height", "Outflow over floor", "or the level it enters, if higher"},
		{"away", "Outflow from tank axis", "wherever the pieces end if left empty"},
		{"aside", "Outflow to the left", "seen from the tank; minus: right"},
		{"flow", "Wanted flow", "says which throttle or pump speed gives it"},
	}
	limitFields = []field{
		{"suctionMargin", "Suction head to spare", "over what the pump requires"},
		{"suctionRatio", "or this many times", "what the pump requires, whichever is more"},
		{"suctionSpeed", "Fastest in suction", ""},
		{"fall", "Least fall", "of a line that must drain"},
		{"boreStep", "Step at a joint", "part of the thinner wall"},
		{"gap", "Gap that closes", "where a line meets its end"},
		{"spring", "Spring at a joint", "angle it may be forced"},
		{"floorSpace", "Free over the floor", "for cleaning"},
		{"tip", "Incline it must stand on", "without tipping"},
		{"reach", "Highest to work at", "over the floor; empty: not checked"},
		{"deadEnd", "Longest dead end", "bores, from the inner wall"},
		{"drainTime", "Left to run off", ""},
	}
	dropFields = []field{
		{"flow", "Flow", ""},
		{"drop", "Pressure drop", ""},
	}
	curveFields = []field{
		{"flow", "Flow", ""},
		{"head", "Head", ""},
		{"headRequired", "NPSHr", "suction head required"},
		{"efficiency", "Effi\u00adciency", "if given"},
	}
	slipFields = []field{
		{"pressure", "Pres\u00adsure", "outlet less inlet"},
		{"flow", "Flow", ""},
		{"headRequired", "NPSHr", "suction head required"},
		{"efficiency", "Effi\u00adciency", "if given"},
	}
)

// labels of the fields of a piece, by member.
var pieceLabels = map[string]field{
	"kind":     {"kind", "Piece", ""},
	"name":     {"name", "Your name for it", ""},
	"size":     {"size", "Tube", "as the piece before if left empty"},
	"to":       {"to", "Reduces to", ""},
	"shape":    {"shape", "Shape", ""},
	"in":       {"in", "Upstream end", ""},
	"out":      {"out", "Downstream end", ""},
	"third":    {"third", "Open port", ""},
	"fourth":   {"fourth", "Port across from it", ""},
	"seal":     {"seal", "Seal at upstream joint", ""},
	"prepared": {"prepared", "End prepared", "turned or expanded to match the piece before"},

	"length": {"length", "Length", ""},
	"fit":    {"fit", "Make it fit", "its length closes the gap"},
	"angle":  {"angle", "Angle", ""},
	"turn":   {"turn", "Turn", ""},
	"fall":   {"fall", "Laid to fall", "1:80, 1 %"},

	"open":      {"open", "Open by", "90° is fully open"},
	"share":     {"share", "Leaves at the third port", "part of the whole flow; minus: joins there"},
	"lining":    {"lining", "Lined with", "what its bore is made of"},
	"roughness": {"roughness", "Roughness inside", "equivalent sand grain"},
	"kv":        {"kv", "Kv", "m³/h of water at one bar, if its maker gives it; 0.865 × Cv"},
	"suction":   {"suction", "Suction hose", "made to stand a vacuum"},
	"dropsIn":   {"dropsIn", "Measured with", ""},
}

// askedGroup is a group of fields that stand in one place of a design.
type askedGroup struct {
	name, prefix string
	fields       []field
}

// asked are the fields of the form beside those of pieces and points, by the
// groups that they stand in.
func asked(filled design.Design) []askedGroup {
	return []askedGroup{
		{"", "", plantFields},
		{"Liquid and place", "", liquidFields(filled.Liquid.Kind)},
		{"Tank", "tank.", tankFields},
		{"Tank", "tank.outlet.", outletFields},
		{"Stand", "stand.", standFields},
		{"Stand", "stand.", legFields},
		{"Room", "site.", roomFields},
		{"Pump", "pump.", pumpFields},
		{"Delivery", "delivery.", deliveryFields},
		{"Find the run", "finder.", finderFields},
		{"Cleaning and air", "wash.", washFields},
		{"Cleaning and air", "vent.", ventFields},
		{"What you hold it to", "limits.", limitFields},
	}
}

// Form is every input of the design.
func Form(b Bench) string {
	f := form{bench: b, filled: b.Design.Filled()}
	d := b.Design
	f.group("Plant", func() {
		f.fields("", plantFields)
	})
	f.group("Tank", func() {
		cone := f.filled.Tank.Bottom == "cone"
		f.fields("tank.", f.without(f.without(tankFields, "coneAngle", !cone), "seam", !cone))
		below := f.filled.Tank.Outlet.Place != "side"
		f.fields("tank.outlet.", f.without(f.without(outletFields, "above", below), "fall", below))
	})
	f.group("Under the tank", func() { f.list("under", d.Under) })
	f.group("Stand", func() { f.fields("stand.", standFields) })
	f.group("Legs, feet and room", func() {
		f.fields("stand.", f.without(legFields, "braceOD", f.filled.Stand.Brace == design.NoBrace))
		f.fields("site.", roomFields)
	})
	if f.filled.Pump.Kind == "none" {
		f.group("Run", func() { f.list("run", d.Run) })
	} else {
		f.group("Run to the pump", func() { f.list("run", d.Run) })
	}
	if f.filled.Pump.Kind != "none" {
		f.group("Find the run", f.finder)
	}
	f.group("Pump", func() {
		if f.filled.Pump.Kind == "none" {
			f.fields("pump.", pumpFields[:1])
			return
		}
		positive := design.Positive(f.filled.Pump.Kind)
		f.fields("pump.", f.without(pumpFields, "relief", !positive))
		if positive {
			f.points("pump.slip", "Points of the pump, from its data sheet", slipFields, len(d.Pump.Slip), 2)
		} else {
			f.points("pump.curve", "Pump curve, from its data sheet", curveFields, len(d.Pump.Curve), 2)
		}
		f.Open("div", "id", PumpPictureID)
		f.Raw(PumpPicture(b))
		f.Close("div")
	})
	f.group("Delivery", func() {
		f.list("delivery.pieces", d.Delivery.Pieces)
		f.fields("delivery.", deliveryFields)
	})
	f.group("Liquid and place", func() {
		f.fields("", liquidFields(f.filled.Liquid.Kind))
	})
	f.group("Wash and breathing", func() { f.cleaning(b) })
	f.group("What you hold it to", func() { f.fields("limits.", limitFields) })
	return f.String()
}

type form struct {
	html
	bench  Bench
	filled design.Design
}

// without leaves a field out of a group when it has no effect.
func (f *form) without(fields []field, path string, leave bool) []field {
	if !leave {
		return fields
	}
	var out []field
	for _, x := range fields {
		if x.path != path {
			out = append(out, x)
		}
	}
	return out
}

// group is a part of the form that folds, with room for what it says in short.
// The tank is where one begins.
func (f *form) group(title string, body func()) {
	f.Open("details", "class", "group", "data-keep", "group "+title, "open", markup.If(title == "Tank", markup.Empty))
	f.Open("summary")
	f.El("h3", title)
	f.El("span", "", "id", groupGist(title), "class", "gist", "data-shop", "gist")
	f.Close("summary")
	body()
	f.Close("details")
}

// groupGist is the id of the gist of a group, which the workshop writes.
func groupGist(title string) string { return "gist-" + strings.ReplaceAll(title, " ", "-") }

func (f *form) fields(prefix string, fields []field) {
	f.Open("div", "class", "fields")
	for _, x := range fields {
		f.control(prefix+x.path, x)
	}
	f.Close("div")
}

// usual returns what is in filled at path, in the units that are shown.
func usual(filled *design.Design, path string) string {
	words, _ := filled.Get(path)
	if a, ok := filled.Amount(path); ok && path != "wash.element" {
		return a.Kind.Told(words)
	}
	return words
}

// control writes one labelled input with its hint and its fault.
func (f *form) control(path string, x field) {
	value, _ := f.bench.Design.Get(path)
	usual := usual(&f.filled, path)
	pending, wrong := f.bench.pending(path)
	if wrong {
		value = pending.Value
	}
	id := "in-" + path
	described := ""
	if x.hint != "" {
		described = "hint-" + path
	}
	if wrong {
		described = strings.TrimSpace(described + " err-" + path)
	}
	invalid := markup.If(wrong, "true")
	wide := markup.If(path == "note" || path == "title" || strings.HasSuffix(path, ".name"), " wide")
	f.Open("div", "class", "field"+wide)
	f.El("label", x.label, "for", id)
	if f.bench.Design.Assumes(path) {
		f.El("span", "assumed", "class", "mark assumed")
	}
	common := []string{"id", id, "data-path", path, "aria-describedby", described, "aria-invalid", invalid}
	switch {
	case strings.HasSuffix(path, ".fit") || strings.HasSuffix(path, ".prepared") || path == "stand.anchored":
		f.Void("input", append(common, "type", "checkbox", "checked", markup.If(value == "true", markup.Empty))...)
	case path == "note":
		f.Open("textarea", append(common, "rows", "2")...)
		f.Text(value)
		f.Close("textarea")
	case isSize(path):
		f.chooseTube(path, value, usual, common)
	default:
		if choices := design.Choices(f.bench.Design, path); len(choices) > 0 {
			f.choose(path, value, usual, choices, common)
			break
		}
		f.Void("input", append(common, "value", value, "placeholder", usual, "autocomplete", "off", "spellcheck", "false", "enterkeyhint", "done", "data-steps", f.steps(path))...)
	}
	if a, ok := f.bench.Design.Amount(path); ok && a.Kind.Foreign(value) && path != "wash.element" { // one buys it in kW everywhere
		f.El("small", "= "+a.String(), "class", "hint")
	}
	if x.hint != "" {
		f.El("small", q.Local(x.hint), "id", "hint-"+path, "class", "hint")
	}
	if wrong {
		f.El("p", Sentence(pending.Fault), "id", "err-"+path, "class", "fault")
	}
	f.Close("div")
}

// steps marks a field that holds a number, or would if it were not empty: the
// page puts the pair of buttons beside it that moves it in steps.
func (f *form) steps(path string) string {
	_, ok := f.filled.Amount(path)
	return markup.If(ok, markup.Empty)
}

// Sentence tells a fault beside its own field.
func Sentence(x design.Fault) string {
	s := strings.ToUpper(x.What[:min(1, len(x.What))]) + x.What[min(1, len(x.What)):]
	if x.Hint != "" {
		s += ": " + x.Hint
	}
	return s + "."
}

// isSize reports whether the field at path takes a tube.
func isSize(path string) bool {
	member := path[strings.LastIndexByte(path, '.')+1:]
	return member == "size" || member == "to" || member == "inSize" || member == "outSize" || path == "finder.other"
}

// chooseTube writes a select of tubes with the present one only: there are
// some hundred tubes and many such fields, so the page puts the rest in, from
// the template that Tubes fills, when the user turns to the field.
func (f *form) chooseTube(path, value, usual string, common []string) {
	f.Open("select", append(common, "data-choices", "tubes")...)
	empty := "as the piece before"
	switch {
	case path == "finder.size":
		empty = "as the pump inlet"
	case path == "finder.other":
		empty = "none"
	case strings.HasSuffix(path, ".inSize") || path == "tank.outlet.size" || strings.HasSuffix(path, ".to"):
		empty = "choose a tube"
	case strings.HasSuffix(path, ".outSize") && usual != "":
		empty = TubeName(usual)
	}
	f.option("", empty, value == "")
	if value != "" {
		f.option(value, TubeName(value), true)
	}
	f.Close("select")
}

// TubeName is what a tube is called, or its slug if there is no such tube.
func TubeName(slug string) string {
	if t, ok := catalog.FindTube(slug); ok {
		return t.Name
	}
	return slug
}

// Tubes is every tube, for the template that fills selects.
func Tubes() string {
	var f form
	f.groups(design.Choices(design.Design{}, "tank.outlet.size"), "")
	return f.String()
}

// choose writes a select. The empty choice is the usual one, named.
func (f *form) choose(path, value, usual string, choices []design.Choice, common []string) {
	f.Open("select", common...)
	if usual == "" && strings.HasSuffix(path, ".shape") {
		usual = choices[0].Slug // of a bend: what its tube is bent to
	}
	known := value == ""
	empty := ""
	for _, c := range choices {
		if c.Slug == usual {
			empty = c.Name
		}
		known = known || c.Slug == value
	}
	switch {
	case strings.HasSuffix(path, ".seal"):
		empty = "as the others"
	case strings.HasSuffix(path, ".lining"):
		empty = "not said"
	}
	switch path {
	case "finder.joints":
		empty = "the first two"
	case "finder.enters":
		empty = "as it does now"
	}
	if empty != "" && (value != usual || value == "") {
		f.option("", empty, value == "")
	}
	if !known {
		f.option(value, value, true)
	}
	if value == "" || value != usual {
		choices = slices.DeleteFunc(slices.Clone(choices), func(c design.Choice) bool { return c.Slug == usual && empty != "" && c.Slug != value })
	}
	f.groups(choices, value)
	f.Close("select")
}

// groups writes options, under the headings that they bring.
func (f *form) groups(choices []design.Choice, value string) {
	heading := ""
	for _, c := range choices {
		if c.Group != heading {
			if heading != "" {
				f.Close("optgroup")
			}
			f.Open("optgroup", "label", c.Group)
			heading = c.Group
		}
		f.option(c.Slug, c.Name, c.Slug == value)
	}
	if heading != "" {
		f.Close("optgroup")
	}
}

func (f *form) option(value, name string, selected bool) {
	f.Raw(`<option value="`)
	f.Text(value)
	f.Raw(`"`)
	if selected {
		f.Raw(" selected")
	}
	f.Raw(">")
	f.Text(name)
	f.Close("option")
}

// list writes the pieces of one line, each with its fields and its buttons.
func (f *form) list(path string, pieces []design.Piece) {
	if len(pieces) == 0 {
		f.El("p", "Nothing here yet.", "class", "hint")
	}
	f.Open("ol", "class", "pieces")
	for i := range pieces {
		f.piece(path+"."+strconv.Itoa(i), i, len(pieces))
	}
	f.Close("ol")
	f.adder(path+"."+strconv.Itoa(len(pieces)), "Add a piece at the end")
}

// adder is the control that puts a new piece before path.
func (f *form) adder(path, label string) {
	f.Open("div", "class", "adder")
	f.Open("select", "data-add", path, "aria-label", label)
	f.option("", label+"…", true)
	for _, k := range design.Kinds() {
		f.option(k.Slug, k.Name, false)
	}
	f.made()
	f.Close("select")
	f.Close("div")
}

func (f *form) piece(path string, i, n int) {
	kind, _ := f.bench.Design.Get(path + ".kind")
	number, label := "", kind
	for _, p := range f.bench.Report.Pieces {
		if p.Ref == path {
			number, label = strconv.Itoa(p.Number), p.Label
			if p.Name != "" {
				label = p.Name + " (" + p.Label + ")"
			}
			break
		}
	}
	f.Open("li", "class", "piece-card", "id", "card-"+path, "data-ref", path)
	f.Open("div", "class", "piece-head")
	f.El("span", number, "class", "number")
	f.El("span", label, "class", "piece-label")
	if f.bench.Design.Assumes(path) {
		f.El("span", "assumed", "class", "mark assumed")
	}
	f.button("up", path, "↑", "Move piece "+number+" up", i == 0)
	f.button("down", path, "↓", "Move piece "+number+" down", i == n-1)
	f.button("remove", path, "×", "Remove piece "+number, false)
	f.Close("div")
	f.Open("details", "data-keep", "card "+path, "open", markup.If(f.faulty(path), markup.Empty))
	f.El("summary", "Change")
	f.Open("div", "class", "fields")
	f.control(path+".kind", pieceLabels["kind"])
	for _, k := range design.Kinds() {
		if k.Slug != kind {
			continue
		}
		for _, member := range k.Fields {
			if member == "turn" && kind == design.Reducer && !f.eccentric(path) {
				continue // it has no side that could be turned
			}
			if in, _ := f.filled.Get(path + ".in"); member == "prepared" && in != design.Weld {
				continue
			}
			if member == "shape" && f.shapeless(path) {
				continue
			}
			x := pieceLabels[member]
			switch {
			case member == "turn":
				x.hint = turnHint(kind)
			case member == "length" && (kind == design.Reducer || design.IsBody(kind) || kind == design.Device):
				switch kind {
				case design.Reducer:
					x.hint = "measured over its weld ends, if you have it in hand"
				case design.Device:
					x.hint = "over its ends"
				default:
					x.hint = "measured over its ends, if you have it in hand"
				}
			}
			f.control(path+"."+member, x)
		}
	}
	f.Close("div")
	if n := f.drops(path); n > 0 || kind == design.Device || design.Drops(kind) && f.thick() {
		f.points(path+".drops", "Pressure drop, from its data sheet or measured; counts before anything else", dropFields, n, 0)
		if n > 0 {
			f.Open("div", "class", "fields")
			f.control(path+".dropsIn", pieceLabels["dropsIn"])
			f.Close("div")
		}
	}
	f.dimensions(path)
	f.Open("p")
	f.op("keep", path, "Keep as a part of my own", "Keep as a part of my own: piece "+number)
	f.Close("p")
	f.adder(path, "Put a piece before this one")
	f.Close("details")
	f.Close("li")
}

// eccentric reports whether the reducer at path has a flat side.
func (f *form) eccentric(path string) bool {
	shape, _ := f.filled.Get(path + ".shape")
	return shape == "eccentric"
}

// shapeless reports whether the tube of the piece at path gives no shape to
// choose, and none is typed that would have to be taken out.
func (f *form) shapeless(path string) bool {
	shape, _ := f.bench.Design.Get(path + ".shape")
	return shape == "" && !f.faulty(path) && len(design.Choices(f.bench.Design, path+".shape")) == 0
}

// turnHint says what a turn of 0° means for a kind of piece.
func turnHint(kind string) string {
	what := "turns to"
	switch kind {
	case design.Reducer:
		what = "flat side to"
	case design.Tee, design.Pocket, design.Cock:
		what = "branch to"
	case design.Cross:
		what = "open port to"
	case design.Seat:
		what = "outlet to"
	}
	return what + ": on a level line 0° up, 90° right, 180° down; on an upright one 0° is towards the pump"
}

// faulty reports whether anything is pending below path.
func (f *form) faulty(path string) bool {
	for _, p := range f.bench.Pending {
		if strings.HasPrefix(p.Path, path+".") {
			return true
		}
	}
	return false
}

func (f *form) button(act, path, mark, label string, disabled bool) {
	f.Open("button", "type", "button", "class", "small", "data-act", act, "data-path", path, "aria-label", label, "title", label, "disabled", markup.If(disabled, markup.Empty))
	f.Text(mark)
	f.Close("button")
}

// thick reports whether the liquid is one that is not Newtonian, for which what
// fittings lose is known best by measuring it.
func (f *form) thick() bool {
	kind := f.filled.Liquid.Kind
	return kind == design.PowerLaw || kind == design.Bingham
}

// drops returns how many points the piece at path has.
func (f *form) drops(path string) int {
	for _, s := range f.bench.Design.Sizes() {
		if s.Path == path {
			return len(s.Piece.Drops)
		}
	}
	return 0
}

// points writes the n points of a curve at path as a small table, of which
// least must stay.
func (f *form) points(path, caption string, fields []field, n, least int) {
	f.Open("div", "class", "scroll")
	f.Open("table", "class", "curve-table")
	f.Open("caption")
	f.Text(caption)
	if f.bench.Design.Assumes(path) {
		f.El("span", "assumed", "class", "mark assumed")
	}
	f.Close("caption")
	f.Open("thead")
	f.Open("tr")
	for _, x := range fields {
		f.Open("th", "scope", "col")
		f.Text(x.label)
		if x.hint != "" {
			f.El("span", x.hint, "class", "hint")
		}
		f.Close("th")
	}
	f.Open("th", "scope", "col")
	f.El("span", "Put in, take out", "class", "unseen")
	f.Close("th")
	f.Close("tr")
	f.Close("thead")
	f.Open("tbody")
	for i := range n {
		row := path + "." + strconv.Itoa(i)
		number := strconv.Itoa(i + 1)
		f.Open("tr")
		for _, x := range fields {
			f.Open("td", "class", x.path)
			f.cell(row+"."+x.path, pointLabel(x, i))
			f.Close("td")
		}
		f.Open("td")
		if strings.HasPrefix(path, "pump.") {
			f.button("point", path+"."+strconv.Itoa(i+1), "+", "Put a point in after point "+number, false)
			f.Text(" ")
		}
		f.button("remove", row, "×", "Take out point "+number, n <= least)
		f.Close("td")
		f.Close("tr")
	}
	f.Close("tbody")
	f.Close("table")
	f.Close("div")
	f.Open("button", "type", "button", "data-act", "point", "data-path", path+"."+strconv.Itoa(n))
	f.Text("Add a point")
	f.Close("button")
}

// PumpPictureID is the id of the picture beside the table of points, which is
// drawn anew at every keystroke although the form waits.
const PumpPictureID = "pump-picture"

// PumpPicture is the pump's curve with the line's, as narrow as the form.
func PumpPicture(b Bench) string { return draw.Curve(b.Report, min(b.Width, 390)) }

// cell is an input whose label is the table's.
func (f *form) cell(path, label string) {
	value, _ := f.bench.Design.Get(path)
	pending, wrong := f.bench.pending(path)
	if wrong {
		value = pending.Value
	}
	f.Void("input", "id", "in-"+path, "data-path", path, "aria-label", label, "value", value, "autocomplete", "off",
		"aria-invalid", markup.If(wrong, "true"), "aria-describedby", markup.If(wrong, "err-"+path), "enterkeyhint", "done", "data-steps", f.steps(path))
	if wrong {
		f.El("p", Sentence(pending.Fault), "id", "err-"+path, "class", "fault")
	}
}
