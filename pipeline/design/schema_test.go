package design_test

import (
	"bytes"
	"encoding/json"
	"os"
	"reflect"
	"sort"
	"strconv"
	"strings"
	"testing"

	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const schemaFile = "../../testdata/design.schema.json"

// leaves returns the path of every field of d that holds words.
func leaves(d design.Design) (paths []string) {
	var walk func(v reflect.Value, path string)
	walk = func(v reflect.Value, path string) {
		switch {
		case v.Kind() == reflect.Slice:
			for i := range v.Len() {
				walk(v.Index(i), path+"."+strconv.Itoa(i))
			}
		case v.Kind() == reflect.Struct && v.NumField() > 0 && v.Type().Field(0).IsExported():
			for i := range v.NumField() {
				name, _, _ := strings.Cut(v.Type().Field(i).Tag.Get("json"), ",")
				walk(v.Field(i), strings.TrimPrefix(path+"."+name, "."))
			}
		default:
			paths = append(paths, path)
		}
	}
	walk(reflect.ValueOf(d), "")
	return paths
}

func schema(t require.TestingT) *jsonschema.Schema {
	data, err := os.ReadFile(schemaFile)
	require.NoError(t, err)
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	require.NoError(t, c.AddResource("design.schema.json", doc))
	s, err := c.Compile("design.schema.json")
	require.NoError(t, err)
	return s
}

func judge(t require.TestingT, s *jsonschema.Schema, file []byte) error {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(file))
	require.NoError(t, err)
	return s.Validate(doc)
}

// The schema names every member of every struct, and none besides.
func TestSchemaNamesEveryMember(t *testing.T) {
	t.Parallel()
	data, err := os.ReadFile(schemaFile)
	require.NoError(t, err)
	type object struct {
		Properties map[string]json.RawMessage `json:"properties"`
		Additional *bool                      `json:"additionalProperties"`
	}
	var root struct {
		object
		Defs map[string]object `json:"$defs"`
	}
	require.NoError(t, json.Unmarshal(data, &root))
	delete(root.Properties, "drawoff") // the file's version, no field
	root.Defs["Design"] = root.object

	seen := map[string]bool{}
	var walk func(typ reflect.Type)
	walk = func(typ reflect.Type) {
		for typ.Kind() == reflect.Slice {
			typ = typ.Elem()
		}
		if typ.Kind() != reflect.Struct || !typ.Field(0).IsExported() || seen[typ.Name()] {
			return
		}
		seen[typ.Name()] = true
		var want, got []string
		for i := range typ.NumField() {
			name, _, _ := strings.Cut(typ.Field(i).Tag.Get("json"), ",")
			want = append(want, name)
			walk(typ.Field(i).Type)
		}
		def := root.Defs[typ.Name()]
		for name := range def.Properties {
			got = append(got, name)
		}
		sort.Strings(want)
		sort.Strings(got)
		assert.Equal(t, want, got, typ.Name())
		if assert.NotNil(t, def.Additional, typ.Name()) {
			assert.False(t, *def.Additional, typ.Name())
		}
	}
	walk(reflect.TypeFor[design.Design]())
}

// What Drawoff writes, the schema accepts.
func TestSchemaAcceptsWhatIsWritten(t *testing.T) {
	t.Parallel()
	s := schema(t)
	assert.NoError(t, judge(t, s, design.WriteFile(design.Demo())))
	assert.NoError(t, judge(t, s, []byte(plantFile)))
	assert.NoError(t, judge(t, s, design.WriteFile(design.Design{})))
	rapid.Check(t, func(t *rapid.T) {
		require.NoError(t, judge(t, s, design.WriteFile(designtest.Design(t))))
	})
}

// What is no file of this format, the schema and ReadFile both refuse.
func TestSchemaAndReadFileRefuseTheSame(t *testing.T) {
	t.Parallel()
	s := schema(t)
	for _, file := range []string{
		`[]`,
		`{"drawoff": 2}`,
		`{"drawoff": "1"}`,
		`{"colour": "red"}`,
		`{"Title": "x"}`,
		`{"tank": {"bore": 900}}`,
		`{"tank": {"bore": null}}`,
		`{"tank": []}`,
		`{"tank": {"outlet": {"bore": "1 m"}}}`,
		`{"under": {"kind": "bend"}}`,
		`{"under": [{"kind": "elbow"}]}`,
		`{"under": [{"kind": "bend", "radius": "1 m"}]}`,
		`{"under": [{"kind": "straight", "fit": "true"}]}`,
		`{"stand": {"legs": 7}}`,
		`{"stand": {"legs": "3"}}`,
		`{"liquid": {"kind": "custard"}}`,
		`{"title": "` + strings.Repeat("x", 201) + `"}`,
	} {
		assert.Error(t, judge(t, s, []byte(file)), file)
		_, faults := design.ReadFile([]byte(file))
		assert.NotEmpty(t, faults, file)
	}
}

// The choices that the schema lists are those that a form offers.
func TestSchemaListsTheChoices(t *testing.T) {
	t.Parallel()
	data, err := os.ReadFile(schemaFile)
	require.NoError(t, err)
	var root struct {
		Defs map[string]struct {
			Properties map[string]struct {
				Enum []any `json:"enum"`
			} `json:"properties"`
		} `json:"$defs"`
	}
	require.NoError(t, json.Unmarshal(data, &root))
	for path, where := range map[string][2]string{
		"tank.bottom": {"Tank", "bottom"}, "tank.outlet.place": {"Outlet", "place"}, "pump.kind": {"Pump", "kind"},
		"liquid.kind": {"Liquid", "kind"}, "run.0.kind": {"Piece", "kind"}, "run.0.third": {"Piece", "third"}, "run.0.fourth": {"Piece", "fourth"},
	} {
		var want []any
		for _, c := range design.Choices(plant(), path) {
			want = append(want, c.Slug)
		}
		if where[0] != "Piece" || where[1] != "kind" {
			want = append(want, "") // the usual
		}
		assert.Equal(t, want, root.Defs[where[0]].Properties[where[1]].Enum, path)
	}
}

// No member stands twice in a schema: readers differ in which of two they
// take, and some take neither.
func TestSchemasSayNothingTwice(t *testing.T) {
	t.Parallel()
	for _, name := range []string{schemaFile, "../../testdata/report.schema.json", "../../www/site/edge/openapi.json"} {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		dec := json.NewDecoder(bytes.NewReader(data))
		var object func(path string)
		value := func(path string) {
			token, err := dec.Token()
			require.NoError(t, err, name)
			switch token {
			case json.Delim('{'):
				object(path)
			case json.Delim('['):
				for dec.More() {
					var item json.RawMessage
					require.NoError(t, dec.Decode(&item), name)
				}
				_, err = dec.Token()
				require.NoError(t, err)
			}
		}
		object = func(path string) {
			seen := map[string]bool{}
			for dec.More() {
				token, err := dec.Token()
				require.NoError(t, err, name)
				member := token.(string)
				assert.False(t, seen[member], "%s: %s.%s stands twice", name, path, member)
				seen[member] = true
				value(path + "." + member)
			}
			_, err := dec.Token()
			require.NoError(t, err)
		}
		value("")
	}
}
