package view

import "drawoff/pipeline/draw"

// Isometric is the line as a pipe drawing.
func Isometric(b Bench) string { return draw.Isometric(b.Report, b.Width) }
