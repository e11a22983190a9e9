package pipeline

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline/cut"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
	"drawoff/pipeline/joint"
	"drawoff/pipeline/order"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

// Work is what a design comes to on the bench: what is sawn from which length,
// what is to be bought after what is in hand, and what is welded.
type Work struct {
	Saw      []Sawing         `json:"saw"`       // by tube: the line's, then legs and braces
	RackLeft []design.Offcut  `json:"rackAfter"` // what is on the rack when all is sawn
	Buy      []order.Purchase `json:"buy"`       // all that the plant takes, what is in hand too
	Cost     float64          `json:"cost,omitempty"`
	Unpriced int              `json:"unpriced,omitempty"` // lines to buy that have no price
	Currency string           `json:"currency,omitempty"`
	Welds    []order.Weld     `json:"welds"`
	Purge    order.Purge      `json:"purge"`
	Figures  []finding.Figure `json:"figures"`
	Shop     design.Shop      `json:"-"` // filled in
}

// Sawing is how the pieces of one tube are sawn.
type Sawing struct {
	Tube   string      `json:"tube"` // slug
	Name   string      `json:"name"` // in plain words
	Pieces []order.Cut `json:"pieces"`
	Marks  []string    `json:"marks"` // what to write on each: its number on the drawing, "4.1" for the first part of one that is put together, "L1" for a leg, "B1" for a brace
	Stock  cut.Stock   `json:"stock"`
	Plan   cut.Plan    `json:"plan"` // its places are those of Pieces and of Stock.Rack
	Said   string      `json:"said"` // how many lengths it takes, and whether that is the least
}

// Work works out what there is to do on the bench, with what is on the shelf
// in hand. A report on a design that could not be worked out has none.
func (r Report) Work(shelf design.Shelf) Work {
	if r.plant == nil {
		return Work{}
	}
	p := r.plant
	w := Work{Welds: r.Welds, Shop: shelf.Shop.Filled(), Currency: shelf.Shop.Currency}
	joined := w.saw(p, r.Cuts, shelf)
	w.buy(p, r.Parts, shelf)
	w.Purge = order.NewPurge(order.Spools(p.layout, r.Welds, p.known.stub), w.Shop.Argon.Value(), p.design.Finish.Value())
	w.Purge.Notes = append(w.Purge.Notes, joined...)
	if said := p.orderInput().Frame.Welds(); said != "" {
		w.Purge.Notes = append(w.Purge.Notes, said)
	}
	w.Figures = w.Purge.Figures
	return w
}

// saw lays the cuts of each tube out of the rack and of stock lengths. It
// returns what is welded up from several of these.
func (w *Work) saw(p *plant, cuts []order.Cut, shelf design.Shelf) (joined []string) {
	w.RackLeft = slices.Clone(shelf.Rack)
	var gone []int // places on the rack
	var tubes []string
	for i := range cuts {
		if !slices.Contains(tubes, cuts[i].Tube) {
			tubes = append(tubes, cuts[i].Tube)
		}
	}
	var kept []design.Offcut
	for _, tube := range tubes {
		s := Sawing{Tube: tube, Name: tubeName(tube), Stock: cut.Stock{
			Length: p.design.Stand.Stock.Value(), Kerf: p.design.Stand.Kerf.Value(), Trim: w.Shop.Trim.Value(), Keep: w.Shop.Keep.Value()}}
		var on []int // place on the shelf's rack, by place in the stock's
		for i, o := range shelf.Rack {
			if o.Tube == tube {
				on = append(on, i)
				s.Stock.Rack = append(s.Stock.Rack, o.Length.Value())
			}
		}
		var lengths, longest []q.Length
		var seams []string
		for _, c := range cuts {
			if c.Tube == tube {
				c.Length -= w.gap(p, c)
				if said := s.put(c, p.mark(c), w.Shop.Gap.Value()); said != "" {
					seams = append(seams, said)
				}
			}
		}
		for _, c := range s.Pieces {
			lengths = append(lengths, c.Length)
			longest = append(longest, c.Length+c.Either)
		}
		s.Plan = cut.Lay(lengths, s.Stock)
		s.Said = strings.Join(append([]string{s.say()}, seams...), " ")
		joined = append(joined, seams...)
		if most := cut.Lay(longest, s.Stock).New; most > s.Plan.New {
			s.Said += " Should every cut come out at its longest, it takes " + strconv.Itoa(most) + ": measure the parts in doubt before you buy."
		}
		for _, b := range s.Plan.Bars {
			if b.Rack >= 0 {
				gone = append(gone, on[b.Rack])
			}
			if b.Kept {
				text := strconv.Itoa(int(b.Left.Millimetres())) + " mm" // or less, as it is read off a tape
				if q.InInches() {
					text = q.Tape(b.Left - q.Inch/64)
				}
				if length, err := q.Parse[q.Length](text); err == nil {
					kept = append(kept, design.Offcut{Tube: tube, Length: length})
				}
			}
		}
		w.Saw = append(w.Saw, s)
	}
	slices.Sort(gone)
	for _, i := range slices.Backward(gone) {
		w.RackLeft = slices.Delete(w.RackLeft, i, i+1)
	}
	w.RackLeft = append(w.RackLeft, kept...)
	return joined
}

// shortest is the least that is welded on to a full length, so that a weld head
// and a clamp have something to hold. Common practice, no source.
const shortest = 200 * q.Millimetre

// mostParts is what a straight is put together from at most: past it a length of
// the stock or of the line is mistyped. Ours, no source.
const mostParts = 50

// put adds c, in as few parts as there must be where no length that can be had
// holds it: full lengths and what is left, which are welded up with a gap at
// each seam. It says so of those; "" otherwise. What takes more than mostParts
// stays whole, and longer than any length there is. A leg is not put together:
// see stand.RuleLegs.
func (s *Sawing) put(c order.Cut, mark string, gap q.Length) (said string) {
	whole := s.Stock.Length - s.Stock.Trim
	if c.Ref == order.Stand || whole <= shortest || c.Length <= max(whole, slices.Max(append(s.Stock.Rack, 0))) {
		s.Pieces, s.Marks = append(s.Pieces, c), append(s.Marks, mark)
		return ""
	}
	parts := math.Ceil(float64((c.Length + c.Either + gap) / (whole + gap)))
	if parts > mostParts {
		s.Pieces, s.Marks = append(s.Pieces, c), append(s.Marks, mark)
		return ""
	}
	n := int(parts)
	part, left := c, c.Length-q.Length(n-1)*gap
	part.Either, part.Hangs = 0, nil
	for i := range n {
		part.Length = whole
		switch {
		case i == n-1: // all the doubt is in the last
			part, part.Length = c, left
		case i == n-2 && left-whole < shortest:
			part.Length = left / 2
		}
		left -= part.Length
		s.Pieces, s.Marks = append(s.Pieces, part), append(s.Marks, mark+"."+strconv.Itoa(i+1))
	}
	seams := strconv.Itoa(n-1) + " seams"
	if n == 2 {
		seams = "a seam"
	}
	return "No " + mark + " is longer than a stock length: it is welded up from " + mark + ".1 to " + mark + "." + strconv.Itoa(n) + ", with " + seams + " that the list of welds does not number."
}

// mark is what is written on a piece of tube when it is sawn.
func (p *plant) mark(c order.Cut) string {
	for _, piece := range p.layout.Pieces() {
		if piece.Ref == c.Ref {
			return strconv.Itoa(piece.Number)
		}
	}
	what, rest, _ := strings.Cut(c.Name, " ")
	n, _, _ := strings.Cut(rest, " ")
	return strings.ToUpper(what[:1]) + n
}

// gap is what the gaps at the seams of its line take off a straight that is
// made to fit. A straight whose length somebody asked for stays as it was asked
// for.
func (w *Work) gap(p *plant, c order.Cut) q.Length {
	gap := w.Shop.Gap.Value()
	pieces := p.layout.Pieces()
	at := slices.IndexFunc(pieces, func(piece route.Piece) bool { return piece.Ref == c.Ref })
	if gap == 0 || at < 0 || !pieces[at].Fit {
		return 0
	}
	return gap * q.Length(p.layout.Seams(&pieces[at]))
}

func tubeName(slug string) string {
	if t, ok := catalog.FindTube(slug); ok {
		return catalog.TubePart(t).Name
	}
	return order.FrameTube(slug)
}

// say tells what the plan comes to and how sure that is.
func (s Sawing) say() string {
	// What squaring two ends may take. Common practice, no source.
	const tight = 5 * q.Millimetre
	text := "Out of what is on the rack"
	offcuts := len(s.Plan.Bars) - s.Plan.New
	switch {
	case len(s.Plan.Bars) == 0:
		text = "Nothing can be sawn"
	case s.Plan.New == 1:
		text = "1 length of " + q.Text(s.Stock.Length)
	case s.Plan.New > 1:
		text = strconv.Itoa(s.Plan.New) + " lengths of " + q.Text(s.Stock.Length)
	}
	if s.Plan.New > 0 && offcuts > 0 {
		text += " beside what is on the rack"
	}
	if s.Plan.New > 0 && s.Plan.Proven() {
		text += ", the least that there can be"
	}
	text += "."
	if !s.Plan.Proven() {
		text += " That one fewer would not do is not proven: at least " + strconv.Itoa(s.Plan.AtLeast) + " are needed, and the search for a better way was stopped."
	}
	var full []string
	for i, b := range s.Plan.Bars {
		if b.Rack < 0 && b.Trim == 0 && b.Left < tight {
			full = append(full, strconv.Itoa(i+1))
		}
	}
	switch n := len(full); {
	case n == 1:
		text += " Next to nothing is left of length " + full[0] + ": measure it, and see that its ends are square, before the first cut."
	case n > 1:
		text += " Next to nothing is left of lengths " + strings.Join(full[:n-1], ", ") + " and " + full[n-1] + ": measure them, and see that their ends are square, before the first cut."
	}
	switch n := len(s.Plan.TooLong); {
	case n == 1:
		text += " One of the pieces is longer than any length there is: buy longer tube for it."
	case n > 1:
		text += " " + strconv.Itoa(n) + " of the pieces are longer than any length there is: buy longer tube for them."
	}
	return text
}

// sealsInstead are the other materials that a seal may be of: those with
// nothing known against them in this line.
func (p *plant) sealsInstead(slug string) (out []string) {
	j, own, ok := catalog.FindSeal(slug)
	if !ok {
		return nil
	}
	in := p.jointInput()
	for _, m := range catalog.Materials() {
		if m.Slug != own.Slug && joint.Suits(in, m.Slug) {
			out = append(out, catalog.SealPart(j, m.Slug).Name+": nothing is known against it in this liquid and what the line is cleaned with.")
		}
	}
	return out
}

// buy lists all there is to buy: tube by the length, the rest by the piece.
func (w *Work) buy(p *plant, parts []order.Line, shelf design.Shelf) {
	whole := map[string]order.Purchase{}
	for _, s := range w.Saw {
		var line order.Line
		for _, l := range parts {
			if l.Slug == s.Tube {
				line = l
			}
		}
		tube := strconv.FormatFloat(line.Quantity, 'f', -1, 64) + " m"
		if q.InInches() {
			tube = q.Text(q.Length(line.Quantity))
		}
		sawn := tube + " to saw, in " + strconv.Itoa(len(s.Pieces)) + " piece"
		if len(s.Pieces) > 1 {
			sawn += "s"
		}
		if line.Note != "" {
			sawn += "; " + line.Note
		}
		line.Note, line.Unit = sawn, "lengths of "+q.Text(s.Stock.Length)
		line.Quantity = float64(len(s.Plan.Bars))
		whole[s.Tube] = order.Bought(line, 0, float64(len(s.Plan.Bars)-s.Plan.New), shelf)
	}
	counted := order.Buy(parts, shelf)
	for i := range counted {
		counted[i].Instead = append(counted[i].Instead, p.sealsInstead(counted[i].Slug)...)
	}
	for _, l := range parts {
		if bought, ok := whole[l.Slug]; ok {
			w.Buy = append(w.Buy, bought)
			continue
		}
		for _, c := range counted {
			if c.Slug == l.Slug {
				w.Buy = append(w.Buy, c)
			}
		}
	}
	for _, b := range w.Buy {
		w.Cost += b.Cost()
		if b.Buy > 0 && b.Price == 0 {
			w.Unpriced++
		}
	}
}
