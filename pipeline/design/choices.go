package design

import (
	"slices"
	"strconv"
	"strings"

	"drawoff/catalog"
)

// The kinds of pump.
const (
	Centrifugal = "centrifugal"
	Flexible    = "flexible-impeller"
	Lobe        = "lobe"
	Peristaltic = "peristaltic"
	NoPump      = "none" // the liquid runs by gravity
)

// The kinds of liquid that are told by their own figures, and what such a one
// is to a seal until somebody says.
const (
	Other    = "other"
	PowerLaw = "power-law"
	Bingham  = "bingham"

	Unlike = "unlike"
)

// OwnLiquid says that a drop was measured with the liquid of the plant.
const OwnLiquid = "liquid"

// How the legs may be braced.
const (
	NoBrace       = "none"
	DiagonalBrace = "diagonal"
)

// Positive reports whether a pump of this kind pushes out a volume at each
// turn, whatever stands against it.
func Positive(kind string) bool { return kind == Flexible || kind == Lobe || kind == Peristaltic }

// Shuts reports whether a pump of that kind lets nothing through while it
// stands: one that squeezes a hose holds it shut at every turn. Common practice,
// no source.
func Shuts(kind string) bool { return kind == Peristaltic }

// Slips says where some liquid gets through a positive pump of that kind,
// standing or turning; "" where it does not. Common practice, no source.
func Slips(kind string) string {
	switch kind {
	case Lobe:
		return "through its gaps"
	case Flexible:
		return "past its vanes"
	}
	return ""
}

// Choice is one thing that may be chosen for a field.
type Choice struct {
	_     [0]func() // no ==: the page would load it
	Slug  string
	Name  string
	Group string // heading that a long list puts it under, or ""
}

// The choices that no catalogue holds, the usual first.
var (
	bottoms = []Choice{{Slug: "cone", Name: "cone"}, {Slug: "klopper", Name: "dished, Klöpper (crown radius as the bore)"}, {Slug: "korbbogen", Name: "dished, Korbbogen (crown radius 0.8 of the bore)"}, {Slug: "flat", Name: "flat"}}
	places  = []Choice{{Slug: "bottom", Name: "in the middle of the bottom"}, {Slug: "side", Name: "in the side"}}
	pumps   = []Choice{{Slug: Centrifugal, Name: "centrifugal"}, {Slug: Flexible, Name: "flexible impeller"}, {Slug: Lobe, Name: "lobe"}, {Slug: Peristaltic, Name: "peristaltic: a squeezed hose"}, {Slug: NoPump, Name: "none, by gravity"}}
	liquids = []Choice{
		{Slug: "water", Name: "water"},
		{Slug: "sugar", Name: "sugar solution: juice, must, wort", Group: "Drinks"},
		{Slug: "fermented", Name: "cider, perry, beer or wine", Group: "Drinks"},
		{Slug: "spirits", Name: "spirits", Group: "Drinks"},
		{Slug: "milk", Name: "milk", Group: "Dairy"},
		{Slug: "skim", Name: "skimmed milk", Group: "Dairy"},
		{Slug: "cream", Name: "cream", Group: "Dairy"},
		{Slug: "whey", Name: "whey", Group: "Dairy"},
		{Slug: "caustic", Name: "cleaning caustic", Group: "Cleaning"},
		{Slug: "nitric", Name: "dilute nitric acid", Group: "Cleaning"},
		{Slug: "phosphoric", Name: "dilute phosphoric acid", Group: "Cleaning"},
		{Slug: "peracetic", Name: "dilute peracetic acid", Group: "Cleaning"},
		{Slug: Other, Name: "other, Newtonian", Group: "By its own figures"},
		{Slug: PowerLaw, Name: "purée (power law)", Group: "By its own figures"},
		{Slug: Bingham, Name: "slurry (yield stress)", Group: "By its own figures"},
	}
	mediums = []Choice{
		{Slug: Unlike, Name: "unlike these"},
		{Slug: "sugar", Name: "juice, pulp or syrup"}, {Slug: "ethanol", Name: "alcohol to 40 %"}, {Slug: "milk", Name: "milk or cream"},
		{Slug: "fat", Name: "fat or oil"}, {Slug: "citrus-oil", Name: "citrus oil"}, {Slug: "hop-oil", Name: "hop oil"}, {Slug: "water", Name: "water"},
		{Slug: "caustic", Name: "caustic"}, {Slug: "nitric", Name: "nitric acid"}, {Slug: "phosphoric", Name: "phosphoric acid"},
		{Slug: "peracetic", Name: "peracetic acid"}, {Slug: "hypochlorite", Name: "hypochlorite"},
	}
	braces = []Choice{{Slug: NoBrace, Name: "none"}, {Slug: DiagonalBrace, Name: "diagonal, from each leg's foot to the next one's top"}}
	thirds = []Choice{{Slug: "cap", Name: "blank cap"}, {Slug: "valve", Name: "valve"}}
	// What a run that is found may be made with.
	finderJoints = []Choice{{Slug: "welded", Name: "welded, unions where it is taken apart"}, {Slug: "unions", Name: "unions at every bend"}, {Slug: "orbital", Name: "welded, bends of 88° and 92°"}}
	finderValves = []Choice{{Slug: "none", Name: "none"}, {Slug: "start", Name: "at its start"}, {Slug: "end", Name: "at its end"}}
	finderEnters = []Choice{{Slug: "above", Name: "from above"}, {Slug: "side", Name: "from the side"}}

	dropsIns = []Choice{{Slug: "water", Name: "water"}, {Slug: OwnLiquid, Name: "this liquid"}}

	noSeal = Choice{Slug: "none", Name: "none"}

	shapesOf = map[string][]Choice{
		Bend:    {{Slug: "long", Name: "long: with tangents"}, {Slug: "short", Name: "short: without tangents"}},
		Reducer: {{Slug: "concentric", Name: "concentric"}, {Slug: "eccentric", Name: "eccentric: one side flat"}},
		Tee:     {{Slug: "run", Name: "flow straight through"}, {Slug: "branch", Name: "flow in through the run, out at the branch"}},
	}
)

// Choices returns what may be chosen for the field at path, the usual first,
// or nil where a person types freely. Sizes are every tube of the catalogue;
// ends are those that the tube there can carry.
func Choices(d Design, path string) []Choice {
	switch path {
	case "tank.bottom":
		return bottoms
	case "tank.outlet.place":
		return places
	case "tank.outlet.end":
		return endsOf(d.Tank.Outlet.Size, false)
	case "pump.kind":
		return pumps
	case "pump.inEnd":
		return endsOf(d.Pump.InSize, false)
	case "pump.outEnd":
		return endsOf(either(d.Pump.OutSize, d.Pump.InSize), false)
	case "pump.inSize", "pump.outSize", "tank.outlet.size":
		return sizes()
	case "finder.size", "finder.other":
		return sizes()
	case "finder.joints":
		return finderJoints
	case "finder.valve":
		return finderValves
	case "finder.enters":
		return finderEnters
	case "liquid.kind":
		return liquids
	case "liquid.medium":
		return mediums
	case "stand.brace":
		return braces
	case "stand.legs":
		var legs []Choice
		for n := fewestLegs; n <= mostLegs; n++ {
			legs = append(legs, Choice{Slug: strconv.Itoa(n), Name: strconv.Itoa(n)})
		}
		return legs
	case "seal":
		return materials()
	case "pump.seal":
		return append(materials(), noSeal)
	}
	if parent(parent(path)) == "cleaning" && strings.HasSuffix(path, ".agent") {
		return Agents()
	}
	piece, field := parent(path), path[strings.LastIndexByte(path, '.')+1:]
	if piece == "" || !inLine(parent(piece)) {
		return nil
	}
	switch field {
	case "kind":
		all := make([]Choice, len(kindList))
		for i, k := range kindList {
			all[i] = Choice{Slug: k.Slug, Name: k.Name}
		}
		return all
	case "size", "to":
		return sizes()
	case "third", "fourth":
		return thirds
	case "seal":
		return append(materials(), noSeal)
	case "lining":
		return materials()
	case "dropsIn":
		return dropsIns
	}
	for _, s := range d.Sizes() {
		if s.Path != piece {
			continue
		}
		switch field {
		case "shape":
			return shapes(s.Piece.Kind, s.From)
		case "in":
			return endsOf(s.From, s.Piece.Kind == Hose)
		case "out":
			return endsOf(s.To, s.Piece.Kind == Hose)
		}
	}
	return nil
}

// shapes returns the shapes that a piece of this kind comes in, on the tube
// called size: not every tube has both bends.
func shapes(kind, size string) []Choice {
	all := shapesOf[kind]
	t, ok := catalog.FindTube(size)
	if kind != Bend || !ok {
		return all
	}
	var some []Choice
	for _, slug := range catalog.BendShapes(t) {
		if i := slices.IndexFunc(all, func(c Choice) bool { return c.Slug == slug }); i >= 0 {
			some = append(some, all[i])
		}
	}
	return some
}

// Agents returns what a line can be cleaned with.
func Agents() []Choice {
	var all []Choice
	for _, a := range catalog.Agents() {
		all = append(all, Choice{Slug: a.Slug, Name: a.Name})
	}
	return all
}

// inLine reports whether path is a list of pieces.
func inLine(path string) bool {
	return path == "under" || path == "run" || path == "delivery.pieces"
}

func sizes() []Choice {
	series := make(map[string]string)
	for _, s := range catalog.SeriesList() {
		series[s.Slug] = s.Name
		if s.NotForProduct != "" {
			series[s.Slug] = "Not for product: " + s.Name
		}
	}
	tubes := catalog.Tubes()
	all := make([]Choice, len(tubes))
	for i, t := range tubes {
		all[i] = Choice{Slug: t.Slug, Name: t.Name, Group: series[t.Series]}
	}
	return all
}

func materials() []Choice {
	list := catalog.Materials()
	all := make([]Choice, len(list), len(list)+1)
	for i, m := range list {
		all[i] = Choice{Slug: m.Slug, Name: m.Name}
	}
	return all
}

// endsFor returns the ends that tube t, or a hose of its size, can carry.
func endsFor(t catalog.Tube, hose bool) []string {
	ends := catalog.Ends(t)
	if hose {
		return ends
	}
	return slices.DeleteFunc(slices.Clone(ends), catalog.OnHose)
}

// endsOf names the ends of the tube called size, or of a hose, in plain words.
func endsOf(size string, hose bool) []Choice {
	t, ok := catalog.FindTube(size)
	if !ok {
		return nil
	}
	ends := endsFor(t, hose)
	all := make([]Choice, len(ends))
	for i, e := range ends {
		all[i] = Choice{Slug: e, Name: endName(e)}
	}
	return all
}

// endName turns "ring-joint/liner" into "ring joint, liner".
func endName(end string) string {
	if end == Weld {
		return "plain end to weld"
	}
	family, half, _ := strings.Cut(end, "/")
	if f, ok := catalog.FindFamily(family); ok {
		return f.Name + ", " + half
	}
	return end
}

func slugs(choices []Choice) []string {
	out := make([]string, len(choices))
	for i, c := range choices {
		out[i] = c.Slug
	}
	return out
}
