//go:build js && wasm

// Command page is the module that the page starts with and that answers what
// the user does; package app says what is asked and answered.
package main

import (
	"drawoff/wasm/door"
	"drawoff/www/app"
)

func main() { door.Open(app.New().Handle) }
