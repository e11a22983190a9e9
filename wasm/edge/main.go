//go:build js && wasm

// Command edge is the module that the edge worker answers with; package edge
// says what is asked and answered.
package main

import (
	"drawoff/wasm/door"
	"drawoff/www/edge"
)

func main() { door.Open(edge.HandleJSON) }
