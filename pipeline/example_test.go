package pipeline_test

import (
	"fmt"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/finding"
)

// A design is read from a file, checked, and its verdicts are gone through,
// the gravest first.
func ExampleCheck() {
	file := design.WriteFile(design.Demo())

	d, faults := design.ReadFile(file)
	if len(faults) > 0 {
		fmt.Println(faults)
		return
	}
	r := pipeline.Check(d)
	if len(r.Faults) > 0 {
		fmt.Println(r.Faults)
		return
	}
	fmt.Println(r.Title)
	for _, v := range r.Verdicts {
		if v.Rule == "meets-pump" {
			fmt.Println(v.Level, v.Piece)
		}
	}
	fmt.Println(r.Level == finding.Worst(r.Verdicts))
	// Output:
	// Farm perry, maturation tank to bottling tank
	// sound pump
	// true
}

// What cannot be worked out comes back with what is wrong and what would be right.
func ExampleCheck_faults() {
	d := design.Demo()
	d.Under[0].Kind = "funnel"
	for _, f := range pipeline.Check(d).Faults {
		fmt.Println(f.Field, f.Given)
	}
	// Output:
	// under.0.kind funnel
}

// A change is tried on a copy: the design that it was made from stays as it is.
func ExampleReport_Figure() {
	d := design.Demo()
	hot, faults := d.Apply(design.Edit{Path: "liquid.temperature", Value: "60 °C"})
	if len(faults) > 0 {
		fmt.Println(faults)
		return
	}
	cold, _ := pipeline.Check(d).Figure("suction-head-available-lowest")
	warm, _ := pipeline.Check(hot).Figure("suction-head-available-lowest")
	fmt.Println(warm.Amount.SI < cold.Amount.SI)
	// Output: true
}
