package view

import (
	"strconv"
	"strings"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
)

// cleaning lists what the line is cleaned with, which its seals must stand.
func (f *form) cleaning(b Bench) {
	list := b.Design.Cleaning
	f.El("h4", "Cleaned with")
	if len(list) == 0 {
		f.El("p", "If nothing is added: "+cleanedWith(design.UsualCleaning())+". Its seals are held against that.", "class", "hint")
	}
	f.Open("ul", "class", "cleaning")
	for i := range list {
		row := "cleaning." + strconv.Itoa(i)
		f.Open("li")
		f.fields(row+".", []field{{"agent", "Agent", ""}, {"temperature", "Temperature", ""}})
		f.button("remove", row, "×", "Take out what it is cleaned with, "+strconv.Itoa(i+1), false)
		f.Close("li")
	}
	f.Close("ul")
	f.Open("div", "class", "adder")
	f.Open("select", "data-add", "cleaning."+strconv.Itoa(len(list)), "aria-label", "Add what it is cleaned with")
	f.option("", "Add what it is cleaned with…", true)
	for _, c := range design.Agents() {
		f.option(c.Slug, c.Name, false)
	}
	f.Close("select")
	f.Close("div")
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
