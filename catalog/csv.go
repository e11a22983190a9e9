package catalog

import (
	"math"
	"strconv"
	"strings"

	q "drawoff/pipeline/quantity"
)

// sheet is one CSV file of the catalogue, read whole.
type sheet struct {
	file    string
	columns []string
	rows    []row
}

// row is one line of a sheet; its methods read the cell of a named column. A
// cell that cannot be read is a mistake in this package, so they panic.
type row struct {
	sheet *sheet
	line  int
	cells []string
}

// read parses a sheet, whose first line names its columns.
func read(file, text string) []row {
	s := &sheet{file: file}
	for line, n := "", 1; text != ""; n++ {
		line, text, _ = strings.Cut(text, "\n")
		cells, ok := split(line, len(s.columns))
		switch {
		case !ok || n > 1 && len(cells) != len(s.columns):
			panic("catalog: " + file + " line " + strconv.Itoa(n) + ": not a row of this table")
		case n == 1:
			s.columns = cells
		default:
			s.rows = append(s.rows, row{s, n, cells})
		}
	}
	return s.rows
}

// split parts one line into its cells, about n of them. A cell may stand in
// quotes, inside which a quote is written twice (RFC 4180); none holds a line
// break. encoding/csv reads more than our own tables need, and a phone would
// have to fetch it.
func split(line string, n int) (cells []string, ok bool) {
	cells = make([]string, 0, n)
	for {
		cell, rest, more := strings.Cut(line, ",")
		if strings.HasPrefix(line, `"`) {
			end := 1
			for {
				i := strings.IndexByte(line[end:], '"')
				if i < 0 {
					return nil, false
				}
				end += i + 1
				if !strings.HasPrefix(line[end:], `"`) {
					break
				}
				end++
			}
			cell = strings.ReplaceAll(line[1:end-1], `""`, `"`)
			rest, more = strings.CutPrefix(line[end:], ",")
			if !more && rest != "" {
				return nil, false
			}
		} else if strings.Contains(cell, `"`) {
			return nil, false
		}
		cells = append(cells, cell)
		if !more {
			return cells, true
		}
		line = rest
	}
}

func (r row) fail(column, what string) {
	panic("catalog: " + r.sheet.file + " line " + strconv.Itoa(r.line) + ", " + column + ": " + what)
}

func (r row) text(column string) string {
	for i, c := range r.sheet.columns {
		if c == column {
			return r.cells[i]
		}
	}
	r.fail(column, "no such column")
	return ""
}

// words returns a cell that lists names with spaces between them.
func (r row) words(column string) []string { return strings.Fields(r.text(column)) }

// number returns a number, NaN for an empty cell.
func (r row) number(column string) float64 {
	text := r.text(column)
	if text == "" {
		return math.NaN()
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		r.fail(column, "not a number: "+text)
	}
	return v
}

// mm returns a length given in millimetres, 0 for an empty cell.
func (r row) mm(column string) q.Length {
	v := r.number(column)
	if math.IsNaN(v) {
		return 0
	}
	return q.Mm(v)
}

// celsius returns a temperature given in °C, 0 K for an empty cell.
func (r row) celsius(column string) q.Temperature {
	v := r.number(column)
	if math.IsNaN(v) {
		return 0
	}
	return q.Celsius(v)
}

func (r row) trust(column string) Trust {
	switch t := Trust(r.text(column)); t {
	case Standard, Memory, Derived, Custom, Unknown:
		return t
	}
	r.fail(column, "no such trust: "+r.text(column))
	return ""
}
