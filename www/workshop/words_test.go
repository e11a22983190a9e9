package workshop_test

import (
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"maps"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	parser "golang.org/x/net/html"
	"golang.org/x/net/html/atom"

	"drawoff/pipeline"
	"drawoff/pipeline/compare"
	"drawoff/pipeline/design"
	"drawoff/pipeline/workfile"
	"drawoff/www/edge"
	"drawoff/www/paper"
	"drawoff/www/view"
)

// mischief is what somebody may put where words go. The formulas begin as
// OWASP's page on CSV injection has them, from memory; the escapes are of ECMA-48.
var mischief = map[string]string{
	"script":        `"><script>alert(1)</script>&amp;`,
	"end of text":   `</title></textarea></style><i>]]><!--`,
	"handler":       `' onerror='a(1)' x="y`,
	"address":       `javascript:alert(1)`,
	"formula, =":    `=HYPERLINK("http://x","y")`,
	"formula, +":    `+1+cmd|' /C x'!A0`,
	"formula, -":    `-2+3`,
	"formula, @":    `@SUM(1,1)`,
	"formula, wide": `＝1+1`,
	"formula, tab":  "\t=1+1",
	"group":         "a\r\n0\r\nLINE\r\n8\r\nCUT",
	"escape":        "\x1b[2J\x1b]0;x\a",
	"eight bit":     "\u009b2J",
	"null":          "a\x00b",
	"string":        `((a) Tj ET (b\`,
	"codes":         `%%d%%200\P{x}`,
}

// calm is words of the same length, with nothing in them.
func calm(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) && r < 0x80 || r == ' ' {
			return r
		}
		return 'x'
	}, s)
}

// leaves returns the place of every field below t that is written as a string
// in JSON, "*" for each item of a list: tank.bore, under.*.name.
func leaves(t reflect.Type, at string) []string {
	switch {
	case t.Kind() == reflect.Pointer:
		return leaves(t.Elem(), at)
	case t.Kind() == reflect.Slice:
		return leaves(t.Elem(), at+".*")
	case t.Kind() == reflect.String, t.PkgPath() == "drawoff/pipeline/quantity":
		return []string{at[1:]}
	case t.Kind() != reflect.Struct:
		return nil // a count or a flag
	}
	var out []string
	for i := range t.NumField() {
		if f := t.Field(i); f.IsExported() {
			name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
			out = append(out, leaves(f.Type, at+"."+name)...)
		}
	}
	return out
}

// put sets the places in v that leaf means and reports whether there is one: of
// a list those items that which chooses. A record that v does not hold is made,
// an item of a list is not.
func put(v any, leaf string, to string, which func([]any) []any) bool {
	name, rest, more := strings.Cut(leaf, ".")
	switch v := v.(type) {
	case []any:
		any := false
		for _, item := range which(v) {
			any = put(item, rest, to, which) || any
		}
		return any
	case map[string]any:
		if !more {
			v[name] = to
			return true
		}
		if v[name] == nil {
			if strings.HasPrefix(rest, "*") {
				return false
			}
			v[name] = map[string]any{}
		}
		return put(v[name], rest, to, which)
	}
	return false
}

// items are what put is tried with: some pieces have no use for a field, and
// take any words there, where others do not.
var items = []func([]any) []any{
	func(all []any) []any { return all },
	func(all []any) []any { return all[:min(1, len(all))] },
	func(all []any) []any { return all[max(0, len(all)-1):] },
}

// with returns a file with words at leaf; ok is false where there is no such place.
func with(t *testing.T, file, leaf, words string, which func([]any) []any) (changed string, ok bool) {
	var v map[string]any
	require.NoError(t, json.Unmarshal([]byte(file), &v))
	ok = put(v, leaf, words, which)
	out, err := json.Marshal(v)
	require.NoError(t, err)
	return string(out), ok
}

// device is a piece that has points of its own.
func device(t *testing.T) design.Piece {
	for _, e := range design.Examples() {
		for _, p := range slices.Concat(e.Design.Under, e.Design.Run, e.Design.Delivery.Pieces) {
			if len(p.Drops) > 0 {
				return p
			}
		}
	}
	require.Fail(t, "no example has a device with its drops")
	return design.Piece{}
}

// plants are designs that between them have everything that a design can have.
func plants(t *testing.T) []string {
	demo, faults := design.Demo().Apply(
		design.Edit{Op: "insert", Path: "keepOuts.0"}, design.Edit{Path: "keepOuts.0.away", Value: "900 mm"},
		design.Edit{Path: "keepOuts.0.long", Value: "100 mm"}, design.Edit{Path: "keepOuts.0.wide", Value: "100 mm"}, design.Edit{Path: "keepOuts.0.high", Value: "1 m"},
		design.Edit{Op: "insert", Path: "cleaning.0"}, design.Edit{Path: "cleaning.0.agent", Value: "water"},
		design.Edit{Op: "insert", Path: "measured.0"}, design.Edit{Path: "measured.0.part", Value: "clamp/1.5in/ferrule/length"}, design.Edit{Path: "measured.0.length", Value: "21.5 mm"},
	)
	require.Empty(t, faults)
	demo.Made = []design.Made{{Name: "what hangs under", Pieces: append(slices.Clone(demo.Under), device(t))}}
	demo.Assumed = []design.Assumption{{Path: "tank.bore"}}
	for _, list := range []*[]design.Piece{&demo.Under, &demo.Run} {
		(*list)[0].Drops = device(t).Drops
	}
	out := []string{string(design.WriteFile(demo))}
	for _, e := range design.Examples() {
		file := string(design.WriteFile(e.Design))
		if e.Design.Pump.Kind == design.NoPump { // what there is not may be called anything
			out = slices.Insert(out, 1, file)
		} else {
			out = append(out, file)
		}
	}
	return out
}

// shelves are one, with everything that a shelf can have.
func shelves(t *testing.T) []string {
	demo := design.Demo()
	s := design.Shelf{Made: []design.Made{{Name: "what hangs under", Pieces: append(slices.Clone(demo.Under), device(t))}}}
	for _, put := range [][2]string{{"items:clamp/1.5in/ferrule:from", "the shop"}, {"rack:bs-4825/1.5in", "1.2 m"}, {"shop.currency", "EUR"}} {
		next, f := s.Put(put[0], put[1])
		require.Nil(t, f, put[0])
		s = next
	}
	s = s.Measure(measurement(t))
	return []string{s.Write()}
}

func measurement(t *testing.T) design.Measurement {
	d, faults := design.ReadFile([]byte(plants(t)[0]))
	require.Empty(t, faults)
	return d.Measured[0]
}

// obeyed returns the first sign of text that a terminal would obey.
func obeyed(text string) string {
	if i := strings.IndexFunc(text, func(r rune) bool { return unicode.IsControl(r) && r != '\n' }); i >= 0 {
		return strconv.QuoteToASCII(text[max(0, i-20):min(len(text), i+20)])
	}
	return ""
}

// swept is a file with every field of words that takes mischief set to it, and
// the same file with calm words.
func swept(t *testing.T, file string, places []string, evil string, read func(string) design.Faults, reached map[string]bool) (wild, tame string, took []string) {
	wild, tame = file, file
	for _, leaf := range places {
		for _, which := range items {
			changed, ok := with(t, wild, leaf, evil, which)
			if !ok {
				break
			}
			reached[leaf] = true
			if len(read(changed)) == 0 {
				wild = changed
				tame, _ = with(t, tame, leaf, calm(evil), which)
				took = append(took, leaf)
				break
			}
			if !strings.Contains(leaf, "*") {
				break
			}
		}
	}
	return wild, tame, took
}

func readDesign(text string) design.Faults {
	d, faults := design.ReadFile([]byte(text))
	if len(faults) == 0 {
		faults = pipeline.Glance(d).Faults
	}
	return faults
}

func readShelf(text string) design.Faults {
	_, faults := design.ReadShelf(text)
	return faults
}

// Whatever is typed into whatever field is words, in all that is made of it:
// what is made with mischief in every field that takes it has the same shape
// as with calm words.
func TestWordsAreWords(t *testing.T) {
	t.Parallel()
	ofDesign, ofShelf := leaves(reflect.TypeFor[design.Design](), ""), leaves(reflect.TypeFor[design.Shelf](), "")
	files, stock := plants(t), shelves(t)[0]
	for _, file := range files {
		require.Empty(t, readDesign(file))
	}
	require.Empty(t, readShelf(stock))
	free, reached := map[string]bool{}, map[string]bool{}
	for name, evil := range mischief {
		t.Run(name, func(t *testing.T) {
			wildStock, tameStock, took := swept(t, stock, ofShelf, evil, readShelf, reached)
			for _, leaf := range took {
				free["shelf."+leaf] = true
			}
			for i, file := range files {
				if i > 1 && name != "script" {
					break // the plants are much alike, and each takes a while
				}
				wild, tame, took := swept(t, file, ofDesign, evil, readDesign, reached)
				for _, leaf := range took {
					free[leaf] = true
				}
				of := made
				if strings.HasPrefix(name, "formula") {
					of = lists
				}
				same(t, of(t, wild, wildStock, evil), of(t, tame, tameStock, calm(evil)), evil)
			}
		})
	}
	for _, leaf := range slices.Concat(ofDesign, ofShelf) {
		assert.True(t, reached[leaf], "nothing here has a %s: put one into plants or shelves", leaf)
	}
	// Fields that are known to take any words: the sweep must have found them.
	for _, leaf := range []string{"title", "note", "date", "under.*.name", "run.*.name", "delivery.pieces.*.name", "keepOuts.*.name", "made.*.name", "shelf.made.*.name", "shelf.items.*.from"} {
		assert.True(t, free[leaf], "%s takes words", leaf)
	}
	var first []string
	for _, file := range files[:2] {
		_, _, took := swept(t, file, slices.Sorted(maps.Keys(free)), "words", readDesign, reached)
		first = append(first, took...)
	}
	for leaf := range free {
		assert.True(t, strings.HasPrefix(leaf, "shelf.") || slices.Contains(first, leaf), "%s takes words in a late example only: give it to one of the first two plants, which all mischief is put into", leaf)
	}
}

// product is what is made of a design and a shelf, by what reads it.
type product struct {
	html, svg, csv, cells, dxf, pdf, text, json map[string]string
}

// lists makes the lists for a spreadsheet.
func lists(t *testing.T, file, stock, _ string) product {
	d, faults := design.ReadFile([]byte(file))
	require.Empty(t, faults)
	shelf, faults := design.ReadShelf(stock)
	require.Empty(t, faults)
	r := pipeline.Check(d)
	p := product{csv: map[string]string{}, cells: map[string]string{}}
	for _, name := range workfile.Lists {
		if f, ok := workfile.List(r, r.Work(shelf), name); ok {
			p.csv[name] = f.Content
			p.cells[name] = workfile.Cells(r, r.Work(shelf), name)
		}
	}
	assert.NotEmpty(t, p.csv)
	return p
}

// made makes all that there is, with words in every field as typed and not taken.
func made(t *testing.T, file, stock, words string) product {
	d, faults := design.ReadFile([]byte(file))
	require.Empty(t, faults)
	shelf, faults := design.ReadShelf(stock)
	require.Empty(t, faults)
	r := pipeline.Check(d)
	work := r.Work(shelf)
	b := view.Bench{Design: d, Report: r, Width: 700, Shelf: shelf, Shop: &view.Shop{Work: work}}
	for _, leaf := range leaves(reflect.TypeFor[design.Design](), "") { // typed, and not taken
		path := strings.ReplaceAll(leaf, "*", "0")
		b.Pending = append(b.Pending, view.Pending{Path: path, Value: words, Fault: design.Fault{Field: path, Given: words, What: words, Hint: words}})
	}
	p := lists(t, file, stock, words)
	for _, m := range []*map[string]string{&p.html, &p.svg, &p.dxf, &p.pdf, &p.text, &p.json} {
		*m = map[string]string{}
	}
	for _, region := range view.Regions {
		p.html[region.ID] = region.Write(b)
	}
	for _, part := range view.Parts() {
		if part.Write != nil {
			p.html[part.Gist()], p.html[part.Region()] = part.Write(b)
		}
	}
	for _, f := range view.Ways(b) {
		p.html[f.ID] = f.Content
	}
	for name, pair := range map[string][2]compare.Plant{"compare": {compare.Check(design.Demo()), {Design: d, Report: r}}, "compared": {{Design: d, Report: r}, compare.Check(design.Demo())}} {
		_, p.html[name] = view.Compare(view.Bench{Design: pair[1].Design, Report: pair[1].Report, Shop: &view.Shop{Against: &pair[0]}, Width: 700})
	}
	p.html["sheets"] = paper.Sheets(b, "https://example.org/")
	_, p.html["share"] = paper.Share(b, "https://example.org/")
	p.html["designs"] = view.Designs([]view.Listed{{ID: "a", Title: words, Changed: words, Report: r}, {ID: "b", Title: words, Faults: design.Faults{{Field: words, Given: words, What: words, Hint: words}}}})
	p.html["found"] = view.Hits(words, nil)
	offers, _ := workfile.Offers(r)
	for _, o := range offers {
		for _, name := range o.Files {
			f, ok := workfile.Make(r, name)
			switch {
			case name == workfile.ReportJSON:
			case !assert.True(t, ok, name):
			case strings.HasSuffix(name, ".svg"):
				p.svg[name] = f.Content
			case strings.HasSuffix(name, ".dxf"):
				p.dxf[name] = f.Content
			case strings.HasSuffix(name, ".pdf"):
				p.pdf[name] = f.Content
			}
		}
	}
	p.text["check"] = view.Text(d, r, shelf)
	a := edge.Handle(edge.Request{Method: "POST", Path: "/api/check", Type: "application/json", Body: file})
	assert.Equal(t, 200, a.Status)
	p.json["report"] = a.Body
	assert.Regexp(t, `^[a-z0-9-]+\.drawoff\.json$`, view.FileName(words))
	return p
}

func same(t *testing.T, wild, tame product, evil string) {
	each := func(wild, tame map[string]string, shape func(string) (string, error)) {
		assert.Equal(t, slices.Sorted(maps.Keys(tame)), slices.Sorted(maps.Keys(wild)))
		for name := range wild {
			got, err := shape(wild[name])
			require.NoError(t, err, name)
			want, err := shape(tame[name])
			require.NoError(t, err, name)
			if got != want { // the whole is too long to be read
				i := 0
				for i < min(len(got), len(want)) && got[i] == want[i] {
					i++
				}
				assert.Failf(t, "its shape is another", "%s: %q is not %q", name, got[max(0, i-80):min(len(got), i+80)], want[max(0, i-80):min(len(want), i+80)])
			}
		}
	}
	each(wild.html, tame.html, tree)
	each(wild.svg, tame.svg, elements)
	each(wild.csv, tame.csv, table)
	each(wild.cells, tame.cells, grid)
	each(wild.dxf, tame.dxf, groups)
	each(wild.pdf, tame.pdf, operators)
	each(wild.text, tame.text, func(s string) (string, error) {
		if o := obeyed(s); o != "" {
			return "", errors.New("a terminal would obey " + o)
		}
		return "", nil
	})
	for name, s := range wild.json {
		assert.True(t, json.Valid([]byte(s)), name)
		assert.Empty(t, obeyed(s), name)
	}
	if wild.json == nil {
		return
	}
	var report struct{ Title string }
	require.NoError(t, json.Unmarshal([]byte(wild.json["report"]), &report))
	if report.Title == evil { // it is there to be read
		text, err := parser.Parse(strings.NewReader(wild.html["sheets"]))
		require.NoError(t, err)
		var b strings.Builder
		for n := range text.Descendants() {
			if n.Type == parser.TextNode {
				b.WriteString(n.Data)
			}
		}
		assert.Contains(t, b.String(), evil)
	}
}

// tree is HTML without its words: elements and the names of their attributes.
func tree(s string) (string, error) {
	nodes, err := parser.ParseFragment(strings.NewReader(s), &parser.Node{Type: parser.ElementNode, Data: "div", DataAtom: atom.Div})
	if err != nil {
		return "", err
	}
	var b strings.Builder
	var walk func(*parser.Node) error
	walk = func(n *parser.Node) error {
		switch n.Type {
		case parser.ElementNode:
			b.WriteString("<" + n.Data)
			for _, a := range n.Attr {
				b.WriteString(" " + a.Key)
				if (a.Key == "href" || a.Key == "src") && !strings.HasPrefix(a.Val, "#") && !strings.HasPrefix(a.Val, "https://example.org/#1.") && !strings.HasPrefix(a.Val, "catalogue.html#") {
					return errors.New("leads to " + a.Val)
				}
			}
			b.WriteString(">")
		case parser.TextNode:
		default:
			return errors.New("holds what is neither an element nor words: " + n.Data)
		}
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			if err := walk(c); err != nil {
				return err
			}
		}
		b.WriteString("/")
		return nil
	}
	for _, n := range nodes {
		if err := walk(n); err != nil {
			return "", err
		}
	}
	return b.String(), nil
}

// elements is XML without its words; what is not well formed is an error.
func elements(s string) (string, error) {
	r := xml.NewDecoder(strings.NewReader(s))
	var b strings.Builder
	for {
		token, err := r.Token()
		if errors.Is(err, io.EOF) {
			return b.String(), nil
		}
		if err != nil {
			return "", err
		}
		switch token := token.(type) {
		case xml.StartElement:
			b.WriteString("<" + token.Name.Local)
			for _, a := range token.Attr {
				b.WriteString(" " + a.Name.Local)
			}
		case xml.EndElement:
			b.WriteString("/")
		case xml.CharData:
		default:
			return "", errors.New("holds more than elements and words")
		}
	}
}

// formula is what a spreadsheet works out; a number is none.
var formula = regexp.MustCompile(`^[\s\x{a0}]*[=+\-@＝＋－＠]`)

func rows(all [][]string) (string, error) {
	var b strings.Builder
	for _, row := range all {
		for _, cell := range row {
			if formula.MatchString(cell) {
				return "", errors.New("a spreadsheet would work out " + cell)
			}
		}
		b.WriteString(strconv.Itoa(len(row)) + " ")
	}
	return b.String(), nil
}

func table(s string) (string, error) {
	all, err := csv.NewReader(strings.NewReader(s)).ReadAll()
	if err != nil {
		return "", err
	}
	return rows(all)
}

func grid(s string) (string, error) {
	var all [][]string
	for line := range strings.Lines(s) {
		all = append(all, strings.Split(line, "\t"))
	}
	return rows(all)
}

// groups is a DXF without its words: the codes, and every value that is no text.
func groups(s string) (string, error) {
	lines := strings.Split(strings.TrimSuffix(s, "\r\n"), "\r\n")
	if len(lines)%2 != 0 {
		return "", errors.New("a group is half")
	}
	var b strings.Builder
	for i := 0; i < len(lines); i += 2 {
		if _, err := strconv.Atoi(lines[i]); err != nil {
			return "", err
		}
		if strings.ContainsFunc(lines[i+1], func(r rune) bool { return r < ' ' || r > '~' }) {
			return "", errors.New("a value is more than plain characters: " + strconv.Quote(lines[i+1]))
		}
		b.WriteString(lines[i] + " ")
		if code := lines[i]; code != "1" && code != "999" {
			b.WriteString(lines[i+1] + " ")
		}
	}
	return b.String(), nil
}

// number is what changes in a PDF with the length of its strings.
var number = regexp.MustCompile(`\d+`)

// operators is a PDF without its strings, which ISO 32000-1, 7.3.4.2 has in
// brackets that nest, a backslash before what stands for itself.
func operators(s string) (string, error) {
	var b strings.Builder
	depth := 0
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case c != '\n' && (c < ' ' || c > '~'):
			return "", errors.New("it is not plain ASCII")
		case c == '\\' && depth > 0:
			i++
		case c == '(':
			depth++
		case c == ')':
			depth--
		case depth == 0:
			b.WriteByte(c)
		}
		if depth < 0 {
			return "", errors.New("a string ends that did not begin")
		}
	}
	if depth != 0 {
		return "", errors.New("a string does not end")
	}
	return number.ReplaceAllString(b.String(), "0"), nil
}
