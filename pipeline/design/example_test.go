package design_test

import (
	"fmt"

	"drawoff/pipeline/design"
)

// A link carries the whole design, in a few hundred characters.
func ExampleWriteLink() {
	d := design.Demo()
	link := design.WriteLink(d)

	back, faults := design.ReadLink("https://example.org/drawoff/#" + link)
	fmt.Println(len(link) < 600, len(faults), back.Title == d.Title)
	// Output: true 0 true
}

// Every fault has its line, its field, what was given and what would be right.
func ExampleReadFile() {
	_, faults := design.ReadFile([]byte(`{
  "drawoff": 1,
  "tank": {"bore": "wide"}
}`))
	f := faults[0]
	fmt.Printf("line %d: %s %q %s\n", f.Line, f.Field, f.Given, f.What)
	// Output: line 3: tank.bore "wide" does not begin with a number
}
