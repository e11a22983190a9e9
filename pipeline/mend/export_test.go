package mend

import (
	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
)

// Cost is Ways with how often the plant was checked.
func Cost(d design.Design, r pipeline.Report, v finding.Verdict) ([]Way, int) {
	m := newMender(d, r, v)
	return m.ways(), m.checks
}
