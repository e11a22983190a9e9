// Package asjson writes a report as JSON, the same bytes in the terminal, on
// the page and from the edge worker.
//
// It writes what encoding/json would, which the modules for the browser are
// too small for, by the same tags.
package asjson

import (
	"drawoff/pipeline"
	"drawoff/pipeline/clean"
	"drawoff/pipeline/holdup"
	"drawoff/pipeline/stand"
	"drawoff/pipeline/vent"
)

// Version is the version of the report's JSON, its first member. It goes up
// when a member is taken away or comes to mean something else, not when one is
// added.
const Version = 1

// whole is a report with what is worked out only when it is asked for.
type whole struct {
	Version int `json:"drawoff"`
	pipeline.Report
	Transfer  pipeline.Transfer `json:"transfer,omitzero"`
	Stability stand.Stability   `json:"stability,omitzero"`
	Work      pipeline.Work     `json:"work,omitzero"`
	Stays     holdup.Result     `json:"stays,omitzero"`
	Wash      clean.Result      `json:"wash,omitzero"`
	Breathing vent.Result       `json:"breathing,omitzero"`
}

// Report returns everything that Drawoff has to say about the design that r
// was made from, with work, what there is to do on the bench with what is on
// the shelf. It is on one line, without a newline at its end, and takes longer
// than the check itself.
func Report(r pipeline.Report, work pipeline.Work) []byte {
	return Append(nil, whole{Version, r, r.Transfer(), r.Stability(), work, r.Stays(), r.Wash(), r.Breathing()})
}

// Indent returns JSON that was written on one line with a line for each
// member and item, ending in a newline.
func Indent(compact []byte) []byte {
	const step = "  "
	out := make([]byte, 0, 2*len(compact))
	level := 0
	line := func() {
		out = append(out, '\n')
		for range level {
			out = append(out, step...)
		}
	}
	for i := 0; i < len(compact); i++ {
		switch c := compact[i]; c {
		case '"':
			from := i
			for i++; compact[i] != '"'; i++ {
				if compact[i] == '\\' {
					i++
				}
			}
			out = append(out, compact[from:i+1]...)
		case '{', '[':
			out = append(out, c)
			if compact[i+1] == c+2 { // the closing bracket stands two after the opening one in ASCII
				i++
				out = append(out, c+2)
				break
			}
			level++
			line()
		case '}', ']':
			level--
			line()
			out = append(out, c)
		case ',':
			out = append(out, c)
			line()
		case ':':
			out = append(out, ':', ' ')
		default:
			out = append(out, c)
		}
	}
	return append(out, '\n')
}
