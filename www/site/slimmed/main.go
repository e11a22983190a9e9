// Command slimmed runs a program that Go made for the browser as the site
// serves it, rewritten by site.Slim, in Node: what is tested is then what is
// served. The go tool runs tests with it:
//
//	GOOS=js GOARCH=wasm go test -exec slimmed ./pipeline/...
package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"drawoff/www/site"
)

func main() {
	err := run(context.Background(), os.Args[1:])
	var ended *exec.ExitError
	switch {
	case errors.As(err, &ended): // it said itself why
		os.Exit(ended.ExitCode())
	case err != nil:
		fmt.Fprintln(os.Stderr, "slimmed:", err)
		os.Exit(1)
	}
}

// run runs the program of args, its file and then its own arguments.
func run(ctx context.Context, args []string) error {
	if len(args) == 0 {
		return errors.New("want the file of a program, and what it is to be given")
	}
	module, err := os.ReadFile(args[0])
	if err != nil {
		return err
	}
	light, err := site.Slim(module)
	if err != nil {
		return fmt.Errorf("%s: %w", args[0], err)
	}
	file := strings.TrimSuffix(args[0], ".test") + ".slim.test" // in a folder of the go tool's own
	if err := os.WriteFile(file, light, 0o600); err != nil {
		return err
	}
	defer os.Remove(file)
	root, err := exec.CommandContext(ctx, "go", "env", "GOROOT").Output()
	if err != nil {
		return err
	}
	starter := filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "go_js_wasm_exec")
	program := exec.CommandContext(ctx, starter, append([]string{file}, args[1:]...)...)
	// The runtime refuses a large environment.
	program.Env = []string{"PATH=" + os.Getenv("PATH"), "HOME=" + os.Getenv("HOME")}
	program.Stdin, program.Stdout, program.Stderr = os.Stdin, os.Stdout, os.Stderr
	return program.Run()
}
