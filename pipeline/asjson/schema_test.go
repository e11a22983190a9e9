package asjson_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path"
	"reflect"
	"strings"
	"testing"

	"drawoff/pipeline"
	"drawoff/pipeline/asjson"
	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const schemaFile = "../../testdata/report.schema.json"

// The schema names every member of every struct, and none besides; what is
// always written is required.
func TestSchemaNamesEveryMember(t *testing.T) {
	t.Parallel()
	data, err := os.ReadFile(schemaFile)
	require.NoError(t, err)
	type object struct {
		Required   []string                   `json:"required"`
		Properties map[string]json.RawMessage `json:"properties"`
	}
	var root struct {
		object
		Defs map[string]object `json:"$defs"`
	}
	require.NoError(t, json.Unmarshal(data, &root))
	root.Defs["whole"] = root.object
	root.Defs["Vec"] = object{} // writes itself, and is judged by what it writes
	root.Defs["Amount"] = object{}

	seen := map[reflect.Type]bool{}
	var walk func(reflect.Type)
	walk = func(typ reflect.Type) {
		for typ.Kind() == reflect.Slice || typ.Kind() == reflect.Pointer {
			typ = typ.Elem()
		}
		if typ.Kind() != reflect.Struct || seen[typ] || strings.HasPrefix(typ.Name(), "Entered[") { // words, as typed
			return
		}
		seen[typ] = true
		name := typ.Name()
		// Some names are used by more than one room.
		name = map[string]string{"cut": "Saw", "clean": "Wash", "holdup": "Stays", "vent": "Breathing"}[path.Base(typ.PkgPath())] + name
		def, ok := root.Defs[name]
		require.True(t, ok, name)
		if def.Properties == nil {
			return
		}
		var names, always []string
		var members func(reflect.Type)
		members = func(typ reflect.Type) {
			for i := range typ.NumField() {
				f := typ.Field(i)
				name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
				switch {
				case f.Anonymous && name == "":
					members(f.Type)
					continue
				case !f.IsExported() || name == "-":
					continue
				}
				names = append(names, name)
				if options == "" {
					always = append(always, name)
				}
				walk(f.Type)
			}
		}
		members(typ)
		var got []string
		for name := range def.Properties {
			got = append(got, name)
		}
		assert.ElementsMatch(t, names, got, name)
		assert.ElementsMatch(t, always, def.Required, name)
	}
	walk(asjson.Whole)
	assert.Greater(t, len(seen), 15)
}

// wholeOf is the report on d, with an empty shelf.
func wholeOf(d design.Design) []byte {
	r := pipeline.Check(d)
	return asjson.Report(r, r.Work(design.Shelf{}))
}

// The schema accepts every report: on the examples, on any plant, and on what
// cannot be worked out.
func TestSchemaAcceptsWhatIsWritten(t *testing.T) {
	t.Parallel()
	data, err := os.ReadFile(schemaFile)
	require.NoError(t, err)
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	require.NoError(t, c.AddResource("report.schema.json", doc))
	schema, err := c.Compile("report.schema.json")
	require.NoError(t, err)
	accepts := func(t require.TestingT, d design.Design) {
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(wholeOf(d)))
		require.NoError(t, err)
		require.NoError(t, schema.Validate(doc))
	}
	for _, e := range design.Examples() {
		accepts(t, e.Design)
	}
	accepts(t, design.Design{})
	rapid.Check(t, func(t *rapid.T) { accepts(t, designtest.Design(t)) })

	for _, wrong := range []string{`{}`, `{"drawoff":2}`, `[]`, strings.Replace(string(wholeOf(design.Demo())), `"level":"`, `"level":"very `, 1)} {
		doc, err := jsonschema.UnmarshalJSON(strings.NewReader(wrong))
		require.NoError(t, err)
		assert.Error(t, schema.Validate(doc))
	}
}
