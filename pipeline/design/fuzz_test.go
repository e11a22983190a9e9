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
