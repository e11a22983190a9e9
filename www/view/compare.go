package view

import (
	"strconv"
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline/compare"
	"drawoff/pipeline/draw"
	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// Compare shows what tells the plant that is kept, A, from that on the bench,
// B, as one sheet: what differs first, then all that is the same. The workshop
// writes it.
func Compare(bench Bench) (gist, content string) {
	var h html
	if bench.Against == nil {
		h.El("p", "Keep this plant as A, then change it: here A and what you make of it, B, will stand side by side, with all that differs.", "class", "hint")
		h.Raw(`<p class="forms"><button type="button" id="keep-a">Keep this as A</button></p>`)
		return "keep this plant as A, and hold what you change against it", h.String()
	}
	a, b := *bench.Against, compare.Plant{Design: bench.Design, Report: bench.Report}
	s := compare.Of(a, b)
	c := comparison{a: Bench{Design: a.Design, Report: a.Report}, b: bench, sheet: s}
	c.Raw(`<div class="forms"><button type="button" id="print-compare">Print this sheet</button><button type="button" id="a-back">Put A on the bench</button>` +
		`<button type="button" id="keep-a">Keep B as the new A</button><button type="button" id="drop-a">Let A go</button></div>`)
	c.El("h4", "Two plants compared", "class", "on-paper")
	c.Open("div", "class", "pair")
	const widest = 300 // pixels
	drawn := draw.Pair(a.Report, b.Report, min(widest, bench.Width/2-12))
	c.plant("A", a, drawn[0])
	c.plant("B, on the bench", b, drawn[1])
	c.Close("div")
	if len(s.Said) == 0 {
		c.El("p", "Nothing was said otherwise yet: B is A. Change something.", "class", "calm")
	}
	c.said()
	c.verdicts()
	c.figures()
	c.counts("To buy, where it differs", "Part", s.Parts, func(n compare.Count) string { return n.Name })
	c.cuts()
	c.counts("To weld, where it differs", "Weld", s.Welds, func(n compare.Count) string { return n.Name + ", " + n.Unit })
	return "B says " + count(len(s.Said), "thing", "things") + " otherwise than A", c.String()
}

type comparison struct {
	html
	a, b  Bench
	sheet compare.Sheet
}

func (c *comparison) plant(name string, p compare.Plant, drawn string) {
	c.Open("div")
	c.El("h5", name)
	c.El("p", p.Design.Title)
	c.Open("p", "class", "tally")
	c.tally(Bench{Report: p.Report})
	c.Close("p")
	c.Raw(drawn)
	c.Close("div")
}

// side heads a table of three or four columns.
func side(what string, last ...string) []string { return append([]string{what, "A", "B"}, last...) }

func (c *comparison) said() {
	c.Open("div", "class", "words")
	defer c.Close("div")
	c.table("Said otherwise", side("What"), len(c.sheet.Said), func(i int) {
		d := c.sheet.Said[i]
		path, bench := d.B, c.b
		if path == "" {
			path, bench = d.A, c.a
		}
		c.El("th", saidName(bench, path), "scope", "row")
		c.Open("td")
		c.value(c.a, d.A, d.Was)
		c.Close("td")
		c.Open("td")
		c.value(c.b, d.B, d.Is)
		c.Close("td")
	})
}

// value tells what one of the plants says at path.
func (c *comparison) value(b Bench, path, words string) {
	switch {
	case path == "":
		c.Text("not there")
	case place(b.Report, path) != "":
		c.Text("there") // a piece, and its name tells what it is
	case words != "":
		c.Text(named(b.Design, path, words))
	default:
		filled := b.Design.Filled()
		if usual, _ := filled.Get(path); usual != "" {
			c.Text(named(b.Design, path, usual) + " ")
			c.El("span", "as is usual", "class", "hint")
			return
		}
		c.El("span", "left empty", "class", "hint")
	}
}

// saidName names what is at path, those things too that the form has no field for.
func saidName(b Bench, path string) string {
	list, rest, _ := strings.Cut(path, ".")
	at, _, _ := strings.Cut(rest, ".")
	if i, err := strconv.Atoi(at); err == nil {
		switch list {
		case "measured":
			return "Measured: " + catalog.DimensionName(b.Design.Measured[i].Part)
		case "made":
			return "Part of your own: " + b.Design.Made[i].Name
		case "keepOuts":
			return "To go round, " + strconv.Itoa(i+1)
		case "cleaning":
			return "Cleaned with, " + strconv.Itoa(i+1)
		}
	}
	for _, points := range [...]string{"pump.curve.", "pump.slip."} {
		if rest, ok := strings.CutPrefix(path, points); ok {
			at, _, _ := strings.Cut(rest, ".")
			if i, err := strconv.Atoi(at); err == nil {
				return "Pump, point " + strconv.Itoa(i+1)
			}
		}
	}
	return Called(b, path)
}

func (c *comparison) verdicts() {
	s := c.sheet
	if len(s.Gained)+len(s.Lost)+len(s.Moved) == 0 {
		c.El("p", "The same things stop both, or are to be looked at.")
		return
	}
	list := func(title string, verdicts []compare.Verdict) {
		if len(verdicts) == 0 {
			return
		}
		c.El("p", title, "class", "caption")
		c.Open("ul", "class", "verdicts")
		for _, v := range verdicts {
			c.verdict(v)
		}
		c.Close("ul")
	}
	list("Only with B", s.Gained)
	list("Only with A: B is rid of it", s.Lost)
	list("With both, but not the same", s.Moved)
}

func (c *comparison) verdict(v compare.Verdict) {
	grave := v.B
	if grave == nil {
		grave = v.A
	}
	c.Open("li", "class", "verdict "+grave.Level.String())
	c.badge(grave.Level)
	c.Open("div")
	one := func(name string, b Bench, v *finding.Verdict) {
		if v == nil {
			return
		}
		c.Open("p")
		c.El("strong", name+": ")
		if where := place(b.Report, v.Piece); where != "" {
			c.Text(where + ". ")
		}
		c.Text(v.Sentence)
		c.Close("p")
	}
	one("A", c.a, v.A)
	one("B", c.b, v.B)
	if v.A != nil && v.B != nil && v.A.Level != v.B.Level {
		c.El("p", word(v.A.Level)+" with A, "+strings.ToLower(word(v.B.Level))+" with B.")
	}
	c.Close("div")
	c.Close("li")
}

// figures shows every figure of both, those that are the same folded away.
func (c *comparison) figures() {
	all := c.sheet.Figures
	differ := 0
	for differ < len(all) && all[differ].Differs {
		differ++
	}
	c.figureTable("Figures that differ", all[:differ])
	if differ == len(all) {
		return
	}
	c.Open("details", "data-keep", "same figures")
	c.El("summary", count(len(all)-differ, "figure is the same", "figures are the same"))
	c.figureTable("Figures that are the same", all[differ:])
	c.Close("details")
}

func (c *comparison) figureTable(caption string, figures []compare.Figure) {
	c.scroll(caption)
	c.table(caption, side("Figure", "B less A"), len(figures), func(i int) {
		f := figures[i]
		c.El("th", f.Name, "scope", "row")
		for _, one := range [...]*finding.Figure{f.A, f.B} {
			if one == nil {
				c.El("td", "none", "class", "n")
			} else {
				c.El("td", whole(amount(*one)), "class", "n")
			}
		}
		c.El("td", whole(moreBy(f.By)), "class", "n")
	})
	c.Close("div")
}

// whole keeps the unit beside its number where a column is narrow.
func whole(s string) string {
	return strings.ReplaceAll(strings.ReplaceAll(s, " ", "\u00a0"), "\u00a0±", " ±")
}

// moreBy writes a difference with its sign.
func moreBy(a *q.Amount) string {
	if a == nil {
		return ""
	}
	if a.SI > 0 {
		return "+" + a.String()
	}
	return "−" + q.Amount{Kind: a.Kind, SI: -a.SI}.String()
}

func (c *comparison) counts(caption, what string, counts []compare.Count, name func(compare.Count) string) {
	c.table(caption, side(what, "B less A"), len(counts), func(i int) {
		n := counts[i]
		number := trimmed
		if n.Unit == "m" {
			run, unit := q.Metre, " m"
			if q.InInches() {
				run, unit = 12*q.Inch, " ft"
			}
			number = func(x float64) string { return trimmed(x/float64(run)) + unit }
		}
		c.El("th", name(n), "scope", "row")
		c.El("td", number(n.A), "class", "n")
		c.El("td", number(n.B), "class", "n")
		sign := "+"
		by := n.B - n.A
		if by < 0 {
			sign, by = "−", -by
		}
		c.El("td", sign+number(by), "class", "n")
	})
}

// trimmed writes x to the millimetre of a metre, without zeros at its end.
func trimmed(x float64) string {
	s := strconv.FormatFloat(x, 'f', 3, 64)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

func (c *comparison) cuts() {
	c.table("To cut, where it differs", side("Tube"), len(c.sheet.Cuts), func(i int) {
		cut := c.sheet.Cuts[i]
		c.El("th", cut.Name, "scope", "row")
		for _, l := range [...]*q.Length{cut.A, cut.B} {
			if l == nil {
				c.El("td", "not cut", "class", "n")
			} else {
				c.El("td", q.Tape(*l), "class", "n")
			}
		}
	})
}
