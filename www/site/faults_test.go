//go:build !race

package site

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A module that does whatever wrong it is asked for, behind the door of ours.
const faulty = `package main

import (
	"errors"

	"drawoff/wasm/door"
)

type shape interface{ area() int }
type square struct{ side int }

func (s square) area() int { return s.side * s.side }

var (
	none   []int
	zero   int
	counts map[string]int
	bytes  [2][]byte
	shapes = []shape{(*square)(nil)}
)

func deep(n int) int { return 1 + deep(n+1) }

func main() {
	door.Open(func(request string) string {
		switch request {
		case "ours":
			panic("ours")
		case "an error":
			panic(errors.New("an error"))
		case "nothing":
			panic(nil)
		case "nil map":
			counts["a"] = 1
		case "index":
			none[zero]++
		case "slice":
			none = none[zero+1:]
		case "nil":
			var s *square
			s.side++
		case "wrapper":
			zero = shapes[0].area()
		case "division":
			zero = 1 / zero
		case "kind":
			var f any = zero
			println(f.(string))
		case "length":
			none = make([]int, zero-1)
		case "deep":
			zero = deep(0)
		case "memory":
			for i := range bytes {
				bytes[i] = make([]byte, 3<<30) // of 4 GB that there can be
			}
		case "stuck":
			select {}
		}
		return "{}"
	})
}
`

// inThread runs thread.js as a browser does, around a module, and prints the
// answers to requests asked one after another.
const inThread = `
const fs = require("fs"), vm = require("vm");
const [thread, glue, file, ...requests] = process.argv.slice(2);
const load = (file) => vm.runInThisContext(fs.readFileSync(file, "utf8"));
console.error = console.warn = () => {};
Object.assign(globalThis, { importScripts: load, onmessage: null });
const answers = [];
const ask = (request) => new Promise((answered) => {
  globalThis.postMessage = ({ answer }) => answered(answer);
  onmessage({ data: { number: 1, request } });
});
load(thread);
(async () => {
  onmessage({ data: { glue, module: await WebAssembly.compile(fs.readFileSync(file)) } });
  console.log = () => {}; // what a dying program says
  for (const request of requests) answers.push(JSON.parse(await ask(request)).error ?? "");
  process.stdout.write(JSON.stringify(answers), () => process.exit());
})();
`

// What a program can do wrong is told as an answer, and the module goes on if
// it can: if it cannot, every further request is answered too, so that the page
// starts another. All is as it was before the module was rewritten. What is
// told is the Go runtime's (package runtime, error.go).
func TestFaultsAreAnswered(t *testing.T) {
	t.Parallel()
	node, err := exec.LookPath("node")
	require.NoError(t, err, "install Node: .ci/tools does")
	root, err := goTool(t.Context(), "env", "GOROOT")
	require.NoError(t, err)
	dir := t.TempDir()
	write := func(name string, body []byte) string {
		file := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(file, body, 0o600))
		return file
	}
	whole := filepath.Join(dir, "whole.wasm")
	_, err = goTool(t.Context(), "build", "-trimpath", "-ldflags=-s -w", small, "-o", whole, write("main.go", []byte(faulty)))
	require.NoError(t, err)
	module, err := os.ReadFile(whole)
	require.NoError(t, err)
	light, err := Slim(module)
	require.NoError(t, err)
	slimmed, script := write("slim.wasm", light), write("thread.cjs", []byte(inThread))
	ask := func(module string, requests ...string) []string {
		args := append([]string{script, filepath.Join("..", "static", "thread.js"), filepath.Join(root, "lib", "wasm", "wasm_exec.js"), module}, requests...)
		out, err := exec.Command(node, args...).Output()
		require.NoError(t, err)
		var answers []string
		require.NoError(t, json.Unmarshal(out, &answers), "%s", out)
		return answers
	}

	faults := []string{"ours", "an error", "nothing", "nil map", "index", "slice", "nil", "wrapper", "division", "kind", "length", "fine"}
	answers := ask(slimmed, faults...)
	require.Len(t, answers, len(faults))
	for i, words := range []string{"ours", "an error", "panic called with nil argument", "assignment to entry in nil map", "index out of range [0] with length 0", "slice bounds out of range", "nil pointer dereference", "value method main.square.area called using nil *square pointer", "integer divide by zero", "interface conversion: interface {} is int, not string", "len out of range", ""} {
		assert.Contains(t, answers[i], words, faults[i])
		assert.Equal(t, words == "", answers[i] == "", faults[i])
	}
	assert.Equal(t, ask(whole, faults...), answers)

	for fault, words := range map[string]string{"deep": "Maximum call stack size exceeded", "memory": "it ended before it answered", "stuck": "it ended before it answered"} {
		answers := ask(slimmed, "fine", fault)
		assert.Empty(t, answers[0])
		assert.Contains(t, answers[1], words, fault)
	}
	assert.Contains(t, ask(slimmed, "memory", "fine")[1], "Go program has already exited")
}
