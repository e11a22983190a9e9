package order

import (
	"math"

	"drawoff/catalog"
	"drawoff/pipeline/design"
)

// Purchase is a line of the parts list after the shelf: what the plant takes
// and its spares are what comes off the shelf and what is to be bought,
//
//	Quantity + Spare = Shelf + Buy
type Purchase struct {
	Line             // Quantity is what the plant takes
	Spare   float64  `json:"spare,omitempty"`   // over that
	Shelf   float64  `json:"shelf,omitempty"`   // taken off the shelf or the rack
	Buy     float64  `json:"buy"`               // 0 where all of it is in hand
	Price   float64  `json:"price,omitempty"`   // of one, as the user typed it; 0 where they did not
	From    string   `json:"from,omitempty"`    // the user's own reference
	Odd     string   `json:"odd,omitempty"`     // why it is no stock size, a sentence; "" for one that is, as far as is known
	Instead []string `json:"instead,omitempty"` // what else would do, each a sentence
}

// Cost is what is to be bought at its price.
func (p Purchase) Cost() float64 { return math.Round(p.Buy*p.Price*100) / 100 }

// Buy returns what is to be bought of lines that are counted in pieces, those
// that are sawn from lengths left out: a spare of each seal as the shop wants
// it, less what is on the shelf.
func Buy(lines []Line, shelf design.Shelf) []Purchase {
	spares := math.Floor(float64(shelf.Shop.Filled().Spares.Value()))
	out := make([]Purchase, 0, len(lines))
	for _, l := range lines {
		if l.Unit != pieces {
			continue
		}
		spare := 0.0
		if _, _, seal := catalog.FindSeal(l.Slug); seal {
			spare = spares
		}
		out = append(out, Bought(l, spare, float64(shelf.Item(l.Slug).InHand), shelf))
	}
	return out
}

// Bought returns the purchase of a line of which so many are in hand.
func Bought(l Line, spare, inHand float64, shelf design.Shelf) Purchase {
	item := shelf.Item(l.Slug)
	p := Purchase{Line: l, Spare: spare, Price: float64(item.Price.Value()), From: item.From}
	p.Shelf = min(inHand, l.Quantity+spare)
	p.Buy = l.Quantity + spare - p.Shelf
	p.Odd, p.Instead = instead(l.Slug)
	return p
}
