package catalog

import (
	"math"
	"strconv"
	"strings"
	"sync"

	q "drawoff/pipeline/quantity"
)

// thing is a kind of part that comes in sizes: a tube, a long bend, a ring
// joint liner. What it is called is in two lists, since only the words of its
// name count against it when nobody said them.
type thing struct {
	name, aka []token
	items     []item
}

// item is one size of a thing, of a series or family.
type item struct {
	group *group
	measure
	hit func() Hit
}

// group is a series or a family: what it is called.
type group struct {
	words []token
	after float64 // how far it stands back: what is not for product comes after what is
}

// made holds what things returns.
var made struct {
	sync.Once
	things []thing
}

// things is everything that can be searched for, made at the first search. A
// sync.OnceValue would be shorter, but the linker keeps what that refers to in
// the page's module too, where nothing is searched for.
func things() []thing {
	made.Do(func() { made.things = everyThing(load()) })
	return made.things
}

func everyThing(t *tables) []thing {
	var all []thing
	add := func(name, aka string, items []item) {
		if len(items) > 0 {
			all = append(all, thing{scan(name), scan(aka), items})
		}
	}
	once := func(g *group, h Hit) []item { return []item{{group: g, hit: func() Hit { return h }}} }

	series := map[string]*group{}
	for i, s := range t.series {
		g := &group{words: scan(s.Name + " " + s.Standard + " " + t.seriesAka[i])}
		if s.NotForProduct != "" {
			g.after = 0.1
		}
		series[s.Slug] = g
		add("", "tube pipe tubing series standard range", once(g, seriesHit(s)))
	}
	// A thing that there is one of for each tube; hygienic is for what nobody
	// makes for other tube.
	each := func(name, aka string, hygienic bool, of func(Tube) (Hit, bool)) {
		var items []item
		for _, tube := range t.tubes {
			if hygienic && t.notForProduct(tube.Series) {
				continue
			}
			if _, ok := of(tube); ok {
				items = append(items, item{series[tube.Series], measureOf(tube), func() Hit { h, _ := of(tube); return h }})
			}
		}
		add(name, aka, items)
	}
	each("", "tube pipe tubing", false, func(tube Tube) (Hit, bool) { return tubeHit(tube), true })
	for _, shape := range [...]string{"long", "short", ""} {
		for _, degrees := range [...]q.Angle{90, 45} {
			turn := strconv.Itoa(int(degrees))
			each("bend", "elbow ell deg degree "+shape+" "+turn, true, func(tube Tube) (Hit, bool) {
				b, ok := BendOf(tube, shape, degrees*q.Degree)
				shapes := len(BendShapes(tube)) > 0
				return dimensionHit(b.Part, tube.Slug, b.CentreToEnd), ok && shapes == (shape != "")
			})
		}
		each("tee", "t piece "+shape, true, func(tube Tube) (Hit, bool) {
			f, ok := TeeOf(tube, shape)
			shapes := len(BendShapes(tube)) > 0
			return dimensionHit(f.Part, tube.Slug, f.CentreToEnd), ok && shapes == (shape != "")
		})
	}
	for _, kind := range [...][2]string{{Cross, "four way piece"}, {Pocket, "thermowell probe temperature sensor well"}, {Cock, "sampling tap valve"}, {Seat, "single globe stop angle"}} {
		each(kind[0], kind[1], true, func(tube Tube) (Hit, bool) {
			f, ok := TeeLike(kind[0], tube)
			return dimensionHit(f.Part, tube.Slug, f.BranchToEnd), ok
		})
	}
	for _, body := range t.bodies {
		each(body.Slug, body.Name+" "+body.aka, true, func(tube Tube) (Hit, bool) {
			b, ok := BodyOf(body.Slug, tube)
			return dimensionHit(b.Part, tube.Slug, b.Length), ok
		})
	}
	each("hose", "flexible flexi pipe", true, func(tube Tube) (Hit, bool) {
		return Hit{Part: HosePart(tube), Row: tube.Slug, Trust: tube.Trust, Source: tube.Source}, true
	})
	for _, shape := range [...]string{"concentric", "eccentric"} {
		var items []item
		for i, from := range t.tubes {
			for _, to := range t.tubes[:i] {
				if from.Series != to.Series || t.notForProduct(from.Series) {
					continue
				}
				m := measureOf(from)
				other := measureOf(to)
				m.to = &other
				items = append(items, item{series[from.Series], m, func() Hit {
					r := ReducerOf(from, to, shape)
					return dimensionHit(r.Part, from.Slug, r.Length)
				}})
			}
		}
		add("reducer", "enlarger increaser taper cone "+shape, items)
	}
	all = append(all, unions(t)...)
	for _, m := range t.materials {
		add(m.Name, m.Slug+" seal material rubber gasket "+materialAka[m.Slug], once(&group{}, materialHit(m)))
	}
	return all
}

// materialAka is what else people call what a seal is made of.
var materialAka = map[string]string{"nbr": "nitrile buna", "vmq": "silicone", "ptfe": "", "epdm": "ethylene propylene", "fkm": "fluorocarbon fluoroelastomer", "hnbr": "hydrogenated nitrile"}

// unions lists every joint and every part of it.
func unions(t *tables) []thing {
	var all []thing
	for i := range t.families {
		f := &t.families[i]
		g := &group{words: scan(f.Name + " " + f.Standard + " " + f.aka)}
		each := func(name, aka string, of func(Joint) Hit) {
			th := thing{name: scan(name), aka: scan(aka)}
			for _, j := range t.joints {
				if j.Family == f.Slug {
					th.items = append(th.items, item{g, t.measureJoint(j), func() Hit { return of(j) }})
				}
			}
			all = append(all, th)
		}
		h := familyHit(f)
		all = append(all, thing{items: []item{{group: g, hit: func() Hit { return h }}}})
		each("", "complete joint union", jointHit)
		for k, half := range f.halves {
			if half.partName == "" {
				continue
			}
			each(half.name, half.aka+" half part weld", func(j Joint) Hit {
				return dimensionHit(HalfPart(Half{Tube: t.tubes[t.tubeAt[j.Tubes[0]]], Joint: j, Name: half.name}), j.Slug, j.Lengths[k])
			})
		}
		for k, closer := range f.Closers {
			each(closer, f.closerNames[k], func(j Joint) Hit { return closerHit(j, k) })
		}
		if !f.Unsealed {
			each("seal", "gasket ring washer rubber o joint", sealHit)
		}
		for _, half := range f.Halves {
			name := "cap " + half
			if len(f.Halves) == 1 {
				name = "cap"
			}
			each(name, "blank end plug stop stopper", func(j Joint) Hit {
				return Hit{Part: CapPart(Half{Joint: j, Name: half}), Row: j.Slug, Facts: closesOn(j), Trust: j.Trust, Source: j.Source}
			})
		}
	}
	return all
}

func (t *tables) notForProduct(series string) bool {
	for i := range t.series {
		if t.series[i].Slug == series {
			return t.series[i].NotForProduct != ""
		}
	}
	return false
}

func measureOf(t Tube) measure { return measure{nominal: nominal(t.Size), od: t.OD, wall: t.Wall} }

func (t *tables) measureJoint(j Joint) measure {
	m := measureOf(t.tubes[t.tubeAt[j.Tubes[0]]])
	m.nominal = nominal(j.Size)
	if word, _, _ := strings.Cut(j.Face, " "); word == "thread" || word == "flange" {
		m.face = nominal(j.Face).size
	}
	return m
}

// nominal reads the name of a size as one; the zero token where it is none.
func nominal(size string) token {
	for _, t := range scan(size) {
		if !math.IsNaN(t.size) {
			return t
		}
	}
	return token{}
}
