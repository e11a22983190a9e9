package route_test

import (
	"testing"

	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
	"drawoff/pipeline/route"
)

func length(s string) q.Entered[q.Length] { return q.MustParse[q.Length](s) }
func angle(s string) q.Entered[q.Angle]   { return q.MustParse[q.Angle](s) }
func slope(s string) q.Entered[q.Slope]   { return q.MustParse[q.Slope](s) }

// perry is a small plant with every kind of piece: a cone-bottomed tank, a
// stack under it and a run to a pump that stands to the left.
func perry() design.Design {
	return design.Design{
		Tank: design.Tank{
			Bore:   length("1.1 m"),
			Height: length("1 m"),
			Outlet: design.Outlet{Size: "bs-4825/2.5in", End: "ring-joint/male"},
		},
		Under: []design.Piece{
			{Kind: design.Butterfly, In: "ring-joint/liner", Out: "ring-joint/male"},
			{Kind: design.Reducer, To: "bs-4825/1.5in", In: "ring-joint/liner", Out: "clamp/ferrule"},
			{Kind: design.Tee, In: "clamp/ferrule", Out: "clamp/ferrule"},
			{Kind: design.Bend, In: "clamp/ferrule"},
		},
		Run: []design.Piece{
			{Kind: design.Straight, Fall: slope("1:80"), Fit: true, Out: "clamp/ferrule"},
			{Kind: design.Ball, In: "clamp/ferrule", Out: "clamp/ferrule"},
			{Kind: design.Bend, Turn: angle("-90°"), In: "clamp/ferrule"},
			{Kind: design.Straight, Fit: true},
			{Kind: design.Bend, Turn: angle("90°"), Out: "clamp/ferrule"},
		},
		Pump: design.Pump{
			Away: length("2.4 m"), Aside: length("600 mm"), Height: length("400 mm"),
			InSize: "bs-4825/1.5in", InEnd: "clamp/ferrule",
		},
		Delivery: design.Delivery{
			Pieces: []design.Piece{
				{Kind: design.Straight, Fit: true, In: "clamp/ferrule"},
				{Kind: design.Bend},
				{Kind: design.Straight, Length: length("1.5 m")},
			},
			Height: length("2.1 m"),
		},
	}
}

func TestScratch(t *testing.T) {
	l := route.Lay(perry().Filled(), 0.9)
	for _, p := range l.Pieces() {
		t.Logf("%-20s %-36s %8.1f ±%4.1f cut %7.1f±%4.1f spring %.2f (%.4f %.4f %.4f)->(%.4f %.4f %.4f) %v", p.Ref, p.Label, p.Length*1000, p.Either*1000, p.Cut*1000, p.Doubt*1000, p.Spring.Degrees(), p.In.At.X, p.In.At.Y, p.In.At.Z, p.Out.At.X, p.Out.At.Y, p.Out.At.Z, p.Out.Dir)
	}
	t.Logf("%+v %+v", l.Suction, l.Discharge)
	for _, j := range l.Junctions {
		t.Log(j.Ref, j.Seal, j.Up.Half.Joint.Slug, j.Up.Half.Name, j.Down.Half.Joint.Slug, j.Down.Half.Name, j.Gap.Length)
	}
}

func BenchmarkLay(b *testing.B) {
	d := perry().Filled()
	b.ReportAllocs()
	for b.Loop() {
		route.Lay(d, 0.9)
	}
}
