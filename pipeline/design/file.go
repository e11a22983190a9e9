package design

import (
	"bytes"
	"strconv"
	"strings"
)

// fileVersion is the version of the file format written here, the first
// member of every file. It goes up when a file could no longer be read right
// by an older Drawoff, not when a member is added.
const fileVersion = 1

// ReadFile reads a design from JSON. All faults are found, each with its
// field and line; a member that is not in the format is a fault. The design
// is validated. Input over MaxFile bytes or nested too deep is refused.
// With faults, the design holds what could be read.
func ReadFile(data []byte) (Design, Faults) {
	if len(data) > MaxFile {
		return Design{}, Faults{{What: "the file is larger than a design file may be, 1 MB", Hint: "check that it is the right file"}}
	}
	data = bytes.TrimPrefix(data, []byte("\uFEFF"))
	if len(bytes.TrimSpace(data)) == 0 {
		return Design{}, Faults{{Line: 1, What: "the file is empty", Hint: `a design begins with {"drawoff": 1, "tank": {`}}
	}
	var d Design
	dec := decode(&d, string(data), true, nil)
	return d, dec.complete(d)
}

// complete adds what Validate finds in d, with lines, to what was wrong with
// the text. A field that could not be read is not also reported as missing.
func (dec *decoder) complete(d Design) Faults {
	if dec.broken {
		return dec.faults
	}
	unread := make(map[string]bool, len(dec.faults))
	for _, f := range dec.faults {
		unread[f.Field] = true
	}
	faults := dec.faults
	for _, f := range d.Validate() {
		if covered(unread, f.Field) {
			continue
		}
		if dec.files {
			f.Line = dec.lineFor(f.Field)
		}
		faults = append(faults, f)
	}
	if len(faults) > maxFaults {
		faults = faults[:maxFaults]
	}
	return faults
}

// covered reports whether path or a group it is in could not be read.
func covered(unread map[string]bool, path string) bool {
	for path != "" {
		if unread[path] {
			return true
		}
		path = parent(path)
	}
	return false
}

// lineFor returns the line of path, or of the nearest group that was there.
func (dec *decoder) lineFor(path string) int {
	for path != "" {
		if line, ok := dec.lineOf[path]; ok {
			return line
		}
		path = parent(path)
	}
	return 1
}

func parent(path string) string { return path[:max(0, strings.LastIndexByte(path, '.'))] }

// WriteFile returns d as indented JSON, empty fields left out, ending in a newline.
func WriteFile(d Design) []byte {
	w := writer{step: "  "}
	w.b = append(w.b, "{\n  \"drawoff\": "...)
	w.b = strconv.AppendInt(w.b, fileVersion, 10)
	w.members(&d, 1, false)
	return append(w.b, "\n}\n"...)
}
