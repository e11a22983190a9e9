package deflate_test

import (
	"bytes"
	"compress/flate"
	"errors"
	"io"
	"strings"
	"testing"

	"drawoff/pipeline/deflate"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The reference is compress/flate throughout.

const most = 1 << 16

// inflate unpacks with the reference.
func inflate(packed, dict []byte) ([]byte, deflate.Problem) {
	in := bytes.NewReader(packed)
	data, err := io.ReadAll(io.LimitReader(flate.NewReaderDict(in, dict), most+1))
	switch {
	case errors.Is(err, io.ErrUnexpectedEOF):
		return data, deflate.CutShort
	case err != nil:
		return data, deflate.Damaged
	case len(data) > most:
		return data, deflate.TooLong
	case in.Len() > 0:
		return data, deflate.Trailing
	}
	return data, ""
}

// sameAsReference holds Unpack against the reference; of data that is wrong in
// two ways either may be told.
func sameAsReference(t require.TestingT, packed, dict []byte) {
	want, problem := inflate(packed, dict)
	got, gotProblem := deflate.Unpack(packed, dict, most)
	require.Equal(t, problem == "", gotProblem == "", "%q, and the reference: %q", gotProblem, problem)
	if problem == "" {
		require.True(t, bytes.Equal(want, got))
	}
}

func reference(t require.TestingT, data, dict []byte, level int) []byte {
	var b bytes.Buffer
	w, err := flate.NewWriterDict(&b, level, dict)
	require.NoError(t, err)
	_, err = w.Write(data)
	require.NoError(t, err)
	require.NoError(t, w.Close())
	return b.Bytes()
}

// texts draws data that repeats itself and its dictionary.
func texts(t *rapid.T) (data, dict []byte) {
	words := rapid.SliceOfN(rapid.StringN(1, 12, -1), 1, 8).Draw(t, "words")
	text := func(most int, label string) []byte {
		return []byte(strings.Join(rapid.SliceOfN(rapid.SampledFrom(words), 0, most).Draw(t, label), ""))
	}
	dict = text(20, "dict")
	data = bytes.Repeat(text(60, "data"), rapid.SampledFrom([]int{1, 2, 40}).Draw(t, "times"))
	data = append(data, rapid.SliceOfN(rapid.Byte(), 0, 40).Draw(t, "noise")...)
	return data[:min(len(data), most)], dict
}

func TestUnpacksWhatTheReferencePacked(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		data, dict := texts(t)
		packed := reference(t, data, dict, rapid.SampledFrom([]int{flate.HuffmanOnly, flate.NoCompression, 1, 6, 9}).Draw(t, "level"))
		got, problem := deflate.Unpack(packed, dict, most)
		require.Empty(t, problem)
		require.True(t, bytes.Equal(data, got))

		cut := rapid.IntRange(0, len(packed)-1).Draw(t, "cut")
		_, problem = deflate.Unpack(packed[:cut], dict, most)
		require.Equal(t, deflate.CutShort, problem)
		_, problem = deflate.Unpack(append(packed, 0), dict, most)
		require.Equal(t, deflate.Trailing, problem)
		if len(data) > 0 {
			_, problem = deflate.Unpack(packed, dict, len(data)-1)
			require.Equal(t, deflate.TooLong, problem)
		}
	})
}

func TestDamageIsSeenAsTheReferenceDoes(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		data, dict := texts(t)
		packed := reference(t, data, dict, 9)
		packed[rapid.IntRange(0, len(packed)-1).Draw(t, "at")] ^= 1 << rapid.IntRange(0, 7).Draw(t, "bit")
		sameAsReference(t, packed, dict)
	})
}

func TestTheReferenceUnpacksWhatWasPacked(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		data, dict := texts(t)
		packed := deflate.Pack(data, dict)
		want, problem := inflate(packed, dict)
		require.Empty(t, problem)
		require.True(t, bytes.Equal(data, want))
		got, problem := deflate.Unpack(packed, dict, most)
		require.Empty(t, problem)
		require.True(t, bytes.Equal(data, got))
	})
}

func TestMatchesReachTheirLimits(t *testing.T) {
	t.Parallel()
	far := make([]byte, 33<<10)
	for i, x := 0, uint32(1); i < len(far); i++ { // nothing repeats: a shift register over bytes
		x ^= x << 13
		x ^= x >> 17
		x ^= x << 5
		far[i] = byte(x)
	}
	data := append(append(bytes.Repeat([]byte("a"), 1000), far...), far...)[:most]
	got, problem := inflate(deflate.Pack(data, far), far)
	assert.Empty(t, problem)
	assert.True(t, bytes.Equal(data, got))
}

func FuzzUnpack(f *testing.F) {
	dict := []byte(`{"tank":{"bore":"900 mm"}}`)
	for _, level := range []int{flate.HuffmanOnly, 0, 9} {
		f.Add(reference(f, bytes.Repeat([]byte(`{"tank":{"bore":"1 m"},"note":"½"}`), 9), dict, level))
	}
	f.Add([]byte{3, 0})
	f.Add([]byte{7})
	f.Fuzz(func(t *testing.T, packed []byte) { sameAsReference(t, packed, dict) })
}
