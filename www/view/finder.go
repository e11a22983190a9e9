package view

import (
	"strconv"

	"drawoff/pipeline/markup"
)

// finderFields are the wishes of a run that is to be found.
var finderFields = []field{
	{"size", "Tube", "the pump inlet's if left empty"},
	{"other", "Or this tube", "tried as well"},
	{"joints", "Joints at bends", "the first two are tried if left empty"},
	{"valve", "Butterfly valve", ""},
	{"straight", "Straight between bends", "at least, for the weld head; one tube diameter if left empty"},
	{"longest", "Longest piece", "between unions, to strip and carry"},
	{"fall", "Laid to fall", "1:80, 1 %"},
	{"enters", "Into the next vessel", "a run to the outflow"},
	{"faces", "Its inlet faces", "from the side: 0° is towards the tank"},
	{"room", "Free round the tube", ""},
}

var keepOutFields = []field{
	{"name", "Name", "the wall, a brace"},
	{"away", "Near side from tank axis", "towards the pump; minus: behind"},
	{"aside", "Right side to the left", "seen from the tank; minus: right"},
	{"above", "Underside over floor", ""},
	{"long", "Long", "away from the tank"},
	{"wide", "Wide", "across that"},
	{"high", "High", ""},
}

// finder is what a run is sought by: what stands in the way, and the wishes.
func (f *form) finder() {
	f.El("p", "Drawoff looks for the runs from the tank to the pump, and from there to where the liquid comes out, with bends of 90° and 45°, round what you mark here.", "class", "hint")
	f.El("h4", "In the way")
	f.Open("ul", "class", "cleaning")
	n := len(f.bench.Design.KeepOuts)
	for i := range n {
		row := "keepOuts." + strconv.Itoa(i)
		f.Open("li", "data-keep", row)
		f.fields(row+".", keepOutFields)
		f.button("remove", row, "×", "Take out what is in the way, "+strconv.Itoa(i+1), false)
		f.Close("li")
	}
	f.Close("ul")
	f.Open("button", "type", "button", "data-op", "add", "data-path", "keepOuts."+strconv.Itoa(n))
	f.Text("Add something in the way")
	f.Close("button")
	f.El("h4", "Wishes")
	f.fields("finder.", finderFields)
	if f.bench.Report.Scene.Layout.Gravity {
		f.find("tank", "Find runs to the outflow")
		return
	}
	f.find("tank", "Find runs to the pump")
	f.find("pump", "Find runs from the pump")
}

// find is a button that has runs found, from the tank or from the pump.
func (f *form) find(from, label string) {
	f.Open("button", "type", "button", "data-from", from, "disabled", markup.If(len(f.bench.Report.Faults) > 0, markup.Empty))
	f.Text(label)
	f.Close("button")
}
