// Package finding holds what the rooms of the pipeline have to say about a
// design: figures, each with the working that led to it, and verdicts, each
// with the rule it applies. It computes nothing.
package finding

import "drawoff/pipeline/quantity"

// Figure is a number that a person may read.
type Figure struct {
	Slug    string           `json:"slug"`             // stable name in words, "suction-head-available-lowest"
	Name    string           `json:"name"`             // as shown, "Suction head available, lowest level"
	Amount  quantity.Amount  `json:"amount"`           // the value
	Either  *quantity.Amount `json:"either,omitempty"` // half-width of what is not known, nil when nothing is doubtful
	Hangs   []Share          `json:"hangsOn,omitempty"`
	Piece   string           `json:"piece,omitempty"` // design path of the piece it belongs to, or ""
	Working `json:"working"`
}

// Share is what one dimension of the catalogue, of a mark lower than standard,
// has to do with the doubt about an answer. Lists of them begin with the
// largest: the part to measure first.
type Share struct {
	Dimension string          `json:"dimension"` // slug
	Trust     string          `json:"trust"`     // its mark
	By        quantity.Length `json:"by"`        // how far it may move the answer, either way; 0 for a value that is doubtful only in where it comes from
}

// Working is how a figure was reached, enough to follow it by hand.
type Working struct {
	Formula string  `json:"formula"`          // in plain symbols: "NPSHa = (p - pv)/(ρ g) + z - hf"
	Inputs  []Input `json:"inputs,omitempty"` // the numbers that went in
	Source  string  `json:"source"`           // standard, handbook, or "common practice, no source"
	Range   string  `json:"range,omitempty"`  // where the formula holds, or ""
}

// Input is one number that went into a formula.
type Input struct {
	_ [0]func() // no ==, as quantity.Entered

	Symbol string          `json:"symbol"`
	Name   string          `json:"name"`
	Amount quantity.Amount `json:"amount"`
}

// Level is how much a verdict matters.
type Level uint8

// The levels, the mildest first.
const (
	Sound Level = iota // nothing to do
	Look               // a person should decide
	Stop               // do not build or order this
)

// String returns "sound", "look" or "stop".
func (l Level) String() string { return [...]string{"sound", "look", "stop"}[l] }

// Verdict is what one rule says of one piece, joint or level.
type Verdict struct {
	_ [0]func() // no ==, as quantity.Entered

	Rule     string           `json:"rule"` // slug in words, "suction-margin"
	Level    Level            `json:"level"`
	Piece    string           `json:"piece,omitempty"`        // design path of the piece it is about, or "tank", "pump", ...
	Sentence string           `json:"sentence"`               // what is so, and why it matters, for a person in a workshop
	Advice   string           `json:"advice,omitempty"`       // what would make it sound, a full sentence, "" when sound
	Figure   string           `json:"figure,omitempty"`       // slug of the figure judged, or ""
	Limit    *quantity.Amount `json:"limit,omitempty"`        // what it was held against, nil where there is none
	Measure  string           `json:"measureFirst,omitempty"` // slug of the dimension to measure first, where doubt could overturn the verdict
	Basis    string           `json:"basis"`                  // standard with clause, or "common practice, no source"
}

// Findings is what one room has to say.
type Findings struct {
	Figures  []Figure
	Verdicts []Verdict
}

// Add appends other to f.
func (f *Findings) Add(other Findings) {
	f.Figures = append(f.Figures, other.Figures...)
	f.Verdicts = append(f.Verdicts, other.Verdicts...)
}

// Join returns all that the rooms have to say, in the order given.
func Join(rooms ...Findings) Findings {
	figures, verdicts := 0, 0
	for i := range rooms {
		figures += len(rooms[i].Figures)
		verdicts += len(rooms[i].Verdicts)
	}
	all := Findings{make([]Figure, 0, figures), make([]Verdict, 0, verdicts)}
	for i := range rooms {
		all.Add(rooms[i])
	}
	return all
}

// In is short for an Input.
func In[Q quantity.Quantity](symbol, name string, q Q) Input {
	return Input{Symbol: symbol, Name: name, Amount: quantity.Of(q)}
}

// MarshalText writes the level as its word.
func (l Level) MarshalText() ([]byte, error) { return []byte(l.String()), nil }

// Worst returns the gravest level among verdicts, Sound when there are none.
func Worst(verdicts []Verdict) Level {
	worst := Sound
	for _, v := range verdicts {
		worst = max(worst, v.Level)
	}
	return worst
}
