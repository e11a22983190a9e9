package catalog

import (
	"encoding/csv"
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
	records, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		panic("catalog: " + file + ": " + err.Error())
	}
	s := &sheet{file: file, columns: records[0], rows: make([]row, 0, len(records))}
	for i, cells := range records[1:] {
		s.rows = append(s.rows, row{s, i + 2, cells})
	}
	return s.rows
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

func (r row) trust(column string) Trust {
	switch t := Trust(r.text(column)); t {
	case Standard, Memory, Derived, Custom, Unknown:
		return t
	}
	r.fail(column, "no such trust: "+r.text(column))
	return ""
}
