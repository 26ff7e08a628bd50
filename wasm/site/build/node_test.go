package build

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
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
	root, err := Root()
	require.NoError(t, err)
	dir := t.TempDir()
	put := func(name string, body []byte, err error) {
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), body, 0o600))
	}
	module, err := os.ReadFile(filepath.Join(root, "static", "rigging.js"))
	put("rigging.js", module, err)
	program, err := compile(root)
	put(programFile, program, err)
	glue, err := toolchainGlue(root)
	put(glueFile, glue, err)
	demo, err := os.ReadFile(filepath.Join(root, "testdata", demoFile))
	put(demoFile, demo, err)
	put("package.json", []byte(`{"type": "module"}`), nil)
	put("run.js", []byte(`
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
console.log(JSON.stringify(out));
process.exit(0);
`), nil)
	cmd := exec.Command(node, filepath.Join(dir, "run.js"))
	cmd.Stderr = os.Stderr
	text, err := cmd.Output()
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
