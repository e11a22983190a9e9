package catalog

import (
	"math"
	"strconv"
	"strings"

	q "drawoff/pipeline/quantity"
)

// bendRow is a shape of bend that a standard publishes for a tube.
type bendRow struct {
	shape      string
	radius     q.Length // 0: not published
	at90, at45 q.Length // centre to end; at45 is 0 where not published
	trust      Trust
	source     string
	derived    string // source of what is calculated from at90 and radius
}

// teeRow is a shape of tee that a standard publishes for a tube.
type teeRow struct {
	shape  string
	length q.Length
	trust  Trust
	source string
}

// Our assumptions about bends and tees. Each is a round number with a width
// of doubt that is meant to hold what is on the market.
const (
	bendRadii   = 1.5                // centreline radius over OD
	bendDoubt   = 0.5                // doubt of that, over OD
	legDoubt    = 5 * q.Millimetre   // doubt of a straight leg that is taken as none
	angleDoubt  = 3.5 * q.Millimetre // of a length calculated from the 90° bend: ASME BPE's own 45° column is up to 3.3 mm from it
	radiusDoubt = 0.2                // part by which an assumed radius may be out where the length is known
	widestBend  = 170 * q.Degree     // above it the axes cross too far off for a length
)

const (
	bendCaliper  = "Stand one weld end on a flat plate and measure from the plate up to the middle of the other end, half way between its lowest and highest edge."
	angleCaliper = "Lay the bend flat, run a straight edge along the middle of each end, mark where the two cross, and measure from there to a weld end."
	teeCaliper   = "Measure from the weld end to the near side of the crossing tube and add half that tube's OD."
	sourceBend   = assumed + ": R tan(angle/2), R = 1.5 x OD"
	sourceTee    = assumed + ": 1.5 x OD"
)

// BendOf returns the bend of tube t, shape "short" or "long" ("" for the usual
// one), by angle, over 0 and at most 170°. False when the angle is outside
// that, or when bends of t are not made in that shape; see BendShapes.
//
// At 90° the centre to end is the standard's where one is known. At another
// angle it is R tan(angle/2) and the straight leg of the 90° bend, marked
// Derived, or Unknown where R is our assumption. A slug holds the angle to a
// hundredth of a degree.
func BendOf(t Tube, shape string, angle q.Angle) (Bend, bool) {
	hundredths := math.Round(angle.Degrees() * 100)
	// Asked this way round, an angle that is no number is refused too.
	if inside := hundredths >= 1 && hundredths <= math.Round(widestBend.Degrees()*100); !inside || t.Slug == "" {
		return Bend{}, false
	}
	var b Bend
	if rows := load().bends[t.Slug]; len(rows) > 0 {
		r, ok := findBend(rows, shape)
		if !ok {
			return Bend{}, false
		}
		b, shape = r.turned(t, hundredths, angle), r.shape
	} else if shape == "" {
		b = assumedBend(t, angle)
	} else {
		return Bend{}, false
	}
	if hundredths == 9000 {
		b.CentreToEnd.Caliper = bendCaliper
	} else {
		b.CentreToEnd.Caliper = angleCaliper
	}
	degrees := strconv.FormatFloat(hundredths/100, 'f', -1, 64)
	b.Part = Part{
		Slug: t.Slug + "/bend/" + degrees + after("/", shape),
		Name: degrees + "° bend" + after(", ", shape) + ", " + t.Name,
	}
	b.CentreToEnd.Slug = b.Slug + "/centre-to-end"
	return b, true
}

// findBend returns the row of a shape, the first for "".
func findBend(rows []bendRow, shape string) (bendRow, bool) {
	for _, r := range rows {
		if r.shape == shape || shape == "" {
			return r, true
		}
	}
	return bendRow{}, false
}

// turned returns the bend of r at an angle: the published length, or one
// calculated from the 90° bend.
func (r bendRow) turned(t Tube, hundredths float64, angle q.Angle) Bend {
	// No radius published: the usual one, or all that the length allows.
	b := Bend{Radius: r.radius, CentreToEnd: Dimension{Trust: r.trust, Source: r.source}}
	if b.Radius == 0 {
		b.Radius = min(bendRadii*t.OD, r.at90)
	}
	d := &b.CentreToEnd
	switch {
	case hundredths == 9000:
		d.Length = r.at90
		return b
	case hundredths == 4500 && r.at45 > 0:
		d.Length = r.at45
		return b
	}
	tan := math.Tan(float64(angle) / 2)
	d.Length = b.Radius*q.Length(tan) + r.at90 - b.Radius
	d.Either, d.Trust, d.Source = angleDoubt, Derived, r.derived
	if r.radius == 0 {
		// Length = at90 + R (tan - 1), so the doubt of R goes in by (tan - 1).
		d.Either += b.Radius * q.Length(radiusDoubt*math.Abs(tan-1))
		d.Trust = Unknown
	}
	return b
}

// assumedBend is a bend that nobody publishes: the arc alone, no straight leg.
func assumedBend(t Tube, angle q.Angle) Bend {
	tan := q.Length(math.Tan(float64(angle) / 2))
	return Bend{Radius: bendRadii * t.OD, CentreToEnd: Dimension{
		Length: bendRadii * t.OD * tan, Either: bendDoubt*t.OD*tan + legDoubt,
		Trust: Unknown, Source: sourceBend,
	}}
}

// BendShapes returns the shapes that bends and tees of t are made in, the
// usual first; none where there is no shape to choose.
func BendShapes(t Tube) []string {
	var shapes []string
	for _, r := range load().bends[t.Slug] {
		if r.shape != "" {
			shapes = append(shapes, r.shape)
		}
	}
	return shapes
}

// TeeOf returns the tee of tube t, shape as for BendOf.
func TeeOf(t Tube, shape string) (TeeFitting, bool) {
	if t.Slug == "" {
		return TeeFitting{}, false
	}
	r := teeRow{length: bendRadii * t.OD, trust: Unknown, source: sourceTee}
	for i, row := range load().tees[t.Slug] {
		if i == 0 || row.shape == shape {
			r = row
		}
	}
	if shape != "" && r.shape != shape {
		return TeeFitting{}, false
	}
	p := Part{
		Slug: t.Slug + "/tee" + after("/", r.shape),
		Name: "tee" + after(", ", r.shape) + ", " + t.Name,
	}
	d := Dimension{Length: r.length, Trust: r.trust, Source: r.source, Caliper: teeCaliper}
	if r.trust == Unknown {
		d.Either = bendDoubt * t.OD
	}
	run, branch := d, d
	run.Slug, branch.Slug = p.Slug+"/run", p.Slug+"/branch"
	return TeeFitting{Part: p, CentreToEnd: run, BranchToEnd: branch}, true
}

// What stands on a run of tube with a branch of its own, like a tee.
const (
	Cross  = "cross"
	Pocket = "thermometer-pocket"
	Seat   = "seat-valve" // a body with its two ports at a right angle, as on a tee
	Cock   = "sample-cock"
)

// The short branch of a pocket or a cock, and the straight of tube or boss
// that it is welded to: our assumptions.
const (
	bossBranch = 30 * q.Millimetre // beyond the outside of the tube
	bossDoubt  = 20 * q.Millimetre
	bossRun    = 1.0 // run from the branch axis, over the OD

	sourceSeat   = assumed + ": 1.5 x OD from where the axes cross to either port"
	sourceCross  = assumed + ": as the usual tee of its tube"
	sourceBoss   = assumed + ": run 1 x OD each way"
	sourceBranch = assumed + ": branch 30 mm beyond the tube"
)

// TeeLike returns a cross, a thermometer pocket, a sample cock or a seat valve
// of tube t. A cross has a branch on either side; a seat valve lets the flow in
// at its one run and out at its branch. No standard seen gives a length of any:
// they are assumptions. False for another kind.
func TeeLike(kind string, t Tube) (TeeFitting, bool) {
	f, ok := TeeOf(t, "")
	if !ok {
		return TeeFitting{}, false
	}
	f.Part = Part{Slug: t.Slug + "/" + kind, Name: strings.ReplaceAll(kind, "-", " ") + ", " + t.Name}
	run, branch := &f.CentreToEnd, &f.BranchToEnd
	run.Trust, branch.Trust = Unknown, Unknown
	switch kind {
	case Cross:
		run.Source, branch.Source = sourceCross, sourceCross
		run.Either = bendDoubt * t.OD
		branch.Either = run.Either
	case Seat:
		f.Name += ", to weld"
		run.Source, branch.Source = sourceSeat, sourceSeat
		run.Length, run.Either = bendRadii*t.OD, bendDoubt*t.OD
		branch.Length, branch.Either = run.Length, run.Either
		run.Caliper, branch.Caliper = bendCaliper, bendCaliper
	case Pocket, Cock:
		run.Source, branch.Source = sourceBoss, sourceBranch
		run.Length, run.Either = bossRun*t.OD, bendDoubt*t.OD
		branch.Length, branch.Either = t.OD/2+bossBranch, bossDoubt
	default:
		return TeeFitting{}, false
	}
	run.Slug, branch.Slug = f.Slug+"/run", f.Slug+"/branch"
	return f, true
}

// after returns text with before in front of it, nothing for an empty text.
func after(before, text string) string {
	if text == "" {
		return ""
	}
	return before + text
}

func (t *tables) readFittings() {
	t.bends, t.tees = map[string][]bendRow{}, map[string][]teeRow{}
	for _, r := range read("bends.csv", bendsCSV) {
		tube, source := t.tubeOf(r), t.source(r, "source")
		t.bends[tube] = append(t.bends[tube], bendRow{
			shape: r.text("shape"), radius: r.mm("radius"), at90: r.mm("at90"), at45: r.mm("at45"),
			trust: r.trust("trust"), source: source,
			derived: "R tan(angle/2) + (centre to end at 90° - R), R the centreline radius; 90° bend: " + source,
		})
	}
	for _, r := range read("tees.csv", teesCSV) {
		tube := t.tubeOf(r)
		t.tees[tube] = append(t.tees[tube], teeRow{
			shape: r.text("shape"), length: r.mm("length"), trust: r.trust("trust"), source: t.source(r, "source"),
		})
	}
}

// tubeOf returns the slug in a row's tube column, which must be known.
func (t *tables) tubeOf(r row) string {
	slug := r.text("tube")
	if _, ok := t.tubeAt[slug]; !ok {
		r.fail("tube", "no such tube: "+slug)
	}
	return slug
}
