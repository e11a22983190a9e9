package design

import q "drawoff/pipeline/quantity"

// Example is a plant to open and look at.
type Example struct {
	Slug   string // of its file
	Name   string // in a list
	Design Design
}

// Examples returns the plants that stand beside the demo, the demo first. The
// works, their liquids' figures and the pumps' points are invented. Nothing
// but what writes files calls it, so that the module carries the demo alone.
func Examples() []Example {
	return []Example{
		{"perry", "Farm perry to the bottling tank", Demo()},
		{"whey", "Hot: whey at 72 °C to a plate cooler", whey()},
		{"settling", "Gravity: settling tank to a bucket and a lower tank", settling()},
		{"puree", "Thick: apple purée by lobe pump", puree()},
	}
}

// whey is hot: its vapour takes a third of the air's pressure from the suction.
func whey() Design {
	const (
		tube  = "bs-4825/2in"
		clamp = "clamp/ferrule"
	)
	return Design{
		Title: "Hot whey, holding tank to the plate cooler",
		Note:  "Whey at 72 °C and cleaning liquor scald: shut, vent and cool the line before a joint is opened.",
		Tank: Tank{
			Bore: length("1400 mm"), Height: length("1300 mm"), Bottom: "klopper",
			Outlet: Outlet{Size: tube, End: clamp},
		},
		Under: []Piece{
			{Kind: Butterfly, In: clamp, Out: clamp},
			{Kind: Bend, Shape: "long", In: clamp, Out: clamp},
		},
		Stand: Stand{Height: length("690 mm"), Legs: 4},
		Run: []Piece{
			{Kind: Straight, Name: "to the pump", In: clamp, Fit: true, Fall: fall("1:80")},
			{Kind: Bend, Turn: angle("180°")},
			{Kind: Straight, Fit: true},
			{Kind: Bend},
			{Kind: Straight, Length: length("250 mm"), Fall: fall("1:80"), Out: clamp},
		},
		Pump: Pump{
			Kind: Centrifugal, Away: length("2.4 m"), Height: length("180 mm"),
			InSize: tube, InEnd: clamp, OutSize: "bs-4825/1.5in", OutUp: length("130 mm"),
			Curve: []CurvePoint{
				{Flow: flow("0 m³/h"), Head: head("16 m"), HeadRequired: head("0.8 m")},
				{Flow: flow("3 m³/h"), Head: head("15.4 m"), HeadRequired: head("1 m")},
				{Flow: flow("6 m³/h"), Head: head("13.8 m"), HeadRequired: head("1.4 m")},
				{Flow: flow("9 m³/h"), Head: head("11 m"), HeadRequired: head("2.1 m")},
				{Flow: flow("12 m³/h"), Head: head("7 m"), HeadRequired: head("3.2 m")},
			},
		},
		Delivery: Delivery{
			Pieces: []Piece{
				{Kind: Straight, Name: "riser", In: clamp, Fit: true},
				{Kind: Bend, Out: clamp},
				{Kind: Device, Name: "plate cooler", In: clamp, Out: clamp, Length: length("400 mm"), Drops: []DropPoint{
					{Flow: flow("3 m³/h"), Drop: q.MustParse[q.Pressure]("0.12 bar")},
					{Flow: flow("6 m³/h"), Drop: q.MustParse[q.Pressure]("0.45 bar")},
					{Flow: flow("10 m³/h"), Drop: q.MustParse[q.Pressure]("1.2 bar")},
				}},
				{Kind: Straight, Name: "to the cheese cellar", In: clamp, Length: length("2 m"), Fall: fall("1:80")},
			},
			Height: length("1.6 m"),
			Flow:   flow("7 m³/h"),
		},
		Liquid:   Liquid{Kind: "whey", Temperature: q.MustParse[q.Temperature]("72 °C")},
		Cleaning: []Cleaning{{Agent: "water"}, {Agent: "caustic"}, {Agent: "water"}, {Agent: "nitric"}, {Agent: "water"}, {Agent: "hot-water"}},
	}
}

// settling runs by gravity: off the sediment through the side, to a bucket
// under the tee or on to a lower tank.
func settling() Design {
	const (
		tube = "bs-4825/1.5in"
		male = "ring-joint/male"
		line = "ring-joint/liner"
	)
	return Design{
		Title: "Settling tank, by gravity to a bucket and a lower tank",
		Tank: Tank{
			Bore: length("800 mm"), Height: length("900 mm"), Bottom: "flat", Lowest: length("40 mm"),
			Outlet: Outlet{Place: "side", Above: length("120 mm"), Size: tube, End: male},
		},
		Under: []Piece{
			{Kind: Butterfly, In: line, Out: male},
			{Kind: Tee, Name: "to the bucket", Third: "valve", Turn: angle("180°"), In: line, Out: male},
		},
		Stand: Stand{Height: length("900 mm"), Bucket: length("400 mm"), Legs: 4},
		Run: []Piece{
			{Kind: Straight, Name: "to the lower tank", In: line, Fit: true, Fall: fall("1:60")},
			{Kind: Bend, Turn: angle("180°")},
			{Kind: Straight, Name: "down", Fit: true},
		},
		Pump:     Pump{Kind: NoPump},
		Delivery: Delivery{Height: length("500 mm"), Away: length("2.2 m")},
		Liquid: Liquid{
			Kind: "sugar", Strength: q.MustParse[q.Strength]("12 °Bx"),
			Temperature: q.MustParse[q.Temperature]("8 °C"),
		},
		Cleaning: []Cleaning{{Agent: "water"}, {Agent: "caustic"}, {Agent: "water"}},
	}
}

// puree is thick: it asks for a wide, short line and a pump that pushes.
func puree() Design {
	const (
		tube  = "bs-4825/3in"
		clamp = "clamp/ferrule"
	)
	return Design{
		Title: "Apple purée, cone tank to the filler by lobe pump",
		Tank: Tank{
			Bore: length("1000 mm"), Height: length("1000 mm"), Bottom: "cone", ConeAngle: angle("60°"),
			Lowest: length("100 mm"),
			Outlet: Outlet{Size: tube, End: clamp},
		},
		Under: []Piece{
			{Kind: Butterfly, In: clamp, Out: clamp},
			{Kind: Bend, Shape: "long", In: clamp, Out: clamp},
		},
		Stand: Stand{Legs: 4}, // as high as the fall to the pump wants it
		Run: []Piece{
			{Kind: Straight, Name: "to the pump", In: clamp, Fit: true, Fall: fall("1:40"), Out: clamp},
		},
		Pump: Pump{
			Kind: Lobe, Away: length("1.2 m"), Height: length("400 mm"),
			InSize: tube, InEnd: clamp, OutSize: "bs-4825/2in", OutUp: length("160 mm"),
			Rated: q.MustParse[q.Rotation]("200 rpm"),
			Slip: []SlipPoint{
				{Pressure: q.MustParse[q.Pressure]("0 bar"), Flow: flow("60 L/min"), HeadRequired: head("2 m")},
				{Pressure: q.MustParse[q.Pressure]("3 bar"), Flow: flow("52 L/min"), HeadRequired: head("2 m")},
				{Pressure: q.MustParse[q.Pressure]("6 bar"), Flow: flow("44 L/min"), HeadRequired: head("2 m")},
			},
			Relief: q.MustParse[q.Pressure]("6 bar"),
		},
		Delivery: Delivery{
			Pieces: []Piece{
				{Kind: Straight, Name: "riser", In: clamp, Fit: true},
				{Kind: Bend},
				{Kind: Straight, Name: "to the filler", Length: length("1.5 m"), Fall: fall("1:40")},
			},
			Height: length("1.7 m"),
		},
		Liquid: Liquid{
			Kind: PowerLaw, Density: q.MustParse[q.Density]("1050 kg/m³"),
			Consistency: q.MustParse[q.Consistency]("11.6 Pa·s^n"), Index: q.MustParse[q.Number]("0.34"),
			Medium: "sugar", Temperature: q.MustParse[q.Temperature]("25 °C"),
		},
	}
}
