package view

import (
	"strconv"
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
)

var (
	stepFields = []field{
		{"agent", "Step", ""},
		{"temperature", "Temperature", ""},
		{"strength", "Strength", ""},
		{"time", "Time", ""},
	}
	washFields = []field{
		{"speed", "Least speed", "in the line's widest bore"},
		{"flow", "Pump for the wash gives", "the plant's own if left empty"},
		{"spray", "Spray ball gives", "35 L/min per metre round the tank if left empty"},
		{"pressure", "Spray ball needs", "over the air's pressure"},
		{"scavenge", "Wash drawn off", "by a pump; by gravity if left empty"},
		{"sump", "Left in the sump", "while it goes round"},
		{"supply", "Water comes at", ""},
		{"element", "Heating element", ""},
		{"rinses", "A rinse displaces", "times what the line holds"},
	}
	ventFields = []field{
		{"bore", "Open vent, bore", "in the tank's lid"},
		{"pressure", "Tank stands", "over or under the air's pressure"},
		{"fill", "Filled at", "as it is drawn off if left empty"},
	}
)

// cleaning lists the steps of the wash, which the seals of the line must stand.
func (f *form) cleaning(b Bench) {
	list := b.Design.Cleaning
	if len(list) == 0 {
		f.El("p", "If nothing is added: "+cleanedWith(design.UsualCleaning())+". The line's seals are held against that.", "class", "hint")
	}
	f.Open("ul", "class", "cleaning")
	for i := range list {
		row := "cleaning." + strconv.Itoa(i)
		f.Open("li")
		a, _ := catalog.FindAgent(list[i].Agent)
		f.fields(row+".", f.without(stepFields, "strength", a.Strength == 0 && list[i].Strength.IsZero()))
		n := strconv.Itoa(i + 1)
		f.Open("div")
		f.button("up", row, "↑", "Move step "+n+" up", i == 0)
		f.button("down", row, "↓", "Move step "+n+" down", i == len(list)-1)
		f.button("remove", row, "×", "Take out step "+n, false)
		f.Close("div")
		f.Close("li")
	}
	f.Close("ul")
	f.Open("div", "class", "adder")
	f.Open("select", "data-add", "cleaning."+strconv.Itoa(len(list)), "aria-label", "Add a step of the wash")
	f.option("", "Add a step of the wash…", true)
	for _, c := range design.Agents() {
		f.option(c.Slug, c.Name, false)
	}
	f.Close("select")
	f.Close("div")
	f.fields("wash.", washFields)
	f.fields("vent.", ventFields)
}

// cleanedWith tells a list of agents in words.
func cleanedWith(list []design.Cleaning) string {
	var words []string
	for _, c := range list {
		name, t := c.Agent, c.Temperature.Value()
		if a, ok := catalog.FindAgent(c.Agent); ok {
			name, t = a.Name, c.Temperature.Or(a.Usual)
		}
		words = append(words, name+", at "+q.Text(t))
	}
	return strings.Join(words, "; ")
}
