package pipeline

import (
	"drawoff/pipeline/finding"
	"drawoff/pipeline/flow"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/transfer"
)

// Transfer is how the tank empties, from full to its lowest level.
type Transfer struct {
	Summary string            `json:"summary"` // in a sentence or three
	Figures []finding.Figure  `json:"figures"`
	Curve   []transfer.Moment `json:"curve"`       // time rising; empty where nothing flows
	Air     q.Duration        `json:"-"`           // when air may first be drawn
	Drawn   bool              `json:"airDrawn"`    // whether that is before the end
	Alone   bool              `json:"stopsItself"` // the flow dies before the lowest level
}

// Figure returns the figure named slug.
func (t Transfer) Figure(slug string) (finding.Figure, bool) { return figureNamed(t.Figures, slug) }

// Transfer works out how long the whole transfer takes with the level falling,
// which asks for the flow at some sixty levels and more: it costs about as much as
// the check itself, so whoever shows it asks for it. It is a pure function of
// the design that r was made from; a report on a design that could not be
// worked out has none.
func (r Report) Transfer() Transfer {
	if r.plant == nil {
		return Transfer{}
	}
	return r.plant.transfer()
}

func (p *plant) transfer() Transfer {
	k := &p.known
	steady := flow.NewSteady(p.flowInput())
	switch {
	case steady.Boils():
		return Transfer{Summary: "The liquid boils: nothing can be said of how long it takes to draw it off."}
	case !p.layout.Gravity && k.curve.IsZero():
		return Transfer{Summary: "Without a curve of the pump nothing can be said of how long the transfer takes."}
	}
	foot := k.foot(p.height)
	held, short := false, false
	drawn := q.Flow(steady.Drawn())
	run := transfer.Run(transfer.Input{
		Vessel: k.vessel, From: k.full, To: k.lowest, Bore: outletBore(p.design.Tank), Lip: p.lip(),
		At: func(level q.Length) transfer.Draw {
			pt := steady.At(foot + level)
			held = held || pt.Status == flow.BeyondEnd
			short = short || pt.SuctionKnown && pt.Margin < 0
			return transfer.Draw{Flow: pt.Flow * drawn, Margin: pt.Margin, MarginKnown: pt.SuctionKnown}
		},
	})
	t := Transfer{Curve: run.Curve, Air: run.Air.Time, Drawn: run.AirDrawn, Alone: run.Stops}
	if len(run.Curve) == 0 {
		t.Summary = "Nothing flows, even with the tank full."
		return t
	}
	t.figures(p, &run)
	t.summary(p, &run, held, short)
	return t
}

// lip is the level under which the outlet is not covered, over the lowest
// inside point: of a side outlet its upper edge, the cautious reading.
func (p *plant) lip() q.Length {
	if !p.known.side {
		return 0
	}
	return p.known.above + outletBore(p.design.Tank)/2
}

// summary tells the transfer in words.
func (t *Transfer) summary(p *plant, run *transfer.Result, held, short bool) {
	first, end := run.Curve[0], run.End()
	t.Summary = "From full to "
	if run.Stops {
		t.Summary += q.Text(end.Level) + " over the lowest inside point, where the flow dies of itself, "
	} else {
		t.Summary += "the lowest level "
	}
	t.Summary += "the transfer takes " + q.Text(end.Time) + ": " + q.Text(first.Left-end.Left) + ", at " + q.Text(first.Flow) + " first and " + q.Text(end.Flow) + " last."
	if run.Stops {
		t.Summary += " " + q.Text(end.Left) + " stay in the tank."
	}
	if held {
		t.Summary += " The pump runs beyond the end of its curve, so it takes no longer than that and perhaps less."
	}
	if short {
		t.Summary += " Where the suction margin is short the pump may cavitate, and then draws less than this."
	}
	if run.AirDrawn {
		t.Summary += " From " + q.Text(run.Air.Level) + " down air may be drawn, after " + q.Text(run.Air.Time) + " and with " + q.Text(run.Air.Left) + " left; what comes after is reckoned as if none were."
	}
}
