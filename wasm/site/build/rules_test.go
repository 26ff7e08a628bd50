package build

import (
	"encoding/json"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func modules(t *testing.T) (root string, scripts Files) {
	t.Helper()
	root, err := Root()
	require.NoError(t, err)
	static, err := readTree(filepath.Join(root, "static"))
	require.NoError(t, err)
	scripts = Files{}
	for name, body := range static {
		if filepath.Ext(name) == ".js" {
			scripts[name] = body
		}
	}
	require.NotEmpty(t, scripts)
	return root, scripts
}

// uses gives the places where scripts, without their comments, match.
func uses(scripts Files, pattern string) (files, places []string) {
	re := regexp.MustCompile(pattern)
	for _, name := range scripts.Names() {
		found := false
		for _, line := range strings.Split(string(scripts[name]), "\n") {
			line = remark.ReplaceAllString(line, "")
			s := strings.TrimSpace(line)
			if strings.HasPrefix(s, "//") || strings.HasPrefix(s, "*") || strings.HasPrefix(s, "/*") {
				continue
			}
			if re.MatchString(line) {
				found = true
				places = append(places, name+": "+s)
			}
		}
		if found {
			files = append(files, name)
		}
	}
	return files, places
}

// All computing is done in Go: a script has no trigonometry and no root.
func TestScriptsDoNotCompute(t *testing.T) {
	_, scripts := modules(t)
	_, places := uses(scripts, `Math\.(a?sinh?|a?cosh?|a?tanh?|atan2|sqrt|cbrt|hypot|pow|exp|log|PI)\b|9\.8\d`)
	assert.Empty(t, places)
}

// Text from a plan never becomes markup or code.
func TestScriptsMakeNoMarkup(t *testing.T) {
	_, scripts := modules(t)
	_, places := uses(scripts, `innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\(|new Function\(|setAttribute\("(on|style)`)
	assert.Empty(t, places)
}

// What the page says is whole, and its own key in the table of a language:
// nothing is said that was put together before.
func TestScriptsSayWholeTexts(t *testing.T) {
	_, scripts := modules(t)
	delete(scripts, "say.js")
	_, places := uses(scripts, `[^\w.#]say\([^"]|\bsayCount\([^"`+"`"+`]*`+"`"+`|\bsay(Count)?\("[^"]*" \+`)
	assert.Empty(t, places)
}

// One module each knows the program, the storage, the service worker and the
// frames around the page. Apart from these stand the workers themselves, the
// script that looks for all of them where no module runs, and the other end of
// the frame's messages, made for the host's page.
func TestOneModuleEach(t *testing.T) {
	_, scripts := modules(t)
	for _, apart := range []string{workerFile, "unpack.js", "judging.js", "start.js", "embed.js"} {
		delete(scripts, apart)
	}
	for what, pattern := range map[string]string{
		"the program":        `\bWebAssembly\b`,
		"the storage":        `\b(localStorage|sessionStorage|indexedDB)\b`,
		"the service worker": `\bserviceWorker\b`,
		"the language":       `\btoLocale\w*String\b|\bIntl\.`,
		"frames":             `(parent|top|source|contentWindow|window|self)\??\.postMessage|(^|[^.\w]|window\.|self\.)(addEventListener\("message"|onmessage)`,
	} {
		files, _ := uses(scripts, pattern)
		assert.LessOrEqual(t, len(files), 1, "%s: %v", what, files)
	}
	files, places := uses(scripts, `fetch\(|XMLHttpRequest|WebSocket|EventSource|sendBeacon|RTCPeerConnection`)
	assert.Subset(t, []string{"rigging.js"}, files, places)
}

// Only the bridge knows that there is a page.
func TestOnlyTheBridgeTouchesThePage(t *testing.T) {
	root, _ := modules(t)
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || filepath.Ext(path) != ".go" {
			return err
		}
		rel, err := filepath.Rel(root, path)
		if err != nil {
			return err
		}
		body, err := os.ReadFile(path)
		if strings.Contains(string(body), "\t\"syscall/js\"") {
			assert.Equal(t, "wasm/main.go", filepath.ToSlash(rel))
		}
		return err
	})
	require.NoError(t, err)
}

// The program imports the standard library, this module and one numeric
// package, and nothing that reaches a network; a test may import the assertion
// package. Package encoding/json, which would make the program a tenth larger
// and half as fast, stays out of it: rigging/jsontext is there instead.
func TestDependencies(t *testing.T) {
	root, _ := modules(t)
	cmd := exec.Command("go", "mod", "edit", "-json")
	cmd.Dir = root
	out, err := cmd.Output()
	require.NoError(t, err)
	var mod struct {
		Require []struct {
			Path     string
			Indirect bool
		}
	}
	require.NoError(t, json.Unmarshal(out, &mod))
	for _, r := range mod.Require {
		if !r.Indirect {
			assert.Contains(t, []string{"gonum.org/v1/gonum", "github.com/stretchr/testify"}, r.Path)
		}
	}

	cmd = exec.Command("go", "list", "-deps", "-f", "{{.Standard}} {{.ImportPath}}", "./wasm")
	cmd.Dir = root
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	out, err = cmd.Output()
	require.NoError(t, err)
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		standard, name, _ := strings.Cut(line, " ")
		if standard == "true" {
			assert.NotRegexp(t, `^(net|os/exec|encoding/json|regexp|text/template)(/|$)`, name)
		} else {
			assert.Regexp(t, `^(pullline/|gonum\.org/v1/gonum/(mat|blas|lapack|internal|floats)\b)`, name)
		}
	}
}

// rooms are the packages of the program, lowest first. Each may import those
// of the lines above its own, and none of its own line: so no view of the class
// knows another, nor the job's.
var rooms = [][]string{
	{"rigging", "rigging/jsontext", "rigging/sampling", "rigging/experience"},
	{"rigging/plan/text", "rigging/jsontext/jsontest", "wasm/keyed"},
	{"rigging/plan/field"},
	{"rigging/plan"},
	{"rigging/judgement/sure", "rigging/judgement/places"},
	{"rigging/judgement/changes"},
	{"wasm/units", "wasm/qr"},
	{"wasm/words"},
	{"wasm/draft", "wasm/draw", "wasm/parts"},
	{"wasm/request", "wasm/offer", "wasm/scene", "wasm/draft/drafttest"},
	{"wasm/class/marking", "wasm/fields"},
	{"wasm/class/bench", "wasm/class/fall", "wasm/class/practice", "wasm/class/model",
		"wasm/page/form", "wasm/page/judgement", "wasm/page/survey", "wasm/page/drag", "wasm/page/show", "wasm/page/brief", "wasm/page/handover"},
	{"wasm/page/job", "wasm/page/gear", "wasm/page/pulls", "wasm/page/compare"},
	{"wasm/page"},
	{"wasm"},
}

// Imports go one way, and every package has its place.
func TestImportsGoOneWay(t *testing.T) {
	root, _ := modules(t)
	level := map[string]int{}
	for i, line := range rooms {
		for _, room := range line {
			level["pullline/"+room] = i
		}
	}
	cmd := exec.Command("go", "list", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "./rigging/...", "./wasm/...")
	cmd.Dir = root
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	out, err := cmd.Output()
	require.NoError(t, err)
	seen := 0
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		imports := strings.Fields(line)
		if strings.HasPrefix(imports[0], "pullline/wasm/site") || strings.HasPrefix(imports[0], "pullline/wasm/browser") {
			continue // tools, no part of the program
		}
		own, known := level[imports[0]]
		assert.True(t, known, "%s has no place among the rooms", imports[0])
		seen++
		for _, name := range imports[1:] {
			if strings.HasPrefix(name, "pullline/") {
				of, known := level[name]
				assert.True(t, known && of < own, "%s imports %s", imports[0], name)
			}
		}
	}
	assert.Equal(t, len(level), seen, "a room that is gone still has a place")
}

// The top level of what is kept holds what it is meant to and nothing else.
func TestTopLevel(t *testing.T) {
	root, err := Root()
	require.NoError(t, err)
	cmd := exec.Command("git", "ls-files")
	cmd.Dir = root
	out, err := cmd.Output()
	if err != nil {
		t.Skip("not a git checkout: ", err)
	}
	for _, name := range strings.Fields(string(out)) {
		if top, _, _ := strings.Cut(name, "/"); !strings.HasPrefix(top, ".") {
			assert.Contains(t, []string{"README.md", "DEVELOPERS.md", "go.mod", "go.sum", "wasm", "rigging", "static", "testdata", "Makefile"}, top)
		}
	}
}
