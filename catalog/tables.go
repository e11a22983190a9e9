package catalog

import (
	"math"
	"strings"
	"sync"

	q "drawoff/pipeline/quantity"
)

// tables is the whole catalogue, read once and never changed after.
type tables struct {
	sources   map[string]string
	series    []Series
	seriesAka []string // what else people call each
	tubes     []Tube
	families  []familyRow
	joints    []Joint
	materials []Material
	agents    []Agent
	bends     map[string][]bendRow // by tube slug, the usual shape first
	tees      map[string][]teeRow  // by tube slug, the usual shape first
	bodies    []bodyRow
	media     map[pair]standing // by material and medium

	tubeAt     map[string]int
	familyAt   map[string]int
	jointAt    map[string]int
	jointFor   map[pair]int // by family and tube
	materialAt map[string]int
	ends       map[string][]string // by tube slug
	halves     map[pair]*Half      // by end and tube slug
	dimensions map[string]Dimension
}

// pair is a key of two slugs.
type pair struct{ a, b string }

// familyRow is a family and what only this package needs of it.
type familyRow struct {
	Family
	halves      []halfRow
	closerNames []string // one for each of Closers
	sealName    string
	gap         Dimension
	aka         string // what else people call it
}

// halfRow is one half of a family. One with no name as a part is no part: the
// cut end of a hose.
type halfRow struct{ name, partName, caliper, aka string }

// load reads every table at first use.
var load = sync.OnceValue(func() *tables {
	t := &tables{}
	t.readSources()
	t.readTubes()
	t.readFamilies()
	t.readJoints()
	t.indexEnds()
	t.readFittings()
	t.readBodies()
	t.readSeals()
	t.readAgents()
	return t
})

func (t *tables) readSources() {
	t.sources = map[string]string{}
	for _, r := range read("sources.csv", sourcesCSV) {
		t.sources[r.text("source")] = r.text("text")
	}
}

// source returns the words behind the key in a row's cell.
func (t *tables) source(r row, column string) string {
	text, ok := t.sources[r.text(column)]
	if !ok {
		r.fail(column, "no such source: "+r.text(column))
	}
	return text
}

func (t *tables) readTubes() {
	names := map[string]string{}
	for _, r := range read("series.csv", seriesCSV) {
		s := Series{Slug: r.text("series"), Name: r.text("name"), Standard: r.text("standard"), Note: r.text("note"), NotForProduct: r.text("notforproduct")}
		t.series = append(t.series, s)
		t.seriesAka = append(t.seriesAka, r.text("aka"))
		names[s.Slug] = s.Name
	}
	t.tubeAt = map[string]int{}
	for _, r := range read("tubes.csv", tubesCSV) {
		slug := r.text("tube")
		series, _, _ := strings.Cut(slug, "/")
		if names[series] == "" {
			r.fail("tube", "no such series: "+series)
		}
		t.tubeAt[slug] = len(t.tubes)
		t.tubes = append(t.tubes, Tube{
			Slug: slug, Series: series,
			Size: r.text("size"), Name: r.text("size") + " (" + names[series] + ")",
			OD: r.mm("od"), Wall: r.mm("wall"),
			Trust: r.trust("trust"), Source: t.source(r, "source"),
		})
	}
}

func (t *tables) readFamilies() {
	t.familyAt = map[string]int{}
	for _, r := range read("families.csv", familiesCSV) {
		f := familyRow{
			Family: Family{
				Slug: r.text("family"), Name: r.text("name"), Standard: r.text("standard"),
				Closers: r.words("closers"), Flush: r.text("flush"), Clean: r.text("clean"),
				Trust: r.trust("trust"), Source: t.source(r, "source"),
				Unsealed: r.text("sealname") == "", Tighten: r.text("tighten"), NotForProduct: r.text("notforproduct"),
			},
			closerNames: strings.Split(r.text("closername"), ";"), sealName: r.text("sealname"), aka: r.text("aka"),
			gap: Dimension{
				Length: r.mm("gap"), Either: r.mm("gapeither"), Trust: Unknown,
				Source: assumed, Caliper: r.text("gapcaliper"),
			},
		}
		if r.text("limittrust") != "" {
			f.Lowest, f.Highest = r.celsius("lowest"), r.celsius("highest")
			f.LimitTrust, f.LimitSource = r.trust("limittrust"), t.source(r, "limitsource")
		}
		t.familyAt[f.Slug] = len(t.families)
		t.families = append(t.families, f)
	}
	for _, r := range read("halves.csv", halvesCSV) {
		i, ok := t.familyAt[r.text("family")]
		if !ok {
			r.fail("family", "no such family")
		}
		f := &t.families[i]
		f.Halves = append(f.Halves, r.text("half"))
		f.halves = append(f.halves, halfRow{r.text("half"), r.text("name"), r.text("caliper"), r.text("aka")})
	}
}

func (t *tables) readJoints() {
	t.jointAt, t.jointFor, t.dimensions = map[string]int{}, map[pair]int{}, map[string]Dimension{}
	for _, r := range read("joints.csv", jointsCSV) {
		slug := r.text("joint")
		family, _, _ := strings.Cut(slug, "/")
		at, ok := t.familyAt[family]
		if !ok {
			r.fail("joint", "no such family: "+family)
		}
		f := &t.families[at]
		j := Joint{
			Slug: slug, Family: family, Size: r.text("size"), Name: r.text("size") + " " + f.Name,
			Tubes: r.words("tubes"), Face: r.text("face"), Gap: f.gap,
			Thread: r.text("thread"), SealSize: r.text("seal"), Nut: r.mm("nut"),
			Trust: r.trust("trust"), Source: t.source(r, "source"),
		}
		for _, h := range f.halves {
			d := Dimension{
				Slug: slug + "/" + h.name + "/length", Length: r.mm("length"), Either: r.mm("either"),
				Trust: r.trust("lengthtrust"), Source: t.source(r, "lengthsource"), Caliper: h.caliper,
			}
			if h.partName == "" {
				d.Length, d.Either, d.Trust, d.Source = 0, 0, Custom, sourceCut
			}
			j.Lengths = append(j.Lengths, d)
			t.dimensions[d.Slug] = d
		}
		j.Gap.Slug = slug + "/gap"
		t.dimensions[j.Gap.Slug] = j.Gap
		if bar := r.number("bar"); !math.IsNaN(bar) {
			j.Pressure, j.PressureTrust, j.PressureFrom = q.Pressure(bar)*q.Bar, r.trust("bartrust"), t.source(r, "barsource")
		}
		for i, tube := range j.Tubes {
			at, ok := t.tubeAt[tube]
			if !ok {
				r.fail("tubes", "no such tube: "+tube)
			}
			if i == 0 {
				j.Bore = t.tubes[at].Bore()
			}
			t.jointFor[pair{family, tube}] = len(t.joints)
		}
		t.jointAt[slug] = len(t.joints)
		t.joints = append(t.joints, j)
	}
}

// indexEnds works out what every tube can end in.
func (t *tables) indexEnds() {
	t.ends, t.halves = map[string][]string{}, map[pair]*Half{}
	for _, tube := range t.tubes {
		ends := []string{weld}
		t.halves[pair{weld, tube.Slug}] = &Half{Tube: tube}
		for _, f := range t.families {
			at, ok := t.jointFor[pair{f.Slug, tube.Slug}]
			if !ok {
				continue
			}
			for _, half := range f.Halves {
				end := f.Slug + "/" + half
				ends = append(ends, end)
				t.halves[pair{end, tube.Slug}] = &Half{Tube: tube, Joint: t.joints[at], Name: half}
			}
		}
		t.ends[tube.Slug] = ends
	}
}
