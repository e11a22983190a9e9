package workshop_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	parser "golang.org/x/net/html"
	"pgregory.net/rapid"

	"drawoff/catalog"
	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/workfile"
	"drawoff/www/paper"
	"drawoff/www/view"
)

// alien finds a unit that does not belong to what is shown: behind a number, or
// behind a comma as in "heat, kWh".
func alien(units, more string) *regexp.Regexp {
	return regexp.MustCompile(`(?:\d (?:` + units + more + `)|(?:, |for each |per )(?:` + units + `))(?:$|[^\pL\d'’°²³·/^ⁿ])`)
}

var aliens = map[string]*regexp.Regexp{
	"in": alien(`mm|cm|m|km|µm|mL|L|hL|litres?|metres?|millimetres?|m³|m³/h|L/min|L/h|L/s|m/s|m/s²|mm²/s|m²/s|m²|Pa|kPa|MPa|bar|mbar|°C|K|kg|g|t|N|kN|N·m|W|kW|kWh|J|kJ|kg/m|kg/m³|kg/mol|J/\(mol K\)|J/\(kg K\)|kJ/\(kg K\)|kJ/kg`, ""),
	"mm": alien(`µin|inch|inches|ft|US gal|US fl oz|imp gal|US gal/min|imp gal/min|ft³/h|ft/s|psi|°F|lb|lb/US gal|lb/ft³|lbf|ft·lbf|hp`, "|in"),
}

// stays is what may stand in the other units, and why.
var stays = []struct{ what, why string }{
	{`\d+(\.\d+)? x \d+(\.\d+)?( x \d+(\.\d+)?)? mm`, "a tube and a seal are called by what is stamped on them"},
	{`(flanges?|flange is|flanges are|, the other) \d+(\.\d+)? mm`, "so is a clamp"},
	{`kWh`, "heat is bought so"},
	{`element, kW|^[\d.]+ k?W$`, "and a heating element rated so"},
	{`^(gravity, m/s²|(heat capacity|gas constant|molar mass|heat of condensation)[^,]*, k?[Jg]/.*|kinematic viscosity, m{1,2}²/s|plate of the bottom, m²|flow for each metre, m²/s|(flow of the best point in water|wanted flow), m³/h)$`, "goes into a formula with constants that are published in these units"},
	{`density of water at 20 °C`, "the state that a value is published for"},
	{`20/20 °C`, "so a hydrometer's scale is called"},
	{`check line of 100 mm \(3 15/16 in\)|DXF is in millimetres`, "says both; a file has units of its own"},
	{`^(mm, L|in, gal)$`, "the units, where one chooses them"},
	{`[\d/ ]+ (in|mm|m|ft)(, [\d/ ]+ (in|ft))+`, "what may be typed in either, for somebody who starts"},
	{`\d in (its|the|their|\d+ (piece|place|length)s?)\b`, "is a preposition"},
	{`Consistency of the liquid, K`, "is a symbol"},
	{` \([^()]*(BS|ISO|DIN|source|memory|trade|maker)[^()]*\)$`, "a source, behind what it is of"},
}

// Whatever is shown in inches tells no metric unit, in no sentence, label, hint
// or drawing, and whatever is shown in metric none of the other; but for what
// stays. A source is quoted as it is. A tube's name is passed over by its size
// alone: an amount that is never converted shows with other numbers. Beside no
// other test: what is shown is one for the program.
func TestNoUnitIsAlien(t *testing.T) {
	defer q.Show(q.Metric)
	var except []string
	for _, s := range stays {
		except = append(except, s.what)
	}
	for _, tube := range catalog.Tubes() {
		size, _, _ := strings.Cut(tube.Name, " (")
		if n := regexp.QuoteMeta(size); !slices.Contains(except, n) {
			except = append(except, n)
		}
	}
	slices.SortStableFunc(except[len(stays):], func(a, b string) int { return len(b) - len(a) })
	passed := regexp.MustCompile(strings.Join(except, "|"))
	typed := regexp.MustCompile(`[^=]+ = `) // what was typed, on paper, with what it comes to

	found := map[string]bool{}
	for units, pattern := range aliens {
		heard := 0
		hear := func(where, text string) {
			heard++
			text = strings.Join(strings.Fields(text), " ")
			rest := passed.ReplaceAllString(text, "…")
			if where == "sheets" {
				rest = typed.ReplaceAllString(rest, "")
			}
			if at := pattern.FindStringIndex(rest); at != nil {
				found["in "+units+" is told "+where+": "+rest[max(0, at[0]-60):min(len(rest), at[1]+20)]] = true
			}
		}
		tell := func(d design.Design, whole bool) {
			d.Title, d.Note = "", "" // the user's own words
			q.Show(q.SystemOf(units))
			q.Speak(d.Typed)
			r := pipeline.Check(d)
			if len(r.Faults) > 0 {
				return
			}
			b := view.Bench{Design: d, Report: r, Width: 700}
			for _, region := range view.Regions {
				words(region.Write(b), func(s string) { hear(region.ID, s) })
			}
			for _, g := range view.FormGists(b) {
				words(g.Content, func(s string) { hear(g.ID, s) })
			}
			if !whole { // what is sawn of a plant drawn at random can take long
				return
			}
			b.Shop = &view.Shop{Work: r.Work(design.Shelf{})}
			b.Sweep = view.Sweep{Move: "pump.height", Watch: "flow-full"}
			for _, part := range view.Parts() {
				if part.Write != nil {
					gist, content := part.Write(b)
					words(gist+content, func(s string) { hear(part.ID, s) })
				}
			}
			for _, g := range view.Ways(b) {
				words(g.Content, func(s string) { hear(g.ID, s) })
			}
			words(paper.Sheets(b, ""), func(s string) { hear("sheets", s) })
			offers, missing := workfile.Offers(r)
			for _, o := range offers {
				for _, s := range append(o.Notes, o.Title) {
					hear("files", s)
				}
			}
			for _, s := range missing {
				hear("files", s)
			}
			terminal := strings.Join(strings.Fields(view.Text(d, r, design.Shelf{})), " ") // lines are broken anywhere
			for _, v := range r.Verdicts {
				terminal = strings.ReplaceAll(terminal, v.Basis, "")
			}
			for _, s := range strings.SplitAfter(terminal, ". ") {
				hear("terminal", s)
			}
		}
		for _, e := range append(design.Examples(), design.Example{Design: design.Demo()}) {
			tell(e.Design, true)
		}
		for i := range 12 { // the same at every run
			tell(rapid.Custom(designtest.Design).Example(i), false)
		}
		dd := design.Demo()
		q.Show(q.SystemOf(units))
		q.Speak(dd.Typed)
		r := pipeline.Check(dd)
		b := view.Bench{Design: dd, Report: r, Width: 700, Shop: &view.Shop{Work: r.Work(design.Shelf{})}}
		words(view.Page(b, b, view.Assets{}), func(s string) { hear("page", s) })
		assert.Greater(t, heard, 5000)
	}
	for s := range found {
		assert.Fail(t, s)
	}
}

// words tells hear every text of content and every attribute that is read out,
// but for sources and formulas.
func words(content string, hear func(string)) {
	z := parser.NewTokenizer(strings.NewReader(content))
	skip, depth := 0, 0
	void := []string{"input", "br", "img", "hr", "col", "meta", "link"}
	for {
		switch z.Next() {
		case parser.ErrorToken:
			return
		case parser.TextToken:
			if skip == 0 {
				hear(parser.UnescapeString(string(z.Text())))
			}
		case parser.StartTagToken:
			tag := z.Token()
			for _, a := range tag.Attr {
				switch a.Key {
				case "class":
					if skip == 0 && (a.Val == "basis" || a.Val == "formula") {
						skip = depth + 1
					}
				case "title", "aria-label", "placeholder", "data-says", "data-value":
					hear(a.Val)
				}
			}
			if !slices.Contains(void, tag.Data) {
				depth++
			}
		case parser.SelfClosingTagToken:
			for _, a := range z.Token().Attr {
				if a.Key == "aria-label" || a.Key == "placeholder" {
					hear(a.Val)
				}
			}
		case parser.EndTagToken:
			if depth == skip {
				skip = 0
			}
			depth--
		}
	}
}
