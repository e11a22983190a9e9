//go:build js && wasm

// Command page is the browser's door. It puts one function on globalThis,
//
//	drawoff(request: string): string
//
// which takes a request as JSON and gives the answer as JSON; package app says
// what is in them. Nothing else crosses: no object, no callback, no promise,
// so there is nothing to release and no answer can be lost or come twice.
package main

import (
	"encoding/json"
	"fmt"
	"syscall/js"

	"drawoff/www/app"
)

func main() {
	a := app.New()
	// The function is never released: it lives as long as the page.
	js.Global().Set("drawoff", js.FuncOf(func(_ js.Value, args []js.Value) any {
		return answer(a.Handle, args)
	}))
	if ready := js.Global().Get("drawoffReady"); ready.Type() == js.TypeFunction {
		ready.Invoke()
	}
	select {}
}

// answer passes the one argument to handle. A panic must not get out of a
// js.Func: it throws nothing in the browser, the call gives undefined, and
// the next call finds the program gone. So it becomes an answer.
func answer(handle func(string) string, args []js.Value) (response string) {
	defer func() {
		if fault := recover(); fault != nil {
			response = refusal(fmt.Sprint("drawoff: a fault of the program, not of the design: ", fault))
		}
	}()
	if len(args) != 1 || args[0].Type() != js.TypeString {
		return refusal("drawoff: want one argument, a request as a JSON string")
	}
	return handle(args[0].String())
}

// refusal returns the envelope of a request that could not be answered.
func refusal(why string) string {
	envelope, _ := json.Marshal(struct { // a struct of one string cannot fail
		Error string `json:"error"`
	}{why})
	return string(envelope)
}
