package view

import (
	"strconv"

	"drawoff/pipeline/markup"
)

// Assets are the addresses of what the page loads, relative to it.
type Assets struct {
	Style  string
	Script string
	Glue   string // what starts a Go module, from the Go tree
	Module string

	Starter  string // what starts a module in a thread
	Thread   string // what runs it there
	Workshop string // the module that does what takes longer

	Designs string // the list of designs, fetched when it is asked for

	Icon     string
	Manifest string // what a browser reads to install the page
	Offline  string // what keeps the site for use without a network

	Examples []Example // plants to open

	Catalogue                       string // the page of the catalogue
	CatalogueStyle, CatalogueScript string // what it loads beside the style sheet
}

// partWaits stands where a module will put the content of a part.
const partWaits = `<p class="hint">This comes with the calculator.</p>`

// formWaits stands where the module will put the form.
const formWaits = `<p class="hint">The inputs come with the calculator.</p>`

// Example is a plant to open: its file and what it is called.
type Example struct{ File, Name string }

// Page is the whole page. It is written when the site is built, so that
// it can be read before the module has loaded: glance is what the module will
// write when it knows the later verdicts, whole, with everything that Drawoff finds, what the workshop will. What only works with the module,
// the form, is left to it, and so are the figures with their working: most of
// the page's weight.
func Page(glance, whole Bench, a Assets) string {
	var h html
	b := glance
	h.Raw(`<!doctype html><html lang="en-GB"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1"><meta name="color-scheme" content="light dark"><meta name="description" content="Drawoff: from one description of a tank and the line to its pump, whether it fits, mates, flows, drains and stands, and what to buy and cut."><title>Drawoff</title>`)
	h.Void("link", "rel", "stylesheet", "href", a.Style)
	h.Void("link", "rel", "icon", "href", a.Icon, "type", "image/svg+xml")
	h.Void("link", "rel", "manifest", "href", a.Manifest)
	h.Void("link", "rel", "preload", "href", a.Module, "as", "fetch", "crossorigin", "anonymous")
	h.Raw(`</head><body><a class="skip" href="#form">Skip to the inputs</a>`)
	h.Raw(`<header class="top"><div class="brand"><h1>Drawoff</h1><p>One description of your tank and its line: whether it fits, flows, drains and stands, and what to order.</p></div>`)
	h.Raw(`<div class="bar" role="group" aria-label="This design">` +
		`<button type="button" id="undo" disabled>Undo</button><button type="button" id="redo" disabled>Redo</button>` +
		`<button type="button" id="own-open" disabled>Start my own</button>` +
		`<button type="button" id="more" aria-expanded="false">More</button>` +
		`<button type="button" id="history" disabled aria-haspopup="dialog">History</button>` +
		`<button type="button" id="designs" disabled aria-haspopup="dialog">Designs</button>` +
		`<button type="button" id="copy-link" disabled>Copy link</button>` +
		`<button type="button" id="save-file" disabled>Save file</button>` +
		`<button type="button" id="open-file" disabled>Open file</button><input type="file" id="file" accept=".json,application/json" class="unseen" tabindex="-1" aria-label="Design file to open">` +
		`<button type="button" id="print-sheet">Print</button>` +
		`<select id="units" disabled aria-label="Units shown"><option value="typed">As typed</option><option value="mm">mm, L</option><option value="in">in, gal</option></select>` +
		`<select id="examples" disabled aria-label="Open an example"><option value="">Examples…</option>`)
	for _, e := range a.Examples {
		h.El("option", e.Name, "value", e.File)
	}
	h.Close("select")
	if a.Catalogue != "" {
		h.El("a", "Catalogue", "href", a.Catalogue, "class", "button")
	}
	h.Raw(`</div></header>`)
	h.Raw(`<div id="version" role="status"></div><div id="sent" role="status"></div><div id="keeping" role="alert"></div><noscript><p class="fault">This page works the plant out with a script and a module that run here, in the browser: allow scripts to change anything.</p></noscript>`)
	h.Raw(`<section class="tally-bar" aria-label="In short"><div id="tally">`)
	h.Raw(Tally(b))
	h.Raw(`</div><div id="pending"></div><nav aria-label="On this page"><a href="#form-title">Plant</a> <a href="#answers-title">Answers</a></nav><div id="message" role="status" aria-live="polite"><p class="loading">Starting the calculator; the plant shown is the demo.</p></div></section><main class="desk"><div class="seen">`)
	h.section("drawing", "Side view", Drawing(b))
	h.section("verdicts", "Verdicts", Verdicts(b))
	h.Raw(`</div><section class="inputs" aria-labelledby="form-title"><h2 id="form-title" tabindex="-1">Your plant</h2><form id="form" autocomplete="off" novalidate>`)
	h.Raw(formWaits)
	h.Raw(`</form></section><div class="answers"><h2 id="answers-title" tabindex="-1">All answers</h2>`)
	for i, c := range Chapters {
		id := "chapter-" + strconv.Itoa(i+1)
		h.Open("section", "class", "chapter", "aria-labelledby", id)
		h.El("h3", c.Name, "id", id)
		for _, p := range c.Parts {
			h.part(p, b, whole)
		}
		h.Close("section")
	}
	h.section("cautions", "Take care", Cautions(b))
	h.Raw(`</div><p id="finding" role="status">Looking for runs… <button type="button" id="stop-finding">Stop</button></p>`)
	// One pair for all fields: the script moves it beside the one in use.
	h.Raw(`</main><span id="stepper" hidden><button type="button" tabindex="-1" data-by="-1" aria-label="A step less">−</button><button type="button" tabindex="-1" data-by="1" aria-label="A step more">+</button></span><footer>`)
	h.Raw(`<p>Guidance for people who know their trade, not a certificate. Nothing you type leaves this browser unless you share it.</p></footer>`)
	h.Raw(`<dialog id="history-dialog" aria-labelledby="history-title"><form method="dialog"><h2 id="history-title">What was done</h2><button>Close</button></form><p class="hint">The newest first. Press one to go there; what comes after it stays, until something else is done.</p><ol id="history-list" reversed></ol></dialog>`)
	h.own()
	h.Raw(`<div id="sheets"><p>The sheets are not ready. Close this, wait a moment and print again.</p></div>`)
	h.Open("template", "id", "tubes")
	h.Raw(Tubes())
	h.Close("template")
	h.starter(a)
	h.El("script", "", "src", a.Script, "data-module", a.Module, "data-workshop", a.Workshop, "data-designs", a.Designs, "data-offline", a.Offline)
	h.Raw(`</body></html>`)
	return h.String()
}

// starter has the scripts after it run modules.
func (h *html) starter(a Assets) {
	h.El("script", "", "src", a.Starter, "data-glue", a.Glue, "data-thread", a.Thread)
}

// section is a part of the page that never folds.
func (h *html) section(id, title, content string) {
	h.Open("section", "class", "part "+id, "aria-labelledby", id+"-title")
	h.El("h2", title, "id", id+"-title", "tabindex", "-1")
	h.Open("div", "id", id)
	h.Raw(content)
	h.Close("div")
	h.Close("section")
}

// part writes a part folded, with its gist. Its content comes later, but for
// what is short enough to be read while the module loads.
func (h *html) part(p Part, glance, whole Bench) {
	title, class := p.ID+"-title", markup.If(p.Wide, "scroll")
	h.Open("details", "class", "part "+p.ID, "id", p.ID+"-part")
	h.Open("summary")
	h.El("h4", p.Title, "id", title, "tabindex", "-1")
	h.Open("span", "id", p.Gist(), "class", "gist", "data-shop", "gist")
	if p.Write != nil {
		gist, _ := p.Write(whole)
		h.Raw(gist)
	}
	h.Close("span")
	h.Close("summary")
	h.Open("div", append([]string{"id", p.ID, "class", class, "data-shop", markup.If(!p.Quick, "part")}, scrolls(class, "aria-labelledby", title)...)...)
	h.Raw(atOnce(p, glance))
	h.Close("div")
	if p.Quick {
		h.Open("div", "id", p.Region(), "data-shop", "part")
		h.Close("div")
	}
	h.Close("details")
}

// atOnce is what a part holds before the modules have loaded. The figures with
// their working are most of the page's weight, and wait.
func atOnce(p Part, glance Bench) string {
	for _, r := range Regions {
		if r.ID == p.ID && p.ID != "figures" {
			return r.Write(glance)
		}
	}
	return partWaits
}

// scrolls are the attributes of what scrolls sideways by itself: the keyboard
// gets there, and a screen reader says what it is.
func scrolls(class, how, name string) []string {
	if class != "scroll" {
		return nil
	}
	return []string{"tabindex", "0", "role", "group", how, name}
}

// scroll opens what scrolls sideways by itself, named for whoever comes to it by the keyboard.
func (h *html) scroll(name string) {
	h.Open("div", append([]string{"class", "scroll"}, scrolls("scroll", "aria-label", name)...)...)
}
