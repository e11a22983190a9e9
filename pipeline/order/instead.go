package order

import (
	"math"
	"strconv"
	"strings"

	"drawoff/catalog"
	q "drawoff/pipeline/quantity"
)

// instead says why the part called slug is no stock size, and what else would
// do in its place. What changes a length says so: the design has to be checked
// again with it.
func instead(slug string) (odd string, other []string) {
	words := strings.Split(slug, "/")
	if len(words) < 2 {
		return "", nil
	}
	if strings.HasSuffix(words[0], "-tube") {
		return frameInstead(words[1])
	}
	t, ok := catalog.FindTube(words[0] + "/" + words[1])
	if !ok {
		return halfInstead(words)
	}
	if len(words) == 2 {
		for _, twin := range twins(t) {
			other = append(other, "Tube, "+twin.Name+", "+millimetres(twin.OD)+" x "+millimetres(twin.Wall)+" mm: welded to it, the ends are "+step(t, twin)+" out of line.")
		}
		return "", other
	}
	switch words[2] {
	case "bend":
		return bendInstead(t, words[3:])
	case "tee":
		return "", shapes(t, words[3:], "tee")
	case "reducer":
		return reducerInstead(t, words[3:])
	case catalog.Cross:
		return "Crosses are seldom in stock.", []string{"Two tees in a row: the line grows by the length of one."}
	}
	if _, body := catalog.BodyOf(words[2], t); body && len(words) > 3 {
		return "", []string{"The same with plain ends, and half of a union welded on at each: its length changes."}
	}
	return "", nil
}

// worst is the most that two tube ends may be out of line, as a part of the
// thinner wall: ASME BPE-2012, table MJ-8.4-1.
const worst = 0.15

// offset is how far the ends of two tubes are out of line when their axes are one.
func offset(a, b catalog.Tube) q.Length {
	return q.Length(max(math.Abs(float64(a.OD-b.OD)), math.Abs(float64(a.Bore()-b.Bore()))) / 2)
}

func step(a, b catalog.Tube) string { return q.Caliper(offset(a, b)) }

// twins are the tubes of other series that may be welded to t.
func twins(t catalog.Tube) (out []catalog.Tube) {
	for _, other := range catalog.Tubes() {
		series, _ := catalog.FindSeries(other.Series)
		if other.Slug != t.Slug && series.NotForProduct == "" && offset(t, other) <= worst*min(t.Wall, other.Wall) {
			out = append(out, other)
		}
	}
	return out
}

// bendInstead is about a bend of t, by the words after "bend": its angle and,
// where there is one, its shape. That 90° and 45° are what is stocked is trade
// custom.
func bendInstead(t catalog.Tube, words []string) (odd string, other []string) {
	if len(words) == 0 {
		return "", nil
	}
	degrees, _ := strconv.ParseFloat(words[0], 64)
	if degrees != 90 && degrees != 45 {
		odd = "Bends are stocked at 90° and 45°."
		if degrees < 90 {
			other = append(other, "A 90° bend sawn down to "+words[0]+"°: it ends in its arc, where an orbital weld head has nothing to grip.")
		}
	}
	other = append(other, shapes(t, words[1:], words[0]+"° bend")...)
	for _, twin := range twins(t) {
		if b, ok := catalog.BendOf(twin, "", q.Angle(degrees)*q.Degree); ok && b.CentreToEnd.Trust == catalog.Standard {
			other = append(other, "A "+b.Name+", which is "+q.Caliper(b.CentreToEnd.Length)+" from centre to end: the ends are "+step(t, twin)+" out of line.")
		}
	}
	return odd, other
}

// shapes are the other shapes of a bend or tee whose own is in words.
func shapes(t catalog.Tube, words []string, what string) (other []string) {
	for _, shape := range catalog.BendShapes(t) {
		if len(words) > 0 && shape != words[0] {
			other = append(other, "A "+shape+" "+what+": its length changes.")
		}
	}
	return other
}

// reducerInstead is about a reducer from the tube t, by the words after
// "reducer": its smaller tube and its shape.
func reducerInstead(t catalog.Tube, words []string) (odd string, other []string) {
	n := len(words) - 1
	if n < 1 {
		return "", nil
	}
	slug := strings.Join(words[:n], "/")
	if n == 1 {
		slug = t.Series + "/" + slug
	} else {
		odd = "A reducer between two series is made to order."
	}
	if words[n] == "concentric" {
		other = append(other, "An eccentric one, flat side down where the line lies level: its ends are no longer on one axis.")
	} else {
		other = append(other, "A concentric one, where the line stands upright: lying level it holds a puddle.")
	}
	small, ok := catalog.FindTube(slug)
	if !ok {
		return odd, other
	}
	for _, between := range catalog.Tubes() {
		if between.Series == t.Series && between.OD < t.OD && between.OD > small.OD && offset(between, small) > worst*small.Wall {
			other = append(other, "Two in a row, by way of "+between.Name+": longer by one of them.")
		}
	}
	return odd, other
}

// halfInstead is about half of a union, "clamp/2in/ferrule/50.8x1.65".
func halfInstead(words []string) (odd string, other []string) {
	if len(words) != 4 {
		return "", nil
	}
	od, wall, ok := strings.Cut(words[3], "x")
	a, err1 := strconv.ParseFloat(od, 64)
	b, err2 := strconv.ParseFloat(wall, 64)
	if !ok || err1 != nil || err2 != nil {
		return "", nil
	}
	odd = "Made for tube of " + od + " x " + wall + " mm, which is not what this union is usually sold for."
	mine := catalog.Tube{OD: q.Mm(a), Wall: q.Mm(b)}
	for _, j := range catalog.Joints() {
		if j.Slug != words[0]+"/"+words[1] || len(j.Tubes) == 0 {
			continue
		}
		for i, slug := range j.Tubes {
			t, _ := catalog.FindTube(slug)
			switch out := offset(mine, t); {
			case out < q.Millimetre/100: // it is sold for this tube, too
				odd = ""
			case out <= worst*min(mine.Wall, t.Wall):
				other = append(other, "One for "+t.Name+": the ends are "+step(mine, t)+" out of line.")
			case i == 0:
				other = append(other, "One for "+t.Name+", only with an end turned or expanded to match: they are "+step(mine, t)+" out of line.")
			}
		}
	}
	return odd, other
}

// frameSizes are the round tubes commonly stocked for legs and frames, OD and
// wall in mm: trade custom, from memory.
var frameSizes = [...][2]float64{{33.7, 2}, {38.1, 1.5}, {42.4, 2}, {48.3, 2}, {50.8, 1.5}, {50.8, 1.6}, {60.3, 2}, {76.1, 2}, {88.9, 2}}

// frameInstead is about a tube of the frame, by its size "48.3x2".
func frameInstead(size string) (odd string, other []string) {
	od, wall, _ := strings.Cut(size, "x")
	a, err1 := strconv.ParseFloat(od, 64)
	b, err2 := strconv.ParseFloat(wall, 64)
	if err1 != nil || err2 != nil {
		return "", nil
	}
	for _, s := range frameSizes {
		if s == [2]float64{a, b} {
			return "", nil
		}
		if s[0] >= a && s[1] >= b && len(other) < 2 {
			other = append(other, FrameTube("tube/"+millimetres(q.Mm(s[0]))+"x"+millimetres(q.Mm(s[1])))+": no weaker; type it as the size to see how it stands.")
		}
	}
	return "Not among the sizes that are commonly stocked for legs and frames.", other
}
