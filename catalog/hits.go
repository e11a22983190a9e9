package catalog

import (
	"strconv"
	"strings"

	q "drawoff/pipeline/quantity"
)

// Hit is something that was searched for and found.
type Hit struct {
	Part
	Row    string // slug of the tube, joint, series, family or material in whose row it stands
	Facts  string // its dimensions in words, each doubt with its ±
	Trust  Trust
	Source string
}

// Text writes a length with its doubt: "25 ± 10 mm".
func (d Dimension) Text() string {
	if d.Either > 0 {
		return mm(d.Length) + " ± " + mm(d.Either) + " mm"
	}
	return mm(d.Length) + " mm"
}

func seriesHit(s Series) Hit {
	facts := s.Note
	if s.NotForProduct != "" {
		facts = "Not for product: " + s.NotForProduct + ". " + s.Note
	}
	return Hit{Part: Part{Slug: s.Slug, Name: "tube to " + s.Name}, Row: s.Slug, Facts: facts, Source: s.Standard}
}

func tubeHit(t Tube) Hit {
	h := Hit{Part: TubePart(t), Row: t.Slug, Trust: t.Trust, Source: t.Source}
	h.Facts = "OD " + mm(t.OD) + ", wall " + mm(t.Wall) + ", bore " + mm(t.Bore()) + " mm; " +
		strconv.FormatFloat(float64(t.MassPerMetre()), 'f', 2, 64) + " kg/m"
	if s, _ := FindSeries(t.Series); s.NotForProduct != "" {
		h.Facts += ". Not for product: " + s.NotForProduct
	}
	return h
}

// dimensionHit is a part whose length is d.
func dimensionHit(p Part, row string, d Dimension) Hit {
	name := d.Slug[strings.LastIndexByte(d.Slug, '/')+1:]
	return Hit{Part: p, Row: row, Facts: strings.ReplaceAll(name, "-", " ") + " " + d.Text(), Trust: d.Trust, Source: d.Source}
}

func familyHit(f *familyRow) Hit {
	facts := Complete(f.Family)
	if f.NotForProduct != "" {
		facts = "Not for product: " + f.NotForProduct + ". " + facts
	}
	return Hit{Part: Part{Slug: f.Slug, Name: f.Name + ", " + f.Standard}, Row: f.Slug, Facts: facts, Trust: f.Trust, Source: f.Source}
}

// HalfNoun returns what a half, named as in Family.Halves, is called in a sentence.
func HalfNoun(half string) string {
	switch half {
	case "male", "female":
		return half + " part"
	case "groove", "collar", "threaded":
		return half + " half"
	case "hose":
		return "cut hose"
	}
	return half
}

// Complete lists in words what makes one joint of f: "One joint: 1 male part,
// 1 liner, 1 nut, 1 seal".
func Complete(f Family) string {
	var parts []string
	for _, half := range f.Halves {
		n, noun := "1 ", HalfNoun(half)
		if len(f.Halves) == 1 {
			n, noun = "2 ", noun+"s"
		}
		parts = append(parts, n+noun)
	}
	for _, closer := range f.Closers {
		if closer == "bolts" {
			parts = append(parts, "1 set of bolts and nuts, one for each hole")
			continue
		}
		parts = append(parts, "1 "+strings.ReplaceAll(closer, "-", " "))
	}
	if !f.Unsealed {
		parts = append(parts, "1 seal")
	}
	return "One joint: " + strings.Join(parts, ", ")
}

func jointHit(j Joint) Hit {
	facts := []string{closesOn(j)}
	if j.Pressure > 0 {
		facts = append(facts, "to "+strconv.FormatFloat(float64(j.Pressure/q.Bar), 'f', -1, 64)+" bar")
	}
	for i, d := range j.Lengths {
		if f, _ := load().family(j.Family); d.Length > 0 {
			facts = append(facts, HalfNoun(f.Halves[i])+" "+d.Text())
		}
	}
	return Hit{Part: Part{Slug: j.Slug, Name: j.Name}, Row: j.Slug, Facts: listed(facts...), Trust: j.Trust, Source: j.Source}
}

func closerHit(j Joint, at int) Hit {
	p := CloserParts(j)[at]
	nut := ""
	if strings.HasSuffix(p.Slug, "/nut") && j.Nut > 0 {
		nut = "OD " + mm(j.Nut) + " mm"
	}
	return Hit{Part: p, Row: j.Slug, Facts: listed(closesOn(j), nut), Trust: j.Trust, Source: j.Source}
}

// closesOn returns the thread or the flange of j, "" where its name says all
// that is known.
func closesOn(j Joint) string {
	if j.Thread != "" {
		return "thread " + j.Thread
	}
	if strings.HasPrefix(j.Face, "flange ") {
		return j.Face + " mm"
	}
	return ""
}

// listed joins facts, leaving out what is empty.
func listed(facts ...string) string {
	out := ""
	for _, f := range facts {
		if f != "" && out != "" {
			out += "; "
		}
		out += f
	}
	return out
}

// sealHit is a seal of any material: the part is named for the joint alone.
func sealHit(j Joint) Hit {
	f, _ := load().family(j.Family)
	return Hit{Part: Part{Slug: j.Slug + "/seal", Name: f.sealName + ", " + j.Size}, Row: j.Slug, Facts: j.SealSize, Trust: j.Trust, Source: j.Source}
}

func materialHit(m Material) Hit {
	return Hit{
		Part: Part{Slug: m.Slug, Name: "seals of " + m.Name}, Row: m.Slug, Trust: m.Trust, Source: m.Source,
		Facts: q.Text(m.Lowest) + " to " + q.Text(m.Highest) + ", in hot water to " + q.Text(m.HotWater),
	}
}
