package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"

	"drawoff/pipeline/design"
	"drawoff/pipeline/find"
	q "drawoff/pipeline/quantity"
	"drawoff/www/view"
)

// foundRun is a run as route -json prints it; lengths in metres.
type foundRun struct {
	Best    []string       `json:"best"`
	Drains  string         `json:"drainsTo,omitempty"`
	Size    string         `json:"size"`
	Joints  string         `json:"joints"`
	Parts   int            `json:"parts"`
	Bends   int            `json:"bends"`
	Unions  int            `json:"unions"`
	Welds   int            `json:"welds"`
	Length  float64        `json:"length"`
	Longest float64        `json:"longestPiece"`
	Loss    float64        `json:"loss"`                  // head, m, tank full
	Suction float64        `json:"suctionHead,omitempty"` // available at the lowest level, m; of runs to a pump
	Flow    float64        `json:"flow"`                  // m³/s, tank full
	Notes   []string       `json:"notes,omitempty"`
	Pieces  []design.Piece `json:"pieces"`
}

var lines = map[string]find.Line{"tank": find.FromTank, "pump": find.FromPump}

// route lists the runs from the tank to the pump, or from there to the
// outflow, of a saved design. It ends
// with 0 when one drains, and 1 when none does.
func (t terminal) route(going func() bool, args []string) int {
	set := flag.NewFlagSet("route", flag.ContinueOnError)
	most := set.Int("n", 6, "list at most so many `runs`")
	take := set.Int("take", 0, "print the design with run `NUMBER` of the list in it")
	from := set.String("from", "tank", "where the runs begin: at the `tank` or at the pump")
	asJSON := set.Bool("json", false, "print them as JSON, lengths in metres")
	if done, code := t.flags(set, `[-from tank | -from pump] [-n RUNS] [-json | -take NUMBER] FILE ("-" reads standard input)`, args); done {
		return code
	}
	if set.NArg() != 1 {
		return t.fail(errors.New(`say for which design: drawoff route FILE, or "-" for standard input`))
	}
	line, ok := lines[*from]
	if !ok {
		return t.fail(fmt.Errorf("a run begins at the tank or at the pump, not at %q", *from))
	}
	name := set.Arg(0)
	q.Show(q.AsTyped)
	d, report := t.report(name)
	if len(report.Faults) > 0 {
		t.faults(name, report.Faults)
		return failed
	}
	question, why := find.Of(d, report, line)
	if why != "" {
		return t.fail(errors.New(why))
	}
	answer := find.Find(question, going)
	drains := stop
	for _, r := range answer.Runs {
		if r.Drains != "" {
			drains = fine
		}
	}
	answer.Runs = answer.Runs[:max(0, min(*most, len(answer.Runs)))]
	var err error
	switch {
	case *take > 0 && *take <= len(answer.Runs):
		_, err = t.out.Write(design.WriteFile(answer.Runs[*take-1].Design))
	case *take != 0:
		return t.fail(fmt.Errorf("there is no run %d: %d were found", *take, len(answer.Runs)))
	case *asJSON:
		err = t.runsJSON(answer)
	default:
		_, err = io.WriteString(t.out, view.RunsText(d.Title, answer))
	}
	if err != nil {
		return t.fail(err)
	}
	return drains
}

func (t terminal) runsJSON(a find.Answer) error {
	out := struct {
		Why   string     `json:"why,omitempty"`
		Loses string     `json:"loses,omitempty"` // what is in the line now and in no run
		Ways  []string   `json:"ways,omitempty"`
		Raise float64    `json:"raise,omitempty"`
		Runs  []foundRun `json:"runs"`
	}{a.Why, a.Loses, a.Ways, float64(a.Raise), []foundRun{}}
	for _, r := range a.Runs {
		out.Runs = append(out.Runs, foundRun{
			Best: r.Best, Drains: r.Drains, Size: r.Size, Joints: r.Style,
			Parts: r.Parts, Bends: r.Bends, Unions: r.Unions, Welds: r.Welds,
			Length: float64(r.Length), Longest: float64(r.Longest), Flow: float64(r.Flow), Loss: float64(r.Loss), Suction: float64(r.Suction),
			Notes: r.Notes, Pieces: r.Pieces,
		})
	}
	e := json.NewEncoder(t.out)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(out)
}
