package view

import (
	"slices"
	"strconv"
	"strings"

	"drawoff/catalog"
	q "drawoff/pipeline/quantity"
)

// The catalogue as it is read: the page of it and the terminal show the same
// sheets.

// sheet is one table of the catalogue.
type sheet struct {
	id, title string
	section   string // heading of this and the sheets after it; "" for the same
	warning   string
	notes     []string
	calipers  []string // where each length is measured
	figures   bool     // figures alone: columns fit a phone
	columns   []string
	rows      []sheetRow
}

// sheetRow is one row. Marks stand in its cells, beside what they mark.
type sheetRow struct {
	id    string
	cells []string
	cites []cite
}

// cite says where something in a row comes from.
type cite struct{ what, source string }

// sheets returns the whole catalogue.
func sheets() []sheet {
	return slices.Concat(tubeSheets(), unionSheets(), []sheet{bendSheet(), assumedSheet()}, sealSheets())
}

func marked(text string, t catalog.Trust) string { return text + " (" + string(t) + ")" }

func millimetres(l q.Length) string {
	return strconv.FormatFloat(float64(int(l.Millimetres()*100+0.5))/100, 'f', -1, 64)
}

func tubeSheets() []sheet {
	var out []sheet
	tubes := catalog.Tubes()
	for _, s := range catalog.SeriesList() {
		sh := sheet{
			id: s.Slug, title: s.Name, notes: []string{s.Standard + ". " + s.Note},
			columns: []string{"Size", "OD, mm", "Wall", "Bore", "kg/m", "Mark"}, figures: true,
		}
		if s.NotForProduct != "" {
			sh.warning = "Not for product: " + s.NotForProduct + "."
		}
		for _, t := range tubes {
			if t.Series == s.Slug {
				sh.rows = append(sh.rows, sheetRow{t.Slug, []string{
					t.Size, millimetres(t.OD), millimetres(t.Wall), millimetres(t.Bore()),
					strconv.FormatFloat(float64(t.MassPerMetre()), 'f', 2, 64), string(t.Trust),
				}, []cite{{"", t.Source}}})
			}
		}
		out = append(out, sh)
	}
	out[0].section = "Tube"
	for i := range out {
		if out[i].warning != "" {
			out[i].section = "Tube that only looks hygienic"
			break
		}
	}
	return out
}

func unionSheets() []sheet {
	var out []sheet
	joints := catalog.Joints()
	for _, f := range catalog.Families() {
		sh := sheet{id: f.Slug, title: f.Name + ", " + f.Standard}
		if f.NotForProduct != "" {
			sh.warning = "Not for product: " + f.NotForProduct + "."
		}
		sh.notes = familyNotes(f)
		var own []catalog.Joint
		var sealed, nut, pressed bool
		for _, j := range joints {
			if j.Family == f.Slug {
				own = append(own, j)
				sealed, nut, pressed = sealed || j.SealSize != "", nut || j.Nut > 0, pressed || j.Pressure > 0
				if len(own) == 1 {
					sh.calipers = calipers(f, j)
				}
			}
		}
		sh.columns = []string{"Size", "Closes on", "Made for tube"}
		optional := func(have bool, column string) {
			if have {
				sh.columns = append(sh.columns, column)
			}
		}
		optional(sealed, "Seal")
		optional(nut, "Nut OD")
		optional(pressed, "To pressure")
		sh.columns = append(sh.columns, "Lengths, mm", "Left open, mm")
		for _, j := range own {
			sh.rows = append(sh.rows, jointRow(f, j, sealed, nut, pressed))
		}
		out = append(out, sh)
	}
	out[0].section = "Unions"
	return out
}

func familyNotes(f catalog.Family) []string {
	flush := map[string]string{"yes": "level with the bore", "no": "not level with the bore", "if the bores match": "level with the bore if the bores match"}[f.Flush]
	clean := map[string]string{"strip": "take it apart to clean it", "in place": "it comes clean in place", "in place if the bores match": "it comes clean in place if the bores match"}[f.Clean]
	first := catalog.Complete(f) + "."
	if f.Unsealed {
		first += " No seal; " + clean + "."
	} else {
		first += " Its seal is " + flush + "; " + clean + "."
	}
	notes := []string{first}
	if len(f.Halves) == 2 {
		a, b := catalog.HalfNoun(f.Halves[0]), catalog.HalfNoun(f.Halves[1])
		notes[0] += " A " + a + " closes on a " + b + ", never on another " + a + "."
	} else {
		notes[0] += " Its two halves are alike."
	}
	if f.Highest > 0 {
		limit := "To " + q.Text(f.Highest)
		if f.Lowest > 0 {
			limit = "From " + q.Text(f.Lowest) + " to " + q.Text(f.Highest)
		}
		notes = append(notes, marked(limit, f.LimitTrust)+". "+f.LimitSource+".")
	}
	return append(notes, "To close it: "+lowerFirst(f.Tighten), "Source of this ("+string(f.Trust)+"). "+f.Source+".")
}

// lowerFirst writes a sentence that goes on from a colon.
func lowerFirst(s string) string { return strings.ToLower(s[:1]) + s[1:] }

// calipers says where each length of a union is measured.
func calipers(f catalog.Family, j catalog.Joint) []string {
	var out []string
	for i, d := range j.Lengths {
		if d.Length > 0 {
			out = append(out, "A "+catalog.HalfNoun(f.Halves[i])+". "+d.Caliper)
		}
	}
	return append(out, "What is left open when it is closed. "+j.Gap.Caliper)
}

func jointRow(f catalog.Family, j catalog.Joint, sealed, nut, pressed bool) sheetRow {
	var made []string
	for _, slug := range j.Tubes {
		made = append(made, TubeName(slug))
	}
	face := j.Face
	if j.Thread != "" && !strings.Contains(face, j.Thread) {
		face += ", thread " + j.Thread
	}
	r := sheetRow{id: j.Slug, cells: []string{j.Size, marked(face, j.Trust), strings.Join(made, ", ")}, cites: []cite{{"size", j.Source}}}
	if sealed {
		r.cells = append(r.cells, j.SealSize)
	}
	if nut {
		r.cells = append(r.cells, millimetres(j.Nut)+" mm")
	}
	if pressed {
		r.cells = append(r.cells, marked(strconv.FormatFloat(float64(j.Pressure/q.Bar), 'f', -1, 64)+" bar", j.PressureTrust))
		r.cites = append(r.cites, cite{"pressure", j.PressureFrom})
	}
	var lengths []string
	for i, d := range j.Lengths {
		if d.Length > 0 {
			lengths = append(lengths, catalog.HalfNoun(f.Halves[i])+" "+marked(bareText(d), d.Trust))
		}
	}
	if len(lengths) > 0 {
		r.cites = append(r.cites, cite{"length", j.Lengths[0].Source})
	}
	r.cells = append(r.cells, strings.Join(lengths, ", "), marked(bareText(j.Gap), j.Gap.Trust))
	return r
}

// bareText is a dimension without its unit, for a column that names it.
func bareText(d catalog.Dimension) string { return strings.TrimSuffix(d.Text(), " mm") }

func bendSheet() sheet {
	sh := sheet{
		id: "bends", title: "Bends and tees, to weld", section: "Weld fittings",
		notes:   []string{"Lengths from where the axes cross to the weld end, mm. Tube that is not listed here has bends and tees all the same; their lengths are assumed as below."},
		columns: []string{"Tube", "Shape", "90°", "45°", "Radius", "Tee, run", "Tee, branch"},
	}
	for _, t := range catalog.Tubes() {
		shapes := catalog.BendShapes(t)
		if len(shapes) == 0 {
			shapes = []string{""}
		}
		for _, shape := range shapes {
			square, _ := catalog.BendOf(t, shape, 90*q.Degree)
			half, _ := catalog.BendOf(t, shape, 45*q.Degree)
			tee, _ := catalog.TeeOf(t, shape)
			if square.CentreToEnd.Trust == catalog.Unknown {
				continue // assumed: the rule is in the next sheet
			}
			length := func(d catalog.Dimension) string { return marked(bareText(d), d.Trust) }
			sh.rows = append(sh.rows, sheetRow{square.Slug, []string{
				t.Name, shape, length(square.CentreToEnd), length(half.CentreToEnd), millimetres(square.Radius), length(tee.CentreToEnd), length(tee.BranchToEnd),
			}, []cite{{"90°", square.CentreToEnd.Source}, {"45°", half.CentreToEnd.Source}}})
		}
	}
	return sh
}

// assumedSheet lists what no standard seen gives a length for, by the rule
// that is used until it is measured.
func assumedSheet() sheet {
	sh := sheet{
		id: "assumed", title: "Lengths that nobody publishes",
		notes:   []string{"Assumed until they are measured, for 2 in tube to BS 4825-1 as an example; every tube has its own by the same rule. A search such as “dn50 sight glass” shows them."},
		columns: []string{"Part", "Length of a 2 in one, mm", "Where to put the caliper"},
	}
	two, _ := catalog.FindTube("bs-4825/2in")
	inch, _ := catalog.FindTube("bs-4825/1.5in")
	bare, _ := catalog.FindTube("iso-2037/51")
	add := func(name string, d catalog.Dimension) {
		sh.rows = append(sh.rows, sheetRow{"", []string{name, marked(bareText(d), d.Trust), d.Caliper}, []cite{{"", d.Source}}})
	}
	for _, kind := range catalog.Bodies() {
		b, _ := catalog.BodyOf(kind.Slug, two)
		add(kind.Name, b.Length)
	}
	r := catalog.ReducerOf(two, inch, "concentric")
	add("reducer to 1½ in", r.Length)
	for _, kind := range []string{catalog.Cross, catalog.Pocket, catalog.Cock, catalog.Seat} {
		f, _ := catalog.TeeLike(kind, two)
		name := strings.ReplaceAll(kind, "-", " ")
		add(name+", run", f.CentreToEnd)
		add(name+", branch", f.BranchToEnd)
	}
	b, _ := catalog.BendOf(bare, "", 90*q.Degree)
	add("90° bend of 51 mm tube, which no source here gives", b.CentreToEnd)
	t, _ := catalog.TeeOf(bare, "")
	add("tee of 51 mm tube, which no source here gives", t.CentreToEnd)
	return sh
}

func sealSheets() []sheet {
	heat := sheet{
		id: "seals", title: "Seal materials and heat", section: "Seals",
		columns: []string{"Material", "Coldest", "Hottest, dry", "In hot water to", "Mark"},
	}
	media := sheet{
		id: "media", title: "Seal materials and what they meet",
		notes:   []string{"The strength and temperature that a rating was given for is in its source. They are typical and no limits; have the maker of the seals confirm the grade."},
		columns: []string{"Material", "Medium", "Rating"},
	}
	for _, m := range catalog.Materials() {
		heat.rows = append(heat.rows, sheetRow{m.Slug, []string{m.Name, q.Text(m.Lowest), q.Text(m.Highest), q.Text(m.HotWater), string(m.Trust)}, []cite{{"", m.Source}}})
		for _, medium := range catalog.Media() {
			if rating, trust, source, ok := catalog.Stands(m.Slug, medium); ok {
				media.rows = append(media.rows, sheetRow{"", []string{m.Name, strings.ReplaceAll(medium, "-", " "), marked(string(rating), trust)}, []cite{{"", source}}})
			}
		}
	}
	return []sheet{heat, media}
}
