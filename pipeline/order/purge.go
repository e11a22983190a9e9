package order

import (
	"math"
	"strconv"

	"drawoff/pipeline/finding"
	q "drawoff/pipeline/quantity"
)

// Purge is how the inside of the welds is kept from the air.
type Purge struct {
	Flow     q.Flow           `json:"flow"`   // of argon, as the shop has it
	Sweeps   q.Number         `json:"sweeps"` // volumes of a spool that go through it before a weld
	Spools   []Spool          `json:"spools"`
	Figures  []finding.Figure `json:"figures"`
	Notes    []string         `json:"notes"`    // how the welds are to be
	Cautions []string         `json:"cautions"` // what can hurt somebody
}

const (
	// air is the part of oxygen in dry air by volume, ISO 2533:1975, from memory.
	air = 0.209476
	// inert is the part that may be left at the root of a weld: 50 parts in a
	// million leave no more than a light straw tint. AWS D18.2, from memory.
	inert = 50e-6
)

// Sweeps is how many volumes of gas take the oxygen of air down to 50 parts in
// a million: ln(20.9476 % / 50 ppm). A volume into which gas is mixed at once
// and from which the mixture flows loses x = x_0 exp(-n) after n volumes, a
// closed form of any textbook of chemical engineering. Gas that pushes the air
// ahead of it, argon let in at the bottom, does it sooner; a dead end beside its
// way takes longer.
func Sweeps() q.Number { return q.Number(math.Log(air / inert)) }

// NewPurge returns the purge of spools at a flow of argon. finish is the
// roughness Ra that the bores have.
func NewPurge(spools []Spool, flow q.Flow, finish q.Length) Purge {
	p := Purge{Flow: flow, Sweeps: Sweeps(), Spools: spools}
	if len(spools) == 0 {
		return p
	}
	var volume, argon q.Volume
	largest := 0
	for i := range p.Spools {
		s := &p.Spools[i]
		s.Argon = q.Volume(p.Sweeps) * s.Volume
		s.Time = q.Duration(float64(s.Argon) / float64(flow))
		volume += q.Volume(len(s.Welds)) * s.Volume
		argon += q.Volume(len(s.Welds)) * s.Argon
		if s.Volume > p.Spools[largest].Volume {
			largest = i
		}
	}
	most := p.Spools[largest]
	p.Figures = []finding.Figure{
		{Slug: "purge-sweeps", Name: "Volumes of argon before a weld", Amount: q.Of(p.Sweeps), Working: finding.Working{
			Formula: "n = ln(x_0/x)",
			Inputs: []finding.Input{
				finding.In("x_0", "oxygen in air, parts in a million (ISO 2533, from memory)", q.Number(air*1e6)),
				finding.In("x", "oxygen that may be left, parts in a million (AWS D18.2, from memory)", q.Number(inert*1e6)),
			},
			Source: "a stirred volume that is washed out, closed form",
			Range:  "gas that mixes with the air at once; gas let in low pushes the air out sooner, a dead end beside its way takes longer: measure the oxygen that leaves"}},
		{Slug: "purge-time-largest", Name: "Purge before a weld, largest spool", Amount: q.Of(most.Time), Working: finding.Working{
			Formula: "t = n V/Q",
			Inputs: []finding.Input{
				finding.In("n", "volumes of argon", p.Sweeps),
				finding.In("V", "volume within "+most.Name(), most.Volume),
				finding.In("Q", "flow of argon", flow),
			},
			Source: "definition of a flow",
			Range:  "a spool that is whole and plugged at its ends; plugs on both sides of a seam leave less to sweep"}},
		{Slug: "purge-argon", Name: "Argon for all purges before a weld", Amount: q.Of(argon), Working: finding.Working{
			Formula: "V_Ar = n V_all",
			Inputs: []finding.Input{
				finding.In("n", "volumes of argon", p.Sweeps),
				finding.In("V_all", "volume within its spool, added up over every weld", volume),
			},
			Source: "a sum over the welds, each purged anew",
			Range:  "at the pressure of the air, the gas that flows while the weld is made and cools left out"}},
	}
	p.Notes = []string{
		"Inside, the seam is to be as smooth as the bore beside it, Ra " + ra(finish) + ", welded through all round. Held to: ends out of line by no more than 15 % of the wall; seam hollow or raised by no more than 10 % of the wall; no gap or lack of fusion on the product side (ASME BPE-2012, table MJ-8.4-1).",
		"Square the tube ends, take off the burr inside and out, wipe them with a clean cloth, and tack and weld with the purge running; keep it running until the seam has cooled and is bright. Let the gas in low and out high through a small hole: argon is heavier than air, and a closed spool blows the seam out.",
		"Tint that is left inside is pickled or ground away and the steel passivated, before liquid touches it: pickling and passivation to ASTM A380 and A967, from memory. Rinse until the water is neutral. Keep tools and brushes for stainless steel apart from those for plain steel.",
	}
	p.Cautions = []string{
		"Purge gas kills without warning: argon has no smell, lies in tanks, pits and low corners, and two breaths without oxygen put a person out. Never put your head into a tank or a pit that was purged; air it by force, measure the oxygen, have somebody outside who does not go in after you.",
		"A tank, a pit or a closed room is a confined space: enter it only under the rules of your local code, with a permit, a watch outside and a meter. Tie gas bottles up, shut them off at the bottle when you stop.",
		"Welding fume of stainless steel holds chromium(VI), which causes cancer: draw it off at the seam, wear the mask that your local code asks for. Pickling paste holds hydrofluoric acid, which poisons through the skin: leave it to those who are licensed for it.",
	}
	return p
}

// Name says what spool it is.
func (s Spool) Name() string {
	if s.Number == 0 {
		return "what is welded to the tank"
	}
	return "spool " + strconv.Itoa(s.Number)
}

// ra tells a finish as drawings do.
func ra(finish q.Length) string {
	if q.InInches() {
		return q.Text(finish)
	}
	return strconv.FormatFloat(math.Round(finish.Millimetres()*1e5)/100, 'f', -1, 64) + " µm"
}
