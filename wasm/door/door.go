//go:build js && wasm

// Package door lets a script call a module: it puts one function on globalThis,
//
//	drawoff(request: string): string
//
// which takes a request as JSON and gives the answer as JSON. Nothing else
// crosses: no object, no callback, no promise, so there is nothing to release
// and no answer can be lost or come twice. A second, drawoffCollect(), collects
// garbage: a script that knows when nobody waits spares the next answer that.
package door

import (
	"runtime"
	"syscall/js"

	"drawoff/pipeline/tokens"
)

// Open answers requests with handle, for as long as the page lives. When the
// function stands it calls globalThis.drawoffReady, where there is one.
func Open(handle func(request string) string) {
	// The functions are never released: they live as long as the page.
	js.Global().Set("drawoff", js.FuncOf(func(_ js.Value, args []js.Value) any {
		return answer(handle, args)
	}))
	js.Global().Set("drawoffCollect", js.FuncOf(func(js.Value, []js.Value) any {
		runtime.GC()
		return nil
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
			response = refusal("drawoff: a fault of the program, not of the design: " + words(fault))
		}
	}()
	if len(args) != 1 || args[0].Type() != js.TypeString {
		return refusal("drawoff: want one argument, a request as a JSON string")
	}
	return handle(args[0].String())
}

// refusal returns the envelope of a request that could not be answered.
func refusal(why string) string {
	var o tokens.Object
	o.Text("error", why)
	return o.String()
}

// words tells what was panicked with. Package fmt would do it too, at a tenth
// of the module's size.
func words(fault any) string {
	switch fault := fault.(type) {
	case error: // an index out of range and its like
		return fault.Error()
	case string:
		return fault
	}
	return "of an unknown kind"
}
