package design

import q "drawoff/pipeline/quantity"

// Demo returns the plant that the page opens with: a farm perry maker's
// maturation tank and the pump that fills the bottling tank. The works, the
// liquid and the pump's curve are invented.
func Demo() Design {
	const (
		big   = "bs-4825/2.5in"
		small = "bs-4825/1.5in"
		clamp = "clamp/ferrule"
	)
	return Design{
		Title: "Farm perry, maturation tank to bottling tank",
		Tank: Tank{
			Bore:      length("960 mm"),
			Height:    length("1150 mm"),
			Bottom:    "cone",
			ConeAngle: angle("75°"),
			Fill:      q.MustParse[q.Volume]("900 L"),
			Outlet:    Outlet{Place: "bottom", Size: big, End: clamp},
		},
		Under: []Piece{
			{Kind: Reducer, To: small, Shape: "concentric", In: clamp, Out: clamp},
			{Kind: Butterfly, In: clamp, Out: clamp},
			{Kind: Bend, Shape: "long", In: clamp, Out: clamp},
		},
		Stand: Stand{
			Height: length("760 mm"),
			Bucket: length("400 mm"),
		},
		Run: []Piece{
			{Kind: Straight, Name: "to the pump", In: clamp, Fit: true, Fall: fall("1:80")},
			{Kind: Bend, Turn: angle("180°")},
			{Kind: Straight, Fit: true},
			{Kind: Bend},
			{Kind: Straight, Length: length("200 mm"), Fall: fall("1:80"), Out: clamp},
		},
		Pump: Pump{
			Kind:   Centrifugal,
			Away:   length("1.8 m"),
			Height: length("240 mm"),
			InSize: small,
			InEnd:  clamp,
			OutUp:  length("110 mm"),
			Curve: []CurvePoint{
				{Flow: flow("0 L/min"), Head: head("8.2 m"), HeadRequired: head("0.8 m")},
				{Flow: flow("40 L/min"), Head: head("7.7 m"), HeadRequired: head("0.9 m")},
				{Flow: flow("80 L/min"), Head: head("6.4 m"), HeadRequired: head("1.2 m")},
				{Flow: flow("120 L/min"), Head: head("4.3 m"), HeadRequired: head("1.8 m")},
				{Flow: flow("160 L/min"), Head: head("1.4 m"), HeadRequired: head("2.7 m")},
			},
		},
		Delivery: Delivery{
			Pieces: []Piece{
				{Kind: Straight, Name: "riser", In: clamp, Fit: true},
				{Kind: Bend},
				{Kind: Straight, Name: "to the bottling tank", Length: length("1.2 m")},
			},
			Height: length("2.1 m"),
		},
		Liquid: Liquid{
			Kind:        "fermented",
			Strength:    q.MustParse[q.Strength]("3 %"),
			Alcohol:     q.MustParse[q.Fraction]("6.5 %"),
			Temperature: q.MustParse[q.Temperature]("12 °C"),
		},
	}
}

func length(s string) q.Entered[q.Length] { return q.MustParse[q.Length](s) }
func angle(s string) q.Entered[q.Angle]   { return q.MustParse[q.Angle](s) }
func fall(s string) q.Entered[q.Slope]    { return q.MustParse[q.Slope](s) }
func flow(s string) q.Entered[q.Flow]     { return q.MustParse[q.Flow](s) }
func head(s string) q.Entered[q.Head]     { return q.MustParse[q.Head](s) }
