package workfile

import (
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"drawoff/catalog"
	"drawoff/pipeline"
	"drawoff/pipeline/order"
	q "drawoff/pipeline/quantity"
)

// The lists that can be had as files for a spreadsheet.
const (
	PartsList = "parts.csv"
	CutList   = "cuts.csv"
	WeldList  = "welds.csv"
)

// Lists are the names of all of them.
var Lists = [...]string{PartsList, CutList, WeldList}

// List returns the list called name as a file: CSV as RFC 4180 has it, UTF-8
// with the mark before it that spreadsheets know it by.
func List(r pipeline.Report, w pipeline.Work, name string) (File, bool) {
	rows := listed(r, w, name)
	if len(rows) < 2 {
		return File{}, false
	}
	var b strings.Builder
	b.WriteString("\ufeff")
	for _, row := range rows {
		for i, cell := range row {
			if i > 0 {
				b.WriteByte(',')
			}
			b.WriteString(quoted(calm(cell)))
		}
		b.WriteString("\r\n")
	}
	return File{Name: name, Type: "text/csv", Content: b.String()}, true
}

// Cells returns the list called name for the clipboard: a line for each row,
// tabs between its cells, which is what spreadsheets take.
func Cells(r pipeline.Report, w pipeline.Work, name string) string {
	var b strings.Builder
	for _, row := range listed(r, w, name) {
		for i, cell := range row {
			if i > 0 {
				b.WriteByte('\t')
			}
			b.WriteString(strings.NewReplacer("\t", " ", "\r", " ", "\n", " ").Replace(calm(cell)))
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// calm takes the sting out of a cell that a spreadsheet would take for a
// formula, by an apostrophe before it: what somebody named a part must not run
// on the machine of whoever opens the list. The signs are those of OWASP's
// page on CSV injection, from memory, and their wide forms.
func calm(cell string) string {
	if first, _ := utf8.DecodeRuneInString(strings.TrimLeft(cell, " \u00a0")); strings.ContainsRune("=+-@\t\r\n＝＋－＠", first) {
		return "'" + cell
	}
	return cell
}

// quoted writes a cell as RFC 4180 wants it.
func quoted(cell string) string {
	if !strings.ContainsAny(cell, ",\"\r\n") {
		return cell
	}
	return `"` + strings.ReplaceAll(cell, `"`, `""`) + `"`
}

// listed returns a list as rows of cells, the first its columns.
func listed(r pipeline.Report, w pipeline.Work, name string) [][]string {
	switch name {
	case PartsList:
		return parts(w)
	case CutList:
		return cuts(r, w)
	case WeldList:
		return welds(r, w)
	}
	return nil
}

func parts(w pipeline.Work) [][]string {
	rows := [][]string{{"Part", "Slug", "For the plant", "Spare", "In hand", "To buy", "Unit", "Price", "Cost", "Currency", "From", "Note", "Not a stock size", "Would do instead", "How far to be trusted"}}
	for _, p := range w.Buy {
		price, cost := "", ""
		if p.Price > 0 {
			price, cost = number(p.Price), number(p.Cost())
		}
		rows = append(rows, []string{p.Name, p.Slug, number(p.Quantity), number(p.Spare), number(p.Shelf), number(p.Buy), p.Unit, price, cost, w.Currency, p.From, p.Note, p.Odd, strings.Join(p.Instead, " "), string(p.Trust)})
	}
	return rows
}

func cuts(r pipeline.Report, w pipeline.Work) [][]string {
	unit := "mm"
	if q.InInches() {
		unit = "in"
	}
	rows := [][]string{{"Tube", "Length no.", "Sawn from", "Mark", "Piece", "From, " + unit, "Length, " + unit, "Either way, " + unit, "Left of the length"}}
	for _, s := range w.Saw {
		for i, b := range s.Plan.Bars {
			for k, c := range b.Cuts {
				left := ""
				if k == len(b.Cuts)-1 {
					left = b.Rest()
				}
				piece := s.Pieces[c.Piece]
				rows = append(rows, []string{s.Name, strconv.Itoa(i + 1), b.Name(), s.Marks[c.Piece], atPiece(r, piece.Ref, piece.Name), bare(c.From), bare(c.Length), bare(piece.Either), left})
			}
		}
		for _, i := range s.Plan.TooLong {
			rows = append(rows, []string{s.Name, "", "longer than any length there is", s.Marks[i], atPiece(r, s.Pieces[i].Ref, s.Pieces[i].Name), "", bare(s.Pieces[i].Length), bare(s.Pieces[i].Either), ""})
		}
	}
	return rows
}

func welds(r pipeline.Report, w pipeline.Work) [][]string {
	volume, of := "L", func(v q.Volume) string { return hundredths(v.Litres()) }
	flow := number(w.Purge.Flow.LitresPerMinute())
	if unit := q.KindVolume.Unit(q.Shown()); strings.HasSuffix(unit, "gal") {
		volume = unit
		of = func(v q.Volume) string { return strconv.FormatFloat(q.Of(v).In(q.Shown()), 'f', 3, 64) }
		flow = of(q.Volume(float64(w.Purge.Flow) * 60)) // of a minute
	}
	rows := [][]string{{"No.", "Spool", "Where", "Weld", "Tube", "Within the spool, " + volume, "Argon before it, " + volume, "Purge before it, s", "Argon, " + volume + "/min"}}
	for _, weld := range w.Welds {
		tube := weld.Tube
		if t, ok := catalog.FindTube(tube); ok {
			tube = t.Name
		}
		where := atPiece(r, weld.Ref, "")
		if weld.Ref == order.Outlet {
			where = "tank outlet"
		}
		for _, s := range w.Purge.Spools {
			if slices.Contains(s.Welds, weld.Number) {
				rows = append(rows, []string{weld.Mark(), s.Name(), where, weld.Kind, tube, of(s.Volume), of(s.Argon), number(float64(int(s.Time + 1))), flow})
			}
		}
	}
	return rows
}

// atPiece says what is at ref as the drawing numbers it, or else what it is called.
func atPiece(r pipeline.Report, ref, otherwise string) string {
	for _, p := range r.Pieces {
		if p.Ref == ref {
			what := p.Label
			if p.Name != "" {
				what = p.Name + ": " + what
			}
			return strconv.Itoa(p.Number) + ". " + what
		}
	}
	if otherwise == "" {
		return ref
	}
	return otherwise
}

func number(x float64) string     { return strconv.FormatFloat(x, 'f', -1, 64) }
func hundredths(x float64) string { return strconv.FormatFloat(x, 'f', 2, 64) }

// bare writes l for a column: millimetres, or inches in decimals, which a
// spreadsheet adds up.
func bare(l q.Length) string {
	if q.InInches() {
		return strconv.FormatFloat(float64(l/q.Inch), 'f', 3, 64)
	}
	return strconv.FormatFloat(l.Millimetres(), 'f', 1, 64)
}
