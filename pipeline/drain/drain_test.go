package drain_test

import (
	"testing"

	"drawoff/pipeline/design"
	"drawoff/pipeline/drain"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

func TestScratch(t *testing.T) {
	d := design.Design{
		Tank: design.Tank{Bore: q.MustParse[q.Length]("1.1 m"), Outlet: design.Outlet{Size: "bs-4825/2.5in"}},
		Under: []design.Piece{{Kind: design.Bend}, {Kind: design.Straight, Length: q.MustParse[q.Length]("500 mm")}, {Kind: "reducer", To: "bs-4825/1.5in"},
			{Kind: design.Tee, Turn: q.MustParse[q.Angle]("180°")},
			{Kind: design.Straight, Fall: q.MustParse[q.Slope]("1:80"), Length: q.MustParse[q.Length]("500 mm")}, {Kind: design.Bend, Turn: q.MustParse[q.Angle]("90°")}},
		Pump: design.Pump{Away: q.MustParse[q.Length]("2 m"), Height: q.MustParse[q.Length]("500 mm")},
	}
	r := drain.Check(drain.Input{Layout: route.Lay(d.Filled(), 0.9), Least: 0.01})
	for _, v := range r.Verdicts {
		t.Log(v.Rule, v.Level, v.Piece, v.Sentence, "|", v.Advice)
	}
	t.Log(r.Falls, r.Lows, r.Highs)
	t.Logf("%+v", r.Figures)
}
