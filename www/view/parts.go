package view

import (
	"slices"
	"strconv"

	"drawoff/pipeline/finding"
	"drawoff/pipeline/markup"
)

// Part is a part of the page that folds. Its title stands there folded, too,
// and beside it the answer in a line: its gist.
type Part struct {
	ID, Title string
	Wide      bool // it scrolls sideways by itself
	Quick     bool // one of Regions fills it; what Write writes stands below that

	// Write is for the workshop: it takes longer than a keystroke. Of one that
	// has none package paper writes the content.
	Write func(Bench) (gist, content string)
}

// Gist is the id of the element that Write's gist fills.
func (p Part) Gist() string { return p.ID + "-gist" }

// Region is the id of the element that Write's content fills.
func (p Part) Region() string { return p.ID + markup.If(p.Quick, "-later") }

// Chapter is a few parts that are about one thing.
type Chapter struct {
	Name  string
	Parts []Part
}

// Chapters are all parts that fold, in the order of the job.
var Chapters = [...]Chapter{
	{"The line", []Part{
		{ID: "pieces", Title: "Piece by piece", Wide: true, Quick: true, Write: inShort},
		{ID: "isometric", Title: "Pipe drawing", Wide: true, Write: Isometric},
		{ID: "runs", Title: "Runs found", Write: Runs},
	}},
	{"Flow and emptying", []Part{
		{ID: "suction", Title: "Suction head", Write: Suction},
		{ID: "emptying", Title: "Emptying the tank", Write: Emptying},
		{ID: "stays", Title: "What stays behind", Write: Stays},
	}},
	{"The stand", []Part{
		{ID: "heights", Title: "Height of the stand", Write: Heights},
		{ID: "stability", Title: "How it stands", Write: Stability},
	}},
	{"Washing and air", []Part{
		{ID: "wash", Title: "Cleaning in place", Write: Wash},
		{ID: "breathing", Title: "Breathing", Write: Breathing},
	}},
	{"Before you order", []Part{
		{ID: "doubts", Title: "To measure", Quick: true, Write: toMeasure},
		{ID: "assumed", Title: "Assumed", Write: Assumed},
	}},
	{"Buy, saw and weld", []Part{
		{ID: "parts", Title: "To buy", Write: Buy},
		{ID: "cuts", Title: "To saw", Wide: true, Write: Cuts},
		{ID: "welds", Title: "To weld", Write: Welds},
		{ID: "files", Title: "Templates and files", Write: Files},
	}},
	{"Try and look closer", []Part{
		{ID: "whatif", Title: "What if", Write: WhatIf},
		{ID: "compare", Title: "Compare", Write: Compare},
		{ID: "figures", Title: "Figures and working", Quick: true, Write: LaterFigures},
	}},
	{"Keep and share", []Part{
		{ID: "shelf", Title: "Your shelf", Quick: true, Write: onShelf},
		{ID: "share", Title: "Share"},
	}},
}

// Parts are those of all chapters.
func Parts() (all []Part) {
	for _, c := range Chapters {
		all = append(all, c.Parts...)
	}
	return all
}

// gist writes an answer in a line, marked with what the gravest verdict of
// these rules says where that is not sound.
func (b Bench) gist(words string, rules ...string) string {
	level := finding.Sound
	for _, v := range b.Report.Verdicts {
		if slices.Contains(rules, v.Rule) {
			level = max(level, v.Level)
		}
	}
	return badged(level, words)
}

// badged marks words with a level that is not sound.
func badged(level finding.Level, words string) string {
	var h html
	if level != finding.Sound {
		h.badge(level)
		h.Text(" ")
	}
	h.Text(words)
	return h.String()
}

// told is what the figure called slug comes to, after lead; "" where there is none.
func told(figures []finding.Figure, lead, slug string) string {
	for _, f := range figures {
		if f.Slug == slug {
			return lead + amount(f)
		}
	}
	return ""
}

// What the workshop tells in short of parts that the page's module fills.

func inShort(b Bench) (gist, content string) {
	f, level := b.Report.Figures, finding.Sound
	for _, p := range b.Report.Pieces {
		level = max(level, p.Level)
	}
	return badged(level, count(len(b.Report.Pieces), "piece", "pieces")+told(f, "; ", "flow-full")+told(f, " full, ", "flow-lowest")+" at the lowest level"), ""
}

func toMeasure(b Bench) (gist, content string) {
	doubtful := b.Report.Doubtful()
	if len(doubtful) == 0 {
		return "no length is in doubt", ""
	}
	return b.gist(count(len(doubtful), "length", "lengths") + " in doubt; the first to measure: " + doubtful[0].Name()), ""
}

func onShelf(b Bench) (gist, content string) {
	if n := b.Shelf.Size(); n > 0 {
		return "what you measured, made and have in hand: " + strconv.Itoa(n), ""
	}
	return "nothing on it yet", ""
}
