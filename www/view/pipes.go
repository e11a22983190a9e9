package view

import "drawoff/pipeline/draw"

// Isometric is the line as a pipe drawing.
func Isometric(b Bench) (gist, content string) {
	f := b.Report.Figures
	gist = told(f, "", "tube-length") + " of tube to cut" + told(f, ", ", "joints") + " joints" + told(f, ", ", "welded-joints") + " of them welded"
	return gist, draw.Isometric(b.Report, b.Width-40) // it stands within the margins of its part
}
