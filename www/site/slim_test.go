//go:build !race

package site

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A program that asks of the runtime what slim must leave it: stacks that grow
// and are collected, panics from our code, from the runtime and from a wrapper,
// and which goroutines are ours; and of its code that it jumps back and forth,
// is left in the midst of it and gone on with.
const program = `package main

import "runtime"

type shape interface{ area() int }
type square struct{ side int }

func (s square) area() int { return s.side * s.side }

var shapes = []shape{(*square)(nil)} // which the compiler does not see through

func deep(n int, keep *[]*int) int {
	if n == 0 {
		runtime.GC()
		return 0
	}
	*keep = append(*keep, &n)
	return 1 + deep(n-1, keep)
}

func caught(what func()) (text string) {
	defer func() {
		switch fault := recover().(type) {
		case error:
			text = fault.Error()
		case string:
			text = fault
		}
	}()
	what()
	return "nothing"
}

// steps counts, by jumps of all kinds, the steps of n to 1 in Collatz's way.
func steps(n int) (count int) {
	for ; n != 1; count++ {
		switch {
		case n%2 == 0:
			n /= 2
			continue
		case n < 0:
			return -1
		}
		n = 3*n + 1
	}
	return count
}

// prime sends what no number before divides, each of them in a goroutine.
func prime(out chan<- int) {
	in := make(chan int)
	go func(in chan<- int) {
		for n := 2; ; n++ {
			in <- n
		}
	}(in)
	for {
		p := <-in
		out <- p
		next := make(chan int)
		go func(in <-chan int) {
			for n := range in {
				if n%p != 0 {
					next <- n
				}
			}
		}(in)
		in = next
	}
}

func main() {
	primes, last := make(chan int), 0
	go prime(primes)
	for range 100 {
		last = <-primes
	}
	println("the hundredth prime", last, "and 27 takes", steps(27))
	var keep []*int
	println(deep(10000, &keep), len(keep), *keep[77])
	println(caught(func() { panic("ours") }))
	println(caught(func() { var m map[string]int; m["a"] = 1 }))
	println(caught(func() { println(keep[len(keep)]) }))
	println(caught(func() { println(shapes[0].area()) }))
	done := make(chan int)
	go func() { done <- (square{5}).area() }()
	println(<-done)
	println(runtime.NumGoroutine(), "at work")
}
`

// The program does the same before and after.
func TestSlimRunsTheSame(t *testing.T) {
	t.Parallel()
	for _, made := range []string{"-gcflags=all=-l", quick} {
		t.Run(made, func(t *testing.T) {
			t.Parallel()
			runsTheSame(t, made)
		})
	}
}

func runsTheSame(t *testing.T, made string) {
	node, err := exec.LookPath("node")
	require.NoError(t, err, "install Node: .ci/tools does")
	dir := t.TempDir()
	source, module := filepath.Join(dir, "main.go"), filepath.Join(dir, "whole.wasm")
	require.NoError(t, os.WriteFile(source, []byte(program), 0o600))
	_, err = goTool(t.Context(), "build", "-trimpath", "-ldflags=-s -w", made, "-o", module, source)
	require.NoError(t, err)
	whole, err := os.ReadFile(module)
	require.NoError(t, err)
	small, err := Slim(whole)
	require.NoError(t, err)
	packedWhole, err := Brotli(whole)
	require.NoError(t, err)
	packedSmall, err := Brotli(small)
	require.NoError(t, err)
	assert.Less(t, 4*len(packedSmall), 3*len(packedWhole))
	again, err := Slim(small)
	require.NoError(t, err)
	assert.Equal(t, small, again, "there is nothing left to take out")
	for _, version := range []string{"go1.27.", "go1.2.6", "go1.26r", "mine.1."} {
		_, err = Slim(bytes.ReplaceAll(whole, []byte("go1.26."), []byte(version)))
		assert.ErrorIs(t, err, errStrange, "what another Go made may only look the same: %s", version)
	}

	root, err := goTool(t.Context(), "env", "GOROOT")
	require.NoError(t, err)
	run := func(module []byte) string {
		file := filepath.Join(dir, "run.wasm")
		require.NoError(t, os.WriteFile(file, module, 0o600))
		cmd := exec.Command(node, "--stack-size=1000", filepath.Join(root, "lib", "wasm", "wasm_exec_node.js"), file)
		cmd.Env = []string{"PATH=" + os.Getenv("PATH")}
		out, err := cmd.CombinedOutput()
		require.NoError(t, err, string(out))
		return string(out)
	}
	said := run(whole)
	assert.Contains(t, said, "10000 10000 9923")
	assert.Contains(t, said, "assignment to entry in nil map")
	assert.Contains(t, said, "value method main.square.area called using nil *square pointer")
	assert.Contains(t, said, "the hundredth prime 541 and 27 takes 111", "known numbers: OEIS A000040 and A006577")
	assert.Contains(t, said, "103 at work", "main, prime, the one that counts and a hundred that divide")
	assert.Equal(t, said, run(small))
}

// make wasm tests what is served.
func TestWhatIsServedIsTested(t *testing.T) {
	t.Parallel()
	makefile, err := os.ReadFile(filepath.Join("..", "..", "Makefile"))
	require.NoError(t, err)
	for _, how := range []string{small, "-ldflags='-s -w'", "GOEXPERIMENT=nogreenteagc", "drawoff/www/site/slimmed"} {
		assert.Contains(t, string(makefile), how)
	}
}

func TestSlimRefuses(t *testing.T) {
	t.Parallel()
	header := "\x00asm\x01\x00\x00\x00"
	data := header + "\x0b\x08\x01\x00\x41\x00\x0b\x02ab" // one segment, no table of functions in it
	for _, module := range []string{"", header, header + "\x0b", data[:12], data} {
		_, err := Slim([]byte(module))
		assert.ErrorIs(t, err, errStrange, "%q", module)
	}
}

func TestNumbersOfWebAssembly(t *testing.T) {
	t.Parallel()
	// 624485 is the example of DWARF 4, figure 22, and of many a text on LEB128.
	r := reader{data: []byte{0xe5, 0x8e, 0x26, 0x7f, 0xff}}
	assert.EqualValues(t, 624485, r.uint())
	assert.EqualValues(t, 127, r.uint())
	assert.False(t, r.bad)
	r.uint()
	assert.True(t, r.bad, "the number is cut short")
	// DWARF 4, figure 24: 2 and 127, 128 as signed numbers.
	assert.Equal(t, []byte{2, 0xff, 0, 0x80, 1}, appendSigned(appendSigned(appendSigned(nil, 2), 127), 128))
}
