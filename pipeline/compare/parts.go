package compare

import (
	"slices"

	"drawoff/pipeline"
	q "drawoff/pipeline/quantity"
)

// counts gathers how many of each name there are in either plant, in the order
// in which they are met.
type counts []Count

func (c *counts) add(name, unit string, a, b float64) {
	for i := range *c {
		if had := &(*c)[i]; had.Name == name && had.Unit == unit {
			had.A += a
			had.B += b
			return
		}
	}
	*c = append(*c, Count{name, unit, a, b})
}

// unlike returns those of which the plants take different numbers. What is
// sold by the metre is bought in millimetres at the finest.
func (c counts) unlike() []Count {
	const finest = 0.0005
	return slices.DeleteFunc(c, func(n Count) bool { return n.A-n.B < finest && n.B-n.A < finest })
}

func parts(a, b pipeline.Report) []Count {
	var c counts
	for _, p := range a.Parts {
		c.add(p.Name, p.Unit, p.Quantity, 0)
	}
	for _, p := range b.Parts {
		c.add(p.Name, p.Unit, 0, p.Quantity)
	}
	return c.unlike()
}

func welds(a, b pipeline.Report) []Count {
	var c counts
	for _, w := range a.Welds {
		c.add(w.Kind, w.Tube, 1, 0)
	}
	for _, w := range b.Welds {
		c.add(w.Kind, w.Tube, 0, 1)
	}
	return c.unlike()
}

// cuts pairs off the lengths that both plants cut of a tube, as shown; what is
// left over is told in the order of the lists, an old length beside a new one.
func cuts(a, b pipeline.Report) (out []Cut) {
	type length struct {
		name string
		l    *q.Length
	}
	var was, is []length
	for i := range a.Cuts {
		was = append(was, length{a.Cuts[i].Name, &a.Cuts[i].Length})
	}
	for i := range b.Cuts {
		is = append(is, length{b.Cuts[i].Name, &b.Cuts[i].Length})
	}
	was = slices.DeleteFunc(was, func(x length) bool {
		j := slices.IndexFunc(is, func(y length) bool { return x.name == y.name && q.Text(*x.l) == q.Text(*y.l) })
		if j >= 0 {
			is = slices.Delete(is, j, j+1)
		}
		return j >= 0
	})
	for _, x := range was {
		c := Cut{Name: x.name, A: x.l}
		if j := slices.IndexFunc(is, func(y length) bool { return x.name == y.name }); j >= 0 {
			c.B = is[j].l
			is = slices.Delete(is, j, j+1)
		}
		out = append(out, c)
	}
	for _, y := range is {
		out = append(out, Cut{Name: y.name, B: y.l})
	}
	return out
}
