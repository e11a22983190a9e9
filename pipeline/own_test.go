package pipeline_test

import (
	"testing"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What Own makes up mates, meets the pump and falls to it, whatever the tank
// and the tube: only what was said can be wrong.
func TestOwnIsSoundWhereItWasMadeUp(t *testing.T) {
	t.Parallel()
	set := func(path, value string) design.Edit { return design.Edit{Path: path, Value: value} }
	for _, bottom := range []string{"cone", "klopper", "flat"} {
		for _, tube := range []string{"bs-4825/1.5in", "bs-4825/2.5in", "din-11866-a/dn50", "iso-2037/51", "asme-bpe/2in"} {
			for _, kind := range []string{design.Centrifugal, design.Lobe, design.NoPump} {
				for _, into := range []string{"", "bs-4825/1in"} {
					d, faults := design.Own(set("tank.bore", "900 mm"), set("tank.height", "1.2 m"), set("tank.bottom", bottom), set("tank.outlet.size", tube),
						set("pump.kind", kind), set("pump.away", "1.8 m"), set("pump.height", "240 mm"), set("pump.inSize", into))
					require.Empty(t, faults, "%s %s %s", bottom, tube, kind)
					r := pipeline.Check(d)
					require.Empty(t, r.Faults)
					for _, v := range r.Verdicts {
						assert.NotEqual(t, finding.Stop, v.Level, "%s %s %s into %q: %s", bottom, tube, kind, into, v.Sentence)
					}
				}
			}
		}
	}
}
