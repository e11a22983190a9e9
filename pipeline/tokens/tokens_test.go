package tokens_test

import (
	"bytes"
	"encoding/json"
	"io"
	"strings"
	"testing"
	"unicode/utf8"

	"drawoff/pipeline/tokens"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const deepest = 30

// The reference is encoding/json throughout.

// sameAsReference holds a reading of data against encoding/json's.
func sameAsReference(t require.TestingT, data string) {
	r := tokens.NewReader(data, deepest)
	var got []tokens.Token
	for {
		tok := r.Next()
		if tok.Kind == tokens.End {
			break
		}
		if tok.Kind == tokens.Bad {
			f := r.Fault()
			require.Equal(t, tokens.Bad, r.Next().Kind, "a fault stays")
			require.Equal(t, f, r.Fault())
			require.LessOrEqual(t, f.Offset, len(data))
			require.Equal(t, 1+strings.Count(data[:f.Offset], "\n"), f.Line, "the line of the fault")
			switch f.What {
			case tokens.TooDeep:
				require.Equal(t, deepest, open(got), "refused for its depth")
			case tokens.NotText:
				require.False(t, utf8.ValidString(data), "refused as not UTF-8")
			default:
				require.Falsef(t, json.Valid([]byte(data)), "refused: %+v", f)
			}
			return
		}
		got = append(got, tok)
	}
	require.True(t, json.Valid([]byte(data)), "taken")
	require.True(t, utf8.ValidString(data), "taken, and not UTF-8")
	dec := json.NewDecoder(strings.NewReader(data))
	dec.UseNumber()
	for _, tok := range got {
		want, err := dec.Token()
		require.NoError(t, err)
		switch want := want.(type) {
		case nil:
			require.Equal(t, tokens.Null, tok.Kind)
		case bool:
			require.Equal(t, tokens.Bool, tok.Kind)
			require.Equal(t, want, tok.Text == "true")
		case json.Number:
			require.Equal(t, tokens.Number, tok.Kind)
			require.Equal(t, want.String(), tok.Text)
		case string:
			require.Contains(t, []tokens.Kind{tokens.Name, tokens.String}, tok.Kind)
			require.Equal(t, want, tok.Text)
		case json.Delim:
			require.Equal(t, want.String(), tok.Text)
		}
		require.Equal(t, 1+strings.Count(data[:dec.InputOffset()], "\n"), tok.Line)
	}
	_, err := dec.Token()
	require.ErrorIs(t, err, io.EOF)
}

// open counts the brackets that are open after toks.
func open(toks []tokens.Token) int {
	n := 0
	for _, t := range toks {
		switch t.Kind {
		case tokens.Open, tokens.First:
			n++
		case tokens.Close, tokens.Last:
			n--
		}
	}
	return n
}

func FuzzTokens(f *testing.F) {
	for _, s := range samples {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, data string) {
		sameAsReference(t, data)
		stringSurvives(t, data)
	})
}

// samples walk every rule of RFC 8259 from both sides.
var samples = []string{
	``, ` `, `null`, `nul`, `nulL`, `true false`, "\ufeff{}", `{}`, `[]`, `[1,]`, `[,1]`, `{"a":1,}`, `{"a" 1}`, `{"a":}`, `{1:2}`, `{"a":1]`, `[1}`, `[}`, `{]`, `]`,
	`0`, `-0`, `01`, `-`, `+1`, `.5`, `1.`, `1.5e+10`, `1e`, `1E-`, `-1.25E-3`, `1e5x`, `0x1`, `[1 2]`, `{"a":1 "b":2}`,
	`"a`, `"\"\\\/\b\f\n\r\t"`, `"\x"`, `"\u12"`, `"\u00e9\uD83D\ude00"`, `"\ud800"`, `"\ud800\n"`, `"\ud800\u0041"`, `"\udc00\ud800\udc00"`, `"\ud800\u00g0"`,
	"\"\xff\"", "\"\xed\xa0\x80\"", "\"a\nb\"", "\"\u2028½\"", "[\n1,\n\n{\"a\":\r\n[]}\n]\n", "[\n1\n", "[\n\nx]",
	`{"a":{"b":[1,"x",null,true]},"a":false}`, strings.Repeat("[", deepest) + strings.Repeat("]", deepest), strings.Repeat("[", deepest+1) + strings.Repeat("]", deepest+1),
}

func TestReadsAsTheReferenceDoes(t *testing.T) {
	t.Parallel()
	for _, s := range samples {
		t.Run(s, func(t *testing.T) { sameAsReference(t, s) })
	}
}

// Texts made of pieces of JSON are nearly JSON, where mistakes hide.
func TestReadsShuffledPiecesAsTheReferenceDoes(t *testing.T) {
	t.Parallel()
	pieces := rapid.SampledFrom([]string{"{", "}", "[", "]", ",", ":", `"a"`, `"b":`, "1", "-0.5e3", "null", "true", "false", "\n", " ", `"\ud83d`, `\ude00"`, "é", `"`, `{"a":`, `,"c":`})
	rapid.Check(t, func(t *rapid.T) {
		sameAsReference(t, strings.Join(rapid.SliceOfN(pieces, 0, 12).Draw(t, "pieces"), ""))
	})
}

func TestHalfOfAPairIsTold(t *testing.T) {
	t.Parallel()
	for text, half := range map[string]bool{`"\ud800"`: true, `"a\ud83d\u0041"`: true, `"\ufffd"`: false, `"\ud83d\ude00"`: false, `"` + "\ufffd" + `"`: false} {
		assert.Equal(t, half, tokens.NewReader(text, 1).Next().Half, text)
	}
}

func TestSkipAndRawReadOneValue(t *testing.T) {
	t.Parallel()
	const text = `{"a": [1, {"b": "]"}] , "c": 2}`
	r := tokens.NewReader(text, 5)
	r.Next()
	require.Equal(t, "a", r.Next().Text)
	assert.Equal(t, `[1, {"b": "]"}]`, r.Raw(r.Next()))
	assert.Equal(t, "c", r.Next().Text)
	r.Skip(r.Next())
	assert.Equal(t, tokens.Close, r.Next().Kind)
	assert.Equal(t, tokens.End, r.Next().Kind)

	r = tokens.NewReader(` "a\n" `, 5)
	assert.Equal(t, `"a\n"`, r.Raw(r.Next()))

	r = tokens.NewReader(`[[1,2}`, 5)
	r.Skip(r.Next())
	assert.Equal(t, tokens.Misplaced, r.Fault().What)
}

// stringSurvives holds AppendString against encoding/json's writer and reader.
func stringSurvives(t require.TestingT, s string) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	require.NoError(t, enc.Encode(s))
	got := tokens.AppendString([]byte("x"), s)
	require.Equal(t, "x"+strings.TrimSuffix(b.String(), "\n"), string(got))
	var back string
	require.NoError(t, json.Unmarshal(got[1:], &back))
	require.Equal(t, string([]rune(s)), back)
}

func TestStringsAreWrittenAsTheReferenceDoes(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		stringSurvives(t, rapid.String().Draw(t, "text"))
		stringSurvives(t, string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes")))
	})
}
