package tokens_test

import (
	"encoding/json"
	"testing"

	"drawoff/pipeline/tokens"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// What is written is what encoding/json reads, and what Members and Items give back.
func TestObject(t *testing.T) {
	t.Parallel()
	type thing struct {
		Text  string
		Words string
		Flag  bool
		Int   int
		Raw   []string
	}
	rapid.Check(t, func(t *rapid.T) {
		want := thing{rapid.String().Draw(t, "text"), rapid.String().Draw(t, "words"), rapid.Bool().Draw(t, "flag"), rapid.Int().Draw(t, "int"), []string{"a", ""}}
		var o tokens.Object
		o.Text("Text", want.Text)
		o.Words("Words", want.Words)
		o.Flag("Flag", want.Flag)
		o.Int("Int", want.Int)
		o.Raw("Raw", `["a",""]`)
		var read thing
		require.NoError(t, json.Unmarshal([]byte(o.String()), &read))
		require.Equal(t, want, read)

		var got thing
		r := tokens.NewReader(o.String(), deepest)
		ok := r.Members(r.Next(), func(name string, value tokens.Token) bool {
			switch name {
			case "Text":
				return value.Take(&got.Text)
			case "Words":
				return value.Take(&got.Words)
			case "Flag":
				got.Flag = value.Text == "true"
				return value.Kind == tokens.Bool
			case "Int":
				return value.TakeInt(&got.Int)
			}
			return r.Items(value, func(item tokens.Token) bool {
				got.Raw = append(got.Raw, item.Text)
				return item.Kind == tokens.String
			})
		})
		require.True(t, ok)
		require.Equal(t, tokens.End, r.Next().Kind)
		require.Equal(t, want, got)
	})
	assert.Equal(t, "{}", tokens.Object{}.String())
}

// Objects in objects are what encoding/json reads, with any number of members.
func TestObjectsInObjects(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.MapOfN(rapid.String(), rapid.MapOfN(rapid.String(), rapid.String(), 0, 3), 0, 3).Draw(t, "want")
		var o tokens.Object
		for name, in := range want {
			o.Begin(name)
			for name, s := range in {
				o.Text(name, s)
			}
			o.End()
		}
		read := map[string]map[string]string{}
		require.NoError(t, json.Unmarshal([]byte(o.String()), &read))
		require.Equal(t, want, read)
	})
}

func TestMembersRefuse(t *testing.T) {
	t.Parallel()
	for _, text := range []string{`[]`, `"a"`, ``, `{"a":1`, `{"a":}`, `{"a":[1,2}`, `{"a":{}}`} {
		r := tokens.NewReader(text, deepest)
		n := 0
		assert.False(t, r.Members(r.Next(), func(_ string, value tokens.Token) bool {
			if value.Kind == tokens.First {
				return r.Items(value, func(item tokens.Token) bool { return item.TakeInt(&n) })
			}
			return value.TakeInt(&n)
		}), text)
	}
}
