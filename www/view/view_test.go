package view

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	parser "golang.org/x/net/html"
	"pgregory.net/rapid"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
	"drawoff/pipeline/finding"
)

// page renders b as a browser would read it, once the module has put in what
// the built page leaves to it.
func page(t require.TestingT, b Bench) *parser.Node {
	glance := b
	glance.Report = pipeline.Glance(b.Design).With(b.Report.Later().Verdicts)
	built := Page(glance, b, Assets{Style: "style.css", Script: "page.js", Starter: "start.js", Module: "m.wasm"})
	whole := strings.Replace(built, formWaits, Form(glance), 1)
	require.NotEqual(t, built, whole)
	whole += Figures(glance)
	root, err := parser.Parse(strings.NewReader(whole))
	require.NoError(t, err)
	return root
}

func attr(n *parser.Node, name string) string {
	for _, a := range n.Attr {
		if a.Key == name {
			return a.Val
		}
	}
	return ""
}

func each(n *parser.Node, f func(*parser.Node)) {
	if n.Type == parser.ElementNode {
		f(n)
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		each(c, f)
	}
}

// selected counts the options of a select that are selected.
func selected(n *parser.Node) (count int) {
	each(n, func(n *parser.Node) {
		for _, a := range n.Attr {
			if a.Key == "selected" {
				count++
			}
		}
	})
	return count
}

// On every page: no id stands twice, every control has a label or a name,
// every reference within the page leads somewhere, and only our own scripts run.
func TestPageIsSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := designtest.Design(t)
		r := pipeline.Check(d)
		if len(r.Faults) > 0 {
			t.Skip("the page never shows a design with faults")
		}
		root := page(t, Bench{Design: d, Report: r, Width: 700, Shop: &Shop{Work: r.Work(design.Shelf{})}, Pending: []Pending{{Path: "tank.bore", Value: `"><script>`, Fault: design.Fault{Field: "tank.bore", What: "not understood", Hint: "write it like 900 mm"}}}})
		ids, labelled := map[string]int{}, map[string]bool{}
		each(root, func(n *parser.Node) {
			if id := attr(n, "id"); id != "" {
				ids[id]++
			}
			if n.Data == "label" {
				labelled[attr(n, "for")] = true
			}
		})
		for id, n := range ids {
			assert.Equal(t, 1, n, "id %s", id)
		}
		each(root, func(n *parser.Node) {
			switch n.Data {
			case "input", "select", "textarea":
				assert.True(t, labelled[attr(n, "id")] || attr(n, "aria-label") != "", "no label: %v", n.Attr)
				for _, id := range strings.Fields(attr(n, "aria-describedby")) {
					assert.Contains(t, ids, id)
				}
				if n.Data == "input" && strings.HasSuffix(attr(n, "data-path"), ".shape") {
					assert.NotEmpty(t, attr(n, "value"), "nobody can know what to type as %s", attr(n, "data-path"))
				}
				if n.Data == "select" && attr(n, "data-path") != "" {
					assert.Equal(t, 1, selected(n), "a browser shows the first of %s where none is selected, which nobody has said", attr(n, "data-path"))
				}
			case "a":
				if href := attr(n, "href"); strings.HasPrefix(href, "#") {
					assert.Contains(t, ids, href[1:], "a link leads nowhere")
				}
			case "script":
				assert.Contains(t, []string{"page.js", "start.js"}, attr(n, "src"))
			}
			for _, a := range n.Attr {
				assert.False(t, strings.HasPrefix(a.Key, "on"), "inline handler %s", a.Key)
			}
		})
	})
}

// A terminal sees every verdict, figure and part that the page shows.
func TestTextTellsAll(t *testing.T) {
	d := design.Demo()
	r := pipeline.Check(d)
	text := Text(d, r, design.Shelf{})
	plain := strings.Join(strings.Fields(text), " ")
	for _, v := range r.Verdicts {
		assert.Contains(t, plain, v.Sentence)
	}
	for _, f := range r.Figures {
		assert.Contains(t, text, f.Slug)
	}
	for _, p := range r.Parts {
		assert.Contains(t, text, p.Name)
	}
	for _, line := range strings.Split(text, "\n") {
		assert.Equal(t, strings.TrimRight(line, " "), line)
	}
}

// A figure's working names its formula, every number that went in, and where
// the formula comes from.
func TestWorkingTellsAll(t *testing.T) {
	for _, f := range pipeline.Check(design.Demo()).Figures {
		plain := strings.Join(strings.Fields(Working(f)), " ")
		assert.Contains(t, plain, strings.ReplaceAll(strings.Join(strings.Fields(f.Formula), " "), "_", ""))
		assert.Contains(t, plain, strings.Join(strings.Fields(f.Source), " "))
		for _, in := range f.Inputs {
			assert.Contains(t, plain, in.Name)
		}
	}
}

func TestFaultsAreTold(t *testing.T) {
	r := pipeline.Report{Faults: design.Faults{{Field: "tank.bore", Given: "-1 mm", What: "a length cannot be negative", Hint: "write it like 900 mm"}}}
	assert.Contains(t, Text(design.Design{}, r, design.Shelf{}), "tank.bore")
	assert.Contains(t, Text(design.Design{}, r, design.Shelf{}), "900 mm")
}

// A height that is needed is told as one number, in its sentence, in what it is
// held to and among the needs.
func TestHeightIsHeldToWhatIsNeeded(t *testing.T) {
	t.Parallel()
	r := pipeline.Check(design.Demo())
	for _, v := range r.Verdicts {
		if v.Rule == "stand-height" && v.Level != finding.Sound {
			_, needs, _ := strings.Cut(v.Sentence, "and needs ")
			needs, _, _ = strings.Cut(needs, ". ")
			assert.Contains(t, Verdicts(Bench{Design: design.Demo(), Report: r}), "Held to "+needs+".")
			_, table := Heights(Bench{Design: design.Demo(), Report: r, Width: 700})
			assert.Contains(t, table, `<td class="n">`+needs+"<small>± ", "and in the table of needs")
			return
		}
	}
	t.Fatal("the demo's bucket is short of room")
}

// All verdicts stand in one list as the report has them, those that are sound
// under one fold that counts them, and each id there is there once.
func TestVerdictsAreOneList(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := designtest.Design(t)
		r := pipeline.Check(d)
		list, later := Verdicts(Bench{Design: d, Report: r}), map[string]bool{}
		for _, v := range r.Later().Verdicts {
			later[v.Rule] = true
		}
		root, err := parser.Parse(strings.NewReader(list))
		require.NoError(t, err)
		at, sound, ids := 0, 0, map[string]bool{}
		var folds []string
		each(root, func(n *parser.Node) {
			if id := attr(n, "id"); id != "" {
				require.False(t, ids[id], id)
				ids[id] = true
			}
			switch {
			case n.Data == "summary":
				folds = append(folds, n.FirstChild.Data)
			case n.Data == "li":
				v := r.Verdicts[at]
				at++
				require.Equal(t, v.Rule, attr(n, "data-rule"))
				class := strings.Fields(attr(n, "class"))
				require.Equal(t, v.Level.String(), class[1])
				require.Equal(t, later[v.Rule], len(class) > 2)
				if v.Level == finding.Sound {
					sound++
				}
			}
		})
		require.Equal(t, len(r.Verdicts), at)
		if sound > 0 {
			require.Equal(t, []string{count(sound, "rule is met", "rules are met")}, folds)
		}
	})
}
