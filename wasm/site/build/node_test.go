package build

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestModuleInNode runs the calculator's module outside a browser, and lets
// its Go program end in the ways in which it can.
func TestModuleInNode(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("Node is not installed: the module is run in the browser tests only")
	}
	dir := moduleDir(t, "run.js", `
import { load, demo, version } from "./rigging.js";
const plan = await demo();
const out = { version: version() };

const first = await load();
out.whole = first.evaluate(plan);
out.same = first === await load();
out.cycle = first.evaluate((() => { const o = {}; o.o = o; return o; })());
out.nan = first.evaluate({ ...plan, tree: { ...plan.tree, height_m: NaN } });

// Another copy of the module, whose program ends.
async function ending(name, run) {
  const { load } = await import("./rigging.js?" + name);
  const Whole = globalThis.Go;
  globalThis.Go = class extends Whole { run(instance) { return run(super.run(instance)); } };
  const calculator = await load();
  globalThis.Go = Whole;
  const told = [];
  calculator.onfatal = (why) => { told.push(why); throw new Error("a page that fails too"); };
  await new Promise((r) => setTimeout(r));
  const reports = [calculator.evaluate(plan), calculator.evaluate(plan)];
  return { told, reports };
}
console.error = () => {};
out.gone = await ending("gone", (ended) => Promise.resolve());
out.silent = await ending("silent", (ended) => { globalThis.pullline = () => undefined; return ended; });
out.trap = await ending("trap", (ended) => { globalThis.pullline = () => { throw new WebAssembly.RuntimeError("unreachable"); }; return ended; });
out.garbled = await ending("garbled", (ended) => { globalThis.pullline = () => "{"; return ended; });
process.getBuiltinModule("node:fs").writeFileSync("out.json", JSON.stringify(out));
process.exit(0);
`)
	cmd := exec.Command(node, "run.js")
	cmd.Dir, cmd.Stderr = dir, os.Stderr
	require.NoError(t, cmd.Run())
	text, err := os.ReadFile(filepath.Join(dir, "out.json"))
	require.NoError(t, err)

	type report struct {
		Verdict  string
		Problems []struct{ Path, Message string }
	}
	type end struct {
		Told    []string
		Reports []report
	}
	var out struct {
		Version                     string
		Same                        bool
		Whole, Cycle, NaN           report
		Gone, Silent, Trap, Garbled end
	}
	require.NoError(t, json.Unmarshal(text, &out))
	assert.Empty(t, out.Version)
	assert.True(t, out.Same)
	assert.Contains(t, []string{"within", "near", "over"}, out.Whole.Verdict)
	assert.Empty(t, out.Whole.Problems)
	for name, r := range map[string]report{"cycle": out.Cycle, "NaN": out.NaN} {
		assert.Equal(t, "unknown", r.Verdict, name)
		assert.NotEmpty(t, r.Problems, name)
	}
	assert.Equal(t, "tree.height_m", out.NaN.Problems[0].Path, "a number that is not finite is named, not left out")

	for name, e := range map[string]end{"gone": out.Gone, "silent": out.Silent, "trap": out.Trap, "garbled": out.Garbled} {
		require.Len(t, e.Reports, 2, name)
		for _, r := range e.Reports {
			assert.Equal(t, "unknown", r.Verdict, name)
			assert.NotEmpty(t, r.Problems, name)
		}
		if name == "garbled" { // an answer lost, but the program is there
			assert.Empty(t, e.Told, name)
		} else {
			assert.Len(t, e.Told, 1, "%s: the page hears of it once", name)
		}
	}
}

// moduleDir makes a directory with the calculator's module, what it needs, and
// a script that uses it.
func moduleDir(t *testing.T, name, script string) string {
	t.Helper()
	dir := t.TempDir()
	files := Files{"package.json": []byte(`{"type": "module"}`), name: []byte(script)}
	for _, file := range []string{"rigging.js", programFile, glueFile, demoFile} {
		files[file] = built(t).Site[file]
	}
	for _, file := range files.Names() {
		require.NoError(t, os.WriteFile(filepath.Join(dir, file), files[file], 0o600))
	}
	return dir
}

// The examples in the module's comments, and those in README.md, print what they
// say.
func TestExamplesForScripts(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("Node is not installed: the examples are not run")
	}
	root, err := Root()
	require.NoError(t, err)
	readme, err := os.ReadFile(filepath.Join(root, "README.md"))
	require.NoError(t, err)
	var examples []string
	for _, part := range strings.Split(string(built(t).Site["rigging.js"]), "\n * @example <caption>")[1:] {
		_, code, _ := strings.Cut(part, "</caption>\n")
		code = regexp.MustCompile(`(?s)\n \*(/|\n).*`).ReplaceAllString(code, "")
		examples = append(examples, regexp.MustCompile(`(?m)^ \* ?`).ReplaceAllString(code, ""))
	}
	require.Len(t, examples, 4)
	for _, found := range regexp.MustCompile("(?s)```js\n( *)(import .*?)```").FindAllSubmatch(readme, -1) {
		examples = append(examples, string(found[2]))
	}
	require.Len(t, examples, 7)
	for _, code := range examples {
		dir := moduleDir(t, "example.js", code+"\nprocess.exit(0);\n")
		cmd := exec.Command(node, filepath.Join(dir, "example.js"))
		cmd.Stderr = os.Stderr
		out, err := cmd.Output()
		require.NoError(t, err, code)
		_, want, ok := strings.Cut(code, "// prints: ")
		require.True(t, ok, code)
		assert.Equal(t, strings.Fields(want), strings.Fields(string(out)), code)
	}
}
