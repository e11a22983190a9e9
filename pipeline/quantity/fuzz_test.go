package quantity

import (
	"errors"
	"math"
	"testing"
)

// Whatever is typed gives a finite amount or a *ParseError, never a panic.
func FuzzParse(f *testing.F) {
	for _, text := range []string{"240 mm", `6'-2 1/2"`, "1:100", "SG 1.048", "-5 °C", "1°30'", "2 h 05 min", "1,500 mm", "½", "1e9 m", "0x", "rising", "in 1 in 1 in"} {
		for k := range kinds {
			f.Add(uint8(k), text)
		}
	}
	f.Fuzz(func(t *testing.T, kind uint8, text string) {
		k := Kind(int(kind) % len(kinds))
		a, err := ParseAmount(k, text)
		var pe *ParseError
		switch {
		case err != nil:
			if !errors.As(err, &pe) || pe.What == "" || pe.Hint == "" {
				t.Fatalf("%q: no help in %v", text, err)
			}
		case a.Kind != k || math.IsNaN(a.SI) || math.Abs(a.SI) > MaxSI:
			t.Fatalf("%q: %v", text, a)
		default:
			for _, s := range []System{Metric, Inches} {
				if shown := a.Text(s); shown == "" || shown == "not a number" {
					t.Fatalf("%q: shown as %q", text, shown)
				}
			}
		}
	})
}
