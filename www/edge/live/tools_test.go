//go:build edge

package live

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline/design"
)

// corpus reads a file of a fuzz target's corpus: four strings.
func corpus(t *testing.T, file string) (method, path, kind, body string) {
	t.Helper()
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	var values []string
	for line := range strings.Lines(string(text)) {
		quoted, ok := strings.CutPrefix(strings.TrimSpace(line), "string(")
		if !ok {
			continue
		}
		value, err := strconv.Unquote(strings.TrimSuffix(quoted, ")"))
		require.NoError(t, err)
		values = append(values, value)
	}
	require.Len(t, values, 4)
	return values[0], values[1], values[2], values[3]
}

// child returns the process that was started by the process parent: the
// platform's runtime under Node.
func child(t *testing.T, parent int) int {
	t.Helper()
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/task/%d/children", parent, parent))
	require.NoError(t, err, "memory is read from /proc")
	first := strings.Fields(string(text))
	require.NotEmpty(t, first)
	id, err := strconv.Atoi(first[0])
	require.NoError(t, err)
	return id
}

// memory returns what a process has in memory of its own, in kB.
func memory(t *testing.T, process int) int {
	t.Helper()
	file, err := os.Open(fmt.Sprintf("/proc/%d/status", process))
	require.NoError(t, err)
	defer file.Close()
	for lines := bufio.NewScanner(file); lines.Scan(); {
		if size, ok := strings.CutPrefix(lines.Text(), "RssAnon:"); ok {
			n, err := strconv.Atoi(strings.Fields(size)[0])
			require.NoError(t, err)
			return n
		}
	}
	require.Fail(t, "no RssAnon in /proc")
	return 0
}

// node runs a script as a module beside the built site.
func node(t *testing.T, script string, args ...string) (string, error) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "script.mjs")
	require.NoError(t, os.WriteFile(file, []byte(script), 0o644))
	out, err := exec.Command("node", append([]string{file}, args...)...).CombinedOutput()
	return string(out), err
}

func absolute(t *testing.T, file string) string {
	t.Helper()
	name, err := filepath.Abs(file)
	require.NoError(t, err)
	return name
}

// asModule is the report on the design in file by the module for other programs.
func asModule(t *testing.T, file string) string {
	t.Helper()
	out, err := node(t, `
		import { readFileSync } from "node:fs";
		const { open } = await import(process.argv[2]);
		process.stdout.write((await open()).checkText(JSON.parse(readFileSync(process.argv[3], "utf8"))));`,
		filepath.Join(folder, "site", "drawoff.mjs"), absolute(t, file))
	require.NoError(t, err, out)
	return out
}

// The packages come from whatever registry npm is set up for.
func TestThePackagesNameNoRegistry(t *testing.T) {
	lock, err := os.ReadFile(filepath.Join(tools, "package-lock.json"))
	require.NoError(t, err)
	assert.NotContains(t, string(lock), `"resolved"`)
	assert.Contains(t, string(lock), `"integrity"`)
}

func TestModuleInNode(t *testing.T) {
	out, err := node(t, `
		import assert from "node:assert/strict";
		const { open, DesignError } = await import(process.argv[2]);
		globalThis.Go = "mine";
		const [core, same] = await Promise.all([open(), open()]);
		assert.equal(core, same);
		assert.equal(globalThis.Go, "mine");
		assert.equal(globalThis.drawoff, undefined);
		const design = JSON.parse(process.argv[3]);
		const report = core.check(design);
		assert.equal(report.drawoff, 1);
		assert.equal(report.title, design.title);
		assert.deepEqual(report, JSON.parse(core.checkText(design)));
		const link = core.link(design);
		assert.match(link, /^1\.[\w-]+$/);
		assert.deepEqual(core.read(link), design);
		assert.deepEqual(core.read("https://example.org/#" + link), design);
		assert.match(core.file(design, "templates.pdf").content, /^%PDF-1\.4/);
		const wrong = (what, field) => assert.throws(what, (e) => e instanceof DesignError && e.faults[0].field === field && e.faults[0].hint !== "");
		wrong(() => core.check({ ...design, tank: { ...design.tank, bore: "wide" } }), "tank.bore");
		wrong(() => core.link({ ...design, unheard: 1 }), "unheard");
		wrong(() => core.read("1.abc"), "");
		assert.throws(() => core.file(design, "nothing.pdf"), /nothing\.pdf/);
		assert.equal(core.check(design).level, report.level);
		console.log("all is well");`,
		filepath.Join(folder, "site", "drawoff.mjs"), demo())
	require.NoError(t, err, out)
	assert.Contains(t, out, "all is well")
}

// The types take every design and every report of the examples as literals,
// with no member too many, and refuse what is none.
func TestTypes(t *testing.T) {
	dir := t.TempDir()
	types, err := os.ReadFile(filepath.Join(folder, "site", "drawoff.d.mts"))
	require.NoError(t, err)
	write := func(name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	write("drawoff.d.mts", string(types))
	var all strings.Builder
	all.WriteString("import { open, DesignError, type Design, type Report } from \"./drawoff.mjs\";\nconst core = await open();\n")
	for i, e := range design.Examples() {
		file := filepath.Join(dir, "design.json")
		text := string(design.WriteFile(e.Design))
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
		fmt.Fprintf(&all, "const d%d: Design = %s;\nconst r%d: Report = %s;\nconst again%d: Report = core.check(core.read(core.link(d%d)));\n", i, text, i, asModule(t, file), i, i)
	}
	all.WriteString("try { core.check({}); } catch (e) { if (e instanceof DesignError) { const hint: string = e.faults[0].hint; } }\n")
	for _, wrong := range []string{
		`const bore: Design = { tank: { bore: 960 } };`,
		`const unheard: Design = { unheard: 1 };`,
		`const kind: Design = { run: [{}] };`,
		`const level: number = r0.level;`,
		`r0.unheard;`,
		`core.check("perry");`,
	} {
		all.WriteString("// @ts-expect-error\n" + wrong + "\n") // the compiler complains where there is no error
	}
	write("all.mts", all.String())
	compiler := filepath.Join(tools, "node_modules", "typescript", "bin", "tsc")
	cmd := exec.Command("node", absolute(t, compiler), "--noEmit", "--strict", "--target", "es2022", "--lib", "es2022", "--module", "nodenext", "all.mts")
	cmd.Dir = dir
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", out)
}
