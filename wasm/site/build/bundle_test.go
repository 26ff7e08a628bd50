package build

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestBundleRuns(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("Node is not installed: the bundle is run in the browser tests only")
	}
	code, err := Bundle(Files{
		"page.js": []byte(`import { twice, local as five } from "./lib/a.js"; // with a remark
import * as b from './b.js';
import {
  Word,
  late,
} from "./b.js";
import "./side.js";
export const unused = 1;
const local = 1;
console.log(twice(five), new Word().text, b.late(), local, globalThis.side);
`),
		"lib/a.js": []byte("import { late } from \"../b.js\";\nconst local = 5;\nexport function twice(x) { return 2 * x + late(); }\nexport { local };\n"),
		"b.js":     []byte("export class Word {\n  text = \"<!-\" + \"- </script>\";\n}\nfunction inner() { return 7; }\nexport {\n  inner as late,\n};\n"),
		"side.js":  []byte("globalThis.side = \"side\";\r\n"),
	}, "./page.js")
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "bundle.mjs")
	require.NoError(t, os.WriteFile(file, []byte(code), 0o600))
	out, err := exec.Command(node, file).CombinedOutput()
	require.NoError(t, err, "%s\n%s", out, code)
	assert.Equal(t, "17 <!-- </script> 7 1 side\n", string(out))
}

func TestBundleErrorsNameFileAndLine(t *testing.T) {
	for source, want := range map[string]string{
		"\nimport a from './b.js';":           "static/page.js:2: only import { names }",
		"import { a } from 'b';":              "static/page.js:1: only relative imports",
		"import { a-b } from './b.js';":       "static/page.js:1: cannot read the imported name",
		"import { a } from './none.js';":      "static/none.js: there is no such module, imported by page.js",
		"\n\nexport default 1;":               "static/page.js:3: only export of",
		"export let a = 1;":                   "static/page.js:1: only export of",
		"export const { a } = b;":             "static/page.js:1: only export of",
		"export const a = 1,\n  b = 2;":       "", // the second name is not seen; its import would be undefined
		"export * from './b.js';":             "static/page.js:1: only export of",
		"export { a } from './b.js';":         "static/page.js:1: only export { names }",
		"const x = await import('./b.js');":   "static/page.js:1: import() is not understood",
		"import { c } from './c.js';":         "modules import one another: page.js → c.js → page.js",
		"import { b } from './b.js';\n<!-- x": "page.js: <!-- cannot stand",
		"// import('./b.js')\nreimport(1);":   "",
		"/** @type {import('./b.js').B} */":   "",
		"/* x */ import('./b.js');":           "static/page.js:1: import() is not understood",
		"import.meta.url;":                    "",
	} {
		_, err := Bundle(Files{
			"page.js": []byte(source),
			"b.js":    []byte("export const b = 1;"),
			"c.js":    []byte("import { d } from './page.js';\nexport const c = 1;"),
		}, "page.js")
		if want == "" {
			assert.NoError(t, err, source)
			continue
		}
		assert.ErrorContains(t, err, want, source)
	}
}

// What only the types need is not shipped; lines keep their numbers.
func TestBundleLeavesTypesOut(t *testing.T) {
	out, err := Bundle(Files{"page.js": []byte("/** @param {string} a */\nfunction f(a) {\n  return /** @type {T} */ (a);\n}\n/** kept */\nf(1);\n")}, "page.js")
	require.NoError(t, err)
	assert.NotContains(t, out, "@param")
	assert.Contains(t, out, "\n\nfunction f(a) {\n  return /** @type {T} */ (a);\n}\n/** kept */\nf(1);\n")
}
