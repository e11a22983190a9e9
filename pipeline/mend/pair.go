package mend

import (
	"drawoff/pipeline"
	"drawoff/pipeline/finding"
)

// bases is how many changes that do not do it alone are tried with others.
const bases = 4

// pair looks for changes that together mend the verdict, stop nothing else and
// bring nothing that presses more: one that mends with what answers what that
// brings, or two that each fall short. ways are the single ones that were found.
func (m *mender) pair(proposals []proposal, ways []Way) (Way, bool) {
	for _, w := range ways[:min(len(ways), 2)] {
		if p, ok := m.answered(w, chain); ok {
			return p, true
		}
	}
	if len(ways) > 0 {
		return Way{}, false
	}
	return m.both(proposals)
}

// chain is how many changes may follow on the first, each for what the one
// before it brings: a pump set higher asks for a tank that stands higher, and
// that for stronger legs.
const chain = 2

// answered adds to w what answers the first thing that is bad about it, in at
// most as many more changes. None of them may set again what one before it
// set: that would be no change at all.
func (m *mender) answered(w Way, more int) (Way, bool) {
	var brings finding.Verdict
	for _, v := range w.Brings {
		if v.Level == finding.Stop || m.worse(v) {
			brings = v
			break
		}
	}
	answer := answers(brings)
	if answer == nil {
		return Way{}, false
	}
	d, faults := m.design.Apply(w.Edits...)
	if len(faults) > 0 {
		return Way{}, false
	}
	then := newMender(d, pipeline.Check(d), brings)
	m.checks++
	for _, c := range answer(then) {
		second, ok := then.least(c)
		if ok && !second.good() && more > 1 {
			second, ok = then.answered(second, more-1)
		}
		if !ok || !second.good() || again(w, second) {
			continue
		}
		p, ok := m.tried(proposal{sentence: w.Sentence + " " + second.Sentence, edits: append(w.Edits[:len(w.Edits):len(w.Edits)], second.Edits...)})
		p.Together = w.together() + second.together()
		if ok && !p.good() && more > 1 { // w brings more than one thing
			p, ok = m.answered(p, more-1)
		}
		if ok && p.good() {
			m.checks += then.checks
			return p, true
		}
	}
	m.checks += then.checks
	return Way{}, false
}

// again reports whether second sets a field that first sets.
func again(first, second Way) bool {
	for _, x := range first.Edits {
		for _, y := range second.Edits {
			if x.Path == y.Path && x.Op == "" && y.Op == "" {
				return true
			}
		}
	}
	return false
}

// together returns how many changes w is made of.
func (w Way) together() int { return max(w.Together, 1) }

// both tries the first changes two by two, each at its most, and takes back as
// much as it can of the one and then of the other. Changes of one field, which
// undo each other, make no pair.
func (m *mender) both(proposals []proposal) (Way, bool) {
	proposals = proposals[:min(len(proposals), bases)]
	for i, a := range proposals {
		for _, b := range proposals[i+1:] {
			if together(a.far(), b.far()) == nil {
				continue
			}
			if w, ok := m.tried(*together(a.far(), b.far())); !ok || !w.good() {
				continue
			}
			b = m.eased(b, func(c proposal) proposal { return *together(a.far(), c) })
			a = m.eased(a, func(c proposal) proposal { return *together(c, b) })
			if w, ok := m.tried(*together(a, b)); ok && w.good() {
				w.Together = 2
				return w, true
			}
		}
	}
	return Way{}, false
}

// eased returns the least of c that does it with the other change.
func (m *mender) eased(c proposal, with func(proposal) proposal) proposal {
	if c.dial == nil {
		return c
	}
	step := fewest(c.dial.most, 0, func(step int) bool {
		w, ok := m.tried(with(c.dial.at(step)))
		return ok && w.good()
	})
	if step == 0 {
		return c.far()
	}
	return c.dial.at(step)
}

// together makes one proposal of two, nil where they set the same field or
// one moves the items of a list that the other is about, so that its paths
// would be off.
func together(a, b proposal) *proposal {
	for _, x := range a.edits {
		for _, y := range b.edits {
			if x.Path == y.Path || x.Op != "" && x.Moved(y.Path) != y.Path || y.Op != "" && y.Moved(x.Path) != x.Path {
				return nil
			}
		}
	}
	return &proposal{sentence: a.sentence + " " + b.sentence, edits: append(a.edits[:len(a.edits):len(a.edits)], b.edits...), flows: a.flows || b.flows}
}
