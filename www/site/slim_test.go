package site

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The module as a whole is run by the browser tests; this one looks at what is
// refused, and that nothing is read beyond the end.
func TestSlimRefuses(t *testing.T) {
	t.Parallel()
	header := []byte("\x00asm\x01\x00\x00\x00")
	data := append(bytes.Clone(header), 11, 8, 1, 0, 0x41, 0, 0x0b, 2, 'a', 'b') // one segment, no table of functions in it
	for _, module := range [][]byte{nil, header, append(bytes.Clone(header), 11), data[:12], data} {
		_, err := slim(module)
		assert.ErrorIs(t, err, errStrange, "%q", module)
	}
}

func TestReader(t *testing.T) {
	t.Parallel()
	r := reader{data: []byte{0xe5, 0x8e, 0x26, 0x7f, 0xff}} // 624485: the example of DWARF 4, figure 22, LEB128
	assert.EqualValues(t, 624485, r.uint())
	assert.EqualValues(t, 127, r.uint())
	assert.False(t, r.bad)
	r.uint()
	require.True(t, r.bad, "the number is cut short")
}
