package design_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"drawoff/pipeline/design"

	"github.com/stretchr/testify/require"
)

// survives asks that a design without faults can be written and read both
// ways unchanged.
func survives(t *testing.T, d design.Design) {
	t.Helper()
	if file := design.WriteFile(d); len(file) <= design.MaxFile {
		back, faults := design.ReadFile(file)
		require.Empty(t, faults)
		require.Equal(t, d.Clone(), back) // a clone has nil for an empty list
	}
	if link := design.WriteLink(d); len(link) <= design.MaxLink {
		back, faults := design.ReadLink(link)
		require.Empty(t, faults)
		require.Equal(t, d.Clone(), back)
	}
}

func FuzzReadFile(f *testing.F) {
	f.Add(design.WriteFile(plant()))
	f.Add([]byte(shortFile))
	f.Add([]byte(`{"drawoff":1,"run":[{"kind":"bend","angle":90}],"x":[[{}]]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		d, faults := design.ReadFile(data)
		for _, fault := range faults {
			require.NotEmpty(t, fault.What)
			require.NotEmpty(t, fault.Hint)
			require.Equal(t, len(data) <= design.MaxFile, fault.Line > 0)
		}
		if len(faults) == 0 {
			require.True(t, json.Valid(bytes.TrimPrefix(data, []byte("\uFEFF"))), "taken for JSON and is none")
			require.Empty(t, d.Validate())
			survives(t, d)
		}
	})
}

func FuzzReadLink(f *testing.F) {
	f.Add(design.WriteLink(plant()))
	f.Add(packed(`{"tank":{"bore":"1 m"}}`))
	f.Add("#1.%2541")
	f.Fuzz(func(t *testing.T, link string) {
		d, faults := design.ReadLink(link)
		for _, fault := range faults {
			require.NotEmpty(t, fault.What)
			require.NotEmpty(t, fault.Hint)
			require.Zero(t, fault.Line)
		}
		if len(faults) == 0 {
			survives(t, d)
		}
	})
}

// A shelf that could be read without a fault is written and read as it stands.
func FuzzReadShelf(f *testing.F) {
	f.Add(`{"shelf":1,"items":[{"part":"a","inHand":2,"price":"1,5","from":"b"}],"rack":[{"tube":"t","length":"1 m"}],"shop":{"keep":"1 m"},"more":[1]}`)
	f.Add(`{"measured":[{"part":"clamp/2in/gap","length":"1.9 mm"}],"made":[{"name":"c","pieces":[{"kind":"bend","size":"bs-4825/2in"}]}]}`)
	f.Fuzz(func(t *testing.T, text string) {
		s, faults := design.ReadShelf(text)
		for _, fault := range faults {
			require.NotEmpty(t, fault.What)
			require.NotEmpty(t, fault.Hint)
		}
		if written := s.Write(); len(faults) == 0 && written != "" {
			again, faults := design.ReadShelf(written)
			require.Empty(t, faults)
			require.Equal(t, written, again.Write())
		}
	})
}
