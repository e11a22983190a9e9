package edge_test

import (
	"fmt"

	"drawoff/pipeline/design"
	"drawoff/www/edge"
)

// Whoever has a store answers a request in two calls at most.
func ExampleHandle() {
	store := map[string]string{}
	q := edge.Request{
		Method: "POST", Path: "/api/links", Origin: "https://example.org", Type: "application/json",
		Body: string(design.WriteFile(design.Demo())), ID: "6fUqm2Gk0S5yJrXcVt9aZA",
	}
	a := edge.Handle(q)
	if a.Do == edge.Put {
		store[a.Key] = a.Value
		q.Came = edge.Done
		a = edge.Handle(q)
	}
	fmt.Println(a.Status, len(store))
	fmt.Print(a.Body)
	// Output:
	// 201 1
	// {"id":"6fUqm2Gk0S5yJrXcVt9aZA","link":"https://example.org/l/6fUqm2Gk0S5yJrXcVt9aZA","design":"https://example.org/api/links/6fUqm2Gk0S5yJrXcVt9aZA"}
}
