package paper

import (
	"strconv"
	"strings"

	"rsc.io/qr/coding"

	"drawoff/pipeline/design"
)

const (
	// square is the side of one square of a code on paper, in the browser's
	// pixels of 1/96 in: 0.46 mm. The GS1 General Specifications ask for
	// 0.396 mm at least and 0.495 as a rule for what is scanned by hand; from memory.
	square = 1.75
	// quiet is the margin around a code, in squares: ISO/IEC 18004 asks for 4.
	quiet = 4
	// densest is the largest version of code that is printed: 117 squares a
	// side, with its margin 58 mm. Common practice, no source.
	densest = 25
	// longest is the longest link that is printed as text: nobody types more.
	longest = 2000
)

// opener is what opens the design, for the foot of a sheet: the link as a code
// and as text, and where it is too long for either, that it is.
func opener(address string) string {
	var h html
	if code, ok := codeOf(address); ok {
		h.code(code)
		h.El("p", "Point a phone at the code to open this design, or type the link:")
	} else {
		h.El("p", "This design makes a link of "+strconv.Itoa(len(address))+" characters: too long for a code that a phone reads from paper, which holds "+strconv.Itoa(most)+" at most. Keep its file with the sheets: Save file, on the page.")
	}
	if len(address) <= longest && len(address) <= design.MaxLink {
		h.El("p", address, "class", "address")
	}
	if strings.Contains(address, "//127.0.0.1") || strings.Contains(address, "//localhost") {
		h.El("p", "This Drawoff runs on one machine, and only there does the link open.")
	}
	return h.String()
}

// most is how many characters a printed code holds at most.
var most = (coding.Version(densest).DataBytes(coding.L)*8 - 4 - 16) / 8

// codeOf returns text as a QR code with as much redundancy as there is room
// for: level M, or L where M would be too dense. It is false where L is.
func codeOf(text string) (*coding.Code, bool) {
	s := coding.String(text)
	for _, level := range []coding.Level{coding.M, coding.L} {
		for v := coding.Version(coding.MinVersion); v <= densest; v++ {
			if s.Bits(v) > v.DataBytes(level)*8 {
				continue
			}
			plan, err := coding.NewPlan(v, level, 0)
			if err != nil {
				return nil, false
			}
			code, err := plan.Encode(s)
			return code, err == nil
		}
	}
	return nil, false
}

// code draws a QR code, a bar for each run of black squares.
func (h *html) code(c *coding.Code) {
	size := strconv.FormatFloat(square*float64(c.Size+2*quiet), 'f', -1, 64)
	side := strconv.Itoa(c.Size + 2*quiet)
	h.Open("svg", "class", "code", "width", size, "height", size, "viewBox", "0 0 "+side+" "+side, "role", "img", "aria-label", "QR code of the link below", "shape-rendering", "crispEdges")
	var path []byte
	for y := range c.Size {
		for x := 0; x < c.Size; x++ {
			if !c.Black(x, y) {
				continue
			}
			from := x
			for x < c.Size && c.Black(x, y) {
				x++
			}
			path = append(path, 'M')
			path = strconv.AppendInt(path, int64(from+quiet), 10)
			path = append(path, ' ')
			path = strconv.AppendInt(path, int64(y+quiet), 10)
			path = append(path, 'h')
			path = strconv.AppendInt(path, int64(x-from), 10)
			path = append(path, "v1h-"...)
			path = strconv.AppendInt(path, int64(x-from), 10)
			path = append(path, 'z')
		}
	}
	h.Void("path", "d", string(path))
	h.Close("svg")
}
