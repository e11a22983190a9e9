package asjson_test

import (
	"encoding/json"
	"fmt"

	"drawoff/pipeline"
	"drawoff/pipeline/asjson"
	"drawoff/pipeline/design"
)

// The report of a design as other programs read it, with an empty shelf.
func ExampleReport() {
	r := pipeline.Check(design.Demo())
	text := asjson.Report(r, r.Work(design.Shelf{}))

	var read struct {
		Drawoff int
		Title   string
		Figures []struct{ Slug string }
	}
	if err := json.Unmarshal(text, &read); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(read.Drawoff, read.Title, len(read.Figures) == len(r.Figures))
	// Output: 1 Farm perry, maturation tank to bottling tank true
}
