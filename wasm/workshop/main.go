//go:build js && wasm

// Command workshop is the module that a thread beside the page runs for what
// takes longer than a keystroke; package workshop says what is asked and
// answered. It is fetched once the page stands, so its weight is no part of
// the first load.
package main

import (
	"drawoff/wasm/door"
	"drawoff/www/workshop"
)

func main() { door.Open(workshop.Handle) }
